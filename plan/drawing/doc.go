// Package drawing makes the pictures: an axis from the side, to scale, as it is
// and as it will be; the same with letters, to measure by; and the bar that
// tells how far one could go; and the parts to make, to scale, with their sizes.
//
//	d := drawing.SideView(p.Layouts[0], p.Result, drawing.Options{Units: unit.MM})
//	err := d.SVG(w)
//
// A [Drawing] is a list of shapes in millimetres of the machine, y downwards, x
// along the axis from its datum: what ends at 178 is drawn at 178. Sizes of
// type, of arrows and of gaps between lines are in millimetres of paper, which
// are the machine's own on an axis of some 300 mm and follow its size, so that
// every drawing is as legible as the next at [Drawing.PxPerUnit].
//
// Heights are taken from the diameters that are known; the others are as usual
// for what the part is, and only the picture rests on them. What is not known
// along the axis is not drawn, and [Drawing.Desc] says so.
//
// [PartSheets] and [Sheets] draw parts to make on sheets of paper instead, in
// millimetres of paper, each with its [Sheet]: scale, frame, and what was
// dimensioned where. The same shapes are written as SVG, as DXF at 1 : 1, and by
// web/pdf; [InkOf] is the width of each sort of line. [Rows] are a part's sizes
// to be read, [DialStrip] a dial's rim laid flat, [Dividing] how to divide it.
//
//	for _, d := range drawing.PartSheets(parts, drawing.SheetOptions{Units: unit.MM}) {
//		err := d.SVG(w) // or d.DXF(w)
//	}
//
// Lines are those of ISO 128-2, dimensions those of ISO 129-1, threads those of
// ISO 6410-1; parts are cut along the screw's axis, and the screw is not
// (ISO 128-3). New metal has the class fill-new, metal cut away ln-cut, what was
// ln-old. A shape has a class and never a colour: the stylesheet decides.
package drawing
