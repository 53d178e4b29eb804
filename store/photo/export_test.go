package photo

import (
	"bytes"
	"image"
)

// ReadColours reads all that files and profiles say of colours out of the same bytes, and converts a picture by it.
func ReadColours(from []byte) {
	file := bytes.NewReader(from)
	img := image.NewYCbCr(image.Rect(0, 0, 3, 3), image.YCbCrSubsampleRatio420)
	for _, c := range []*colours{
		fromICC(from), fromICC(readJPEG(file).profile), coloursOfPNG(file), fromICC(profileOfWebP(file)), coloursOfHEIC(file),
	} {
		c.convert(img)
	}
}

// ReadHEICColours tells whether a HEIC names colours that have to be taken to sRGB.
func ReadHEICColours(file []byte) bool { return coloursOfHEIC(bytes.NewReader(file)) != nil }
