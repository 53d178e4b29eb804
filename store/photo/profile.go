package photo

import (
	"compress/zlib"
	"encoding/binary"
	"io"
)

// coloursOfPNG reads what a PNG says of its colours: code points, or else a profile.
//
// Source: PNG (third edition, W3C 2025) 4.3 (which of them counts), 11.3.2.3 iCCP, 11.3.2.6 cICP.
func coloursOfPNG(file io.ReaderAt) *colours {
	if codes := chunkOfPNG(file, "cICP"); codes != nil {
		code := make([]byte, 2)
		if _, err := io.ReadFull(codes, code); err != nil {
			return nil
		}
		return fromCodes(int(code[0]), int(code[1]))
	}
	chunk := chunkOfPNG(file, "iCCP")
	if chunk == nil {
		return nil
	}
	one := make([]byte, 1)
	for n := 0; n == 0 || one[0] != 0; n++ { // its name
		if _, err := io.ReadFull(chunk, one); err != nil || n > 79 {
			return nil
		}
	}
	if _, err := io.ReadFull(chunk, one); err != nil || one[0] != 0 { // how it is compressed
		return nil
	}
	content, err := zlib.NewReader(chunk)
	if err != nil {
		return nil
	}
	profile, err := io.ReadAll(io.LimitReader(content, mostProfile+1))
	if err != nil || len(profile) > mostProfile {
		return nil
	}
	return fromICC(profile)
}

// chunkOfPNG gives the first chunk of the name before the picture; nil: there is none.
//
// Source: PNG (third edition, W3C 2025) 5.3.
func chunkOfPNG(from io.ReaderAt, name string) io.Reader {
	head := make([]byte, 8)
	for at := int64(8); ; {
		if _, err := from.ReadAt(head, at); err != nil || string(head[4:]) == "IDAT" {
			return nil
		}
		size := int64(binary.BigEndian.Uint32(head))
		if string(head[4:]) == name {
			return io.NewSectionReader(from, at+8, size)
		}
		at += size + 12
	}
}

// profileOfWebP gives the profile of a WebP, which stands before its picture; nil: it has none.
//
// Source: RFC 9649 2.3 (chunks), 2.7.1.4 (ICCP).
func profileOfWebP(from io.ReaderAt) []byte {
	head := make([]byte, 8)
	for at := int64(12); ; {
		if _, err := from.ReadAt(head, at); err != nil {
			return nil
		}
		size := int64(binary.LittleEndian.Uint32(head[4:]))
		switch string(head[:4]) {
		case "VP8X":
			at += 8 + size + size&1
		case "ICCP":
			if size > mostProfile {
				return nil
			}
			profile := make([]byte, size)
			if _, err := from.ReadAt(profile, at+8); err != nil && err != io.EOF {
				return nil
			}
			return profile
		default:
			return nil
		}
	}
}

// fromCodes knows the colours that phones and cameras name by code points: the lights of Display P3 and of
// BT.2020 under a curve like that of sRGB. Any other is nil.
//
// Source: ITU-T H.273 tables 2 and 3; the matrices are those of W3C CSS Color Module Level 4, 17, from P3
// and BT.2020 over XYZ to sRGB.
func fromCodes(primaries, transfer int) *colours {
	lights := map[int]matrix{
		9: {
			{1.660491, -0.587641, -0.072850},
			{-0.124550, 1.132900, -0.008349},
			{-0.018151, -0.100579, 1.118730},
		},
		12: {
			{1.224940, -0.224940, 0},
			{-0.042057, 1.042057, 0},
			{-0.019638, -0.078636, 1.098274},
		},
	}
	m, known := lights[primaries]
	if likeSRGB := transfer == 13 || transfer == 1; !known || !likeSRGB {
		return nil
	}
	return newColours([3]func(float64) float64{lightOf, lightOf, lightOf}, m)
}
