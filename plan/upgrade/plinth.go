package upgrade

import (
	"strings"

	"fettle/plan/axis"
	"fettle/plan/joint"
	"fettle/plan/material"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// plinth: a solid block in place of the top slide.
type plinth struct{}

func (plinth) About() About {
	return About{
		Key: "plinth", Label: "Plinth in place of the top slide",
		Words:   []string{"solid post", "solid toolpost", "compound delete", "compound rest", "tool block", "parting off", "chatter", "rigidity"},
		Purpose: "The toolpost stands on solid metal: fewer joints and slides between tool and bed. What the top slide did, feeding at an angle, is given up for as long as it is fitted.",
		Cautions: []string{
			"Isolate the machine before the toolpost comes off.",
			"A top slide with its toolpost is heavy for its size: hold it while its last bolt comes out.",
			"A tool that is too high or too low digs in: check its height against a centre before the first cut.",
			"Cast-iron dust: mask, extraction or a magnet, never an air line.",
		},
		Proof: "A dial gauge at the tool, its foot on the cross slide, the tool pushed with 200 N by a spring balance, before and after; a test cut by a parting tool.",
		Hours: [2]float64{3, 8}, Risk: LowRisk, Undo: Undone, Own: true,
		Needs: []part.Capability{part.Milling},
		Cures: []string{"rocks.stack"},
	}
}

// Suits a top slide.
func (plinth) Suits(l *axis.Layout) bool { return l.Capacity.Key == "toolpost" }

// Trials of a plinth: with as much of its holder's range left up as down, where that
// was measured; else as high as all holds.
func (plinth) Trials(l *axis.Layout) []Trial {
	if middle := asFound(l, "centre_above_cross") - (asFound(l, "holder_lowest")+asFound(l, "holder_highest"))/2; middle > 0 {
		return []Trial{{"", map[string]string{"height": unit.MM.With(middle)}}}
	}
	return asUsual
}

func (k plinth) Apply(s *Site) {
	sc := s.Scope
	s.typed(sc, shown("gives", "tool moves against the cross slide, pushed with 200 N", "δ", unit.Micrometre), Field{Name: "now", Label: "Tool moves against the cross slide under 200 N, as it is", Hint: "a gauge's foot on the cross slide, its tip at the tool, a spring balance beside it"}, "", 0, 5000, nan)
	s.aim("upgrade_"+s.ID+".gives", unit.Micrometre, true)
	s.claim("top_slide", "the place of the top slide")
	s.typed(sc, quiet("height", "height of the plinth", "H", unit.MM), Field{Name: "height", Label: "Height of the plinth"}, "", 0, 300, nan)
	s.Amount, s.Most = sc.Key("height"), 200
	names := sheet.With{
		"centre": s.measuredOr("centre_above_cross", quiet("centre", "centre height above the cross slide's top", "h_c", unit.MM), Field{Name: "centre", Label: "Centre height above the cross slide's top"}, "", 5, 500),
		"low":    s.measuredOr("holder_lowest", quiet("low", "tool's tip above the toolpost's foot, lowest", "t_1", unit.MM), Field{Name: "low", Label: "Tool's tip above the toolpost's foot, lowest", Hint: "holder right down"}, "", 0, 300),
		"high":   s.measuredOr("holder_highest", quiet("high", "tool's tip above the toolpost's foot, highest", "t_2", unit.MM), Field{Name: "high", Label: "Tool's tip above the toolpost's foot, highest", Hint: "holder right up"}, "", 0, 300),
	}
	k.tip(s, names)
	k.bolts(s)
	k.stiffness(s, names)
	sc.Formula(shown("given_up", "travel of the top slide given up", "", unit.MM), "travel", "decided: the plinth stands in its place")
}

// tip: the tool comes to centre height within what its holder is set up and down.
func (plinth) tip(s *Site, names sheet.With) {
	l, sc := s.Layout, s.Scope
	sc.Formula(quiet("tip_low", "tool's tip with its holder right down", "", unit.MM), "height + low", "geometry", names)
	sc.Formula(quiet("tip_high", "tool's tip with its holder right up", "", unit.MM), "height + high", "geometry", names)
	sc.Check(sheet.Check{Key: "down_check", Label: "Tool goes down to the centre", Figure: "tip_low", Limit: names["centre"], AtMost: true, Level: sheet.Stop,
		Sentence: "With its holder right down the tip stands {figure} above the cross slide, and the centre at {limit}.", Source: "geometry"})
	sc.Check(sheet.Check{Key: "up_check", Label: "Tool comes up to the centre", Figure: "tip_high", Limit: names["centre"], Level: sheet.Stop,
		Sentence: "With its holder right up the tip stands {figure} above the cross slide, and the centre at {limit}.", Source: "geometry"})
	sc.Formula(shown("middle", "height that leaves as much up as down", "H_m", unit.MM), "centre - (low + high) / 2", "geometry", names)
	sc.Formula(quiet("either", "holder's room to the nearer end of its range", "", unit.MM), "min(tip_high - centre, centre - tip_low)", "geometry", names)
	l.Assume(sc, quiet("either_least", "room wanted for other tools", "", unit.MM), 2, "common practice, no source: 2 mm up and down, for tools of another height")
	sc.Check(sheet.Check{Key: "either_check", Label: "Room for other tools", Figure: "either", Limit: "either_least", Level: sheet.Rule, Advice: true,
		Sentence: "The holder has {figure} to the nearer end of its range, and {limit} is wanted for other tools.", Source: "common practice, no source"})
}

// bolts that hold it down, within its foot.
func (plinth) bolts(s *Site) {
	l, sc := s.Layout, s.Scope
	const group = "The block and its bolts"
	s.typed(sc, quiet("base_long", "plinth's length", "L", unit.MM), Field{Name: "base_long", Label: "Length of the block", Group: group}, s.proposed(80), 10, 400, 80)
	s.typed(sc, quiet("base_wide", "plinth's width", "W", unit.MM), Field{Name: "base_wide", Label: "Width of the block", Group: group}, s.proposed(70), 10, 400, 70)
	size := s.choose(Field{Name: "bolt", Label: "Bolts", Options: screwSizes("M6", "M8"), Group: group}, "M8")
	count := s.choose(Field{Name: "bolts", Label: "How many", Options: []Option{{"2", "two"}, {"4", "four"}}, Group: group}, "2")
	t := coarse(size)
	s.own(quiet("bolt_dia", "diameter of the plinth's bolts", "d", unit.MM), t.Dia, size)
	s.own(quiet("bolts", "plinth's bolts", "n", unit.Count), float64(few(count)), "as chosen")
	across := s.measuredOr("swivel_circle", quiet("across", "bolts apart, the farthest", "", unit.MM), Field{Name: "across", Label: "Bolts apart, the farthest", Hint: "the swivel's own holes are used again", Group: group}, "", 5, 400)
	sc.Formula(quiet("edge", "bolt's middle from the block's end", "e", unit.MM), "(base_long - across) / 2", "geometry: along the block's length", sheet.With{"across": across})
	l.Limit(sc, quiet("edge_least", "least from a bolt's middle to the block's end", "", unit.MM), sheet.Method{Text: "1.5 * bolt_dia", Source: "common practice, no source: 1.5 diameters from a hole's middle to an edge"})
	sc.Check(sheet.Check{Key: "edge_check", Label: "Bolts within the block", Figure: "edge", Limit: "edge_least", Level: sheet.Rule,
		Sentence: "A bolt's middle is {figure} from the block's end, and {limit} is the least.", Source: "common practice, no source"})
	s.typed(sc, quiet("tapped", "thread in the cross slide, depth", "", unit.MM), Field{Name: "tapped", Label: "Depth of the threads in the cross slide", Hint: "or of a nut in its T-slot", Group: group}, "", 1, 100, nan)
	l.Limit(sc, quiet("tapped_least", "least thread for the plinth's bolts", "", unit.MM), sheet.Method{Text: "1.5 * bolt_dia + mm(1)", Source: joint.BoltInIron.Source + ", and 1 mm below the bolt's end"})
	sc.Check(sheet.Check{Key: "tapped_check", Label: "Thread for the plinth's bolts", Figure: "tapped", Limit: "tapped_least", Level: sheet.Rule,
		Sentence: "The threads are {figure} deep, and {limit} is the least in cast iron.", Source: joint.BoltInIron.Source})
}

// stiffness: the block bends, and turns on its two joints.
func (plinth) stiffness(s *Site, names sheet.With) {
	l, sc := s.Layout, s.Scope
	var options []Option
	for _, key := range []string{"gjl250", "s275", "6082"} {
		x, _ := material.Named(key)
		options = append(options, Option{key, x.Name})
	}
	stuff, _ := material.Named(s.choose(Field{Name: "material", Label: "Made of", Options: options, Group: "The block and its bolts"}, "gjl250"))
	sc.Measure(quiet("modulus", "modulus of the plinth", "E", unit.MPa), sheet.Leaf{Value: stuff.Modulus, Origin: sheet.Chosen, Note: stuff.Name + "; " + stuff.Source})
	l.Assume(sc, quiet("force", "push at the tool", "F", unit.Newton), 200, "common practice, no source: 200 N, by which it is proved")
	l.Assume(sc, quiet("full_torque", "torque of each bolt", "T", unit.NewtonMetre), unit.NewtonMetre.In(0.7*joint.BoltTorques[coarse(s.input("bolt", "M8")).Dia]), "common practice: class 8.8 at a friction of 0.14, 70 % of it into iron")
	sc.Method(quiet("pull", "pull of each bolt", "", unit.Newton), joint.BoltForce, sheet.With{"bolt_torque": "full_torque"})
	sc.Formula(quiet("press", "pressure that the bolts give the joint", "p", unit.MPa), "bolts * pull / (base_long * base_wide)", "statics: n F / L W")
	l.Assume(sc, quiet("give_ref", "joint gives at 1 kgf/cm²", "", unit.Micrometre), unit.Micrometre.In(slide.ContactRef), slide.ContactRefSource)
	sc.Method(quiet("give", "joint gives for a little more pressure", "", perMPa), slide.ContactGive)
	sc.Formula(quiet("short_side", "plinth's shorter side", "", unit.MM), "min(base_long, base_wide)", "geometry: it turns most easily over that")
	sc.Formula(quiet("long_side", "plinth's longer side", "", unit.MM), "max(base_long, base_wide)", "geometry")
	sc.Method(quiet("second_moment", "second moment of the plinth", "I", unit.MM4), slide.BlockSecondMoment, sheet.With{"width": "long_side", "height": "short_side"})
	sc.Formula(quiet("arm", "tool's tip above the plinth", "a", unit.MM), "centre - height", "geometry", names)
	sc.Method(quiet("bend", "plinth bends", "", unit.Micrometre), slide.OverhangBend, sheet.With{"overhang": "height"})
	l.Assume(sc, quiet("bears", "part of a bolted face that bears", "", unit.Percent), 50, "common practice, no source: half of it, what is near the bolts")
	sc.Formula(quiet("joint_give", "joint turns for a moment across it", "", perMoment), "("+slide.JointGive.Text+") / bears", slide.JointGive.Source+"; as much more as less of it bears", sheet.With{"face_width": "long_side", "face_length": "short_side"})
	sc.Method(quiet("foot", "plinth turns on the cross slide", "", unit.Micrometre), slide.OneJoint, sheet.With{"before": names["centre"]})
	sc.Method(quiet("top", "toolpost turns on the plinth", "", unit.Micrometre), slide.OneJoint, sheet.With{"before": "arm"})
	sc.Change("gives", "bend + foot + top", "springs in series: the block, its joint, and the toolpost's, taken to be as well bolted")
}

// Units of joints.
var (
	perMPa    = unit.Unit{Symbol: "µm/MPa", Dim: unit.LengthD.Per(unit.MPa.Dim), Scale: 0.001, Decimals: 2}
	perMoment = unit.Unit{Symbol: "rad/(N·m)", Dim: unit.Number.Per(unit.NewtonMetre.Dim), Scale: 0.001, Decimals: 6}
)

func (plinth) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	if strings.TrimSpace(s.input("height", "")) == "" {
		say.text("Say how high the plinth is, and what becomes of the tool is shown here.")
		if mid, ok := s.figured(r, s.Scope.Key("middle")); ok {
			say.text(" ").strong(mid).text(" leaves the holder as much up as down.")
		}
		return say.runs
	}
	say.failures(s, r)
	say.became("Pushed with 200 N the tool moves against the cross slide by ", "", s, r, s.Goals[0].Key)
	if e, ok := s.figured(r, s.Scope.Key("either")); ok {
		say.text(" Its holder has ").strong(e).text(" to the nearer end of its range.")
	}
	say.text(" The top slide comes off: its feed at an angle")
	if up, ok := s.figured(r, s.Scope.Key("given_up")); ok {
		say.text(", and its ").strong(up).text(" of travel,")
	}
	say.text(" are given up for as long.")
	return say.runs
}
