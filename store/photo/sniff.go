package photo

import (
	"bytes"
	"encoding/binary"
	"io"
)

// kind is a sort of file, told by its content.
type kind struct {
	media string // "image/jpeg"; "": it is not for keeping
	name  string // for a sentence: "JPEG"
}

var (
	kindJPEG = kind{"image/jpeg", "JPEG"}
	kindPNG  = kind{"image/png", "PNG"}
	kindWebP = kind{"image/webp", "WebP"}
	kindHEIC = kind{"image/heic", "HEIC"}
)

// marks are how files begin.
//
// Source: the specifications of each, as collected in the file type tables of RFC 9512 and the WHATWG MIME
// Sniffing Standard; from memory.
var marks = []struct {
	at   int
	mark string
	kind
}{
	{0, "\xff\xd8\xff", kindJPEG},
	{0, "\x89PNG\r\n\x1a\n", kindPNG},
	{8, "WEBP", kindWebP},
	{0, "GIF8", kind{"", "a GIF"}},
	{0, "BM", kind{"", "a BMP picture"}},
	{0, "II*\x00", kind{"", "a TIFF or raw picture"}},
	{0, "MM\x00*", kind{"", "a TIFF or raw picture"}},
	{0, "%PDF-", kind{"", "a PDF document"}},
	{0, "PK\x03\x04", kind{"", "a ZIP archive or an office document"}},
	{0, "\x1a\x45\xdf\xa3", kind{"", "a film"}},
	{0, "\xff\x0a", kind{"", "a JPEG XL picture"}},
	{0, "\x00\x00\x00\x0cJXL ", kind{"", "a JPEG XL picture"}},
	{0, "<svg", kind{"", "an SVG drawing"}},
	{0, "<?xml", kind{"", "an XML document"}},
	{0, "<!", kind{"", "a web page"}},
	{0, "<html", kind{"", "a web page"}},
}

// sniff tells what a file is by its first bytes.
func sniff(head []byte) (kind, error) {
	if len(head) == 0 {
		return kind{}, refused("this file is empty; send it again (%s)", works)
	}
	for _, m := range marks {
		if len(head) < m.at+len(m.mark) || string(head[m.at:m.at+len(m.mark)]) != m.mark {
			continue
		}
		if m.media == "" {
			return kind{}, noPhoto(m.name)
		}
		return m.kind, nil
	}
	if len(head) >= 12 && string(head[4:8]) == "ftyp" {
		return brand(head)
	}
	return kind{}, noPhoto("an unknown sort of file")
}

// brand tells what a file of boxes is by the brands that it names.
//
// Source: ISO/IEC 14496-12 4.3, ISO/IEC 23008-12 annex B.4.1 (heic, heix: HEVC still pictures; mif1: any).
func brand(head []byte) (kind, error) {
	size := int(min(binary.BigEndian.Uint32(head), uint32(len(head))))
	brands := head[8:max(size, 12)]
	has := func(any ...string) bool {
		for i := 0; i+4 <= len(brands); i += 4 {
			for _, b := range any {
				if i != 4 && string(brands[i:i+4]) == b { // the second word is a version
					return true
				}
			}
		}
		return false
	}
	switch {
	case has("avif", "avis"):
		return kind{}, noPhoto("an AVIF picture")
	case has("heic", "heix", "heim", "heis"):
		return kindHEIC, nil
	case has("hevc", "hevx", "msf1"):
		return kind{}, moving("HEIC sequence")
	case has("mif1"):
		return kindHEIC, nil
	}
	return kind{}, noPhoto("a film")
}

// isMoving tells whether a PNG or a WebP has more than one picture.
//
// Source: PNG (third edition, W3C 2025) 11.3.4.1, acTL before IDAT; WebP container specification, RFC 9649
// 2.7.1, the bit A of VP8X.
func isMoving(k kind, from io.ReaderAt) (bool, error) {
	switch k {
	case kindPNG:
		return chunkOfPNG(from, "acTL") != nil, nil
	case kindWebP:
		head := make([]byte, 21)
		if n, err := from.ReadAt(head, 0); err != nil || n < len(head) {
			return false, damaged(k.name)
		}
		return bytes.Equal(head[12:16], []byte("VP8X")) && head[20]&2 != 0, nil
	}
	return false, nil
}
