package upgrade

import (
	"strings"

	"fettle/plan/axis"
	"fettle/plan/dial"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// quillPlay: the play of a quill in its bore taken away, by a split clamp, a
// sleeve or a new quill; with a nut that sets its depth, a fine feed, and its spring.
type quillPlay struct{}

func (quillPlay) About() About {
	return About{
		Key: "quill_play", Label: "Quill without play, and its depth nut",
		Words:   []string{"spindle play", "quill lock", "split clamp", "pinch bolt", "sleeve the quill", "honed bore", "micrometer depth stop", "fine downfeed", "return spring", "barrel", "wobble", "runout of the chuck"},
		Purpose: "The nose swings less, up and down, and the depth of a hole is set by a nut with marks.",
		Cautions: []string{
			"Isolate the machine before the quill comes out.",
			"A drill's return spring is wound up: hold its cap and let it go turn by turn, with eye protection. It can break a finger.",
			"A split casting that is pinched too hard cracks, or seizes the quill: let it off before the quill is moved.",
			"An upright quill drops when its pinion is drawn: hold it.",
			"Cast-iron dust and honing slurry: mask, wash everything out before the bearings go back.",
		},
		Proof: "A dial gauge at the nose, pushed and pulled with 50 N, quill right in and right out; ten holes by the depth nut, within 0.05 mm.",
		Hours: [2]float64{3, 12}, Risk: MediumRisk, Undo: UndonePart, Own: false,
		Needs: []part.Capability{part.Boring, part.Threads, part.Reaming},
		Cures: []string{"rocks.quill"},
	}
}

// Suits a quill in its guide.
func (quillPlay) Suits(l *axis.Layout) bool {
	_, okQ := l.WithRole("quill")
	_, okG := l.WithRole("guide")
	return okQ && okG
}

// Trials of less play, each way of taking it.
func (quillPlay) Trials(*axis.Layout) []Trial {
	return []Trial{{"a split clamp", map[string]string{"wanted": "0.015 mm", "way": "clamp"}}, {"a sleeve", map[string]string{"wanted": "0.015 mm", "way": "sleeve"}}, {"a new quill", map[string]string{"wanted": "0.015 mm", "way": "quill"}}}
}

func (k quillPlay) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	q, _ := l.WithRole("quill")
	g, _ := l.WithRole("guide")
	s.claim("quill_bore", "the bore of the "+g.Label)
	s.typed(sc, quiet("wanted", "play wanted between quill and bore", "c", unit.MM), Field{Name: "wanted", Label: "Play wanted, across", Hint: "0.015; 0.01 to 0.03 is usual"}, "", 0, 1, nan)
	s.Amount, s.Most = sc.Key("wanted"), 0.2
	k.swing(s, q, g)
	l.Assume(sc, quiet("wanted_least", "least play of a quill", "", unit.MM), 0.01, "common practice, no source: 0.01 mm, for the oil")
	sc.Check(sheet.Check{Key: "free_check", Label: "Quill runs free", Figure: "wanted", Limit: "wanted_least", Level: sheet.Rule,
		Sentence: "A play of {figure} is asked for, and {limit} is the least.", Source: "common practice, no source"})
	l.Assume(sc, quiet("swing_most", "most that the nose may swing", "", unit.MM), 0.08, "common practice, no source: 0.08 mm from side to side at a drill's nose, right out; half of that on a mill")
	sc.Check(sheet.Check{Key: "swing_check", Label: "Nose held", Figure: "swing_out", Limit: "swing_most", AtMost: true, Level: sheet.Rule,
		Sentence: "Right out the nose swings {figure}, and {limit} is the most.", Source: "common practice, no source"})
	way := s.choose(Field{Name: "way", Label: "Taken away by", Options: []Option{{"clamp", "splitting the casting, and a screw that pinches it"}, {"sleeve", "boring it out for a sleeve"}, {"quill", "honing it true, and a new quill"}}}, "clamp")
	switch way {
	case "clamp":
		k.clamp(s, g)
	case "sleeve":
		k.sleeve(s, g)
	default:
		s.typed(sc, quiet("honed", "honed out of the bore, across", "", unit.MM), Field{Name: "honed", Label: "Honed out of the bore until it is true", Hint: "across; 0.05 to 0.2", Group: "The way"}, s.proposed(0.1), 0, 5, nan)
		sc.Formula(shown("dia", "new quill's diameter", "D", unit.MM), "dia_now + found + honed - wanted", "geometry: the bore as honed, less the play", sheet.With{"dia_now": q.Key + ".dia"})
	}
	k.depth(s)
	k.fine(s)
	k.spring(s)
}

// swing of the nose right out and right in, by what of the quill is held there.
func (quillPlay) swing(s *Site, q, g *axis.Part) {
	l, sc := s.Layout, s.Scope
	if l.Scope.Has(g.Key + ".bore") {
		sc.Formula(quiet("found", "play between quill and bore, as found", "c_0", unit.MM), "bore - dia", "geometry: at the nose's end", sheet.With{"bore": g.Key + ".bore", "dia": q.Key + ".dia"})
	} else {
		s.typed(sc, quiet("found", "play between quill and bore, as found", "c_0", unit.MM), Field{Name: "now", Label: "Play now, across", Hint: "bore less quill, or a gauge close to the guide, pushed and pulled"}, "", 0, 5, nan)
	}
	sc.Measure(quiet("taken", "play taken away", "", unit.MM), sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
	sc.Formula(quiet("play", "play between quill and bore", "c", unit.MM), "max(0, found - taken)", "definition")
	nose := s.measuredOr(q.Key+".nose", quiet("nose", "nose beyond the quill's end", "a_0", unit.MM), Field{Name: "nose", Label: "From the quill's end to where the tool is held"}, "", 0, 500)
	held := q.Key + "_on_" + g.Key
	for _, e := range []struct{ key, end, where string }{{"out", "plus", "right out"}, {"in", "minus", "right in"}} {
		sc.Formula(quiet("stands_"+e.key, "nose out of its guide, "+e.where, "a", unit.MM), "to + asked - guide_to + nose", "geometry", sheet.With{"to": q.Key + ".to", "asked": "asked_" + e.end, "guide_to": g.Key + ".to", "nose": nose})
		sc.Method(shown("swing_"+e.key, "nose swings, "+e.where, "s", unit.MM), slide.PlaySwing, sheet.With{"overhang": "stands_" + e.key, "guide": held + ".engaged_" + e.end})
	}
	s.aim("upgrade_"+s.ID+".swing_out", unit.MM, true)
	sc.Change("taken", "max(0, found - wanted)", "as asked")
}

// clamp: a split casting closes by little, and no more where the bore is wider.
func (quillPlay) clamp(s *Site, g *axis.Part) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("closes", "most that a split casting is pinched, across", "", unit.MM), 0.05, "common practice, no source: 0.05 mm; more cracks it, or pinches at one place")
	sc.Check(sheet.Check{Key: "pinch_check", Label: "Casting not pinched too far", Figure: "taken", Limit: "closes", AtMost: true, Level: sheet.Rule,
		Sentence: "The split has to close {figure}, and {limit} is the most: a sleeve, or a new quill.", Source: "common practice, no source"})
	var bores []string
	for _, name := range []string{"bore", "bore_middle", "bore_far"} {
		if l.Scope.Has(g.Key + "." + name) {
			bores = append(bores, g.Key+"."+name)
		}
	}
	if len(bores) < 2 {
		return
	}
	sc.Family("bores", "bore along the guide", unit.MM, bores...)
	sc.Formula(quiet("belled", "bore wider at one place by", "", unit.MM), "max(bores) - min(bores)", "geometry")
	l.Assume(sc, quiet("belled_most", "most that a bore may be worn at one place for a clamp", "", unit.MM), 0.02, "common practice, no source: a clamp makes no bore straight")
	sc.Check(sheet.Check{Key: "belled_check", Label: "Bore worn evenly enough for a clamp", Figure: "belled", Limit: "belled_most", AtMost: true, Level: sheet.Rule,
		Sentence: "The bore is {figure} wider at one place, and {limit} is the most for a clamp: hone it, or sleeve it.", Source: "common practice, no source"})
}

// sleeve: the head is bored out, and its wall is what is left.
func (quillPlay) sleeve(s *Site, g *axis.Part) {
	l, sc := s.Layout, s.Scope
	const group = "The way"
	s.typed(sc, quiet("thick", "sleeve's wall", "t", unit.MM), Field{Name: "thick", Label: "Wall of the sleeve", Hint: "3 to 5", Group: group}, s.proposed(3), 0.5, 30, 3)
	wall := s.measuredOr(g.Key+".wall", quiet("wall", "wall around the bore, as it is", "w", unit.MM), Field{Name: "wall", Label: "Wall of the casting, where it is thinnest", Group: group}, "", 1, 200)
	sc.Formula(shown("left", "wall of the casting left around the sleeve", "", unit.MM), "wall - thick", "geometry: bored out by the sleeve's wall", sheet.With{"wall": wall})
	l.Assume(sc, quiet("left_least", "least wall of the casting", "", unit.MM), 5, "common practice, no source: 5 mm of cast iron around a pressed sleeve, 4 at the least without one")
	sc.Check(sheet.Check{Key: "left_check", Label: "Wall left around the sleeve", Figure: "left", Limit: "left_least", Level: sheet.Rule,
		Sentence: "{figure} of the casting is left around the sleeve, and {limit} is the least.", Source: "common practice, no source"})
	l.Assume(sc, quiet("thick_least", "least wall of a sleeve", "", unit.MM), 2, "common practice, no source: 2 mm, to be pressed in and honed")
	sc.Check(sheet.Check{Key: "thick_check", Label: "Sleeve thick enough", Figure: "thick", Limit: "thick_least", Level: sheet.Rule,
		Sentence: "The sleeve's wall is {figure}, and {limit} is the least.", Source: "common practice, no source"})
}

// depth: a nut on a rod, with marks round it.
func (quillPlay) depth(s *Site) {
	l, sc := s.Layout, s.Scope
	const group = "Depth nut"
	pitch := s.choose(Field{Name: "depth_pitch", Label: "Depth nut with marks", Options: []Option{{"none", "none"}, {"1", "on a thread of 1 mm"}, {"1.25", "on a thread of 1.25 mm"}, {"1.5", "on a thread of 1.5 mm"}}, Group: group}, "none")
	if pitch == "none" {
		return
	}
	p := map[string]float64{"1": 1, "1.25": 1.25, "1.5": 1.5}[pitch]
	s.own(quiet("depth_lead", "depth rod's pitch", "P", unit.MM), p, "as chosen; ISO 261: M10 × 1, M10 × 1.25, M12 × 1.5")
	s.typed(sc, quiet("marks", "marks round the depth nut", "N", unit.Count), Field{Name: "marks", Label: "Marks round it", Hint: "20 on 1 mm read 0.05", Group: group}, map[string]string{"1": "20", "1.25": "25", "1.5": "30"}[pitch], 1, 200, nan)
	s.typed(sc, quiet("nut_dia", "depth nut's diameter", "D", unit.MM), Field{Name: "nut_dia", Label: "Its diameter", Group: group}, s.proposed(30), 5, 200, 30)
	names := sheet.With{"lead": "depth_lead", "divisions": "marks", "dial_dia": "nut_dia"}
	sc.Method(shown("per_mark", "depth, mark to mark of the nut", "", unit.MM), dial.PerDivision, names)
	sc.Method(quiet("marks_apart", "marks of the depth nut apart", "", unit.MM), dial.Spacing, names)
	l.Assume(sc, quiet("apart_least", "least between two marks", "", unit.MM), 0.8, "common practice, no source: 0.8 mm in a good light")
	sc.Check(sheet.Check{Key: "marks_check", Label: "Marks far enough apart", Figure: "marks_apart", Limit: "apart_least", Level: sheet.Rule,
		Sentence: "The marks are {figure} apart, and {limit} is the least that is read.", Source: "common practice, no source"})
}

// fine feed: a worm on the pinion's shaft, where there is none.
func (quillPlay) fine(s *Site) {
	l, sc := s.Layout, s.Scope
	p, ok := l.WithRole("pinion")
	if !ok || l.Scope.Has("per_fine_turn") {
		return
	}
	const group = "Fine feed"
	if s.choose(Field{Name: "fine", Label: "Worm and wheel on the pinion's shaft", Options: []Option{{"none", "none"}, {"worm", "with a wheel to turn it"}}, Group: group}, "none") == "none" {
		return
	}
	names := pinion(s, p, group)
	s.typed(sc, quiet("wheel_teeth", "teeth of the worm's wheel", "z_2", unit.Count), Field{Name: "wheel_teeth", Label: "Teeth of the worm's wheel", Group: group}, "30", 10, 200, nan)
	sc.Formula(shown("fine", "quill moved by a turn of the fine wheel", "p_f", unit.MM), "pi * module * teeth / wheel_teeth", "geometry: a turn of a single worm turns its wheel by a tooth, π m z / z₂", names)
}

// pinion is its module and teeth, of the measuring sheet or asked for once.
func pinion(s *Site, p *axis.Part, group string) sheet.With {
	asked := func(name string, q sheet.Q, label string, least, most float64) string {
		if s.Scope.Has(q.Key) {
			return s.Scope.Key(q.Key)
		}
		return s.measuredOr(p.Key+"."+name, q, Field{Name: name, Label: label, Group: group}, "", least, most)
	}
	return sheet.With{"module": asked("module", quiet("module_asked", "pinion's module", "m", unit.MM), "Module of the pinion", 0.3, 5),
		"teeth": asked("teeth", quiet("teeth_asked", "pinion's teeth", "z", unit.Count), "Teeth of the pinion", 5, 100)}
}

// spring: what brings the quill back up carries its weight, and no more than that twice.
func (quillPlay) spring(s *Site) {
	l, sc := s.Layout, s.Scope
	p, ok := l.WithRole("pinion")
	if !ok {
		return
	}
	const group = "Return spring"
	if s.choose(Field{Name: "spring", Label: "Set anew", Options: []Option{{"no", "no"}, {"yes", "yes"}}, Group: group}, "no") == "no" {
		return
	}
	s.typed(sc, quiet("quill_mass", "mass of quill, spindle and chuck", "m", unit.Kilogram), Field{Name: "quill_mass", Label: "Mass of quill, spindle and chuck", Group: group}, "", 0.1, 200, nan)
	names := pinion(s, p, group)
	names["mass"] = "quill_mass"
	sc.Method(quiet("quill_weight", "weight of quill, spindle and chuck", "W", unit.Newton), slide.Weight, names)
	sc.Formula(shown("spring_torque", "torque that holds the quill up", "T", unit.NewtonMetre), "quill_weight * module * teeth / 2", "statics: the weight at the pinion's pitch radius, W m z / 2", names)
}

func (quillPlay) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	if strings.TrimSpace(s.input("wanted", "")) == "" {
		say.text("Say how much play the quill should have, and how far its nose swings is shown here.")
		return say.runs
	}
	say.failures(s, r)
	say.became("Right out the nose swings ", "", s, r, s.Goals[0].Key)
	if in, ok := s.figured(r, s.Scope.Key("swing_in")); ok {
		say.text(" Right in it is ").strong(in).text(".")
	}
	for _, more := range []struct{ key, before, after string }{{"dia", "The new quill is ", " across."}, {"left", "Around the sleeve ", " of the casting is left."}, {"per_mark", "A mark of the depth nut is ", "."},
		{"fine", "A turn of the fine wheel is ", "."}, {"spring_torque", "Set the spring until a lever on the pinion needs ", " to hold the quill."}} {
		if text, ok := s.figured(r, s.Scope.Key(more.key)); ok {
			say.text(" " + more.before).strong(text).text(more.after)
		}
	}
	if s.input("way", "clamp") == "clamp" {
		say.text(" Nothing else follows.")
	}
	return say.runs
}
