package upgrade

import (
	"strings"

	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// powerFeed: a motor with a clutch on the feed screw, and switches that stop it.
type powerFeed struct{}

func (powerFeed) About() About {
	return About{
		Key: "power_feed", Label: "Power feed",
		Words:   []string{"table feed", "motor drive", "power traverse", "feed motor", "stepper", "wiper motor", "x axis feed", "automatic feed"},
		Purpose: "A motor turns the feed screw: an even feed, and no hundred turns by hand.",
		Cautions: []string{
			"Isolate the machine and the feed: unplug both, and lock the plugs away, before a cover comes off.",
			"Mains wiring is for a competent electrician: earth, fuse, enclosure against swarf and coolant, by your local codes. Better a motor of 24 V with a supply that is bought.",
			"An emergency stop within reach stops feed and spindle, stays in until it is pulled out, and is wired so that a broken wire stops them too.",
			"After a power failure, and after the emergency stop, nothing starts by itself: a no-volt release, and a start button.",
			"The handle must free-wheel or come off while the motor turns: a spinning handle breaks wrists.",
			"Gears, belts and the coupling are guarded: fingers are drawn in.",
		},
		Proof: "Steady from the slowest feed to the fastest under a cut; it trips at both ends ten times running; the clutch slips when the slide is held; the emergency stop stops it, and it stays stopped.",
		Hours: [2]float64{8, 20}, Risk: MediumRisk, Undo: Undone, Own: true,
		Needs: []part.Capability{part.Turning, part.Milling},
		Cures: []string{"stiff.turns"},
	}
}

// Suits a slide or table that a screw drives.
func (powerFeed) Suits(l *axis.Layout) bool {
	_, ok := l.WithRole("bracket")
	return ok && sliding(l) && screwed(l) && (l.Arr.Key == "held_screw" || l.Arr.Key == "travelling_screw")
}

// Trials of a power feed: as is usual for a small machine.
func (powerFeed) Trials(*axis.Layout) []Trial {
	return []Trial{{"", map[string]string{"fastest": "150 mm/min", "speed": "150 rpm", "torque": "8 N·m", "slips": "4 N·m"}}}
}

func (k powerFeed) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	t, _ := l.WithRole("thread")
	s.claim("drive", "the drive of the screw")
	s.typed(sc, shown("fastest", "fastest feed", "v", mmPerMin), Field{Name: "fastest", Label: "Fastest feed", Hint: "100 to 200"}, "", 0, 5000, nan)
	s.Amount, s.Most = sc.Key("fastest"), mmPerMin.Inside(600)
	s.typed(sc, quiet("slowest", "slowest feed", "v_1", mmPerMin), Field{Name: "slowest", Label: "Slowest feed", Hint: "10 to 20"}, "10", 0.1, 1000, nan)
	s.typed(sc, quiet("gears", "turns of the motor's shaft for one of the screw", "i", unit.One), Field{Name: "gears", Label: "Turns of the motor's shaft for one of the screw", Hint: "1 where it is coupled to it"}, "1", 0.05, 1000, 1)
	s.typed(sc, quiet("speed", "motor's shaft, fastest", "n", unit.RPM), Field{Name: "speed", Label: "Motor's shaft at its fastest", Hint: "of a geared motor, behind its gears", Group: "The motor"}, "", 1, 20000, nan)
	s.typed(sc, quiet("torque", "motor's shaft, torque", "T_m", unit.NewtonMetre), Field{Name: "torque", Label: "Torque of its shaft", Group: "The motor"}, "", 0.001, 1000, nan)
	sc.Formula(shown("screw_speed", "screw at the fastest feed", "n", unit.RPM), "2 * pi * fastest / lead", "definition of the lead: n = v / l", sheet.With{"lead": t.Key + ".pitch"})
	sc.Formula(quiet("shaft_speed", "motor's shaft at the fastest feed", "", unit.RPM), "screw_speed * gears", "geometry")
	sc.Check(sheet.Check{Key: "speed_check", Label: "Motor fast enough", Figure: "shaft_speed", Limit: "speed", AtMost: true, Level: sheet.Stop,
		Sentence: "The shaft has to turn at {figure}, and the motor makes {limit}.", Source: "definition of the lead"})
	sc.Formula(quiet("steady", "slowest speed, as a share of the motor's fastest", "", unit.Percent), "2 * pi * slowest / lead * gears / speed", "definition", sheet.With{"lead": t.Key + ".pitch"})
	l.Assume(sc, quiet("steady_least", "slowest share at which a motor turns evenly", "", unit.Percent), 5, "common practice, no source: a regulated direct-current motor from a twentieth of its speed on; a stepper from nought")
	sc.Check(sheet.Check{Key: "steady_check", Label: "Even at the slowest feed", Figure: "steady", Limit: "steady_least", Level: sheet.Rule, Advice: true,
		Sentence: "At the slowest feed it turns at {figure} of its fastest, and below {limit} most motors jerk: gear it down.", Source: "common practice, no source"})
	k.force(s, t)
	k.clutch(s)
	k.switches(s)
}

// force: what the screw needs to be turned by, against a cut.
func (powerFeed) force(s *Site, t *axis.Part) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("cut", "push of a cut against the feed", "", unit.Newton), 500, "common practice, no source: 100 to 500 N on a small machine")
	l.Assume(sc, quiet("drag", "push of the slide alone", "", unit.Newton), 40, "common practice, no source: 10 to 40 N without its screw")
	text := "cut + drag"
	if l.Upright() && l.Scope.Has("moving_mass") {
		sc.Method(quiet("weight", "weight that it lifts", "", unit.Newton), slide.Weight, sheet.With{"mass": "moving_mass"})
		text += " + weight"
	}
	sc.Formula(quiet("force", "thrust of the screw", "F", unit.Newton), text, "statics: sum")
	flanks(s, t)
	l.Assume(sc, quiet("collar_friction", "friction of the thrust face", "µ_c", unit.One), 0.15, "common practice: plain faces, 0.12 to 0.17; 0.003 of rolling bearings")
	sc.Formula(quiet("collar_dia", "thrust face, mean diameter", "d_c", unit.MM), "1.5 * dia", "common practice, no source: half as large again as the screw", sheet.With{"dia": t.Key + ".dia"})
	sc.Method(quiet("thread_against", "torque of the thread", "", unit.NewtonMetre), screw.ThreadAgainst, sheet.With{"lead": t.Key + ".pitch"})
	sc.Method(quiet("collar_torque", "torque of the thrust face", "", unit.NewtonMetre), screw.CollarTorque)
	sc.Method(shown("torque_against", "torque that the screw needs", "T", unit.NewtonMetre), screw.TorqueAgainst)
	l.Assume(sc, quiet("gear_share", "part of the motor's torque that comes through gears or belt", "η", unit.One), 0.8, "common practice, no source: 0.7 to 0.9")
	sc.Formula(quiet("at_screw", "motor's torque at the screw", "", unit.NewtonMetre), "torque * gears * gear_share", "statics of gears, with their loss")
	l.Limit(sc, quiet("at_screw_least", "torque wanted at the screw", "", unit.NewtonMetre), sheet.Method{Text: "1.5 * torque_against", Source: "common practice, no source: half as much again as the cut needs"})
	sc.Check(sheet.Check{Key: "torque_check", Label: "Motor strong enough", Figure: "at_screw", Limit: "at_screw_least", Level: sheet.Rule,
		Sentence: "The motor gives the screw {figure}, and {limit} is wanted.", Source: screw.ThreadAgainst.Source})
}

// clutch: it carries the cut, and slips before it does harm.
func (powerFeed) clutch(s *Site) {
	l, sc := s.Layout, s.Scope
	s.typed(sc, quiet("slips", "torque at which the clutch slips, at the screw", "", unit.NewtonMetre), Field{Name: "slips", Label: "Clutch slips, or pin shears, at", Hint: "at the screw; it is tried with a lever and a spring balance", Group: "Clutch and switches"}, "", 0, 1000, nan)
	l.Limit(sc, quiet("slips_least", "least torque of the clutch", "", unit.NewtonMetre), sheet.Method{Text: "1.25 * torque_against", Source: "common practice, no source: a quarter above what the cut needs"})
	sc.Check(sheet.Check{Key: "carries_check", Label: "Clutch carries the cut", Figure: "slips", Limit: "slips_least", Level: sheet.Rule,
		Sentence: "The clutch slips at {figure}, and {limit} is the least for the cut.", Source: "common practice, no source"})
	most := sheet.Method{Text: "2 * torque_against", Source: "common practice, no source: twice what the cut needs"}
	if l.Scope.Has("hand_torque") {
		most = sheet.Method{Text: "max(2 * torque_against, 2 * hand_torque)", Source: "common practice, no source: twice what the cut needs, or twice a hand's torque, which screw and nut are made for"}
	}
	l.Limit(sc, quiet("slips_most", "most torque of the clutch", "", unit.NewtonMetre), most)
	sc.Check(sheet.Check{Key: "spares_check", Label: "Clutch slips before something breaks", Figure: "slips", Limit: "slips_most", AtMost: true, Level: sheet.Rule,
		Sentence: "The clutch slips at {figure}, and {limit} is the most that spares screw and nut.", Source: "common practice, no source"})
}

// switches end the feed before the hard stops do.
func (k powerFeed) switches(s *Site) {
	l, sc := s.Layout, s.Scope
	const group = "Clutch and switches"
	s.typed(sc, quiet("trip", "switch trips before the hard stop by", "", unit.MM), Field{Name: "trip", Label: "Switch trips before the hard stop by", Hint: "5 or more", Group: group}, s.proposed(5), 0, 200, 5)
	l.Assume(sc, quiet("stops_in", "time in which the feed stops", "", second), 0.5, "common practice, no source: half a second for switch, relay and motor")
	sc.Formula(quiet("runs_on", "feed runs on after the switch", "", unit.MM), "fastest * stops_in", "definition: v t, as an upper bound")
	l.Limit(sc, quiet("trip_least", "least from the switch to the hard stop", "", unit.MM), sheet.Method{Text: "max(mm(5), 2 * runs_on)", Source: "common practice, no source: 5 mm, and twice what it runs on by"})
	sc.Check(sheet.Check{Key: "trip_check", Label: "Switches before the hard stops", Figure: "trip", Limit: "trip_least", Level: sheet.Stop,
		Sentence: "A switch trips {figure} before the hard stop, and {limit} is the least.", Source: "common practice, no source"})
	stands := s.choose(Field{Name: "switches", Label: "Switches stand", Options: []Option{{"beside", "beside the slide, and cost no travel by hand"}, {"between", "between the slide and what it meets"}}, Group: group}, "beside")
	sl, _ := l.OnWays()
	take := s.takes(axis.Plus, axis.Minus)
	if stands == "between" {
		s.typed(sc, quiet("pressed", "switch stands in between by", "", unit.MM), Field{Name: "pressed", Label: "A switch takes, pressed right in", Group: group}, s.proposed(8), 0, 100, 8)
		for _, e := range take.ends {
			take.by(sc.Key("pressed"), e, sl)
			take.nearer(sc.Key("pressed"), e, "the switch")
		}
	}
	k.stands(s, take)
	take.giveUp()
	sc.Formula(shown("powered", "travel under power", "", unit.MM), "max(0, travel - 2 * trip)", "geometry: from switch to switch")
	s.Goals = []sheet.Goal{{Key: sc.Key("powered")}, {Key: sc.Key("fastest")}}
}

// second is a time.
var second = unit.Unit{Symbol: "s", Dim: unit.TimeD, Scale: 1, Decimals: 1}

// stands: where the motor's bracket is, and what it pushes outwards.
func (powerFeed) stands(s *Site, take *taking) {
	l, sc := s.Layout, s.Scope
	const group = "Where it stands"
	b, _ := l.WithRole("bracket")
	options := []Option{{"other", "at the other end of the " + map[bool]string{true: "table", false: "screw, where that can be reached"}[b.Side == axis.Moving]}}
	on := onBracket(l, b)
	if on != nil {
		options = append(options, Option{"handle", "between the " + b.Label + " and the " + on.Label})
	}
	at := s.choose(Field{Name: "at", Label: "The unit", Options: options, Group: group}, "other")
	s.typed(sc, quiet("unit", "unit adds to that end", "", unit.MM), Field{Name: "unit", Label: "It adds to that end", Hint: "20 to 60", Group: group}, s.proposed(40), 0, 300, 40)
	switch {
	case at == "handle":
		l.Scope.Change(on.Key+".gap", "was + unit", "geometry: it stands between the two", sheet.With{"unit": sc.Key("unit")})
		lengthenScrew(s)
	case b.Side == axis.Moving: // it goes along, and may meet what is there
		take.nearer(sc.Key("unit"), axis.Minus, "the unit")
	}
}

func (powerFeed) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	if strings.TrimSpace(s.input("fastest", "")) == "" {
		say.text("Say how fast it is to feed, and what the motor must do is shown here.")
		return say.runs
	}
	say.failures(s, r)
	if n, ok := s.figured(r, s.Scope.Key("screw_speed")); ok {
		say.text("The screw turns at ").strong(n).text(" for it")
		if t, ok := s.figured(r, s.Scope.Key("torque_against")); ok {
			say.text(" and needs ").strong(t)
		}
		say.text(".")
	}
	if p, ok := s.figured(r, s.Scope.Key("powered")); ok {
		say.text(" Under power it goes ").strong(p).text(", from switch to switch.")
	}
	say.extension(s, r)
	say.costs(s, r)
	return say.runs
}
