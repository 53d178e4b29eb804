package upgrade

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/bearing"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// supportBearing carries the longer end near the handle.
func supportBearing(s *Site, need, group string) {
	l := s.Layout
	b, _ := l.WithRole("bracket")
	shank, _ := l.WithRole("shank")
	if !known(l, shank.Key+".dia") || !known(l, b.Key+".dia") || outerHeld(l) {
		return
	}
	options, proposal := supportBearings(l, b, shank)
	chosen := s.choose(Field{Name: "bearing", Label: "Support bearing at the bracket's outer end", Options: options, Need: need, Group: group}, proposal)
	if chosen == "none" {
		return
	}
	sc := l.Scope.In("support")
	var size [3]float64
	for i, p := range strings.SplitN(chosen, "x", 3) {
		size[i], _ = strconv.ParseFloat(p, 64) // one of the options above
	}
	const source = "ISO 15 boundary dimensions"
	for i, q := range []sheet.Q{quiet("bore", "bearing bore", "d", unit.MM), quiet("od", "bearing outside diameter", "D", unit.MM), quiet("width", "bearing width", "B", unit.MM)} {
		sc.Measure(q, sheet.Leaf{Value: size[i], Origin: sheet.Chosen, Note: source})
	}
	sc.Formula(shown("seat", "support bearing "+crossed(chosen)+": seat H7", "seat", unit.MM), "when(visible > 0, od, 0)",
		"ISO 15; ISO 286: a housing that stands still, H7", sheet.With{"visible": need})
	seatWalls(s, sc, b, seat{what: "support bearing", od: sc.Key("od"), needed: need})
	sc.Formula(quiet("room", "bracket longer than the bearing is wide", "c", unit.MM), "when(visible > 0, bracket_length - width, inf)", "geometry", sheet.With{"visible": need, "bracket_length": b.Key + ".length"})
	sc.Check(sheet.Check{Key: "room_check", Label: "Bearing within the bracket", Figure: "room", Limit: "touching", Level: sheet.Rule,
		Sentence: "The bracket is {figure} longer than the bearing is wide.", Source: "geometry"})
}

// supportBearings are those that go on the shank, "none" first. The proposal is
// the last that leaves the bracket wall enough; what leaves too little stands last.
func supportBearings(l *axis.Layout, b, shank *axis.Part) (options []Option, proposal string) {
	shaft, body := asFound(l, shank.Key+".dia"), asFound(l, b.Key+".dia")
	options, proposal = []Option{{"none", "none"}}, "none"
	for _, c := range bearing.Fitting(shaft, body, b.Material) {
		proposal = designation(c.Bore, c.OD, c.Width)
		options = append(options, Option{proposal, crossed(proposal) + ", series " + c.Series})
	}
	for _, c := range bearing.Small {
		if d := designation(c.Bore, c.OD, c.Width); c.Bore == shaft && !offered(options, d) {
			options = append(options, Option{d, crossed(d) + ", series " + c.Series + ": too little wall"})
		}
	}
	return options, proposal
}

// designation is a bearing's bore, outside and width as an option's value: "10x19x7".
func designation(bore, od, width float64) string {
	return fmt.Sprintf("%gx%gx%g", bore, od, width)
}

// crossed is a designation as it is read: "10 × 19 × 7".
func crossed(designation string) string { return strings.ReplaceAll(designation, "x", " × ") }

func offered(options []Option, value string) bool {
	return slices.ContainsFunc(options, func(o Option) bool { return o.Value == value })
}
