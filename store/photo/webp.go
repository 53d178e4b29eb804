package photo

import (
	"image"
	"io"
	"math"

	"golang.org/x/image/webp"
)

// decodeWebP gives a picture in the full range of values. The decoder hands on what a lossy WebP holds, 16
// to 235 and 16 to 240, in a type of picture that means 0 to 255.
//
// Source: ITU-R BT.601-7 2.5.3, which RFC 6386 9.2 refers to.
func decodeWebP(from io.Reader) (image.Image, error) {
	img, err := webp.Decode(from)
	switch is := img.(type) {
	case *image.YCbCr:
		widen(is)
	case *image.NYCbCrA:
		widen(&is.YCbCr)
	}
	return img, err
}

func widen(img *image.YCbCr) {
	luma, chroma := widened(16, 219), widened(128, 224)
	for i, v := range img.Y {
		img.Y[i] = luma[v]
	}
	for i, v := range img.Cb {
		img.Cb[i] = chroma[v]
	}
	for i, v := range img.Cr {
		img.Cr[i] = chroma[v]
	}
}

// widened takes a range of so many steps, in which the middle or the foot stands at fixed, to 255 steps.
func widened(fixed, steps float64) (table [256]byte) {
	to := fixed
	if fixed < 128 {
		to = 0
	}
	for v := range table {
		table[v] = byte(min(max(math.Round((float64(v)-fixed)*255/steps+to), 0), 255))
	}
	return table
}
