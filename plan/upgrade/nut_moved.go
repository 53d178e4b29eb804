package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// nutMoved: the nut that there is, fixed elsewhere: further along, or in line.
type nutMoved struct{}

func (nutMoved) About() About {
	return About{
		Key: "nut_moved", Label: "Nut moved, or brought into line",
		Words:   []string{"realign the nut", "alignment", "nut block", "shim", "binding", "tight at one end", "relocate", "feed nut"},
		Purpose: "The nut is fixed further along, so that the slide reaches further at one end; or it is brought into line with its screw, so that it winds as lightly next to the bracket as elsewhere.",
		Cautions: []string{
			"Isolate the machine before the slide is taken off its screw.",
			"A fixing screw that is pulled tight twists the nut out of line: pinch it up at the near end, wind out, and only then tighten.",
			"Look where oil ways, gib screws and tapped holes run before anything is drilled into a slide.",
		},
		Proof: "The push on the handle at three places, the same all along; travel by gauge at both ends; lost motion at three places.",
		Hours: [2]float64{1, 4}, Risk: LowRisk, Undo: Undone, Own: false,
		Needs: []part.Capability{part.Milling},
		Cures: []string{"jams.nut", "reach.window"},
	}
}

// Suits a nut on a screw whose line is known.
func (nutMoved) Suits(l *axis.Layout) bool {
	nut, okN := l.WithRole("nut")
	return okN && nut.Tie == nil && l.Scope.Has("screw_line.distance")
}

// Trials: into line, or along.
func (nutMoved) Trials(l *axis.Layout) []Trial {
	return []Trial{
		{"into line", map[string]string{"for": "line", "left": "0.02 mm"}},
		{"further " + l.EndName(axis.Plus), map[string]string{"for": string(axis.Plus)}},
	}
}

func (k nutMoved) Apply(s *Site) {
	l := s.Layout
	s.claim("nut", "the nut's fixing")
	chosen := s.choose(Field{Name: "for", Label: "Moved", Options: []Option{
		{string(axis.Plus), "along, for more travel " + l.EndName(axis.Plus)}, {string(axis.Minus), "along, for more travel " + l.EndName(axis.Minus)}, {"line", "into line with its screw"}}}, string(axis.Plus))
	nut, _ := l.WithRole("nut")
	if chosen == "line" {
		k.intoLine(s, nut)
		return
	}
	k.along(s, nut, axis.End(chosen))
}

// along moves the nut for more travel at an end.
func (k nutMoved) along(s *Site, nut *axis.Part, gains axis.End) {
	l, sc := s.Layout, s.Scope
	s.aimAt(gains)
	s.typed(sc, quiet("amount", "nut moved by", "d", unit.MM), Field{Name: "amount", Label: "Moved by", Hint: `6, 1/4", 0.25 in`}, "", 0, mostTravel, 0)
	s.Amount, s.Most = sc.Key("amount"), 40
	shifts(s, gains, s.Amount, func() { move(s, nut, nutSign(nut, gains), s.Amount) })
	s.typed(sc, quiet("room", "room beside the nut, where it goes", "", unit.MM), Field{Name: "room", Label: "Room beside it, where it goes", Hint: "to the next wall, rib or hole of the part that carries it"}, "", 0, 500, nan)
	sc.Formula(quiet("room_left", "room left beside the nut", "", unit.MM), "room - amount", "geometry")
	sc.Check(sheet.Check{Key: "room_check", Label: "Room for the nut where it goes", Figure: "room_left", Limit: l.Find("touching"), Level: sheet.Stop,
		Sentence: "{figure} is left beside the nut where it goes.", Source: "geometry"})
	k.fixing(s)
	k.forces(s, "screw_line.misalignment")
}

// fixing asks how the nut is held there, and keeps new holes out of old ones.
func (nutMoved) fixing(s *Site) {
	sc := s.Scope
	const group = "Fixing"
	how := s.choose(Field{Name: "fixing", Label: "Held there by", Group: group, Options: []Option{
		{"slot", "its old holes, made into slots"}, {"holes", "new tapped holes beside the old ones"}}}, "slot")
	if how != "holes" {
		return
	}
	s.typed(sc, quiet("bolt", "screw that holds the nut, diameter", "d_b", unit.MM), Field{Name: "bolt", Label: "Screw that holds it, diameter", Group: group}, "", 1, 40, nan)
	sc.Formula(quiet("between", "metal between old and new hole", "w", unit.MM), "when(amount > 0, amount - bolt, inf)", "geometry: holes of one size, as far apart as the nut is moved")
	s.Layout.Limit(sc, quiet("between_least", "least metal between two tapped holes", "w_min", unit.MM), sheet.Method{Text: "bolt", Source: "common practice, no source: one diameter of metal beside a tapped hole"})
	sc.Check(sheet.Check{Key: "between_check", Label: "New hole clear of the old one", Figure: "between", Limit: "between_least", Level: sheet.Rule,
		Sentence: "{figure} of metal stays between the old hole and the new one, and {limit} is wanted: plug the old one, or make it a slot.", Source: "common practice, no source"})
}

// intoLine brings the nut onto the screw's line.
func (k nutMoved) intoLine(s *Site, nut *axis.Part) {
	l, sc := s.Layout, s.Scope
	in := l.Scope.In(nut.Key)
	if !l.Scope.Has(nut.Key + ".off_line") {
		s.typed(in, quiet("off_line", "nut off the screw's line", "e", unit.MM), Field{Name: "found", Label: "Off the screw's line, as it is", Hint: "0.1; by a gauge on the free end, nut out and nut in"}, "", 0, 5, nan)
		in.Method(shown("side_force", "side force of the nut nearest the bracket", "F", unit.Newton), screw.SideForce,
			sheet.With{"modulus": "screw_line.modulus", "second_moment": "screw_line.second_moment", "misalignment": nut.Key + ".off_line", "distance": "screw_line.distance"})
	}
	s.aim(nut.Key+".side_force", unit.Newton, true)
	s.typed(sc, quiet("left", "nut off the screw's line, afterwards", "e", unit.MM), Field{Name: "left", Label: "Off the line afterwards, at most", Hint: "0.02; what a gauge and shims can do"}, "", 0, 5, nan)
	s.Amount, s.Most = sc.Key("left"), 0.5
	l.Scope.Change(nut.Key+".off_line", "left", "as asked", sheet.With{"left": s.Amount})
	l.Scope.Change("screw_line.misalignment", "left", "as asked", sheet.With{"left": s.Amount})
	sc.Check(sheet.Check{Key: "felt_check", Label: "Side force is not felt", Figure: nut.Key + ".side_force", Limit: l.Find("screw_line.side_force_most"), AtMost: true, Level: sheet.Rule,
		Sentence: "A nut so far off the line presses with {figure} where it comes nearest the bracket; above {limit} it is felt.", Source: screw.SideForce.Source})
	k.forces(s, nut.Key+".off_line")
}

// forces tells what the nut presses with at either end of the screw: an eighth
// at twice the distance.
func (nutMoved) forces(s *Site, off string) {
	l, sc := s.Layout, s.Scope
	if !screwSpan(s) {
		return
	}
	for _, at := range []struct{ key, label, distance string }{{"near", "nearest the bracket", l.Find("screw_line.distance")}, {"far", "furthest from the bracket", sc.Key("span")}} {
		sc.Method(quiet("side_"+at.key, "side force of the nut, "+at.label, "F", unit.Newton), screw.SideForce,
			sheet.With{"modulus": "screw_line.modulus", "second_moment": "screw_line.second_moment", "misalignment": off, "distance": at.distance})
	}
}

// screwSpan defines the longest way from the bracket to the nut's middle: what of
// the screw can be pressed on, or pushed aside. It reports false where the axis
// does not know where its nut stands.
func screwSpan(s *Site) bool {
	l := s.Layout
	b, okB := l.WithRole("bracket")
	nut, okN := l.WithRole("nut")
	if !okB || !okN || !l.Scope.Has("screw_line.middle") {
		return false
	}
	face, text := ".from", "max(abs(face - middle - asked_minus), abs(face - middle - asked_plus))"
	if handleSign(l) == "-" {
		face = ".to"
	}
	if nut.Side != axis.Moving {
		text = "max(abs(face + asked_minus - middle), abs(face + asked_plus - middle))"
	}
	s.Scope.Formula(quiet("span", "bracket to the middle of the nut, furthest", "L", unit.MM), "max(mm(1), "+text+")", "geometry", sheet.With{"face": b.Key + face, "middle": "screw_line.middle"})
	return true
}

func (k nutMoved) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	amount, ok := r.Figure(s.Amount, sheet.Planned)
	if in := s.input("for", string(axis.Plus)); in != "line" {
		if !ok || !(amount.Value > 0) {
			say.text("Say how far the nut should be moved, and what is gained at one end and lost at the other is shown here.")
			return say.runs
		}
		say.shiftTold(s, r, axis.End(in), amount.Value)
	} else if !ok || !amount.Known() {
		say.text("Say how near the line the nut should come, and what it then presses on the screw with is shown here.")
		return say.runs
	} else {
		say.failures(s, r)
		say.became("Nearest the bracket it presses with ", "", s, r, s.Goals[0].Key)
	}
	far, okF := s.figured(r, s.Scope.Key("side_far"))
	switch near, okN := s.figured(r, s.Scope.Key("side_near")); {
	case !okN || !okF:
	case s.input("for", string(axis.Plus)) == "line":
		say.text(" At the far end it is ").strong(far).text(": that is why a nut off the line goes hard at one end only. Nothing else follows.")
	default:
		say.text(" As far off the line as is assumed, it presses on the screw with ").strong(near).text(" next to the bracket and with ").strong(far).text(" at the far end.")
	}
	return say.runs
}

// Parts of a moved nut: none; what is done to it, and how it is brought into line.
func (k nutMoved) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	nut, _ := s.Layout.WithRole("nut")
	b, _ := s.Layout.WithRole("bracket")
	if f, ok := r.Figure(s.Amount, m.stage()); !ok || !f.Known() || s.input("for", string(axis.Plus)) != "line" && f.Value <= shownLength {
		return Make{}
	}
	m.proofOf(k.About())
	m.step(measured, "", part.Operation{Key: "find_line", Do: "Slide off its screw, gib out: wind the nut along the screw by hand and feel where it goes hard. With a gauge on the screw next to the " + b.Label + ", nip the nut's fixing up and slacken it: what the gauge shows is how far the nut pulls the screw aside, up and down and sideways.",
		Needs: []part.Capability{part.Bench}, Out: m.Layout.Key, After: []string{"readings_before"}, Minutes: [2]float64{45, 90}, Record: "how far it is pulled, in both directions", Cautions: []string{isolate},
		Asks: []string{"Does it go hard next to the bracket only? Then it is out of line. In the middle only: the screw is bent. Everywhere: the thread itself is tight."}})
	m.step(stripped, "", part.Operation{Key: "nut_off", Do: "Take the slide off its screw and the nut off its place. A photo of the shims before they come off.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "where shims lay, with a photo", Cautions: []string{isolate}})
	if s.input("for", string(axis.Plus)) != "line" {
		movedNut(m, nut, s.Amount)
	}
	m.buy(part.Bought{Key: "shims", Label: "shim stock, 0.02 to 0.5 mm", Quantity: 1, For: "align_nut", Source: "common practice, no source"})
	m.step(assembled, "", part.Operation{Key: "align_nut", Do: "Set the nut on with its fixing just nipped. Wind it to the end nearest the " + b.Label + ", pinch it up there, wind out to the far end and tighten. Where it still goes hard near the " + b.Label + ", shim under the nut by what the gauge showed up and down; sideways, ease its holes.",
		Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 120}, Record: "push on the handle at three places, and the shims that are in", Cautions: []string{isolate},
		Asks: []string{"Does it wind as lightly next to the bracket as at the far end, with the fixing tight?"}})
	return m.finish()
}
