package photo

import (
	"bufio"
	"context"
	"errors"
	"image"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"runtime"
)

// quality of a rendition, as of JPEG encoders; common practice, no source.
const quality = 80

// mostMemory is what all pictures that are being decoded may take together, in bytes. One that wants more
// is decoded alone.
const mostMemory = 96 << 20

// cost is how many bytes decoding takes, about: what the decoders allocate for a pixel, from their sources.
func (p found) cost() int64 {
	perPixel := map[kind]int64{
		kindJPEG: 3,  // three planes
		kindPNG:  8,  // four channels of 16 bits
		kindWebP: 8,  // four channels, and as much again while a lossless one is put together
		kindHEIC: 12, // three planes, twice in the decoder's memory and once in ours; rounded up
	}[p.kind]
	if p.progressive {
		perPixel += 12 // a coefficient of 32 bits for each of three planes
	}
	return min(int64(p.width)*int64(p.height)*perPixel, mostMemory)
}

// muchMemory is from where on it is worth a collection at once: else the next picture is decoded beside
// what is left of this one, and the next.
const muchMemory = 16 << 20

// render makes the renditions of a photo, puts them in their places, and gives the photo's size the right
// way up.
func (f *Folder) render(ctx context.Context, original *os.File, p found, sha256 string) (image.Point, error) {
	cost := p.cost()
	if err := f.memory.Acquire(ctx, cost); err != nil {
		return image.Point{}, err
	}
	defer f.memory.Release(cost)
	if cost > muchMemory {
		defer runtime.GC()
	}
	return f.makeRenditions(original, p, sha256)
}

func (f *Folder) makeRenditions(original *os.File, p found, sha256 string) (size image.Point, err error) {
	img, err := f.decode(original, p)
	if err != nil {
		return size, err
	}
	if size = img.Bounds().Size(); p.orientation >= 5 {
		size.X, size.Y = size.Y, size.X
	}
	var upright *image.YCbCr
	for _, b := range bounds {
		if upright == nil {
			width, height := fit(img.Bounds().Size(), b.width, p.orientation)
			upright = turn(shrink(img, width, height), p.orientation)
			p.colours.convert(upright)
			img = nil // for the collector
		} else {
			width, height := fit(upright.Rect.Size(), b.width, 1)
			upright = shrink(upright, width, height)
		}
		if err := f.keepRendition(upright, sha256, b.size); err != nil {
			return size, err
		}
	}
	return size, nil
}

func (f *Folder) decode(original *os.File, p found) (img image.Image, err error) {
	from := bufio.NewReaderSize(io.NewSectionReader(original, 0, MostBytes), 1<<16)
	switch p.kind {
	case kindJPEG:
		img, err = jpeg.Decode(from)
	case kindPNG:
		img, err = png.Decode(from)
	case kindWebP:
		img, err = decodeWebP(from)
	case kindHEIC:
		img, err = f.decodeHEIC(original)
	}
	if err != nil {
		return nil, damaged(p.kind.name)
	}
	return img, nil
}

func (f *Folder) keepRendition(img *image.YCbCr, sha256 string, size Size) error {
	path, err := f.path(sha256, size)
	if err != nil {
		return err
	}
	file, err := begin(filepath.Dir(path))
	if err != nil {
		return err
	}
	defer discard(file)
	out := bufio.NewWriterSize(file, 1<<16)
	err = errors.Join(jpeg.Encode(out, img, &jpeg.Options{Quality: quality}), out.Flush(), file.Sync())
	if err != nil {
		return err
	}
	return finish(file, path)
}

// fit gives the size of a picture, as it is coded, that is at most so wide and twice as high once it has
// been turned, in the same proportions and not larger.
func fit(is image.Point, most, orientation int) (width, height int) {
	wide, high := is.X, is.Y
	if orientation >= 5 {
		wide, high = high, wide
	}
	num, den := 1, 1
	if wide > most {
		num, den = most, wide
	}
	if high*num > 2*most*den {
		num, den = 2*most, high
	}
	wide, high = max((wide*num+den/2)/den, 1), max((high*num+den/2)/den, 1)
	if orientation >= 5 {
		wide, high = high, wide
	}
	return wide, high
}
