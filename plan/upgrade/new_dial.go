package upgrade

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/dial"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

const newDialKey = "new_dial"

// newDial: a larger dial that can be read, with lines of a round value.
type newDial struct{}

func (newDial) About() About {
	return About{
		Key: newDialKey, Label: "New dial",
		Purpose: "A dial whose lines are far enough apart to be read, each worth a round figure.",
		Cautions: []string{
			"Isolate the machine before the handle comes off, and before its spindle is used to divide: it is turned by hand.",
			"Dials that read the radius and dials that read the diameter, side by side in one shop, make scrap: mark the diameter sign large.",
			"Paint and its solvent: fresh air, no flame.",
		},
		Proof: "The last space is as wide as the others; ten turns against a gauge; two test cuts where it reads the diameter.",
		Words: []string{"graduated collar", "larger dial", "micrometer collar", "index", "zeroing dial", "friction ring", "direct reading", "diameter reading", "graduations"},
		Hours: [2]float64{4, 8}, Risk: LowRisk, Undo: Undone, Own: true,
		Needs: []part.Capability{part.Turning, part.Dividing},
		Cures: []string{"reading.value", "reading.small", "reading.radius", "setting.friction"},
	}
}

// Trials of a dial: as large as there is room for, with the radius or with the diameter on it.
func (newDial) Trials(l *axis.Layout) []Trial {
	if !latheSlide(l) {
		return asUsual
	}
	return []Trial{{"reads the radius", map[string]string{"reads": "radius"}}, {"reads the diameter", map[string]string{"reads": "diameter"}}}
}

func (newDial) Suits(l *axis.Layout) bool {
	d, okD := l.WithRole("dial")
	t, okT := l.WithRole("thread")
	return okD && okT && l.Scope.Has(d.Key+".length") && l.Scope.Has(t.Key+".pitch")
}

func (k newDial) Apply(s *Site) {
	l := s.Layout
	d, _ := l.WithRole("dial")
	t, _ := l.WithRole("thread")
	s.claim("dial", "the "+d.Label)
	s.choose(Field{Name: "reads", Label: "Reads", Options: []Option{{"radius", "what the slide moves"}, {"diameter", "what the work's diameter changes by"}}}, "radius")
	s.askDial(d, t)
	s.Goals = []sheet.Goal{{Key: l.Find(d.Key + ".spacing")}, {Key: l.Find(d.Key + ".per_line"), Less: true}}
}

func (k newDial) Answer(s *Site, r *sheet.Result) []Run {
	l := s.Layout
	d, _ := l.WithRole("dial")
	t, _ := l.WithRole("thread")
	figure := func(key string) (float64, bool) {
		f, ok := r.Figure(key, sheet.Planned)
		return f.Value, ok && f.Known() && !math.IsNaN(f.Value)
	}
	var say teller
	lines, okL := figure(s.Scope.Key("lines"))
	least, okM := figure(s.Scope.Key("dia_least"))
	good, okG := figure(s.Scope.Key("dia_good"))
	if !okL || !okM || !okG {
		say.text("Measure the lead of the " + t.Label + " first: the lines follow from it.")
		return say.runs
	}
	value := s.worthOf(t, int(lines)).said()
	if s.input("dia", "") == "" {
		say.text("Say how large the dial should be. ").strong(unit.Count.Text(lines, 0)).text(" lines of " + value + " read well from ").strong(show(s, good)).text(" on, and want ").strong(show(s, least)).text(" at the least.")
		return say.runs
	}
	dia, _ := figure(l.Find(d.Key + ".dia"))
	spacing, _ := figure(l.Find(d.Key + ".spacing"))
	say.text("A dial of ").strong(show(s, dia)).text(" with ").strong(unit.Count.Text(lines, 0)).text(" lines, each worth " + value + ", has them ").strong(show(s, spacing)).text(" apart")
	if now, ok := r.Figure(l.Find(d.Key+".spacing"), sheet.Now); ok && now.Known() {
		say.text(", where they are " + show(s, now.Value) + " apart now")
	}
	say.text(".")
	if spacing < dial.SpacingGood {
		say.text(" From ").strong(show(s, good)).text(" on they would read well.")
	}
	if by, ok := clockwiseGoes(l, t); ok && s.input("clockwise", string(by)) != string(by) {
		say.text(" A " + t.Entries["hand"].Typed + "-hand thread that is held so takes the slide " + l.EndName(by) + " when it is turned clockwise: wind it, and see which of the two is wrong, before the figures are stamped.")
	}
	if clockwise, rises := s.rises(t); clockwise != rises {
		say.text(" Its figures fall when it is turned clockwise: is that meant?")
	}
	longer := say.extension(s, r)
	if was, ok := r.Figure(l.Find(d.Key+".divisions"), sheet.Now); ok && was.Known() && was.Value == lines && !longer {
		say.text(" It has as many lines as the old one: nothing else follows.")
	}
	return say.runs
}

// Parts of a new dial: the ring with its lines, and the sleeve that it turns on.
func (k newDial) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	d, _ := s.Layout.WithRole("dial")
	t, _ := s.Layout.WithRole("thread")
	return m.dialMade(d, t)
}
