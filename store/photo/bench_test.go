package photo_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/store/photo"
)

// BenchmarkIngest keeps a photo of 12 megapixels that has to be turned: received, hashed, decoded, two
// renditions, turned, all synced. Beside it are two programs of others that do the same with the same
// file, each in the way that takes it least; their start is in it, as it is for whoever calls them. A photo in
// Display P3, which becomes one in sRGB, is Fettle's alone.
func BenchmarkIngest(b *testing.B) {
	folder := b.TempDir()
	file := oriented(jpegOf(b, scene(4000, 3000)), 6)
	require.NoError(b, os.WriteFile(filepath.Join(folder, "photo.jpg"), file, 0o600))
	for name, file := range map[string][]byte{"fettle": file, "fettle from p3": oriented(jpegWith(b, scene(4000, 3000), profile(wide, para(3, curve...))), 6)} {
		b.Run(name, func(b *testing.B) {
			f := photo.New(b.TempDir())
			b.SetBytes(int64(len(file)))
			b.ReportAllocs()
			for b.Loop() {
				keep(b, f, file)
			}
		})
	}
	const before, after = `sha256sum photo.jpg && cp photo.jpg kept.jpg && sync kept.jpg && `, ` && sync large.jpg small.jpg`
	for name, line := range map[string]string{
		"vipsthumbnail": `vipsthumbnail photo.jpg -s 2048x -o large.jpg[Q=80,strip] && vipsthumbnail photo.jpg -s 400x -o small.jpg[Q=80,strip]`,
		"imagemagick":   `convert photo.jpg -auto-orient -strip -quality 80 -resize 2048x -write large.jpg -resize 400x small.jpg`,
	} {
		b.Run(name, func(b *testing.B) {
			program(b, map[string]string{"vipsthumbnail": "vipsthumbnail", "imagemagick": "convert"}[name])
			b.SetBytes(int64(len(file)))
			for b.Loop() {
				do := exec.CommandContext(b.Context(), "sh", "-c", before+line+after)
				do.Dir = folder
				out, err := do.CombinedOutput()
				require.NoError(b, err, string(out))
			}
		})
	}
}
