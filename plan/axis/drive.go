package axis

import (
	"math"
	"strings"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Drive is a figure that follows from how an axis is driven: what a turn moves,
// how long the stroke is. It is worked out where all that its formula names is
// asked for: sizes of the axis by their own keys, sizes of parts by [Drive.Of].
type Drive struct {
	Key, Label string
	Symbol     string
	Unit       unit.Unit
	Method     sheet.Method
	Of         map[string]string // words of the formula that are a part's: "lead" is "thread.pitch", by role
	Handle     bool              // moved by a turn of the handle: gears in between divide it
	Bounds     bool              // from end to end it gives no more than this
}

// What the drives give. Only the mechanism is in a formula: play and stretch are not.
var (
	screwTurn = Drive{Key: "per_turn", Label: "moved by a turn of the handle", Symbol: "p", Unit: unit.MM, Handle: true, Of: map[string]string{"lead": "thread.pitch"},
		Method: sheet.Method{Text: "lead", Source: "definition: the lead is what one turn moves"}}
	leadTurn = Drive{Key: "per_screw_turn", Label: "moved by a turn of the lead screw", Symbol: "l", Unit: unit.MM, Of: map[string]string{"lead": "thread.pitch"},
		Method: sheet.Method{Text: "lead", Source: "definition: the lead is what one turn moves"}}
	rackTurn = Drive{Key: "per_turn", Label: "moved by a turn of the handle", Symbol: "p", Unit: unit.MM, Handle: true, Of: map[string]string{"module": "pinion.module", "teeth": "pinion.teeth"},
		Method: sheet.Method{Text: "pi * module * teeth", Source: "geometry: the pinion's pitch circle rolls on the rack, π m z (module as in ISO 54)"}}
	wormTurn = Drive{Key: "per_fine_turn", Label: "moved by a turn of the fine wheel", Symbol: "p_f", Unit: unit.MM, Of: map[string]string{"module": "pinion.module", "teeth": "pinion.teeth"},
		Method: sheet.Method{Text: "pi * module * teeth * worm_starts / wheel_teeth", Source: "geometry: a turn of the worm turns its wheel by as many teeth as it has starts, π m z · z₁ / z₂"}}
	crankStroke = Drive{Key: "stroke", Label: "longest stroke", Symbol: "S", Unit: unit.MM,
		Method: sheet.Method{Text: "2 * crank_radius * lever_length / pivot_distance", Source: "geometry: at either end the lever is square to the crank, sin θ = r / d, and S = 2 L sin θ",
			Valid: "with the crank shorter than the distance of its middle from the pivot"}}
	crankReturn = Drive{Key: "quick_return", Label: "cutting stroke takes longer than the return, times", Symbol: "q", Unit: unit.One,
		Method: sheet.Method{Text: "(pi + 2 * atan(crank_radius / sqrt(pow(pivot_distance, 2) - pow(crank_radius, 2)))) / (pi - 2 * atan(crank_radius / sqrt(pow(pivot_distance, 2) - pow(crank_radius, 2))))",
			Source: "geometry: the crank turns by π + 2 θ for the cut and π − 2 θ for the return, sin θ = r / d", Valid: "at the longest stroke"}}
	crankRange = Drive{Key: "drive_range", Label: "from the rearmost to the foremost that the crank and the clamp give", Symbol: "R", Unit: unit.MM, Bounds: true,
		Method: sheet.Method{Text: "2 * crank_radius * lever_length / pivot_distance + clamp_range", Source: "geometry: the stroke, and what the clamp shifts it by"}}
	leverRange = Drive{Key: "drive_range", Label: "from end to end that the lever gives", Symbol: "R", Unit: unit.MM, Bounds: true,
		Method: sheet.Method{Text: "2 * lever_short * sin(lever_swing / 2)", Source: "geometry: the chord of the pin's arc, b either side of square, 2 b sin(θ/2)"}}
	leverGain = Drive{Key: "lever_gain", Label: "push on the slide, times that of the hand", Symbol: "k", Unit: unit.One,
		Method: sheet.Method{Text: "lever_long / lever_short", Source: "elementary statics: the law of the lever, with the lever square to its push"}}
)

// defineDrive lays out what the drive gives.
func (l *Layout) defineDrive() {
	for _, d := range l.Arr.Drives {
		with, ok := l.driven(d)
		if !ok {
			continue
		}
		m := d.Method
		if d.Handle && l.Scope.Has("gear_ratio") {
			m.Text, m.Source = "("+m.Text+") / gear_ratio", m.Source+"; gears between the handle and it divide that"
		}
		l.Scope.Method(shown(d.Key, l.Moves()+" "+d.Label, d.Symbol, d.Unit), m, with)
		if d.Bounds {
			l.bounded(d)
		}
	}
	if l.Scope.Has("per_turn") {
		l.Scope.Formula(quiet("turns", "turns of the handle from end to end", "n", unit.One), "(asked_plus - asked_minus) / per_turn", "definition: travel / what a turn moves")
	}
}

// driven binds the words of a drive's formula that are a part's. It is false where
// something that it names is not on the sheet at all.
func (l *Layout) driven(d Drive) (sheet.With, bool) {
	with := sheet.With{}
	for word, of := range d.Of {
		role, size, _ := strings.Cut(of, ".")
		p, ok := l.WithRole(role)
		if !ok || !l.Scope.Has(p.Key+"."+size) {
			return nil, false
		}
		with[word] = p.Key + "." + size
	}
	return with, true
}

// bounded are the stops where the drive comes to its ends, reckoned from the other
// end of the travel as found.
func (l *Layout) bounded(d Drive) {
	known := true
	for _, size := range l.Arr.Sizes {
		known = known && (!strings.Contains(d.Method.Text, size.Key) || l.known(size.Key))
	}
	for _, e := range l.ends() {
		s := Stop{Key: l.stopKey("drive_" + string(e.End)), Label: "end of the drive", Says: "the drive comes to its end", End: e.End,
			Found: math.NaN(), Unmeasured: !known, Kind: RunsOut}
		text := map[End]string{Plus: "gives", Minus: "travel_found - gives"}[e.End]
		if s.Unmeasured {
			text = e.most + "(" + e.found + ", " + text + ")"
		}
		l.Scope.In(s.Key).Formula(quiet("bound", "end of the drive, "+l.Moves()+" at", "end of the drive", unit.MM), text,
			"geometry: as far from the other end as the drive goes", sheet.With{"gives": d.Key})
		l.stop(s, e, "to the end of the drive")
	}
}
