// Package pdf writes sheets of [fettle/plan/drawing] as PDF: one page for each,
// of its own size, at true scale.
//
//	err := pdf.Write(w, "Bench lathe", sheets)
//
// Letters are those of the standard fonts and of code page 1252; what is not in
// it stands as a question mark. The file holds no date, so that the same sheets
// give the same file.
package pdf

import (
	"errors"
	"fmt"
	"io"
	"math"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"fettle/plan/drawing"
)

// ErrNothing is returned where there is no sheet to write.
var ErrNothing = errors.New("there is no sheet to write")

// Write writes drawings as the pages of one file. A drawing that is no sheet of
// paper is a page of its own size at 1 : 1. It returns [ErrNothing],
// [drawing.ErrNumber] for a coordinate that is no number, or the writer's error;
// nothing is written before the file is whole.
func Write(w io.Writer, title string, sheets []*drawing.Drawing) error {
	if len(sheets) == 0 {
		return ErrNothing
	}
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: 210, Ht: 297}})
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.SetCatalogSort(true)
	f.SetCreationDate(time.Unix(0, 0).UTC())
	f.SetModificationDate(time.Unix(0, 0).UTC())
	f.SetTitle(title, true)
	f.SetProducer("Fettle", true)
	p := page{Fpdf: f}
	for _, d := range sheets {
		if !good(d.Width, d.Height) || d.Width <= 0 || d.Height <= 0 || d.Width > longest || d.Height > longest {
			return fmt.Errorf("page of %s: %w", d.Title, drawing.ErrNumber)
		}
		f.AddPageFormat("P", fpdf.SizeType{Wd: d.Width, Ht: d.Height})
		p.x, p.y = d.X, d.Y
		p.shapes(d.Shapes)
	}
	if p.bad {
		return drawing.ErrNumber
	}
	return f.Output(w)
}

// longest side of a page in mm: that of the format, 14400 points.
const longest = 5080.0

// page is where the shapes of a drawing go.
type page struct {
	*fpdf.Fpdf
	x, y float64 // of the drawing's corner
	bad  bool
	ink  drawing.Ink
}

func good(v ...float64) bool {
	for _, x := range v {
		if !(math.Abs(x) < 1e6) {
			return false
		}
	}
	return true
}

func (p *page) shapes(all []drawing.Shape) {
	for _, s := range all {
		switch s := s.(type) {
		case drawing.Lines:
			p.lines(s)
		case drawing.Path:
			p.path(s)
		case drawing.Circle:
			if style := p.with(s.Class); style != "" && p.checked(s.X, s.Y, s.R) {
				p.Circle(s.X-p.x, s.Y-p.y, s.R, style)
			}
		case drawing.Arc:
			if style := p.with(s.Class); style != "" && p.checked(s.X, s.Y, s.R, s.From, s.To) {
				p.Arc(s.X-p.x, s.Y-p.y, s.R, s.R, 0, s.From, s.To, "D")
			}
		case drawing.Text:
			p.text(s)
		case drawing.Group:
			p.shapes(s.Shapes)
		}
	}
}

func (p *page) checked(v ...float64) bool {
	if !good(v...) {
		p.bad = true
	}
	return !p.bad
}

// with takes up the ink of a class; the style is "" where there is nothing to draw.
func (p *page) with(class string) (style string) {
	k := drawing.InkOf(class)
	p.ink = k
	switch k.Fill {
	case drawing.White:
		p.SetFillColor(255, 255, 255)
	case drawing.Tint:
		p.SetFillColor(213, 230, 244)
	case drawing.Black:
		p.SetFillColor(0, 0, 0)
	}
	if k.Fill != drawing.Empty {
		style = "F"
	}
	if k.Width > 0 {
		style += "D"
		p.SetLineWidth(k.Width)
		p.SetDashPattern(k.Dash, 0)
		p.SetLineCapStyle("round")
		if len(k.Dash) > 0 {
			p.SetLineCapStyle("butt")
		}
		p.SetLineJoinStyle("round")
	}
	return style
}

func (p *page) lines(l drawing.Lines) {
	if len(l.Segments) == 0 || p.with(l.Class) == "" {
		return
	}
	for _, s := range l.Segments {
		if !p.checked(s.A.X, s.A.Y, s.B.X, s.B.Y) {
			return
		}
		p.MoveTo(s.A.X-p.x, s.A.Y-p.y)
		p.LineTo(s.B.X-p.x, s.B.Y-p.y)
	}
	p.DrawPath("D")
}

func (p *page) path(s drawing.Path) {
	style := p.with(s.Class)
	if style == "" {
		return
	}
	some := false
	for _, l := range s.Loops {
		for i, q := range l {
			if !p.checked(q.X, q.Y) {
				return
			}
			if i == 0 {
				p.MoveTo(q.X-p.x, q.Y-p.y)
			} else {
				p.LineTo(q.X-p.x, q.Y-p.y)
			}
			some = true
		}
		if !s.Open && len(l) > 0 {
			p.ClosePath()
		}
	}
	if some {
		p.DrawPath(style)
	}
}
