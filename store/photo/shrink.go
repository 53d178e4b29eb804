package photo

import (
	"image"
	"image/color"
	"image/draw"
)

// shrink gives a picture in a size that is not larger. Each pixel is the mean of the area that it covers.
// What is see-through becomes white.
func shrink(img image.Image, width, height int) *image.YCbCr {
	if img, ok := img.(*image.YCbCr); ok && img.Rect.Min == (image.Point{}) {
		out := image.NewYCbCr(image.Rect(0, 0, width, height), image.YCbCrSubsampleRatio420)
		from, to := planes(img), planes(out)
		for i := range from {
			r := newReducer(from[i].width, from[i].height, to[i])
			for y := range from[i].height {
				r.push(from[i].pix[y*from[i].stride:][:from[i].width])
			}
		}
		return out
	}
	return shrinkAny(img, width, height)
}

// shrinkAny takes any picture, a row at a time, so that there is never a second one of its size.
func shrinkAny(img image.Image, width, height int) *image.YCbCr {
	b := img.Bounds()
	out := image.NewYCbCr(image.Rect(0, 0, width, height), image.YCbCrSubsampleRatio444)
	to := planes(out)
	var reducers [3]*reducer
	var channels [3][]byte
	for i := range reducers {
		reducers[i], channels[i] = newReducer(b.Dx(), b.Dy(), to[i]), make([]byte, b.Dx())
	}
	row := image.NewRGBA(image.Rect(0, 0, b.Dx(), 1))
	for y := range b.Dy() {
		draw.Draw(row, row.Rect, image.White, image.Point{}, draw.Src)
		draw.Draw(row, row.Rect, img, image.Pt(b.Min.X, b.Min.Y+y), draw.Over)
		for x := range channels[0] {
			p := row.Pix[4*x:][:3]
			channels[0][x], channels[1][x], channels[2][x] = p[0], p[1], p[2]
		}
		for i, r := range reducers {
			r.push(channels[i])
		}
	}
	for i, r := range out.Y {
		out.Y[i], out.Cb[i], out.Cr[i] = color.RGBToYCbCr(r, out.Cb[i], out.Cr[i])
	}
	return out
}

// reducer shrinks a plane as its rows come.
type reducer struct {
	to           plane
	across, down weights
	row          int      // how many have come
	done         int      // how many are written
	narrowed     []uint32 // the row that came, in the width wanted; a value of 255 is 255 << 8
	sums         []uint32 // of the row being made; a value of 255 is 255 << 24
}

func newReducer(width, height int, to plane) *reducer {
	return &reducer{to: to, across: weigh(width, to.width), down: weigh(height, to.height),
		narrowed: make([]uint32, to.width), sums: make([]uint32, to.width)}
}

// push takes the next row.
func (r *reducer) push(row []byte) {
	r.across.narrow(r.narrowed, row)
	for ; r.done < r.to.height && int(r.down.first[r.done]) <= r.row; r.done++ {
		tap := r.row - int(r.down.first[r.done])
		if tap < r.down.taps {
			add(r.sums, r.narrowed, r.down.share[r.done*r.down.taps+tap])
		}
		if r.row < r.down.last(r.done) {
			break // more rows belong to it
		}
		out := r.to.pix[r.done*r.to.stride:][:r.to.width]
		for x, sum := range r.sums[:len(out)] {
			out[x] = byte((sum + 1<<23) >> 24)
		}
		clear(r.sums)
	}
	r.row++
}

func add(sums, values []uint32, share uint32) {
	values = values[:len(sums)]
	for x, v := range values {
		sums[x] += v * share
	}
}

// weights tell which values, and how much of each, make each of fewer.
type weights struct {
	taps  int
	first []int32  // the first value that belongs to it
	share []uint32 // taps for each; together always 1 << 16, so that an even surface stays what it is
	end   []int32  // the last value that belongs to it
}

func (w weights) last(i int) int { return int(w.end[i]) }

func weigh(from, to int) weights {
	w := weights{taps: (from+to-1)/to + 1, first: make([]int32, to), end: make([]int32, to)}
	if from == to {
		w.taps = 1
	}
	w.taps = min(w.taps, from)
	w.share = make([]uint32, to*w.taps)
	for i := range to {
		begin, end := i*from, (i+1)*from // in 1/to of a value
		first, last := begin/to, (end-1)/to
		first = min(first, from-w.taps) // so that all taps are there; the ones before have no share
		w.first[i], w.end[i] = int32(first), int32(last)
		given := 0
		for tap := range last - first + 1 {
			covered := min(max((first+tap+1)*to, begin), end) - begin
			upTo := (covered<<16 + from/2) / from
			w.share[i*w.taps+tap] = uint32(upTo - given)
			given = upTo
		}
	}
	return w
}

// narrow makes the row narrower. Three taps are those of a photo of twelve megapixels.
func (w weights) narrow(to []uint32, row []byte) {
	if w.taps == 3 {
		share := w.share
		for x, first := range w.first[:len(to)] {
			v, s := row[first:][:3], share[:3]
			share = share[3:]
			to[x] = (uint32(v[0])*s[0] + uint32(v[1])*s[1] + uint32(v[2])*s[2] + 1<<7) >> 8
		}
		return
	}
	for x, first := range w.first[:len(to)] {
		sum := uint32(1 << 7)
		share := w.share[x*w.taps:][:w.taps]
		for tap, v := range row[first:][:w.taps] {
			sum += uint32(v) * share[tap]
		}
		to[x] = sum >> 8
	}
}
