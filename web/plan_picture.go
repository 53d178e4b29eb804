package web

import (
	"context"
	"io"
	"math"

	"github.com/a-h/templ"

	"fettle/plan/drawing"
	"fettle/web/ui"
)

// planPicture is the side view, now and planned, and the control that moves the slide.
type planPicture struct {
	Frame  ui.Picture
	Slider *ui.Slider // nil where nothing moves
	svg    []byte     // nil where the figures cannot be drawn
}

// picture draws the axis where the slide stands at the end that is asked to go further.
func (w *planWriter) picture() planPicture {
	return w.pictureAt(drawing.Options{ID: "side", Units: w.Units})
}

// pictureAt draws the axis as the options say.
func (w *planWriter) pictureAt(opt drawing.Options) planPicture {
	label := "Side view of the " + lowered(w.site.Layout.Label)
	d := drawing.SideView(w.site.Layout, w.Result, opt)
	svg, err := d.AppendSVG(make([]byte, 0, 20<<10))
	if err != nil {
		return planPicture{Frame: ui.Picture{Label: label, Caption: "It cannot be drawn from these figures."}}
	}
	p := planPicture{svg: svg, Frame: ui.Picture{Label: label + ", now and planned", Far: d.Slide.At >= d.Slide.To}}
	if d.Slide.Group == "" || !(d.Slide.To > d.Slide.From) {
		return p
	}
	step := w.Units.Step() * 50 // half a millimetre, or 0.05 in
	if whole := (d.Slide.To - d.Slide.From) / step; math.Abs(whole-math.Round(whole)) > 1e-6 {
		step = w.Units.Step() * 10
	}
	of := "of " + w.length(d.Slide.To)
	if d.Slide.From != 0 {
		of = "of " + w.Units.Text(d.Slide.From, w.Units.Decimals) + " to " + w.length(d.Slide.To)
	}
	text := func(mm float64) string { return plain(w.Units.In(mm)) }
	p.Slider = &ui.Slider{
		ID: "slide-at", Label: w.site.Layout.Moves() + " at", Least: text(d.Slide.From), Most: text(d.Slide.To), Step: text(step), Value: text(d.Slide.At),
		Of: of, Unit: w.Units.Symbol,
		Moves: d.Slide.Group, Marks: d.Slide.Gaps, Base: text(d.Slide.At), Scale: plain(w.Units.Scale),
	}
	return p
}

// drawn writes a picture into the page.
func drawn(svg []byte) templ.Component {
	return templ.ComponentFunc(func(_ context.Context, w io.Writer) error {
		_, err := w.Write(svg)
		return err
	})
}
