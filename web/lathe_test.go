package web_test

import (
	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
)

// lathe is a small lathe with one axis, measured by caliper, and one draft that asks for 12 more outward.
// The splash tray at that end is not measured.
func lathe() machine.Machine {
	typed := func(pairs ...string) map[string]plan.Entry {
		all := map[string]plan.Entry{}
		for i := 0; i < len(pairs); i += 2 {
			all[pairs[i]] = plan.Entry{Typed: pairs[i+1]}
		}
		return all
	}
	part := func(key, role string, side axis.Side, on string, pairs ...string) axis.Part {
		p := axis.Part{Key: key, Label: key, Role: role, Side: side, Entries: typed(pairs...)}
		if on != "" {
			p.Tie = &axis.Tie{Part: on, Face: "to"}
		}
		return p
	}
	return machine.Machine{Name: "Lathe, 105 mm", Kind: "lathe", Units: "mm", Axes: []axis.Axis{{
		Key: "cross", Label: "Cross slide", Arrangement: "held_screw", Capacity: "lathe_cross_slide",
		Datum: "the saddle's rear face", Plus: "outward, towards the operator", Minus: "inward",
		Parts: []axis.Part{
			part("ways", "ways", axis.Fixed, "", "from", "0", "to", "141"),
			part("rear_wall", "wall", axis.Fixed, "", "from", "0", "to", "6"),
			part("front_wall", "wall", axis.Fixed, "", "from", "118", "to", "141", "keep", "8"),
			part("bracket", "bracket", axis.Fixed, "", "from", "141", "to", "167", "bore", "10"),
			part("dial", "dial", axis.Fixed, "bracket", "gap", "0.5", "length", "16.5", "dia", "34", "bore", "10"),
			part("thread", "thread", axis.Fixed, "", "from", "6", "to", "140", "dia", "12", "pitch", "1.5"),
			part("shank", "shank", axis.Fixed, "", "from", "140", "to", "203", "dia", "10"),
			part("slide", "slide", axis.Moving, "", "from", "-72", "to", "78"),
			part("nut", "nut", axis.Moving, "", "from", "6", "to", "30"),
		},
		Obstacles: []axis.Obstacle{{Key: "splash_tray", Label: "splash tray", End: axis.Plus}, {Key: "rear_guard", Label: "rear guard", End: axis.Minus, Clear: true}},
		Entries:   typed("travel_found", "88", "tip_past_axis", "4", "swing_bed", "210", "swing_slide", "118", "work_clearance", "2"),
		Answers:   map[string]string{},
	}}, Upgrades: []upgrade.Upgrade{{ID: "1", Kind: "extend_travel", Axis: "cross", State: upgrade.Draft,
		Inputs: map[string]string{"end": "plus", "amount": "12"}}}}
}
