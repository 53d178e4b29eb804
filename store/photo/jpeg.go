package photo

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"io"
	"iter"
	"slices"
)

// jpegHead is what stands before the picture of a JPEG.
type jpegHead struct {
	progressive bool   // it comes in several passes, for which its decoder has to hold all coefficients
	profile     []byte // of its colours
}

// readJPEG reads as far as it makes sense: the decoder says what is wrong.
//
// Source: ITU-T T.81 B.1.1.3, the marker SOF2; ICC.1:2022 B.4, a profile in parts that are numbered from 1.
func readJPEG(file io.ReaderAt) (head jpegHead) {
	var parts [256][]byte
	count, room := 0, mostProfile
	for marker, content := range segments(file) {
		switch marker {
		case 0xc2:
			head.progressive = true
		case 0xe2:
			all, err := io.ReadAll(content)
			part, named := bytes.CutPrefix(all, []byte("ICC_PROFILE\x00"))
			if err != nil || !named || len(part) < 2 || len(part) > room {
				continue
			}
			parts[part[0]], count = part[2:], int(part[1])
			room -= len(part)
		}
	}
	if whole := parts[1 : count+1]; !slices.ContainsFunc(whole, func(part []byte) bool { return part == nil }) {
		head.profile = bytes.Join(whole, nil)
	}
	return head
}

// segments gives what stands before the picture of a JPEG: markers, each with its content.
func segments(file io.ReaderAt) iter.Seq2[byte, io.Reader] {
	return func(yield func(byte, io.Reader) bool) {
		from := bufio.NewReader(io.NewSectionReader(file, 2, MostBytes))
		for {
			marker, size := nextSegment(from)
			if marker == 0 || marker == 0xda { // the picture begins
				return
			}
			content := io.LimitReader(from, size)
			if !yield(marker, content) {
				return
			}
			if _, err := io.Copy(io.Discard, content); err != nil {
				return
			}
		}
	}
}

// nextSegment reads a marker and the size of its content; the marker is 0 where there is none.
func nextSegment(from *bufio.Reader) (marker byte, size int64) {
	if b, err := from.ReadByte(); err != nil || b != 0xff {
		return 0, 0
	}
	for marker = 0xff; marker == 0xff; { // one stands there often enough to fill
		var err error
		if marker, err = from.ReadByte(); err != nil {
			return 0, 0
		}
	}
	var b [2]byte
	if _, err := io.ReadFull(from, b[:]); err != nil {
		return 0, 0
	}
	return marker, max(int64(binary.BigEndian.Uint16(b[:]))-2, 0)
}
