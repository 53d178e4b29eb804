package upgrade

import (
	"fmt"
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/dial"
	"fettle/plan/fastener"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// marks are the lines and figures of a dial.
func marks(m *making, d, t *axis.Part, up string, lines int) *part.Dial {
	w := m.worthOf(t, lines)
	spacing := m.or(d.Key+".spacing", 1)
	worth := w.MM
	if w.Inch {
		worth /= 25.4
	}
	width := min(max(0.15*spacing, 0.1), 0.25)
	minor, middle, major := m.or(up+"minor", 2), m.or(up+"middle", 3.2), m.or(up+"major", 4.6)
	numbered := numberedEvery(worth, lines)
	clockwise, rises := m.rises(t)
	p := &part.Dial{Divisions: lines, Value: w.Said, Clockwise: rises != clockwise, Upright: true}
	if m.readsDia() {
		p.Value = w.Said + " ⌀"
	}
	p.Every = []part.Mark{{Divisions: numbered, Length: major, Width: width, Numeral: m.or(up+"numeral", 2.5), Step: round(float64(numbered) * worth)}}
	if numbered%2 == 0 {
		p.Every = append(p.Every, part.Mark{Divisions: numbered / 2, Length: middle, Width: width})
	}
	if numbered > 2 || numbered == 1 {
		p.Every = append(p.Every, part.Mark{Divisions: 1, Length: minor, Width: width})
	}
	return p
}

// round takes a rounding error off a step of figures.
func round(x float64) float64 { return math.Round(x*1e6) / 1e6 }

// numberedEvery is after how many lines a figure stands: no more than ten, so
// that nine lie between (human-factors handbooks), and so that the figures go
// by 1, 2 or 5; such that divides the lines all round where there is one.
func numberedEvery(worth float64, lines int) int {
	best := 0
	for k := 10; k >= 2; k-- {
		step := float64(k) * worth
		lead := step / math.Pow(10, math.Floor(math.Log10(step)+1e-9))
		good := math.Abs(lead-1) < 1e-6 || math.Abs(lead-2) < 1e-6 || math.Abs(lead-5) < 1e-6
		switch {
		case good && lines%k == 0:
			return k
		case good && best == 0:
			best = k
		}
	}
	return max(best, 1)
}

// dialSleeve is what the dial turns on, fast on the screw.
func dialSleeve(m *making, d *axis.Part, up string, shoulder float64) part.Part {
	long := m.general(want{part: "dial_sleeve", name: "length", label: "length over all", key: d.Key + ".length", leaf: d.Key + ".length", formula: "made"})
	outside := m.class(want{part: "dial_sleeve", name: "outside", label: "outside, for the dial", key: up + "ring.sleeve"}, "g6")
	bore := m.class(want{part: "dial_sleeve", name: "bore", label: "bore, on the screw", key: d.Key + ".bore", leaf: d.Key + ".bore", formula: "made", grows: true}, "H7")
	if m.more(m.Layout.Find("extension.sleeve")) {
		bore = m.suitsMadeBy(bore, "the extension's outside as made", "extension.outside")
	} else {
		on := m.shank() + ".dia"
		if !m.Layout.Scope.Has(on) {
			on = d.Key + ".bore"
		}
		bore = m.suits(bore, "what it sits on, measured by micrometer", on, micrometer)
	}
	at := shoulder + 0.35*(long.Nominal-shoulder)
	wide := m.limits(want{part: "dial_sleeve", name: "groove_width", label: "groove for the O-ring", key: up + "ring.groove_width", grows: true}, 0.1, 0, dial.GrooveWidth.Source)
	floor := m.limits(want{part: "dial_sleeve", name: "groove", label: "floor of the groove", key: up + "ring.groove_dia"}, 0, -0.05, dial.GrooveDia.Source)
	return part.Part{Key: "dial_sleeve", Label: "sleeve of the dial", Material: "11smn30", Round: &part.Round{Length: long,
		Outside: []part.Step{
			{Label: "shoulder", Length: m.general(want{part: "dial_sleeve", label: "shoulder", nominal: shoulder}), Dia: m.general(want{part: "dial_sleeve", label: "shoulder", nominal: math.Min(outside.Nominal+6, m.or(d.Key+".dia", outside.Nominal+6)-2)}), Chamfer: 0.3},
			{Label: "for the dial", Length: drawn("", long.Nominal-shoulder), Dia: outside, Chamfer: 0.5},
		},
		Left:    []part.Step{{Label: "bore", Length: drawn("", long.Nominal), Dia: bore, Through: true, Chamfer: 0.3}},
		Grooves: []part.Groove{{At: m.general(want{part: "dial_sleeve", label: "groove from the face", nominal: at}), Width: wide, Dia: floor, Form: "O-ring groove"}},
	}, Notes: []string{"Edges of the groove broken 0.1 mm, its floor smooth.", "The handle is clamped against the sleeve, and not against the dial: 0.1 mm is left beside it.", "A strip of paper under the ring makes it stiffer."}}
}

// suitsMadeBy leaves a size open until a size of a part of this upgrade, or of
// another one beside it, has been measured as made.
func (m *making) suitsMadeBy(s part.Size, what, made string) part.Size {
	for _, o := range m.beside {
		if _, ok := o.settled[made]; ok {
			s.Suits = what
			return s
		}
	}
	return m.suitsMade(s, what, made)
}

func (m *making) dialSteps(d *axis.Part, ring bool, wide, outside float64, lines int) {
	m.step(measured, "", part.Operation{Key: "dial_before", Do: "Wind ten turns against a gauge and note what the old dial shows; note which way its figures rise.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{15, 30}, Record: "travel in ten turns, both ways",
		Asks: []string{"Do the other dials of this machine read what the slide moves, or the diameter? Two sorts side by side make scrap.", "Turned clockwise, which way does the slide go, and do the figures rise? Look before they are stamped."}})
	if ring {
		m.step(made, "dial_sleeve", part.Operation{Key: "turn_dial_sleeve", Do: "Turn the sleeve: outside, groove and bore at one setting.", Needs: []part.Capability{part.Turning, part.Boring}, Envelope: [2]float64{m.or(d.Key+".length", 0), outside}, Minutes: [2]float64{45, 90}, Record: "outside, by micrometer", Cautions: []string{eyes}})
		up := "upgrade_" + m.ID + "."
		section, groove := m.or(up+"ring.section", 0), m.or(up+"ring.groove_dia", 0)
		b := part.Bought{Key: "o_ring", Label: "O-ring, 70 Shore A", Quantity: 1, For: "dial_sleeve", Confirm: "turn_dial_sleeve", Source: "ISO 3601-1"}
		if o, err := fastener.RingFor(groove, section); err == nil {
			b.Designation = o.Designation()
		} else {
			b.Label += ": " + err.Error()
		}
		m.buy(b)
	}
	m.step(made, d.Key, part.Operation{Key: "turn_" + d.Key, Do: "Turn the blank of the dial: bore it and turn its outside at one setting, so that the lines run true.", Needs: []part.Capability{part.Turning, part.Boring},
		After: []string{"turn_dial_sleeve"}, Envelope: [2]float64{wide, outside}, Minutes: [2]float64{60, 120}, Record: "outside and bore", Cautions: []string{eyes}})
	m.step(made, d.Key, part.Operation{Key: "divide_" + d.Key, Do: fmt.Sprintf("Divide it into %d: by a dividing head, or on the lathe's own spindle with a wheel of as many teeth, a saw blade or a printed strip; cut the lines with a pointed tool against a stop for each length. Count the spaces before the last line.", lines),
		Needs: []part.Capability{part.Dividing}, After: []string{"turn_" + d.Key}, Envelope: [2]float64{wide, outside}, Minutes: [2]float64{60, 150}, Record: "a photo of the last space beside the first", Cautions: []string{"The spindle is turned by hand with the machine unplugged."}})
	m.step(made, d.Key, part.Operation{Key: "number_" + d.Key, Do: "Stamp the figures in a fixture, or engrave them; rub the burr down, fill them with paint.", Needs: []part.Capability{part.Bench}, After: []string{"divide_" + d.Key}, Minutes: [2]float64{45, 120}, Record: "a photo of the whole dial", Cautions: []string{"Paint and its solvent: fresh air, no flame."}})
	m.step(assembled, "", part.Operation{Key: "fit_" + d.Key, Do: "Take the handle and the old dial off, fit the new one, scribe the index line on the bracket no more than 0.3 mm from its lines, set the end float anew.",
		Needs: []part.Capability{part.Bench}, Out: m.Layout.Key, After: []string{"number_" + d.Key, "turn_dial_sleeve"}, Minutes: [2]float64{30, 60}, Record: "where the old dial is kept", Cautions: []string{isolate}})
	m.step(proved, "", part.Operation{Key: "dial_after", Do: "Ten turns against a gauge; twenty reversals without the dial creeping; two test cuts where it reads the diameter.", Needs: []part.Capability{part.Bench}, After: []string{"fit_" + d.Key}, Minutes: [2]float64{30, 60}, Record: "travel in ten turns, both ways"})
}

// dialMade is a dial with its lines, the sleeve that it turns on, and its index.
func (m *making) dialMade(d, t *axis.Part) Make {
	s := m.Site
	lines, ok := m.figure(d.Key + ".divisions")
	if !ok || s.input("dia", "") == "" || lines < 2 {
		return Make{}
	}
	up := sheet.Local(s.Scope.Key(""), s.Layout.Key) // "upgrade_1."
	ring := m.more(s.Layout.Find(up + "ring.sleeve"))
	outside := m.limits(want{part: d.Key, name: "dia", label: "outside", key: d.Key + ".dia", leaf: d.Key + ".dia", formula: "made"}, 0, -0.05, "common practice, no source: the lines are scaled to it")
	width := want{part: d.Key, name: "length", label: "width", key: d.Key + ".length", leaf: d.Key + ".length", formula: "made"}
	bore := want{part: d.Key, name: "bore", label: "bore", key: d.Key + ".bore", leaf: d.Key + ".bore", formula: "made", grows: true}
	shoulder := 0.0
	if ring {
		shoulder = 2.5
		sleeveKey := up + "ring.sleeve"
		width = want{part: d.Key, name: "width", label: "width", nominal: m.or(d.Key+".length", 0) - shoulder - 0.1}
		bore = want{part: d.Key, name: "bore", label: "bore, on the sleeve", key: sleeveKey, grows: true}
	}
	p := part.Part{Key: d.Key, Label: "new " + d.Label, Replaces: m.replaced(d), Material: stock(d.Material, "6082"), Finish: "lines and figures filled with paint, the face rubbed down"}
	wide := m.general(width)
	p.Round = &part.Round{Outside: []part.Step{{Label: "dial", Length: wide, Dia: outside, Chamfer: 0.5}},
		Left: []part.Step{{Label: "bore", Length: drawn("", wide.Nominal), Dia: m.class(bore, "H7"), Through: true, Chamfer: 0.3}}}
	if ring {
		p.Round.Left[0].Dia = m.suitsMade(p.Round.Left[0].Dia, "the sleeve as made", "dial_sleeve.outside")
		m.add(dialSleeve(m, d, up, shoulder))
	}
	p.Dial = marks(m, d, t, up, int(lines))
	p.Dial.Dia, p.Dial.Width = drawn("", outside.Nominal), drawn("", wide.Nominal)
	if k := p.Dial.Every; len(k) > 0 && int(lines)%k[0].Divisions != 0 {
		p.Notes = append(p.Notes, fmt.Sprintf("%d lines are no multiple of %d: the last space between figures is shorter.", int(lines), k[0].Divisions))
	}
	if strings.Contains(p.Dial.Value, "⌀") {
		p.Notes = append(p.Notes, "Mark it ⌀, as high as the figures: it reads the work's diameter.")
	}
	p.Notes = append(p.Notes, m.bothWays(d), m.filmNote(&p))
	m.indexPlate(d)
	m.add(p)
	m.dialSteps(d, ring, wide.Nominal, outside.Nominal, int(lines))
	return m.finish()
}

// bothWays says what a line is worth on the slide and on the work.
func (m *making) bothWays(d *axis.Part) string {
	line := m.or(d.Key+".per_line", 0)
	four := unit.MM
	four.Decimals = 4
	return "A line is " + four.With(line) + " that the slide moves; on the diameter of turned work it is " + four.With(2*line) + "."
}

// replaced is the part of the axis that a dial takes the place of; "" for none.
func (m *making) replaced(d *axis.Part) string {
	if _, ok := m.Layout.Part(d.Key); !ok {
		return ""
	}
	return d.Key
}

// indexPlate carries the index line out to a dial that is larger than what it
// turns beside.
func (m *making) indexPlate(d *axis.Part) {
	b, ok := m.Layout.WithRole("bracket")
	if !ok {
		return
	}
	body, okB := m.figure(b.Key + ".dia")
	dia, okD := m.figure(d.Key + ".dia")
	if !okB || !okD || math.Abs(dia-body) < 1 {
		return
	}
	high := math.Max(8, math.Abs(dia-body)/2+6)
	suits := func(label string, mm float64) part.Size {
		x := drawn(label, mm)
		x.Suits, x.Limits = "the bracket and the dial as fitted", toSuit
		return x
	}
	m.add(part.Part{Key: "index_plate", Label: "index plate on the " + b.Label, Material: "cuzn39pb3", Notes: []string{"The index line as wide as a line of the dial, sharp, no more than 0.3 mm from it, level with its face so that the eye sees no step."},
		Flat: &part.Flat{Length: suits("height", high), Width: suits("width", 12), Thickness: suits("thickness", 2), Angle: 90, Features: []part.Feature{{Kind: part.Hole, Label: "to the " + b.Label, X: drawn("", 3), Y: drawn("", 6), Dia: drawn("", 3.2)}}}})
	m.step(made, "index_plate", part.Operation{Key: "file_index", Do: "Cut and bend the index plate, and scribe its line when it is on.", Needs: []part.Capability{part.Bench}, Envelope: [2]float64{high, 12}, Minutes: [2]float64{20, 40}, Record: "gap to the dial"})
}
