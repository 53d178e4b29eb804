package upgrade_test

import (
	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/machine"
)

// everyMachine are the demo machines, and small ones with the axes that they lack.
func everyMachine() []machine.Machine {
	all := []machine.Machine{tailstockAxis()}
	for _, d := range demo.Machines() {
		all = append(all, d.Machine)
	}
	return all
}

// lying is a part with its faces and sizes as typed.
func lying(key, role string, side axis.Side, from, to string, sizes ...string) axis.Part {
	p := axis.Part{Key: key, Label: key, Role: role, Side: side, Entries: map[string]plan.Entry{"from": {Typed: from}, "to": {Typed: to}}}
	for i := 0; i < len(sizes); i += 2 {
		p.Entries[sizes[i]] = plan.Entry{Typed: sizes[i+1]}
	}
	return p
}

// alone is a machine of one axis, with nothing else in its way.
func alone(a axis.Axis, entries ...string) machine.Machine {
	a.Key, a.Entries = "a", map[string]plan.Entry{}
	for i := 0; i < len(entries); i += 2 {
		a.Entries[entries[i]] = plan.Entry{Typed: entries[i+1]}
	}
	for _, o := range a.Obstructions() {
		o.Clear = true
		a.Obstacles = append(a.Obstacles, o)
	}
	return machine.Machine{Name: "m", Units: "mm", Axes: []axis.Axis{a}}
}

// tailstockAxis is a tailstock's quill, positions from the body's front face, out is
// positive, quill right in: 140 long with its nose at 2, the nut in its last 20;
// the screw, Tr 12 × 3, comes to 60 behind the face; shanks stand 65 in.
func tailstockAxis() machine.Machine {
	return alone(axis.Axis{Label: "Quill", Arrangement: "barrel_screw", Capacity: "depth", Plus: "out", Minus: "in", Parts: []axis.Part{
		lying("body", "guide", axis.Fixed, "-110", "0"),
		lying("collar", "collar", axis.Fixed, "-146", "-138"),
		lying("thread", "thread", axis.Fixed, "-138", "-60", "dia", "12", "pitch", "3", "form", "trapezoidal"),
		lying("key", "key", axis.Fixed, "-20", "-12"),
		lying("quill", "quill", axis.Moving, "-138", "2", "dia", "28"),
		lying("nut", "nut", axis.Moving, "-138", "-118"),
		lying("keyway", "keyway", axis.Moving, "-78", "-10"),
	}}, "travel_found", "58", "tang_depth", "65")
}
