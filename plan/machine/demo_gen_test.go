package machine_test

import (
	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
)

type ent = map[string]plan.Entry

func e(kv ...string) ent {
	m := ent{}
	for i := 0; i < len(kv); i += 2 {
		m[kv[i]] = plan.Entry{Typed: kv[i+1]}
	}
	return m
}

func lathe() machine.Machine {
	F, M := axis.Fixed, axis.Moving
	p := func(key, label, role string, side axis.Side, kv ...string) axis.Part {
		return axis.Part{Key: key, Label: label, Role: role, Side: side, Entries: e(kv...)}
	}
	tied := func(key, label, role, to string, kv ...string) axis.Part {
		x := p(key, label, role, F, kv...)
		x.Tie = &axis.Tie{Part: to, Face: "to"}
		return x
	}
	wall := p("front_wall", "front wall", "wall", F, "from", "118", "to", "141", "keep", "8")
	wall.Material = "cast_iron"
	br := p("bracket", "bracket", "bracket", F, "from", "141", "to", "167", "dia", "30", "bore", "10", "flange", "8", "bolts", "2", "bolt_dia", "6", "bolt_length", "20", "bolt_offset", "24", "tapped_depth", "14")
	br.Material = "aluminium"
	slide := p("slide", "slide", "slide", M, "from", "-72", "to", "78", "gib_screws", "-60; -28; 3; 34; 66")
	return machine.Machine{Name: "Lathe, 105 mm", Kind: "lathe", Units: "mm", Axes: []axis.Axis{{
		Key: "cross", Label: "Cross slide", Arrangement: "held_screw", Capacity: "lathe_cross_slide",
		Datum: "the saddle's rear face", Plus: "outward, towards the operator", Minus: "inward, away from the operator",
		Parts: []axis.Part{
			p("saddle_ways", "saddle ways", "ways", F, "from", "0", "to", "141"),
			p("rear_wall", "rear wall", "wall", F, "from", "0", "to", "6"),
			wall, br,
			tied("dial", "dial", "dial", "bracket", "gap", "0.5", "length", "16.5", "dia", "34", "bore", "10"),
			tied("handle", "handle", "handle", "dial", "length", "14", "bore", "10"),
			tied("lock_nut", "lock nut", "lock_nut", "handle", "length", "5", "thread_dia", "10", "pitch", "1"),
			p("thread", "screw thread", "thread", F, "from", "6", "to", "140", "dia", "12", "pitch", "1.5"),
			p("shank", "shank", "shank", F, "from", "140", "to", "203", "dia", "10", "end_thread", "5"),
			slide,
			p("nut", "nut", "nut", M, "from", "6", "to", "30"),
		},
		Obstacles: []axis.Obstacle{{Key: "splash_tray", Label: "splash tray", End: axis.Plus}, {Key: "rear_obstacle", Label: "rear guard", End: axis.Minus, Clear: true}},
		Entries:   e("travel_found", "88", "hand_torque", "3", "tip_past_axis", "4", "swing_bed", "210", "swing_slide", "118", "work_clearance", "2"),
	}}, Upgrades: []upgrade.Upgrade{{ID: "1", Kind: "extend_travel", Axis: "cross", State: upgrade.Draft,
		Inputs: map[string]string{"end": "plus", "amount": "12", "pocket.front_wall": "28", "joint": "brazed", "sleeve": "14", "lap": "14"}}}}
}
