package photo

import (
	"encoding/binary"
	"errors"
	"image"
	"io"
	"iter"
	"os"
	"runtime/debug"

	"github.com/gen2brain/heic"
)

// heicSize reads the largest width and height that a HEIC claims for any of its pictures: it may be made
// of tiles, and turned.
//
// Source: ISO/IEC 23008-12 6.5.3, the property ispe; ISO/IEC 14496-12 8.11, the box meta.
func heicSize(file *os.File) (width, height int, err error) {
	meta, err := box(io.NewSectionReader(file, 0, 1<<62), "meta")
	if err != nil {
		return 0, 0, err
	}
	for at := 4; at+20 <= len(meta); at++ {
		if string(meta[at:at+4]) != "ispe" {
			continue
		}
		w, h := binary.BigEndian.Uint32(meta[at+8:]), binary.BigEndian.Uint32(meta[at+12:])
		if uint64(w)*uint64(h) > uint64(width)*uint64(height) {
			width, height = int(w), int(h)
		}
	}
	if width == 0 {
		return 0, 0, errors.New("no size")
	}
	return width, height, nil
}

// mostMeta is enough for the boxes of a few thousand tiles.
const mostMeta = 4 << 20

// box reads the content of the first box of the type at the outermost level.
func box(from io.ReadSeeker, wanted string) ([]byte, error) {
	head := make([]byte, 16)
	for {
		if _, err := io.ReadFull(from, head[:8]); err != nil {
			return nil, err
		}
		size := int64(binary.BigEndian.Uint32(head)) - 8
		if size == 1-8 { // a size of 64 bits follows
			if _, err := io.ReadFull(from, head[8:]); err != nil {
				return nil, err
			}
			size = int64(binary.BigEndian.Uint64(head[8:])) - 16
		}
		if size < 0 {
			return nil, errors.New("box without an end")
		}
		if string(head[4:8]) != wanted {
			if _, err := from.Seek(size, io.SeekCurrent); err != nil {
				return nil, err
			}
			continue
		}
		if size > mostMeta {
			return nil, errors.New("box too large")
		}
		content := make([]byte, size)
		_, err := io.ReadFull(from, content)
		return content, err
	}
}

// boxes gives those that stand one after another: the type and the content of each.
func boxes(in []byte) iter.Seq2[string, []byte] {
	return func(yield func(string, []byte) bool) {
		for len(in) >= 8 {
			size := int64(binary.BigEndian.Uint32(in))
			if size < 8 || size > int64(len(in)) || !yield(string(in[4:8]), in[8:size]) {
				return
			}
			in = in[size:]
		}
	}
}

// heicMemory is how far the collector lets the program grow, in bytes, while a HEIC is decoded: its decoder
// grows by copying all that it has, and what it leaves would otherwise stay until twice that is there.
const heicMemory = 120 << 20

// decodeHEIC gives the picture as it is to be seen: its decoder turns it as its boxes say.
func (f *Folder) decodeHEIC(file *os.File) (image.Image, error) {
	f.heic.Lock()
	defer f.heic.Unlock()
	was := debug.SetMemoryLimit(-1)
	debug.SetMemoryLimit(min(was, heicMemory))
	defer debug.SetMemoryLimit(was)
	return heic.Decode(io.NewSectionReader(file, 0, MostBytes))
}
