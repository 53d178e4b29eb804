package drawing

import "strings"

// Ink is how the shapes of a class are put on paper: by a printer, a plotter or
// a program that does not know the stylesheet.
type Ink struct {
	Width float64   // mm of paper; 0 where there is no line
	Dash  []float64 // mm of line and of gap in turn; nil for a full line
	Fill  Fill
	Layer string // in a DXF file
}

// Fill is what lies within an outline.
type Fill int8

// The fills.
const (
	Empty Fill = iota
	White
	Tint // of new metal
	Black
)

// InkOf is the ink of a class, the last one where a shape has several. A class
// that is not known is a thin line.
//
// Source: ISO 128-2, line group 0.5 with thin lines of 0.25, as for A4; the
// lengths of dashes as for lines of those widths.
func InkOf(class string) Ink {
	if i := strings.LastIndexByte(class, ' '); i >= 0 {
		class = class[i+1:]
	}
	if k, ok := inks[class]; ok {
		return k
	}
	return Ink{Width: thinLine, Layer: "THIN"}
}

const (
	thickLine = 0.5
	thinLine  = 0.25
)

var inks = map[string]Ink{
	"ln-visible":  {Width: thickLine, Layer: "VISIBLE"},
	"ln-thin":     {Width: thinLine, Layer: "THIN"},
	"ln-centre":   {Width: thinLine, Dash: []float64{6, 0.75, 0.25, 0.75}, Layer: "CENTRE"},
	"ln-hidden":   {Width: thinLine, Dash: []float64{3, 0.75}, Layer: "HIDDEN"},
	"ln-old":      {Width: thinLine, Layer: "OLD"},
	"ln-cut":      {Width: thickLine, Dash: []float64{3, 1.5}, Layer: "CUT"},
	"ln-new":      {Width: 0.7, Layer: "NEW"},
	"ln-mark":     {Width: 0.2, Layer: "MARK"},
	"fill-part":   {Fill: White, Layer: "VISIBLE"},
	"fill-new":    {Width: 0.7, Fill: Tint, Layer: "NEW"},
	"section":     {Layer: ""},
	"section-new": {Fill: Tint, Layer: ""},
	"hatch":       {Width: 0.18, Layer: "HATCH"},
	"dim":         {Width: thinLine, Layer: "DIM"},
	"dim-arrow":   {Fill: Black, Layer: "DIM"},
	"frame":       {Width: thickLine, Layer: "FRAME"},
	"frame-thin":  {Width: thinLine, Layer: "FRAME"},
	"gap-line":    {Width: thinLine, Layer: "DIM"},
	"gap-dot":     {Fill: Black, Layer: "DIM"},
	"ln-guessed":  {Width: thinLine, Dash: []float64{0.75, 0.75}, Layer: "THIN"},
	"letter-mark": {Width: thinLine, Fill: White, Layer: "DIM"},

	// What is written.
	"dim-text":    {Fill: Black, Layer: "DIM"},
	"sheet-text":  {Fill: Black, Layer: "FRAME"},
	"sheet-label": {Fill: Black, Layer: "FRAME"},
	"sheet-title": {Fill: Black, Layer: "FRAME"},
	"view-name":   {Fill: Black, Layer: "TEXT"},
	"numeral":     {Fill: Black, Layer: "MARK"},
	"letter":      {Fill: Black, Layer: "DIM"},
	"part-label":  {Fill: Black, Layer: "TEXT"},
	"part-name":   {Fill: Black, Layer: "TEXT"},
	"gap-text":    {Fill: Black, Layer: "DIM"},
}

// class writes the class of a shape, and its ink where the file is to stand alone.
func (p *pen) class(class string) {
	p.attr("class", class)
	if !p.inks {
		return
	}
	k := InkOf(class)
	switch k.Fill {
	case Black:
		p.str(` fill="currentColor"`)
	case White:
		p.str(` fill="#fff"`)
	case Tint:
		p.str(` fill="#d5e6f4"`)
	}
	if k.Width == 0 {
		return
	}
	p.str(` stroke="currentColor"`)
	p.length("stroke-width", k.Width)
	if len(k.Dash) > 0 {
		p.str(` stroke-dasharray="`)
		p.nums(k.Dash...)
		p.str(`"`)
	}
}
