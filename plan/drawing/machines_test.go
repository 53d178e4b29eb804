package drawing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
)

// Machines of ours, one for each arrangement; every figure is invented.

type ent = map[string]plan.Entry

func entries(kv ...string) ent {
	m := ent{}
	for i := 0; i+1 < len(kv); i += 2 {
		m[kv[i]] = plan.Entry{Typed: kv[i+1]}
	}
	return m
}

func part(side axis.Side, key, label, role string, kv ...string) axis.Part {
	return axis.Part{Key: key, Label: label, Role: role, Side: side, Entries: entries(kv...)}
}

func tied(to string, p axis.Part) axis.Part {
	p.Tie = &axis.Tie{Part: to, Face: "to"}
	return p
}

func extend(amount string, more ...string) []upgrade.Upgrade {
	in := map[string]string{"end": "plus", "amount": amount}
	for i := 0; i+1 < len(more); i += 2 {
		in[more[i]] = more[i+1]
	}
	return []upgrade.Upgrade{{ID: "1", Kind: "extend_travel", Axis: "x", State: upgrade.Draft, Inputs: in}}
}

const f, m = axis.Fixed, axis.Moving

// lathe is the cross slide of the main job.
func lathe() machine.Machine {
	wall := part(f, "front_wall", "front wall", "wall", "from", "118", "to", "141", "keep", "8")
	wall.Material = "cast_iron"
	bracket := part(f, "bracket", "bracket", "bracket", "from", "141", "to", "167", "dia", "30", "bore", "10", "flange", "8", "bolts", "2", "bolt_dia", "6", "bolt_length", "20", "bolt_offset", "24", "tapped_depth", "14")
	bracket.Material = "aluminium"
	return machine.Machine{Name: "Lathe, 105 mm", Kind: "lathe", Units: "mm", Axes: []axis.Axis{{
		Key: "x", Label: "Cross slide", Arrangement: "held_screw", Capacity: "lathe_cross_slide",
		Datum: "the saddle's rear face", Plus: "outward, towards the operator", Minus: "inward, away from the operator",
		Parts: []axis.Part{
			part(f, "saddle_ways", "saddle ways", "ways", "from", "0", "to", "141"),
			part(f, "rear_wall", "rear wall", "wall", "from", "0", "to", "6"),
			wall, bracket,
			tied("bracket", part(f, "dial", "dial", "dial", "gap", "0.5", "length", "16.5", "dia", "34", "bore", "10")),
			tied("dial", part(f, "handle", "handle hub", "handle", "length", "14", "bore", "10")),
			tied("handle", part(f, "lock_nut", "lock nut", "lock_nut", "length", "5", "thread_dia", "10", "pitch", "1")),
			part(f, "thread", "screw M12 × 1.5 left hand", "thread", "from", "6", "to", "140", "dia", "12", "pitch", "1.5"),
			part(f, "shank", "shank", "shank", "from", "140", "to", "203", "dia", "10", "end_thread", "5"),
			part(m, "slide", "slide", "slide", "from", "-72", "to", "78"),
			part(m, "nut", "nut", "nut", "from", "6", "to", "30"),
		},
		Obstacles: []axis.Obstacle{{Key: "splash_tray", Label: "splash tray", End: axis.Plus}, {Key: "rear_obstacle", Label: "rear guard", End: axis.Minus, Clear: true}},
		Entries:   entries("travel_found", "88", "hand_torque", "3", "tip_past_axis", "4", "swing_bed", "210", "swing_slide", "118", "work_clearance", "2"),
	}}, Upgrades: extend("12", "pocket.front_wall", "28", "joint", "brazed", "sleeve", "14", "lap", "14")}
}

// mill is a table: its screw and bracket go with it.
func mill() machine.Machine {
	return machine.Machine{Name: "Bench mill", Kind: "mill", Units: "mm", Axes: []axis.Axis{{
		Key: "x", Label: "Saddle", Arrangement: "travelling_screw", Datum: "the base's rear face",
		Plus: "towards you", Minus: "towards the column",
		Parts: []axis.Part{
			part(f, "ways", "base ways", "ways", "from", "62", "to", "250"),
			part(f, "nut", "nut", "nut", "from", "170", "to", "200"),
			part(f, "front_wall", "front wall", "base", "from", "226", "to", "250"),
			part(f, "column", "column", "column", "from", "-40", "to", "60"),
			part(m, "slide", "saddle", "slide", "from", "70", "to", "252"),
			part(m, "bracket", "bracket", "bracket", "from", "252", "to", "280", "dia", "36"),
			tied("bracket", part(m, "dial", "dial", "dial", "gap", "0.5", "length", "20", "dia", "50", "bore", "12")),
			tied("dial", part(m, "handle", "handwheel", "handle", "length", "18", "dia", "30", "bore", "12")),
			tied("handle", part(m, "lock_nut", "lock nut", "lock_nut", "length", "6", "thread_dia", "12", "pitch", "1.25")),
			part(m, "thread", "screw", "thread", "from", "52", "to", "250", "dia", "16", "pitch", "2"),
			part(m, "shank", "shank", "shank", "from", "250", "to", "324.5", "dia", "12", "end_thread", "6"),
		},
		Entries: entries("travel_found", "100", "hand_torque", "3"),
	}}, Upgrades: extend("20")}
}

// tailstock is a barrel that its screw pushes out.
func tailstock() machine.Machine {
	return machine.Machine{Name: "Tailstock", Kind: "lathe", Units: "mm", Axes: []axis.Axis{{
		Key: "x", Label: "Tailstock barrel", Arrangement: "barrel_screw", Capacity: "depth", Datum: "the housing's rear face",
		Plus: "out, towards the headstock", Minus: "in",
		Parts: []axis.Part{
			part(f, "guide", "housing", "guide", "from", "0", "to", "120"),
			part(f, "bracket", "rear bearing", "bracket", "from", "-14", "to", "0", "dia", "44"),
			part(m, "quill", "barrel", "quill", "from", "10", "to", "135", "dia", "30"),
			part(m, "nut", "nut", "nut", "from", "10", "to", "32"),
			part(f, "thread", "screw", "thread", "from", "2", "to", "95", "dia", "12", "pitch", "2"),
			part(f, "shank", "shank", "shank", "from", "-52", "to", "2", "dia", "10"),
			part(f, "dial", "dial", "dial", "from", "-26", "to", "-14.5", "dia", "38", "bore", "10"),
			part(f, "handle", "handwheel", "handle", "from", "-44", "to", "-26", "dia", "24", "bore", "10"),
			part(f, "lock_nut", "nut M10", "lock_nut", "from", "-51", "to", "-44", "thread_dia", "10", "pitch", "1.5"),
			part(m, "keyway", "keyway", "keyway", "from", "20", "to", "110"),
			part(f, "key", "key", "key", "from", "94", "to", "102"),
		},
		Entries: entries("travel_found", "60", "hand_torque", "3"),
	}}, Upgrades: extend("8")}
}

// drill is the quill of a drilling machine on a rack.
func drill() machine.Machine {
	return machine.Machine{Name: "Drill", Kind: "drill", Units: "mm", Axes: []axis.Axis{{
		Key: "x", Label: "Quill", Arrangement: "rack", Capacity: "depth", Datum: "the head's top face", Plus: "down", Minus: "up",
		Parts: []axis.Part{
			part(f, "guide", "head", "guide", "from", "0", "to", "110"),
			part(m, "quill", "quill", "quill", "from", "-52", "to", "130", "dia", "40"),
			part(m, "collar", "stop collar", "collar", "from", "-66", "to", "-52"),
			part(m, "rack", "rack", "rack", "from", "10", "to", "105"),
			part(f, "pinion", "pinion", "pinion", "from", "84", "to", "100", "module", "1.25"),
		},
		Entries: entries("travel_found", "50"),
	}}, Upgrades: extend("10")}
}

// column is a mill's column that a riser lifts; the tallest work does not go under it.
func column() machine.Machine {
	return machine.Machine{Name: "Bench mill", Kind: "mill", Units: "mm", Axes: []axis.Axis{{
		Key: "x", Label: "Column", Arrangement: "spaced", Capacity: "daylight", Datum: "the table's top face", Plus: "up", Minus: "down",
		Entries: entries("travel_found", "180", "lowest", "60", "column", "330", "tallest_job", "270", "lowest_job", "100"),
	}}, Upgrades: []upgrade.Upgrade{{ID: "1", Kind: "riser", Axis: "x", State: upgrade.Draft, Inputs: map[string]string{"amount": "50"}}}}
}

func machines() map[string]machine.Machine {
	return map[string]machine.Machine{"lathe": lathe(), "mill": mill(), "tailstock": tailstock(), "drill": drill(), "column": column()}
}

func build(t testing.TB, ma machine.Machine, draft string) *machine.Plan {
	t.Helper()
	p, err := ma.Build(draft)
	require.NoError(t, err)
	return p
}
