package photo_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/buildlog"
	"fettle/store/photo"
)

var (
	red   = color.RGBA{255, 0, 0, 255}
	green = color.RGBA{0, 255, 0, 255}
	blue  = color.RGBA{0, 0, 255, 255}
	white = color.RGBA{255, 255, 255, 255}
)

// quarters is red and green above blue and white.
func quarters(width, height int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	for i, c := range []color.RGBA{red, green, blue, white} {
		x, y := i%2*width/2, i/2*height/2
		draw.Draw(img, image.Rect(x, y, x+width/2, y+height/2), image.NewUniform(c), image.Point{}, draw.Src)
	}
	return img
}

// scene has detail at all scales and noise, as a photo of a workshop has.
func scene(width, height int) *image.YCbCr {
	r := rand.New(rand.NewPCG(1, 2))
	img := image.NewYCbCr(image.Rect(0, 0, width, height), image.YCbCrSubsampleRatio420)
	for i := range img.Y {
		x, y := float64(i%img.YStride), float64(i/img.YStride)
		img.Y[i] = byte(110 + 60*math.Sin(x/37)*math.Cos(y/23) + 40*math.Sin(x*y/50000) + float64(r.IntN(16)))
	}
	for i := range img.Cb {
		x, y := float64(i%img.CStride), float64(i/img.CStride)
		img.Cb[i], img.Cr[i] = byte(128+40*math.Sin(x/90)+float64(r.IntN(6))), byte(128+40*math.Cos(y/70)+float64(r.IntN(6)))
	}
	return img
}

func jpegOf(t testing.TB, img image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, jpeg.Encode(&out, img, &jpeg.Options{Quality: 92}))
	return out.Bytes()
}

func pngOf(t testing.TB, img image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, png.Encode(&out, img))
	return out.Bytes()
}

func gifOf(t testing.TB, img image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, gif.Encode(&out, img, nil))
	return out.Bytes()
}

// oriented puts a segment with an Exif into a JPEG that says nothing but the orientation.
//
// Source of the layout: Exif 2.32 (CIPA DC-008-2019) 4.5.4 and 4.6; TIFF 6.0 section 2.
func oriented(file []byte, orientation byte) []byte {
	exif := "Exif\x00\x00MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00" + string(orientation) + "\x00\x00\x00\x00\x00\x00"
	head := []byte{0xff, 0xd8, 0xff, 0xe1, 0, byte(len(exif) + 2)}
	return append(append(head, exif...), file[2:]...)
}

// chunk is one of a PNG.
func chunk(name string, content []byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(content)))
	out = append(append(out, name...), content...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[4:]))
}

// afterHeader puts a chunk behind the first of a PNG, which is 25 bytes after a mark of 8.
func afterHeader(file, chunk []byte) []byte {
	return append(append(append([]byte{}, file[:33]...), chunk...), file[33:]...)
}

// replaced is a file with one stretch of it replaced by another of its length.
func replaced(t testing.TB, file []byte, old, new string) []byte {
	t.Helper()
	require.Equal(t, len(old), len(new))
	require.Equal(t, 1, bytes.Count(file, []byte(old)))
	return bytes.Replace(file, []byte(old), []byte(new), 1)
}

func heicFile(t testing.TB) []byte {
	t.Helper()
	file, err := os.ReadFile("testdata/quarters.heic")
	require.NoError(t, err)
	return file
}

// program finds one of Debian's: libimage-exiftool-perl, libheif-examples, webp, libvips-tools, imagemagick.
func program(t testing.TB, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil && os.Getenv("FETTLE_REQUIRE_READERS") == "" {
		t.Skipf("no %s here", name)
	}
	require.NoError(t, err)
	return path
}

// run runs a program and gives what it says.
func run(t testing.TB, name string, args ...string) string {
	t.Helper()
	out, err := exec.CommandContext(t.Context(), program(t, name), args...).CombinedOutput()
	require.NoError(t, err, string(out))
	return string(out)
}

// tagged has exiftool write tags into a file.
func tagged(t testing.TB, file []byte, ending string, tags ...string) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "photo"+ending)
	require.NoError(t, os.WriteFile(path, file, 0o600))
	run(t, "exiftool", append(append([]string{"-q", "-overwrite_original"}, tags...), path)...)
	out, err := os.ReadFile(path)
	require.NoError(t, err)
	return out
}

func keep(t testing.TB, f *photo.Folder, file []byte) buildlog.Photo {
	t.Helper()
	p, err := f.Add(t.Context(), bytes.NewReader(file))
	require.NoError(t, err)
	return p
}

// bytesOf reads a photo that is kept.
func bytesOf(t testing.TB, f *photo.Folder, sha256 string, size photo.Size) []byte {
	t.Helper()
	file, err := f.Open(t.Context(), sha256, size)
	require.NoError(t, err)
	defer file.Close()
	all, err := io.ReadAll(file)
	require.NoError(t, err)
	return all
}

func picture(t testing.TB, f *photo.Folder, sha256 string, size photo.Size) image.Image {
	t.Helper()
	img, err := jpeg.Decode(bytes.NewReader(bytesOf(t, f, sha256, size)))
	require.NoError(t, err)
	return img
}

// corners names the colours of a picture's quarters: above left and right, then below.
func corners(img image.Image) (names string) {
	b := img.Bounds()
	for i := range 4 {
		at := img.At(b.Min.X+b.Dx()/4+i%2*b.Dx()/2, b.Min.Y+b.Dy()/4+i/2*b.Dy()/2)
		nearest := "?"
		for name, c := range map[string]color.RGBA{"R": red, "G": green, "B": blue, "W": white} {
			if distance(at, c) < 16 {
				nearest = name
			}
		}
		names += nearest
	}
	return names
}

// distance is the largest of the channels', of 255.
func distance(a, b color.Color) int {
	ar, ag, ab, _ := a.RGBA()
	br, bg, bb, _ := b.RGBA()
	d := 0
	for _, p := range [][2]uint32{{ar, br}, {ag, bg}, {ab, bb}} {
		d = max(d, int(max(p[0], p[1])-min(p[0], p[1]))>>8)
	}
	return d
}

// broken is a connection that ends.
type broken struct{ io.Reader }

var errBroken = errors.New("the connection is gone")

func (b broken) Read(p []byte) (int, error) {
	n, err := b.Reader.Read(p)
	if err == io.EOF {
		err = errBroken
	}
	return n, err
}
