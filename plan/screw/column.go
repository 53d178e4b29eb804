package screw

import "fettle/plan/sheet"

const euler = "column theory, Euler and Johnson, as in any machine design text"

// Buckling. root is the diameter that carries, hole a bore through it (0 for
// none), length the longest part in compression, fixity the factor of the ends.
var (
	// Area of a round bar with a hole.
	Area = sheet.Method{Text: "pi / 4 * (pow(root, 2) - pow(hole, 2))", Source: "geometry"}

	// HollowMoment is the second moment of a round bar with a hole.
	HollowMoment = sheet.Method{Text: "pi / 64 * (pow(root, 4) - pow(hole, 4))", Source: "geometry: I = π (d⁴ − d_i⁴)/64"}

	// Slenderness is the length over the radius of gyration.
	Slenderness = sheet.Method{Text: "length / sqrt(second_moment / area)", Source: "definition: L/k, k = √(I/A)"}

	// Transition is the slenderness from which a column is Euler's.
	Transition = sheet.Method{Text: "sqrt(2 * pow(pi, 2) * fixity * modulus / yield)", Source: euler + ": (L/k)₁ = √(2π² C E/S_y)"}

	// EulerLoad of a slender column.
	EulerLoad = sheet.Method{Text: "fixity * pow(pi, 2) * modulus * second_moment / pow(length, 2)", Source: euler + ": C π² E I/L²"}

	// JohnsonLoad of a stout one.
	JohnsonLoad = sheet.Method{
		Text:   "area * (yield - pow(yield * slenderness / (2 * pi), 2) / (fixity * modulus))",
		Source: euler + ": A (S_y − (S_y L/2πk)²/C E)",
	}

	// CriticalLoad is the load at which the screw buckles or yields.
	CriticalLoad = sheet.Method{Text: "when(slenderness > transition, euler_load, johnson_load)", Source: euler}

	// ChartLoad is what makers' charts of ball screws allow: half of Euler's load.
	// It has its margin in it: it is not to be divided again.
	ChartLoad = sheet.Method{Text: "0.5 * euler_load", Source: "common practice in charts of ball screws: Euler's load with a factor of 0.5 in it"}

	// SafetyOf a load against buckling.
	SafetyOf = sheet.Method{Text: "critical / force", Source: "definition"}
)

// Ends are the ways in which a screw is held: the factor of buckling (C) and
// the eigenvalues of bending (λ, of cos λ cosh λ and the like).
type Ends struct {
	Key, Label string
	Fixity     float64
	Lambda     float64
}

// Held lists the ways in which a screw is held at its ends.
var Held = []Ends{
	{"fixed-free", "held at one end, free at the other", 0.25, 1.8751041},
	{"supported-supported", "a short bearing at either end", 1, 3.1415927},
	{"fixed-supported", "a pair of bearings at one end, a nut or short bearing at the other", 2, 3.9266023},
	{"fixed-fixed", "a pair of bearings at either end", 4, 4.7300407},
}

// HeldNamed is the way with the key.
func HeldNamed(key string) (Ends, bool) {
	for _, e := range Held {
		if e.Key == key {
			return e, true
		}
	}
	return Ends{}, false
}

// Sources of the ends' factors.
const (
	FixitySource = "column theory: P ∝ C; 4 asks for rigid bearings at both ends, 1 is the careful choice for a screw in a nut"
	LambdaSource = "beam theory: first root of the characteristic equation, recomputed independently"
)
