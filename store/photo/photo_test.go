package photo_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"image"
	"image/color"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/store/photo"
)

func TestOriginalIsKeptByteForByte(t *testing.T) {
	folder := t.TempDir()
	f := photo.New(folder)
	file := jpegOf(t, quarters(640, 480))
	p := keep(t, f, file)
	sum := sha256.Sum256(file)
	require.Equal(t, hex.EncodeToString(sum[:]), p.SHA256)
	stored, err := os.ReadFile(filepath.Join(folder, "photos", p.SHA256[:2], p.SHA256))
	require.NoError(t, err)
	require.Equal(t, file, stored)
	require.Equal(t, file, bytesOf(t, f, p.SHA256, photo.Original))
	require.Equal(t, p, keep(t, f, file), "again")
	for _, name := range []string{"../" + p.SHA256, strings.ToUpper(p.SHA256), "", p.SHA256[:63], strings.Repeat("0", 64)} {
		_, err := f.Open(t.Context(), name, photo.Small)
		require.ErrorIs(t, err, fs.ErrNotExist, name)
	}
	_, err = f.Open(t.Context(), p.SHA256, "9")
	require.ErrorIs(t, err, fs.ErrNotExist)
}

// Where the quarters come to lie is read off the table of Exif 2.32, 4.6.4 A: of orientation 6 the first
// row is the right side and the first column the top, so red is above right and green below it.
func TestEveryOrientation(t *testing.T) {
	f := photo.New(t.TempDir())
	file := jpegOf(t, quarters(640, 480))
	for i, want := range []string{"RGBW", "GRWB", "WBGR", "BWRG", "RBGW", "BRWG", "WGBR", "GWRB"} {
		p := keep(t, f, oriented(file, byte(i+1)))
		size, small := image.Pt(640, 480), image.Pt(400, 300)
		if i >= 4 {
			size, small = image.Pt(480, 640), image.Pt(400, 533) // 400 × 640 ÷ 480 = 533.3
		}
		require.Equal(t, size, image.Pt(p.Width, p.Height), "orientation %d", i+1)
		require.Equal(t, want, corners(picture(t, f, p.SHA256, photo.Large)), "orientation %d", i+1)
		require.Equal(t, want, corners(picture(t, f, p.SHA256, photo.Small)), "orientation %d", i+1)
		require.Equal(t, size, picture(t, f, p.SHA256, photo.Large).Bounds().Max, "never larger than the original")
		require.Equal(t, small, picture(t, f, p.SHA256, photo.Small).Bounds().Max)
	}
	p := keep(t, f, oriented(file, 9))
	require.Equal(t, "RGBW", corners(picture(t, f, p.SHA256, photo.Small)), "there is no orientation 9")
}

// The HEIC says in its Exif that it is turned, as phones have it; what counts is its own property irot, in
// steps of 90° anticlockwise (ISO/IEC 23008-12 6.5.10). A reader that heeds both turns it twice.
func TestHEICIsTurnedOnce(t *testing.T) {
	f := photo.New(t.TempDir())
	p := keep(t, f, heicFile(t))
	require.Equal(t, "image/heic", p.Type)
	require.Equal(t, []int{640, 480}, []int{p.Width, p.Height})
	require.Equal(t, "RGBW", corners(picture(t, f, p.SHA256, photo.Large)))
	require.Equal(t, "2026-02-28T14:30:05", p.Taken)
	require.Equal(t, "51.477900,-0.001500", p.Place)

	// A property that nothing needs becomes irot, by 90°: green comes to the left above, white to its right.
	p = keep(t, f, replaced(t, heicFile(t), "pixi\x00\x00\x00\x00", "irot\x01\x00\x00\x00"))
	require.Equal(t, []int{480, 640}, []int{p.Width, p.Height})
	require.Equal(t, "GWRB", corners(picture(t, f, p.SHA256, photo.Large)))
}

func TestHEICOfAnotherEncoder(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "q.png"), pngOf(t, quarters(320, 400)), 0o600))
	run(t, "heif-enc", "-q", "90", filepath.Join(folder, "q.png"), "-o", filepath.Join(folder, "q.heic"))
	file, err := os.ReadFile(filepath.Join(folder, "q.heic"))
	require.NoError(t, err)
	f := photo.New(folder)
	require.Equal(t, "RGBW", corners(picture(t, f, keep(t, f, file).SHA256, photo.Small)))
}

func TestWebP(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "q.png"), pngOf(t, quarters(640, 480)), 0o600))
	f := photo.New(folder)
	for _, how := range [][]string{{"-q", "80"}, {"-lossless"}} {
		out := filepath.Join(folder, "q.webp")
		run(t, "cwebp", append(how, "-quiet", filepath.Join(folder, "q.png"), "-o", out)...)
		file, err := os.ReadFile(out)
		require.NoError(t, err)
		p := keep(t, f, file)
		require.Equal(t, "image/webp", p.Type)
		require.Equal(t, "RGBW", corners(picture(t, f, p.SHA256, photo.Small)))
		p = keep(t, f, tagged(t, file, ".webp", "-Orientation#=6"))
		require.Equal(t, "BRWG", corners(picture(t, f, p.SHA256, photo.Small)))

		_, err = f.Add(t.Context(), bytes.NewReader(file[:len(file)*3/4]))
		var no *photo.RefusedError
		require.ErrorAs(t, err, &no)
	}
}

// Pictures of any depth and with holes; a hole shows white.
func TestPNGOfAnySort(t *testing.T) {
	f := photo.New(t.TempDir())
	deep := image.NewNRGBA64(image.Rect(0, 0, 64, 48))
	holes := image.NewNRGBA(image.Rect(0, 0, 64, 48))
	few := image.NewPaletted(image.Rect(0, 0, 64, 48), color.Palette{red, green, blue, white})
	for y := range 48 {
		for x := range 64 {
			c := quarters(64, 48).RGBAAt(x, y)
			deep.Set(x, y, c)
			few.Set(x, y, c)
			if c != white {
				holes.Set(x, y, c)
			}
		}
	}
	for _, img := range []image.Image{quarters(64, 48), deep, few, holes} {
		p := keep(t, f, pngOf(t, img))
		require.Equal(t, "image/png", p.Type)
		require.Equal(t, "RGBW", corners(picture(t, f, p.SHA256, photo.Large)), "%T", img)
	}
	grey := image.NewGray(image.Rect(0, 0, 64, 48))
	for i := range grey.Pix {
		grey.Pix[i] = 77
	}
	p := keep(t, f, jpegOf(t, grey))
	require.LessOrEqual(t, distance(color.Gray{77}, picture(t, f, p.SHA256, photo.Small).At(30, 30)), 1)
}

// Stripes of 0 and 255 that are two of a rendition's pixels wide stay; finer ones become the mean, 127.5.
// An even surface stays as it is to the edge.
func TestShrinkingKeepsTheMean(t *testing.T) {
	f := photo.New(t.TempDir())
	for width, want := range map[int][2]uint8{1: {127, 127}, 32: {0, 255}} {
		img := image.NewGray(image.Rect(0, 0, 3200, 64)) // 3200 ÷ 400 = 8 for each
		for i := range img.Pix {
			img.Pix[i] = uint8(i / width % 2 * 255)
		}
		small := picture(t, f, keep(t, f, pngOf(t, img)).SHA256, photo.Small)
		require.Equal(t, image.Pt(400, 8), small.Bounds().Max)
		require.LessOrEqual(t, distance(color.Gray{want[0]}, small.At(2, 4)), 8, "%d", width) // JPEG's rounding
		require.LessOrEqual(t, distance(color.Gray{want[1]}, small.At(6, 4)), 8, "%d", width)
	}
	even := image.NewGray(image.Rect(0, 0, 1237, 911))
	for i := range even.Pix {
		even.Pix[i] = 200
	}
	small := picture(t, f, keep(t, f, pngOf(t, even)).SHA256, photo.Small)
	b := small.Bounds()
	require.Equal(t, image.Pt(400, 295), b.Max) // 911 × 400 ÷ 1237 = 294.6
	for y := range b.Max.Y {
		for x := range b.Max.X {
			require.LessOrEqual(t, distance(color.Gray{200}, small.At(x, y)), 1)
		}
	}
}

// A strip is bounded by twice the width: 30,000 high becomes 4,096, and 2 wide becomes 0.27, which is 1.
func TestStripIsBounded(t *testing.T) {
	f := photo.New(t.TempDir())
	p := keep(t, f, pngOf(t, image.NewGray(image.Rect(0, 0, 2, 30000))))
	require.Equal(t, image.Pt(1, 4096), picture(t, f, p.SHA256, photo.Large).Bounds().Max)
	p = keep(t, f, pngOf(t, image.NewGray(image.Rect(0, 0, 70000, 3))))
	require.Equal(t, image.Pt(2048, 1), picture(t, f, p.SHA256, photo.Large).Bounds().Max)
	p = keep(t, f, pngOf(t, image.NewGray(image.Rect(0, 0, 1, 1))))
	require.Equal(t, image.Pt(1, 1), picture(t, f, p.SHA256, photo.Small).Bounds().Max)
}

var place = []string{"-GPSLatitude=51.4779", "-GPSLatitudeRef=N", "-GPSLongitude=0.0015", "-GPSLongitudeRef=W",
	"-DateTimeOriginal=2026:02:28 14:30:05", "-Make=Camera", "-Comment=a secret"}

func TestRenditionSaysNothingOfThePlace(t *testing.T) {
	f := photo.New(t.TempDir())
	p := keep(t, f, tagged(t, jpegOf(t, quarters(640, 480)), ".jpg", append(place, "-Orientation#=6")...))
	require.Equal(t, "51.477900,-0.001500", p.Place)
	require.Equal(t, "2026-02-28T14:30:05", p.Taken)
	require.Contains(t, run(t, "exiftool", "-GPSPosition", open(t, f, p.SHA256, photo.Original)), "51 deg")
	for _, size := range []photo.Size{photo.Large, photo.Small} {
		said := run(t, "exiftool", "-a", "-G1", "-s", open(t, f, p.SHA256, size))
		for _, group := range []string{"GPS", "IFD0", "ExifIFD", "XMP", "IPTC", "ICC", "Comment", "JFIF", "MPF", "MakerNotes"} {
			require.NotContains(t, said, "["+group, size)
		}
		require.NotContains(t, said, "secret")
		onlyPicture(t, bytesOf(t, f, p.SHA256, size))
	}
	require.Equal(t, "BRWG", corners(picture(t, f, p.SHA256, photo.Small)))
	p = keep(t, f, tagged(t, pngOf(t, quarters(64, 48)), ".png", "-Orientation#=3", place[0], place[1], place[2], place[3]))
	require.Equal(t, "51.477900,-0.001500", p.Place)
	require.Equal(t, "WBGR", corners(picture(t, f, p.SHA256, photo.Large)))
}

// open gives the path of a photo.
func open(t *testing.T, f *photo.Folder, sha256 string, size photo.Size) string {
	t.Helper()
	file, err := f.Open(t.Context(), sha256, size)
	require.NoError(t, err)
	require.NoError(t, file.Close())
	return file.Name()
}

// onlyPicture holds that a JPEG has tables, a frame and a scan, and no segment for applications (APPn) or
// comments (COM), nor anything behind its end. Source: ITU-T T.81 annex B.
func onlyPicture(t *testing.T, file []byte) {
	t.Helper()
	at := 2
	for file[at+1] != 0xda { // SOS
		require.EqualValues(t, 0xff, file[at])
		require.Contains(t, []byte{0xdb, 0xc0, 0xc4, 0xdd}, file[at+1], "DQT, SOF0, DHT or DRI")
		at += 2 + int(binary.BigEndian.Uint16(file[at+2:]))
	}
	require.Equal(t, len(file)-2, bytes.LastIndex(file, []byte{0xff, 0xd9}))
}

// What follows a photo's end, as with the films that phones hang on, or an archive, is kept with the
// original and is in no rendition.
func TestTwoFilesInOne(t *testing.T) {
	f := photo.New(t.TempDir())
	payload := "PK\x03\x04<script>alert(1)</script>"
	for _, file := range [][]byte{jpegOf(t, quarters(640, 480)), pngOf(t, quarters(640, 480))} {
		file = append(file, payload...)
		p := keep(t, f, file)
		require.Equal(t, file, bytesOf(t, f, p.SHA256, photo.Original))
		require.NotContains(t, string(bytesOf(t, f, p.SHA256, photo.Large)), "script")
		onlyPicture(t, bytesOf(t, f, p.SHA256, photo.Small))
	}
}

func TestRefusals(t *testing.T) {
	picture := quarters(640, 480)
	aJPEG, aPNG := jpegOf(t, picture), pngOf(t, scene(300, 200))
	frame := "\xff\xc0\x00\x11\x08\x01\xe0\x02\x80" // SOF0, 8 bits, 480 by 640
	for name, tc := range map[string]struct {
		file []byte
		say  string
	}{
		"empty":         {nil, "this file is empty"},
		"text":          {[]byte("Dear diary, today the dial slipped again."), "this is an unknown sort of file"},
		"gif":           {gifOf(t, picture), "this is a GIF, not a photo"},
		"gif as script": {[]byte("GIF89a=1;alert(1)//"), "this is a GIF, not a photo"},
		"pdf":           {[]byte("%PDF-1.7\n"), "this is a PDF document"},
		"zip":           {[]byte("PK\x03\x04....."), "this is a ZIP archive"},
		"svg":           {[]byte("<svg xmlns='http://www.w3.org/2000/svg'/>"), "this is an SVG drawing"},
		"page":          {[]byte("<!doctype html><script>alert(1)</script>"), "this is a web page"},
		"film":          {[]byte("\x00\x00\x00\x18ftypmp42\x00\x00\x00\x00mp42isom"), "this is a film"},
		"avif":          {[]byte("\x00\x00\x00\x1cftypavif\x00\x00\x00\x00avifmif1miaf"), "this is an AVIF picture"},
		"raw":           {[]byte("II*\x00\x08\x00\x00\x00"), "this is a TIFF or raw picture"},
		"moving png":    {afterHeader(aPNG, chunk("acTL", make([]byte, 8))), "this is a moving picture (animated PNG)"},
		"moving webp": {[]byte("RIFF\x1a\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00\x02\x00\x00\x00\x7f\x02\x00\xdf\x01\x00"),
			"this is a moving picture (animated WebP)"},
		"moving heic":      {[]byte("\x00\x00\x00\x18ftyphevc\x00\x00\x00\x00hevcmsf1"), "this is a moving picture (HEIC sequence)"},
		"half a jpeg":      {aJPEG[:len(aJPEG)/2], "this JPEG cannot be read to its end"},
		"jpeg without end": {aJPEG[:len(aJPEG)-40], "this JPEG cannot be read to its end"},
		"three bytes":      {aJPEG[:3], "this JPEG cannot be read to its end"},
		"half a png":       {aPNG[:len(aPNG)/2], "this PNG cannot be read to its end"},
		"png's mark":       {aPNG[:8], "this PNG cannot be read to its end"},
		"half a heic":      {heicFile(t)[:1500], "this HEIC cannot be read to its end"},
		"heic's mark":      {heicFile(t)[:40], "this HEIC cannot be read to its end"},
		"webp's mark":      {[]byte("RIFF\x1a\x00\x00\x00WEBPVP8 "), "this WebP cannot be read to its end"},
		"changed png":      {replaced(t, aPNG, "IEND", "IENX"), "this PNG cannot be read to its end"},
		"no pixels":        {replaced(t, aJPEG, frame, "\xff\xc0\x00\x11\x08\x00\x00\x00\x00"), "this JPEG cannot be read to its end"},
		"vast jpeg": {replaced(t, aJPEG, frame, "\xff\xc0\x00\x11\x08\xff\xff\xff\xff"),
			"this picture says that it is 65535 × 65535 pixels; up to 100 megapixels work"},
		"vast png": {vastPNG(t, 100_000, 100_000), "this picture says that it is 100000 × 100000 pixels; up to 100 megapixels work"},
		"wide png": {vastPNG(t, 1<<31-1, 1), "this picture says that it is 2147483647 × 1 pixels"},
		"vast heic": {replaced(t, heicFile(t), "\x00\x00\x02\x80\x00\x00\x01\xe0", "\x00\x01\x86\xa0\x00\x01\x86\xa0"),
			"this picture says that it is 100000 × 100000 pixels"},
		"50 MB and one": {append(aJPEG, make([]byte, photo.MostBytes+1-len(aJPEG))...), "this file is larger than 50 MB"},
	} {
		t.Run(name, func(t *testing.T) {
			folder := t.TempDir()
			f := photo.New(folder)
			_, err := f.Add(t.Context(), bytes.NewReader(tc.file))
			var no *photo.RefusedError
			require.ErrorAs(t, err, &no)
			require.True(t, strings.HasPrefix(no.Say, tc.say), no.Say)
			nothing(t, f)
		})
	}
}

// nothing holds that no file is left.
func nothing(t *testing.T, f *photo.Folder) {
	t.Helper()
	lies, err := f.List(time.Now().Add(time.Hour))
	require.NoError(t, err)
	require.Equal(t, photo.Listing{}, lies)
}

// A photo that cannot be finished, as on a full disk, may leave renditions: they are told while no original is
// there, and go with it. A photo of which one file is new is left alone.
func TestRenditionsAloneAreListed(t *testing.T) {
	f := photo.New(t.TempDir())
	left, whole := keep(t, f, jpegOf(t, quarters(64, 48))), keep(t, f, jpegOf(t, quarters(48, 64)))
	require.NoError(t, os.Remove(open(t, f, left.SHA256, photo.Original)))
	soon, now := time.Now().Add(time.Hour), time.Now()
	lies, err := f.List(soon)
	require.NoError(t, err)
	sums := []string{left.SHA256, whole.SHA256}
	slices.Sort(sums)
	require.Equal(t, photo.Listing{Photos: sums}, lies)

	require.NoError(t, os.Chtimes(open(t, f, whole.SHA256, photo.Small), soon, soon))
	lies, err = f.List(now.Add(time.Minute))
	require.NoError(t, err)
	require.Equal(t, photo.Listing{Photos: []string{left.SHA256}}, lies)

	require.NoError(t, f.Remove(left.SHA256))
	require.NoError(t, f.Remove(whole.SHA256))
	nothing(t, f)
}

// vastPNG is a small file that claims a size. Source: PNG (third edition) 11.2.1.
func vastPNG(t *testing.T, width, height uint32) []byte {
	file := pngOf(t, quarters(4, 4))
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, width), height)
	return append(append(append([]byte{}, file[:8]...), chunk("IHDR", append(head, file[24:29]...))...), file[33:]...)
}

func TestLargestFileIsTaken(t *testing.T) {
	file := jpegOf(t, quarters(640, 480))
	f := photo.New(t.TempDir())
	require.Equal(t, 640, keep(t, f, append(file, make([]byte, photo.MostBytes-len(file))...)).Width)
}

func TestConnectionThatEnds(t *testing.T) {
	f := photo.New(t.TempDir())
	file := jpegOf(t, quarters(640, 480))
	_, err := f.Add(t.Context(), broken{bytes.NewReader(file[:len(file)-1])})
	require.ErrorIs(t, err, errBroken)
	nothing(t, f)
}

func TestRenditionIsMadeAnew(t *testing.T) {
	f := photo.New(t.TempDir())
	p := keep(t, f, oriented(jpegOf(t, quarters(640, 480)), 8))
	for _, size := range []photo.Size{photo.Large, photo.Small} {
		was := bytesOf(t, f, p.SHA256, size)
		require.NoError(t, os.Remove(open(t, f, p.SHA256, size)))
		require.Equal(t, was, bytesOf(t, f, p.SHA256, size))
	}
	require.NoError(t, os.Remove(open(t, f, p.SHA256, photo.Original)))
	_, err := f.Open(t.Context(), p.SHA256, photo.Original)
	require.ErrorIs(t, err, fs.ErrNotExist)
}

// Whatever is sent: a photo that is kept, or a sentence.
func FuzzAdd(f *testing.F) {
	small := quarters(16, 12)
	f.Add(jpegOf(f, small))
	f.Add(oriented(jpegOf(f, small), 6))
	f.Add(pngOf(f, small))
	f.Add(gifOf(f, small))
	f.Add([]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic\x00\x00\x00\x10meta\x00\x00\x00\x00ispe"))
	f.Add([]byte("RIFF\x1a\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00\x00\x00\x00\x00\x7f\x02\x00\xdf\x01\x00"))
	folder := photo.New(f.TempDir())
	f.Fuzz(func(t *testing.T, file []byte) {
		p, err := folder.Add(t.Context(), bytes.NewReader(file))
		if err != nil {
			var no *photo.RefusedError
			require.ErrorAs(t, err, &no, fmt.Sprint(err))
			return
		}
		require.Equal(t, file, bytesOf(t, folder, p.SHA256, photo.Original))
		picture(t, folder, p.SHA256, photo.Small)
	})
}
