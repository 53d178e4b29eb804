package web

import (
	"bytes"
	"fmt"

	"fettle/plan/dial"
	"fettle/plan/drawing"
	"fettle/plan/part"
	"fettle/plan/unit"
)

// The dividing head that most have: the ratio of its worm, and the circles of holes in its three plates.
// Common practice, no source.
const headRatio = 40

var headCircles = []int{15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49}

// dial is how a dial is divided; nil for a part that is none.
func (w *partsWriter) dial(p *part.Part) *partDial {
	d := drawing.DialStrip(p, "strip-"+p.Key)
	if d == nil {
		return nil
	}
	v := &partDial{Says: []string{d.Desc}, URL: w.view.file(p.Key + stripEnd)}
	var svg bytes.Buffer
	if err := d.SVG(&svg); err == nil {
		v.strip = svg.Bytes()
	}
	table := drawing.Dividing(p.Dial, headRatio, headCircles)
	if len(table.Moves) > 0 {
		v.Says = append(v.Says, fmt.Sprintf("On a dividing head of %d to 1, from one line to the next: %s.", table.Ratio, moveWords(table.Moves[0])))
	} else {
		v.Says = append(v.Says, fmt.Sprintf("A dividing head of %d to 1 cannot do it with plain plates of %d to %d holes: use the angles, or see the bench figures for gearing.",
			table.Ratio, headCircles[0], headCircles[len(headCircles)-1]))
	}
	for _, l := range table.Lines {
		v.Lines = append(v.Lines, dialLine{Number: l.Number, Numeral: l.Numeral, Angle: unit.One.Text(l.Angle, 4), Arc: w.Units.Text(l.Arc, 4), Length: w.Units.Text(l.Length, 2)})
	}
	return v
}

// moveWords says a move of the crank.
func moveWords(m dial.Move) string {
	turns := count(m.Turns, "whole turn", "whole turns")
	if m.Circle == 0 {
		return turns
	}
	return fmt.Sprintf("%s and %s of the circle of %d", turns, count(m.Holes, "space", "spaces"), m.Circle)
}
