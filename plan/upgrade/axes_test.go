package upgrade_test

import (
	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/machine"
)

// everyMachine are the demo machines, and small ones with the axes that they lack.
func everyMachine() []machine.Machine {
	all := []machine.Machine{tailstockAxis(), drillAxis()}
	for _, d := range demo.Machines() {
		all = append(all, d.Machine)
	}
	return append(all, presets()...)
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

// topSlideAxis is a top slide, its screw and handle travelling, positions from the
// base's front face, back towards the handle is positive, slide right forward:
// the bracket is up against the base at 100, the thread from 16 to 98, the nut
// from 70 to 88. It goes back 50, to a stop.
func topSlideAxis() machine.Machine {
	m := alone(axis.Axis{Label: "Top slide", Arrangement: "travelling_screw", Plus: "back, towards the handle", Minus: "forward, towards the work", Parts: []axis.Part{
		lying("ways", "ways", axis.Fixed, "0", "100"),
		lying("base", "base", axis.Fixed, "0", "100"),
		lying("nut", "nut", axis.Fixed, "70", "88"),
		lying("slide", "slide", axis.Moving, "-30", "80", "gib_screws", "-20; 5; 30; 55"),
		lying("bracket", "bracket", axis.Moving, "100", "116"),
		lying("thread", "thread", axis.Moving, "16", "98", "dia", "10", "pitch", "1.25"),
		lying("shank", "shank", axis.Moving, "98", "150", "dia", "8"),
	}}, "travel_found", "50")
	m.Axes[0].Obstacles[0].Clear, m.Axes[0].Obstacles[0].Gap = false, plan.Entry{Typed: "0"}
	return m
}

// tableAxis is a mill's table of 500 on a saddle of 240, going 200 from side to
// side: its middle stays 20 within the saddle's ends.
func tableAxis(entries ...string) machine.Machine {
	return alone(axis.Axis{Label: "X axis", Arrangement: "travelling_screw", Plus: "right", Minus: "left", Parts: []axis.Part{
		lying("saddle", "ways", axis.Fixed, "0", "240"),
		lying("nut", "nut", axis.Fixed, "100", "140"),
		lying("table", "slide", axis.Moving, "-230", "270"),
		lying("thread", "thread", axis.Moving, "-110", "150", "dia", "16", "pitch", "2"),
	}}, append([]string{"travel_found", "200"}, entries...)...)
}

// drillAxis is a drill's quill, positions from the head's lower face, down is
// positive, quill right up: its rack ends the travel at 55, where 1.5 × 40 = 60 of
// it stay in the head up to 60 and 20 of the spline in its sleeve up to 80.
func drillAxis() machine.Machine {
	return alone(axis.Axis{Label: "Quill", Arrangement: "rack", Capacity: "depth", Plus: "down", Minus: "up", Parts: []axis.Part{
		lying("head", "guide", axis.Fixed, "-100", "0"),
		lying("pinion", "pinion", axis.Fixed, "-40", "-28", "module", "1.25"),
		lying("sleeve", "spline_sleeve", axis.Fixed, "-190", "-150"),
		lying("quill", "quill", axis.Moving, "-120", "15", "dia", "40"),
		lying("rack", "rack", axis.Moving, "-95", "-20"),
		lying("spline", "spline", axis.Moving, "-250", "-150"),
	}}, "travel_found", "55")
}
