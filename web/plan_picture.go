package web

import (
	"context"
	"io"

	"github.com/a-h/templ"

	"fettle/web/ui"
)

// planPicture is the side view, now and planned, and the control that moves the slide.
type planPicture struct {
	Frame  ui.Picture
	Slider *ui.Slider // nil where nothing moves
	svg    []byte     // nil where the figures cannot be drawn
}

// picture is empty until the axis can be drawn.
func (w *planWriter) picture() planPicture { return planPicture{} }

// drawn writes a picture into the page.
func drawn(svg []byte) templ.Component {
	return templ.ComponentFunc(func(_ context.Context, w io.Writer) error {
		_, err := w.Write(svg)
		return err
	})
}
