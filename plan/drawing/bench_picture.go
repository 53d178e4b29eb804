package drawing

import (
	"fettle/plan/bench"
	"fettle/plan/sheet"
)

// Bench is the picture of one of the bench figures, and a line to stand under
// it; nil where figures say it all, or are of a kind that cannot be drawn.
//
// What is drawn is what the calculation gives: a fit's zones where there are
// two pairs of deviations, a profile where there is a thread, and so on.
func Bench(c *bench.Calculation) (d *Drawing, caption string) {
	b := benchFigures{c}
	for _, draw := range []func(benchFigures) (*Drawing, string){fitOf, threadOf, dovetailOf, dialOf} {
		if d, caption = draw(b); d != nil {
			return d, caption
		}
	}
	return nil, ""
}

// Pictures of the bench figures are drawn this wide, in CSS pixels, and shown larger where there is room.
const (
	benchWide = 360.0
	benchType = 12.5
	benchRow  = 15.0 // from one line of text to the next
)

// benchFigures gives the figures of a calculation in inside units.
type benchFigures struct{ *bench.Calculation }

// has tells whether every figure is there and known.
func (b benchFigures) has(keys ...string) bool {
	for _, key := range keys {
		if f, ok := b.Result.Figure(key, sheet.Planned); !ok || !f.Known() || !shown(f.Value) {
			return false
		}
	}
	return true
}

// value is 0 where the figure is not there.
func (b benchFigures) value(key string) float64 {
	if !b.has(key) {
		return 0
	}
	return b.Result.Value(key, sheet.Planned)
}

// first is the value of the first of the figures that is there.
func (b benchFigures) first(keys ...string) (float64, bool) {
	for _, key := range keys {
		if b.has(key) {
			return b.value(key), true
		}
	}
	return 0, false
}

// benchDrawing is a picture of the bench figures with nothing in it yet.
func benchDrawing(title string) *Drawing {
	return &Drawing{ID: "picture", Class: "drawing drawing-upright drawing-bench", Title: title, PxPerUnit: 1, Width: benchWide}
}

func benchText(x, y float64, anchor Anchor, text string) Text {
	return Text{Class: "part-label", X: x, Y: y, Size: benchType, Anchor: anchor, Text: text}
}
