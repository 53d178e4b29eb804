package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/drive"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// headRiser: blocks under a lathe's headstock, and all that has to follow it up.
type headRiser struct{}

func (headRiser) About() About {
	return About{
		Key: "head_riser", Label: "Blocks under the headstock",
		Words:   []string{"riser blocks", "raising blocks", "more swing", "centre height", "larger diameter", "swing over the bed", "packing"},
		Purpose: "Larger work swings over the bed. Tailstock, tool, steadies, belt and change wheels all have to follow the headstock up.",
		Cautions: []string{
			"Isolate the machine. A headstock weighs 20 to 80 kg: a hoist or a second pair of hands, never a lift alone.",
			"Belt and gear guards are made anew to the new height before it runs.",
			"Large work at the old speeds is dangerous: the rim runs as much faster as the work is larger. Use the lowest speed.",
			"It is taller and less stiff: bolt the lathe down anew, and take light cuts.",
		},
		Proof: "Spindle parallel to the bed in both planes, 0.02 mm upwards and 0.015 mm sideways in 300; tailstock 0 to 0.04 mm high; a push of 200 N at the chuck, before and after.",
		Hours: [2]float64{12, 40}, Risk: HighRisk, Undo: Undone, Own: true,
		Needs: []part.Capability{part.Milling, part.Grinding, part.Scraping},
		Cures: []string{"swing.bed"},
	}
}

// Suits the cross slide of a lathe: what swings over it and over the bed stands there.
func (headRiser) Suits(l *axis.Layout) bool { return latheSlide(l) }

// Trials of the blocks: as high as everything follows.
func (headRiser) Trials(*axis.Layout) []Trial { return asUsual }

func (k headRiser) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	s.aim("largest_disc", unit.MM, false)
	s.Goals = append(s.Goals, sheet.Goal{Key: l.Find("start_disc")})
	s.claim("headstock", "the headstock's place")
	s.typed(sc, quiet("amount", "height of the blocks", "R", unit.MM), Field{Name: "amount", Label: "Height of the blocks", Hint: `20, 1 in`}, "", 0, 200, 0)
	s.Amount, s.Most = sc.Key("amount"), 100
	sc.Fix(quiet("before", "centre height before", "h", unit.MM), "swing_bed / 2", "decided: as it stood")
	for _, swing := range []string{"swing_bed", "swing_slide"} {
		l.Scope.Change(swing, "was + 2 * amount", "geometry: the axis goes up by the blocks", sheet.With{"amount": s.Amount})
	}
	k.leverage(s)
	k.tool(s)
	k.gears(s)
	k.belt(s)
	k.foot(s)
}

// leverage: a cut presses on the headstock's joint with the height of its axis.
func (headRiser) leverage(s *Site) {
	l, sc := s.Layout, s.Scope
	sc.Formula(shown("leverage", "a cut's moment on the headstock's foot, against before", "k", unit.One), "swing_bed / 2 / before", "statics: the moment of a force at the axis goes with its height")
	l.Assume(sc, quiet("leverage_most", "most that the moment may be, against before", "k_max", unit.One), 1.5, "common practice, no source: half as much again wants light cuts; more is not stiff enough to part off")
	l.Assume(sc, quiet("leverage_near", "moment below that within which it is tight", "k", unit.One), 0.25, "common practice, no source")
	sc.Check(sheet.Check{Key: "leverage_check", Label: "Headstock stiff on its blocks", Figure: "leverage", Limit: "leverage_most", AtMost: true, Tight: "leverage_near", Level: sheet.Rule,
		Sentence: "A cut turns {figure} times as much on the headstock's foot as it does now, and {limit} times is the most that is sensible.", Source: "common practice, no source"})
}

// tool: what holds the tool goes up as well, as far as it can, and stands on a
// block for the rest.
func (headRiser) tool(s *Site) {
	s.typed(s.Scope, quiet("tool_up", "tool can be set higher by", "u", unit.MM), Field{Name: "tool_up", Label: "Tool can still be set higher by", Hint: "in its holder, or by packing taken from below it"}, "0", 0, 100, 0)
	s.Scope.Formula(shown("tool_block", "block under the tool post", "b_t", unit.MM), "max(0, amount - tool_up)", "geometry: the tool's tip follows the axis")
}

// gears: the change wheels reach from the spindle down to the lead screw.
func (headRiser) gears(s *Site) {
	l, sc := s.Layout, s.Scope
	const group = "Change wheels"
	if s.choose(Field{Name: "gears", Label: "Lead screw driven from the spindle by wheels", Group: group, Options: []Option{{"yes", "yes"}, {"no", "no, or given up"}}}, "yes") == "no" {
		return
	}
	s.typed(sc, quiet("quadrant", "quadrant swings further by", "q", unit.MM), Field{Name: "quadrant", Label: "Quadrant can reach further by", Hint: "swing it and slide its studs: how much farther apart spindle and lead screw could be", Group: group}, "", 0, 200, nan)
	sc.Formula(quiet("reach_left", "reach of the change wheels left", "", unit.MM), "quadrant - amount", "geometry: at the most, the lead screw straight below the spindle")
	sc.Check(sheet.Check{Key: "gears_check", Label: "Change wheels reach the lead screw", Figure: "reach_left", Limit: l.Find("touching"), Level: sheet.Rule,
		Sentence: "The change wheels have {figure} of reach left; below {limit} an idler between the two, or a larger wheel, has to make up for it.", Source: "geometry"})
}

// belt: its pulley on the spindle goes up, the motor's stays.
func (headRiser) belt(s *Site) {
	sc := s.Scope
	const group = "Belt"
	if s.choose(Field{Name: "motor", Label: "The motor", Group: group, Options: []Option{{"stays", "stays where it is"}, {"rises", "goes up with the headstock"}}}, "stays") == "rises" {
		return
	}
	ask := func(key, label, say, hint string, least float64) {
		s.typed(sc, quiet(key, label, "", unit.MM), Field{Name: key, Label: say, Hint: hint, Group: group}, "", least, 2000, nan)
	}
	ask("driven", "pulley on the spindle", "Pulley on the spindle, diameter", "where the belt lies", 1)
	ask("driver", "pulley on the motor", "Pulley on the motor, diameter", "the belt's usual step", 1)
	ask("apart", "pulleys apart, middle to middle", "Pulleys apart, middle to middle", "", 1)
	ask("above", "spindle above the motor's shaft", "Spindle above the motor's shaft", "level with a rule; 0 where they stand level", 0)
	sc.Formula(quiet("apart_after", "pulleys apart, on the blocks", "C", unit.MM), "sqrt(pow(apart, 2) + 2 * above * amount + pow(amount, 2))", "geometry: the spindle goes straight up")
	sc.Method(quiet("belt_before", "belt's length before", "L", unit.MM), drive.BeltLength, sheet.With{"centres": sc.Key("apart")})
	sc.Method(shown("belt", "belt's length along its pitch line", "L", unit.MM), drive.BeltLength, sheet.With{"centres": sc.Key("apart_after")})
	sc.Formula(quiet("belt_more", "belt longer by", "", unit.MM), "belt - belt_before", "geometry")
}

// foot asks for what the blocks are made by.
func (headRiser) foot(s *Site) {
	const group = "Foot of the headstock"
	ask := func(key, say, hint string) {
		s.typed(s.Scope, quiet(key, lower(say), "", unit.MM), Field{Name: key, Label: say, Hint: hint, Group: group}, "", 1, 1000, nan)
	}
	ask("foot_length", "Foot, along the bed", "across the joint")
	ask("foot_width", "Foot, across the bed", "across the joint")
	ask("bolt", "Bolts of the headstock, length", "under the head")
	s.Scope.Formula(shown("bolts", "bolts of the headstock", "l_b", unit.MM), "when(amount > 0, stock_bolt(bolt + amount), bolt)", "geometry: as much longer as the blocks are high; ISO 888: preferred lengths of bolts")
}

func (headRiser) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	amount, _ := r.Figure(s.Amount, sheet.Planned)
	if !(amount.Value > 0) {
		say.text("Say how high the blocks should be, and everything that has to follow the headstock is shown here.")
		return say.runs
	}
	say.failures(s, r)
	say.text("Blocks of ").strong(show(s, amount.Value)).text(" under the headstock, and under the tailstock as well. ")
	say.became("What swings over the bed, less clearance, comes to ", "", s, r, s.Goals[0].Key)
	say.goals(s, r)
	if block, ok := r.Figure(s.Scope.Key("tool_block"), sheet.Planned); ok && block.Known() && block.Value > shownLength {
		say.text(" The tool post stands on a block of ").strong(show(s, block.Value)).text(".")
	}
	if belt, ok := r.Figure(s.Scope.Key("belt_more"), sheet.Planned); ok && belt.Known() {
		say.text(" The belt is ").strong(show(s, belt.Value)).text(" longer.")
	}
	say.text(" Steadies, guards and splash tray follow too.")
	return say.runs
}
