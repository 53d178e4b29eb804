package dial

import "fettle/plan/sheet"

// A dial held by an O-ring in a groove of the sleeve that it turns on. section
// is the ring's thickness, bore that of the dial.
var (
	// GrooveDia is the diameter of the groove's floor.
	GrooveDia = sheet.Method{Text: "bore - 2 * section * (1 - squeeze)", Source: "geometry: the ring is squeezed between floor and bore"}

	// GrooveDepth below the dial's bore.
	GrooveDepth = sheet.Method{Text: "section * (1 - squeeze)", Source: "geometry"}

	// GrooveWidth leaves the ring room to spread.
	GrooveWidth = sheet.Method{Text: "1.35 * section", Source: "common practice: 1.3 to 1.4 times the section (from memory)"}

	// Fill is the share of the groove that the ring takes.
	Fill = sheet.Method{Text: "pi / 4 * pow(section, 2) / (groove_depth * groove_width)", Source: "geometry"}

	// RingLeast and RingMost are the inside diameters of rings to look for.
	RingLeast = sheet.Method{Text: "groove_dia / 1.05", Source: "common practice: stretched by at most 5 % (from memory)"}
	RingMost  = sheet.Method{Text: "groove_dia / 1.02", Source: "common practice: stretched by at least 2 % (from memory)"}

	// Drag is the force at the bore.
	Drag = sheet.Method{Text: "friction * line_load * pi * bore", Source: "statics: µ q π D"}

	// DragTorque is what it takes to turn the dial on its sleeve.
	DragTorque = sheet.Method{Text: "drag * bore / 2", Source: "statics: F D/2"}

	// DragMost is a third of the torque at the handle: less, or the screw turns with the dial.
	DragMost = sheet.Method{Text: "handle_torque / 3", Source: "common practice, no source: a third of the torque that turns the screw"}
)

// Section is an O-ring's thickness in mm by ISO 3601-1, and what a line of it
// presses with at a squeeze of about 10 % in rubber of 70 Shore A, in N/mm; 0
// where nothing is known here.
type Section struct{ MM, Least, Most float64 }

// Sections are the ones that suit a dial.
var Sections = []Section{{1, 0, 0}, {1.5, 0, 0}, {1.78, 0.3, 0.5}, {2, 0, 0}, {2.5, 0, 0}, {2.62, 1.0, 1.6}, {3, 0, 0}, {3.53, 0, 0}}

// LineLoadSource is of the line loads of [Sections].
const LineLoadSource = "from memory, unchecked, within about half: make the groove so that a strip of paper under the ring can change it"

// LineLoad is what is known of a section's line load, its middle and half its
// width taken as ± 50 %.
func LineLoad(section float64) (middle, within float64, ok bool) {
	for _, s := range Sections {
		if s.Most > 0 && s.MM > section-0.05 && s.MM < section+0.05 {
			m := (s.Least + s.Most) / 2
			return m, m / 2, true
		}
	}
	return 0, 0, false
}
