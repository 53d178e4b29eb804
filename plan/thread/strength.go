package thread

import "fettle/plan/sheet"

const h28 = "FED-STD-H28: shear areas of mating threads at their limits"

// How long the nut must be for the screw to break before a thread strips. The
// names: nut_bore_max and nut_pitch_max are the nut's largest minor and pitch
// diameters, screw_major_min and screw_pitch_min the screw's smallest; engaged
// is the length of engagement.
var (
	// ScrewShear is the area on which the screw's thread strips, at the nut's bore.
	ScrewShear = sheet.Method{
		Text:   "pi / pitch * engaged * nut_bore_max * (pitch / 2 + tan(flank) * (screw_pitch_min - nut_bore_max))",
		Source: h28 + ": π n L K (1/2n + tan α (E − K))",
	}

	// NutShear is the area on which the nut's thread strips, at the screw's crests.
	NutShear = sheet.Method{
		Text:   "pi / pitch * engaged * screw_major_min * (pitch / 2 + tan(flank) * (screw_major_min - nut_pitch_max))",
		Source: h28 + ": π n L D (1/2n + tan α (D − E))",
	}

	// EqualEngagement is the length for a nut as strong as the screw. Its factor
	// of 2 is a margin: shear is taken as half of the tensile strength.
	EqualEngagement = sheet.Method{
		Text:   "2 * stress_area / (pi * nut_bore_max * (0.5 + tan(flank) / pitch * (screw_pitch_min - nut_bore_max)))",
		Source: "FED-STD-H28: 2 A_t / (π K (1/2 + tan α n (E − K)))",
	}

	// StrengthRatio is J: how much sooner the nut's thread strips than the screw's.
	StrengthRatio = sheet.Method{
		Text:   "screw_shear * screw_strength * screw_shear_ratio / (nut_shear * nut_strength * nut_shear_ratio)",
		Source: "FED-STD-H28: J, with the ratio of shear to tensile strength of each material",
	}

	// LeastEngagement is the length from which the screw breaks first.
	LeastEngagement = sheet.Method{Text: "equal_engagement * max(1, strength_ratio)", Source: "FED-STD-H28: Q = J L where the nut is the weaker"}

	// BreakingLoad of the screw.
	BreakingLoad = sheet.Method{Text: "stress_area * screw_strength", Source: "elementary mechanics: A_s R_m"}

	// StrippingLoad is the smaller of what the two threads carry.
	StrippingLoad = sheet.Method{
		Text:   "min(screw_shear * screw_strength * screw_shear_ratio, nut_shear * nut_strength * nut_shear_ratio)",
		Source: "elementary mechanics: shear area × shear strength, the weaker of the two",
		Valid:  "up to 1.5 diameters of length: beyond that the load does not spread evenly",
	}

	// UsefulEngagement is the most that is worth counting.
	UsefulEngagement = sheet.Method{Text: "1.5 * dia", Source: "common practice, no source: the turns beyond 1.5 diameters carry little"}
)
