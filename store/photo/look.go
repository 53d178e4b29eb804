package photo

import (
	"fmt"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"strings"
	"time"

	"github.com/bep/imagemeta"
	"golang.org/x/image/webp"

	"fettle/plan/buildlog"
)

// found is what a photo says of itself before it is decoded.
type found struct {
	kind          kind
	width, height int // as they are coded
	orientation   int // of Exif, 1 to 8: how to turn what is decoded
	progressive   bool
	colours       *colours // how to take what is decoded to sRGB
	taken, place  string
}

// look reads what a photo says of itself, and refuses what is not to be decoded.
func look(file *os.File) (p found, err error) {
	head := make([]byte, 64)
	n, err := file.ReadAt(head, 0)
	if err != nil && err != io.EOF {
		return p, err
	}
	if p.kind, err = sniff(head[:n]); err != nil {
		return p, err
	}
	if p.width, p.height, err = size(p.kind, file); err != nil {
		return p, damaged(p.kind.name)
	}
	switch moves, err := isMoving(p.kind, file); {
	case err != nil:
		return p, err
	case moves:
		return p, moving("animated " + p.kind.name)
	case p.width <= 0 || p.height <= 0:
		return p, damaged(p.kind.name)
	case p.width > MostPixels/p.height:
		return p, tooManyPixels(p.width, p.height)
	}
	p.orientation = 1
	p.readColours(file)
	p.read(file)
	return p, nil
}

// size reads the width and the height that the photo claims.
func size(k kind, file *os.File) (width, height int, err error) {
	if _, err := file.Seek(0, io.SeekStart); err != nil {
		return 0, 0, err
	}
	switch k {
	case kindJPEG:
		c, err := jpeg.DecodeConfig(file)
		return c.Width, c.Height, err
	case kindPNG:
		c, err := png.DecodeConfig(file)
		return c.Width, c.Height, err
	case kindWebP:
		c, err := webp.DecodeConfig(file)
		return c.Width, c.Height, err
	}
	return heicSize(file)
}

// readColours finds what the photo says of its colours, and how a JPEG is coded. Whatever is wrong with that is
// no reason to refuse a photo.
func (p *found) readColours(file io.ReaderAt) {
	switch p.kind {
	case kindJPEG:
		head := readJPEG(file)
		p.progressive, p.colours = head.progressive, fromICC(head.profile)
	case kindPNG:
		p.colours = coloursOfPNG(file)
	case kindWebP:
		p.colours = fromICC(profileOfWebP(file))
	case kindHEIC:
		p.colours = coloursOfHEIC(file)
	}
}

var formats = map[kind]imagemeta.ImageFormat{
	kindJPEG: imagemeta.JPEG, kindPNG: imagemeta.PNG, kindWebP: imagemeta.WebP, kindHEIC: imagemeta.HEIF,
}

// read fills in what the photo's Exif says. Whatever is wrong with that is no reason to refuse a photo.
func (p *found) read(file *os.File) {
	if _, err := file.Seek(0, io.SeekStart); err != nil {
		return // the decoder will say so
	}
	var tags imagemeta.Tags
	wanted := map[string]bool{"Orientation": true, "DateTimeOriginal": true, "GPSLatitude": true, "GPSLatitudeRef": true,
		"GPSLongitude": true, "GPSLongitudeRef": true}
	_, err := imagemeta.Decode(imagemeta.Options{R: file, ImageFormat: formats[p.kind], Sources: imagemeta.EXIF,
		ShouldHandleTag: func(t imagemeta.TagInfo) bool { return wanted[t.Tag] && strings.HasPrefix(t.Namespace, "IFD0") },
		HandleTag:       func(t imagemeta.TagInfo) error { tags.Add(t); return nil }})
	if err != nil && len(tags.EXIF()) == 0 {
		return
	}
	// A HEIC is turned by its decoder, as its own boxes say; its Exif says the same once more.
	if o, ok := tags.EXIF()["Orientation"].Value.(uint16); ok && o >= 1 && o <= 8 && p.kind != kindHEIC {
		p.orientation = int(o)
	}
	if text, ok := tags.EXIF()["DateTimeOriginal"].Value.(string); ok {
		if t, err := time.Parse("2006:01:02 15:04:05", strings.TrimRight(text, "\x00 ")); err == nil && t.Year() > 1900 {
			p.taken = t.Format(buildlog.TakenLayout)
		}
	}
	if lat, long, err := tags.GetLatLong(); err == nil && (lat != 0 || long != 0) {
		p.place = fmt.Sprintf("%.6f,%.6f", lat, long)
	}
}
