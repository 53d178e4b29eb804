// Package screw holds the mechanics of feed screws, as formulas on a sheet:
// torque and thrust, both ways, and whether the thread holds by itself; buckling
// and whirling; sag, wind-up, stretch and what gives in a row of springs; the
// shares of lost motion; what a misaligned nut does to the screw, and how far a
// free end hangs down.
//
// A formula's names are the keys that its sheet must have; the comment over each
// group says which. Factors of how the ends are held are in [Held].
//
// Every diameter that carries load is the root of the thread, never its outside.
// Threads are those of plan/thread. No standard holds the mechanics: it is that of
// any machine design text, with elementary beam theory; what friction and limits
// are assumed says where it comes from.
package screw

import (
	"fettle/plan/sheet"
	"fettle/plan/thread"
)

const beam = "elementary beam theory"

var (
	// Root is the root diameter of an external ISO thread: d − 1.226869 P.
	Root = thread.MetricRoot

	// NutBore is the minor diameter of an internal ISO thread: d − 1.082532 P.
	NutBore = thread.MetricBore

	// RootTrapezoidal is the root diameter of a trapezoidal screw: d − P − 2 a.
	RootTrapezoidal = thread.TrapezoidalRoot

	// CrestClearance of a trapezoidal thread by its pitch.
	CrestClearance = thread.TrapezoidalClearance

	// NutBoreTrapezoidal is the minor diameter of a trapezoidal nut: d − P.
	NutBoreTrapezoidal = thread.TrapezoidalBore

	// NutLeast is the least length of a nut.
	NutLeast = sheet.Method{Text: "max(1.5 * dia, 5 * pitch)", Source: "common practice, no source: the larger of 1.5 diameters and 5 pitches"}

	// EngagementLeast is the least of a nut that must be on full thread: as
	// much, and never more than there is of a nut.
	EngagementLeast = sheet.Method{Text: "min(nut_length, nut_least)", Source: "common practice, no source: the larger of 1.5 diameters and 5 pitches, never more than the nut"}

	// EngagementPreferred is how much more than the least is preferred: up to
	// two thirds of the nut.
	EngagementPreferred = sheet.Method{Text: "max(0, 2 / 3 * nut_length - least)", Source: "common practice, no source: two thirds of the nut preferred"}

	// SecondMoment of a round bar.
	SecondMoment = sheet.Method{Text: "pi / 64 * pow(root, 4)", Source: "geometry: I = π d⁴/64"}

	// SideForce is what a nut that stands off the screw's line presses on it with.
	SideForce = sheet.Method{
		Text:   "3 * modulus * second_moment * misalignment / pow(distance, 3)",
		Source: beam + ": a bar held in the bracket, pushed aside at the nut, F = 3 E I e / a³",
		Valid:  "as an upper bound: the bracket and the nut give a little too",
	}

	// Sag is how far the free end of the screw hangs below the nut.
	Sag = sheet.Method{
		Text:   "density * gravity(9.80665) * pi / 4 * pow(root, 2) * pow(free, 4) / (8 * modulus * second_moment)",
		Source: beam + ": a bar held at one end under its own weight, w L⁴ / 8 E I",
	}
)

// The figures of steel that the methods use.
const (
	SteelModulus       = 206000  // MPa
	SteelDensity       = 7.85e-9 // N·s²/mm⁴
	SteelModulusSource = "carbon steel, handbook value 206 GPa"
	SteelDensitySource = "carbon steel, handbook value 7850 kg/m³"
)
