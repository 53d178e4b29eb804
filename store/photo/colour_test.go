package photo_test

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"image"
	"image/color"
	"image/draw"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/store/photo"
)

// colorants are X, Y and Z of red, green and blue under D50.
type colorants [9]float64

var (
	// Display P3 and sRGB as in the profiles that are published for them, read with exiftool.
	wide  = colorants{0.51512, 0.24120, -0.00105, 0.29198, 0.69225, 0.04189, 0.15710, 0.06657, 0.78407}
	plain = colorants{0.43607, 0.22249, 0.01392, 0.38515, 0.71687, 0.09708, 0.14307, 0.06061, 0.71410}
	// Adobe RGB (1998) Color Image Encoding, annex C, from D65 to D50.
	adobe = colorants{0.60974, 0.31111, 0.01947, 0.20528, 0.62567, 0.06087, 0.14919, 0.06322, 0.74457}
	// sRGB under D65, IEC 61966-2-1: what a profile may not say.
	daylight = colorants{0.4124, 0.2126, 0.0193, 0.3576, 0.7152, 0.1192, 0.1805, 0.0722, 0.9505}
)

func fixed(values ...float64) (out []byte) {
	for _, v := range values {
		out = binary.BigEndian.AppendUint32(out, uint32(int32(math.Round(v*65536))))
	}
	return out
}

func para(function byte, values ...float64) []byte {
	return append([]byte{'p', 'a', 'r', 'a', 0, 0, 0, 0, 0, function, 0, 0}, fixed(values...)...)
}

func curv(values ...uint16) []byte {
	out := binary.BigEndian.AppendUint32([]byte("curv\x00\x00\x00\x00"), uint32(len(values)))
	for _, v := range values {
		out = binary.BigEndian.AppendUint16(out, v)
	}
	return out
}

// The curve of sRGB, as a function and as samples. Source: IEC 61966-2-1.
var (
	curve = []float64{2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045}

	samples = func() (out []uint16) {
		for i := range 1024 {
			light := float64(i) / 1023 / 12.92
			if i >= 42 {
				light = math.Pow((float64(i)/1023+0.055)/1.055, 2.4)
			}
			out = append(out, uint16(math.Round(light*65535)))
		}
		return out
	}()
)

// profile writes one of a matrix and curves. Source of the layout: ICC.1:2022 7.
func profile(of colorants, trc []byte) []byte {
	const tags, begin = 6, 128 + 4 + 12*6
	table, content := binary.BigEndian.AppendUint32(nil, tags), []byte{}
	add := func(name string, tag []byte) {
		table = binary.BigEndian.AppendUint32(append(table, name...), uint32(begin+len(content)))
		table = binary.BigEndian.AppendUint32(table, uint32(len(tag)))
		content = append(content, tag...)
	}
	for i, channel := range []string{"r", "g", "b"} {
		add(channel+"XYZ", append([]byte("XYZ \x00\x00\x00\x00"), fixed(of[3*i:3*i+3]...)...))
		add(channel+"TRC", trc)
	}
	header := make([]byte, 128)
	copy(header[8:], "\x04\x00\x00\x00mntrRGB XYZ ")
	copy(header[36:], "acsp")
	return append(append(header, table...), content...)
}

// even is a picture of one colour.
func even(r, g, b uint8) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, 48, 32))
	draw.Draw(img, img.Rect, image.NewUniform(color.RGBA{r, g, b, 255}), image.Point{}, draw.Src)
	return img
}

// pngWith is a PNG with a profile. Source of the layout: PNG (third edition, W3C 2025) 11.3.2.3.
func pngWith(t testing.TB, img image.Image, profile []byte) []byte {
	t.Helper()
	content := bytes.NewBufferString("of a test\x00\x00")
	to := zlib.NewWriter(content)
	_, err := to.Write(profile)
	require.NoError(t, err)
	require.NoError(t, to.Close())
	return afterHeader(pngOf(t, img), chunk("iCCP", content.Bytes()))
}

// jpegWith is a JPEG with a profile in parts, the last first. Source of the layout: ICC.1:2022 B.4.
func jpegWith(t testing.TB, img image.Image, parts ...[]byte) []byte {
	t.Helper()
	file := jpegOf(t, img)
	for i, part := range parts {
		content := append([]byte{'I', 'C', 'C', '_', 'P', 'R', 'O', 'F', 'I', 'L', 'E', 0, byte(i + 1), byte(len(parts))}, part...)
		segment := binary.BigEndian.AppendUint16([]byte{0xff, 0xe2}, uint16(len(content)+2))
		file = append(append(append([]byte{0xff, 0xd8}, segment...), content...), file[2:]...)
	}
	return file
}

func TestColoursAreShownInSRGB(t *testing.T) {
	f := photo.New(t.TempDir())
	sRGBsCurve := para(3, curve...)
	for _, tc := range []struct {
		profile  []byte
		is, want color.RGBA
		source   string
	}{
		{profile(wide, sRGBsCurve), color.RGBA{55, 126, 34, 255}, color.RGBA{0, 128, 0, 255},
			"W3C CSS Color Module Level 4: color(display-p3 0.21604 0.49418 0.13151) is green; from memory"},
		{profile(wide, curv(samples...)), color.RGBA{55, 126, 34, 255}, color.RGBA{0, 128, 0, 255}, "the same by samples"},
		{profile(wide, sRGBsCurve), color.RGBA{185, 71, 91, 255}, color.RGBA{200, 60, 90, 255}, "vips 8.14 with lcms 2.14 and the profile p3"},
		{profile(wide, sRGBsCurve), color.RGBA{119, 119, 119, 255}, color.RGBA{119, 119, 119, 255}, "greys are common to both: white and curve are"},
		{profile(wide, sRGBsCurve), color.RGBA{255, 0, 0, 255}, color.RGBA{255, 0, 0, 255}, "more red than sRGB has becomes all that it has"},
		// Light of sRGB's red in Adobe RGB is 0.7152 of red alone; 0.7152^(1/2.2) × 255 = 219. Green: 0.2848^(1/2.2) × 255 = 144.
		{profile(adobe, curv(0x0233)), color.RGBA{219, 0, 0, 255}, color.RGBA{255, 0, 0, 255}, "Adobe RGB (1998) 4.3.4.2 (gamma 2 51/256), by hand"},
		{profile(adobe, para(0, 2+51.0/256)), color.RGBA{144, 255, 60, 255}, color.RGBA{0, 255, 0, 255}, "the same"},
		// Light 1/2 is the value 188 of sRGB: 1.055 × 0.5^(1/2.4) - 0.055 = 0.7354; light 100/255 is 169.
		{profile(plain, curv()), color.RGBA{128, 128, 128, 255}, color.RGBA{188, 188, 188, 255}, "ICC.1:2022 10.6: no samples are no curve; by hand"},
		{profile(plain, para(1, 1, 1, 0)), color.RGBA{100, 100, 100, 255}, color.RGBA{169, 169, 169, 255}, "ICC.1:2022 table 68, g = a = 1"},
		{profile(plain, para(2, 1, 1, 0, 0)), color.RGBA{100, 100, 100, 255}, color.RGBA{169, 169, 169, 255}, "the same, c = 0"},
		{profile(plain, para(4, 1, 1, 0, 1, 0.5, 0, 0)), color.RGBA{100, 100, 100, 255}, color.RGBA{169, 169, 169, 255}, "the same below d"},
	} {
		for name, file := range map[string][]byte{
			"png":  pngWith(t, even(tc.is.R, tc.is.G, tc.is.B), tc.profile),
			"jpeg": jpegWith(t, even(tc.is.R, tc.is.G, tc.is.B), tc.profile[:100], tc.profile[100:200], tc.profile[200:]),
		} {
			p := keep(t, f, file)
			for _, size := range []photo.Size{photo.Large, photo.Small} {
				// Colours of JPEG are whole numbers in another space than that of red, green and blue.
				require.LessOrEqual(t, distance(tc.want, picture(t, f, p.SHA256, size).At(20, 20)), 3, "%s: %s", name, tc.source)
			}
			require.Equal(t, file, bytesOf(t, f, p.SHA256, photo.Original))
		}
	}
}

// A profile counts for pictures of any depth, greys too, and leaves inks alone.
func TestColoursOfAnyDepth(t *testing.T) {
	f := photo.New(t.TempDir())
	deep, grey, deepGrey := image.NewNRGBA64(image.Rect(0, 0, 48, 32)), image.NewGray(image.Rect(0, 0, 48, 32)), image.NewGray16(image.Rect(0, 0, 48, 32))
	draw.Draw(deep, deep.Rect, even(55, 126, 34), image.Point{}, draw.Src)
	draw.Draw(grey, grey.Rect, even(128, 128, 128), image.Point{}, draw.Src)
	draw.Draw(deepGrey, deepGrey.Rect, grey, image.Point{}, draw.Src)
	// Both results are those of [TestColoursAreShownInSRGB]: green of P3, and half the light.
	p3, linear := profile(wide, para(3, curve...)), profile(plain, curv())
	green, light := color.RGBA{0, 128, 0, 255}, color.RGBA{188, 188, 188, 255}
	for name, tc := range map[string]struct {
		file []byte
		want color.RGBA
	}{
		"16 bits":          {pngWith(t, deep, p3), green},
		"greys of 16 bits": {pngWith(t, deepGrey, linear), light},
		"greys":            {pngWith(t, grey, linear), light},
		"greys of a JPEG":  {jpegWith(t, grey, linear), light},
	} {
		p := keep(t, f, tc.file)
		require.LessOrEqual(t, distance(tc.want, picture(t, f, p.SHA256, photo.Small).At(20, 20)), 3, name)
	}

	folder := t.TempDir()
	from, to := filepath.Join(folder, "white.png"), filepath.Join(folder, "inks.jpg")
	require.NoError(t, os.WriteFile(from, pngOf(t, even(255, 255, 255)), 0o600))
	run(t, "vips", "icc_transform", from, to, "cmyk", "--input-profile", "srgb")
	inks, err := os.ReadFile(to)
	require.NoError(t, err)
	require.Contains(t, string(inks), "CMYKLab ")
	p := keep(t, f, inks)
	require.LessOrEqual(t, distance(color.White, picture(t, f, p.SHA256, photo.Small).At(20, 20)), 3, "no ink is white")
}

// What is no profile of curves and a matrix that make sense changes nothing, and is no reason to refuse a photo.
func TestColoursAreLeftAsTheyAre(t *testing.T) {
	f := photo.New(t.TempDir())
	whole := profile(wide, para(3, curve...))
	is := color.RGBA{55, 126, 34, 255}
	with := func(old, new string) []byte { return bytes.Replace(whole, []byte(old), []byte(new), 1) }
	for name, profile := range map[string][]byte{
		"sRGB":                       profile(plain, para(3, curve...)),
		"inks":                       with("RGB XYZ ", "CMYKLab "),
		"tables":                     with("rXYZ", "A2B0"),
		"a curve missing":            with("gTRC", "gone"),
		"a curve of another sort":    with("para", "what"),
		"an unknown function":        profile(wide, para(9, curve...)),
		"a function cut short":       profile(wide, para(4, curve...)),
		"a thousand million samples": profile(wide, []byte("curv\x00\x00\x00\x00\x3b\x9a\xca\x00")),
		"a slope without end":        profile(wide, para(1, 2.4, 0, 1)),
		"all black":                  profile(wide, curv(0, 0)),
		"not white":                  profile(wide, curv(0, 40000)),
		"colorants under daylight":   profile(daylight, para(3, curve...)),
		"colorants without end":      profile(colorants{32000, -32000, 32000, -32000, 32000}, para(3, curve...)),
		"not a profile":              bytes.Repeat([]byte("acsp"), 100),
		"only a header":              whole[:128],
		"cut short":                  whole[:250],
		"nothing":                    {},
		"larger than a profile is":   append(bytes.Clone(whole), make([]byte, 1<<20)...),
	} {
		p := keep(t, f, pngWith(t, even(is.R, is.G, is.B), profile))
		require.LessOrEqual(t, distance(is, picture(t, f, p.SHA256, photo.Small).At(20, 20)), 3, name)
	}
	file := jpegWith(t, even(is.R, is.G, is.B), whole[:200], whole[200:])
	for name, file := range map[string][]byte{
		"a part missing": bytes.Replace(file, []byte("FILE\x00\x02"), []byte("FILE\x00\x01"), 1),
		"more parts":     bytes.Replace(file, []byte("FILE\x00\x01\x02"), []byte("FILE\x00\x01\xff"), 1),
	} {
		p := keep(t, f, file)
		require.LessOrEqual(t, distance(is, picture(t, f, p.SHA256, photo.Small).At(20, 20)), 3, name)
	}
}

// Code points of a PNG count before its profile. Source: PNG (third edition, W3C 2025) 4.3; ITU-T H.273.
func TestColoursByCodePoints(t *testing.T) {
	f := photo.New(t.TempDir())
	is, green := color.RGBA{55, 126, 34, 255}, color.RGBA{0, 128, 0, 255}
	for codes, want := range map[string]color.RGBA{
		"\x0c\x0d\x00\x01": green, // P3, the curve of sRGB
		"\x01\x0d\x00\x01": is,    // those of sRGB
		"\x0c\x10\x00\x01": is,    // a curve that is not for such pictures
		"\x0c":             is,
	} {
		file := pngWith(t, even(is.R, is.G, is.B), profile(adobe, curv(0x0233)))
		p := keep(t, f, afterHeader(file, chunk("cICP", []byte(codes))))
		require.LessOrEqual(t, distance(want, picture(t, f, p.SHA256, photo.Small).At(20, 20)), 3, "%x", codes)
	}
}

// patches is a picture of colours from all corners of their space.
func patches() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, 64*6, 64*6))
	for i := range 36 {
		c := color.RGBA{uint8(40 + i%6*35), uint8(40 + i/6*35), uint8(40 + (i%6+i/6)%6*35), 255}
		draw.Draw(img, image.Rect(i%6*64, i/6*64, i%6*64+64, i/6*64+64), image.NewUniform(c), image.Point{}, draw.Src)
	}
	return img
}

// As lcms does it, by way of vips, with the profile for P3 that vips brings along, in files that are written by
// others; the rendition is compared in the middle of each patch.
func TestColoursAsOthersShowThem(t *testing.T) {
	folder := t.TempDir()
	in := func(name string) string { return filepath.Join(folder, name) }
	require.NoError(t, os.WriteFile(in("patches.png"), pngOf(t, patches()), 0o600))
	run(t, "vips", "icc_transform", in("patches.png"), in("p3.png"), "p3", "--input-profile", "srgb", "--intent", "relative")
	run(t, "vips", "icc_transform", in("p3.png"), in("p3.jpg[Q=95,subsample-mode=off]"), "p3", "--embedded")
	run(t, "vips", "copy", in("p3.png"), in("p3.webp[lossless]"))
	run(t, "heif-enc", "-q", "98", in("p3.png"), "-o", in("p3.heic"))
	f := photo.New(folder)
	show := func(file []byte, name string) {
		t.Helper()
		got := picture(t, f, keep(t, f, file).SHA256, photo.Large)
		off := 0
		for i := range 36 {
			x, y := i%6*64+32, i/6*64+32
			off = max(off, distance(patches().At(x, y), got.At(x, y)))
		}
		require.LessOrEqual(t, off, 5, name)
	}
	for _, name := range []string{"p3.png", "p3.jpg", "p3.webp", "p3.heic"} {
		file, err := os.ReadFile(in(name))
		require.NoError(t, err)
		show(file, name)
		if name == "p3.heic" { // and by code points in the place of the profile
			show(replaced(t, file, "colrprof\x00\x00\x02\xe0lcms", "colrnclx\x00\x0c\x00\x0d\x00\x06\x80\x00"), "code points")
		}
	}
}

// A picture of tiles may say its colours at these alone. Source of the layout: ISO/IEC 14496-12 8.11; it is
// checked by what is found, as no encoder at hand writes such a file.
func TestColoursOfTiles(t *testing.T) {
	box := func(kind string, content ...string) string {
		all := kind + strings.Join(content, "")
		return string(binary.BigEndian.AppendUint32(nil, uint32(len(all)+4))) + all
	}
	const version0, version1 = "\x00\x00\x00\x00", "\x01\x00\x00\x00"
	p3 := box("colr", "nclx\x00\x0c\x00\x0d\x00\x06\x80")
	links := box("ipma", version0, "\x00\x00\x00\x02", "\x00\x01\x01\x01", "\x00\x03\x00") // 1 has the first property, 3 has none
	for name, tc := range map[string]struct {
		iref string
		want bool
	}{
		"tiles":             {box("iref", version0, box("thmb", "\x00\x02\x00\x01\x00\x03"), box("dimg", "\x00\x03\x00\x02\x00\x01\x00\x02")), true},
		"long numbers":      {box("iref", version1, box("dimg", "\x00\x00\x00\x03\x00\x01\x00\x00\x00\x01")), true},
		"tiles of another":  {box("iref", version0, box("dimg", "\x00\x04\x00\x01\x00\x01")), false},
		"a thumbnail alone": {box("iref", version0, box("thmb", "\x00\x01\x00\x01\x00\x03")), false},
		"none":              {box("iref", version0, box("dimg", "\x00\x03\x00\x00")), false},
		"cut short":         {box("iref", "\x00"), false},
		"no references":     {"", false},
	} {
		file := box("ftyp", "heic\x00\x00\x00\x00mif1heic") + box("meta", version0, box("pitm", version0, "\x00\x03"), tc.iref, box("iprp", box("ipco", p3), links))
		require.Equal(t, tc.want, photo.ReadHEICColours([]byte(file)), name)
	}
}

// Whatever a file or a profile says, nothing breaks.
func FuzzColours(f *testing.F) {
	whole := profile(wide, para(3, curve...))
	f.Add(whole)
	f.Add(profile(adobe, curv(0x0233)))
	f.Add(profile(plain, curv(0, 1000, 65535)))
	f.Add(jpegWith(f, even(1, 2, 3), whole[:99], whole[99:]))
	f.Add(pngWith(f, even(1, 2, 3), whole))
	f.Add(afterHeader(pngOf(f, even(1, 2, 3)), chunk("cICP", []byte("\x0c\x0d\x00\x01"))))
	f.Add(append([]byte("RIFF\x00\x00\x00\x00WEBPVP8X\x00\x00\x00\x00ICCP\xff\x01\x00\x00"), whole...))
	f.Add(heicFile(f))
	f.Fuzz(func(_ *testing.T, from []byte) { photo.ReadColours(from) })
}
