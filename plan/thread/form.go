package thread

import "fettle/plan/sheet"

// Form is the shape of a profile, and the formulas of its diameters from dia
// and pitch. What a form does not have is a method without text.
type Form struct {
	Label string
	Angle float64 // included angle of the flanks, in degrees; 0 for a square thread

	CrestClearance sheet.Method // of one crest to the root that it meets
	PitchDia       sheet.Method
	Root           sheet.Method // minor diameter of the screw
	Bore           sheet.Method // minor diameter of the nut
	NutMajor       sheet.Method
	StressArea     sheet.Method
}

const (
	iso724   = "ISO 724 on the basic profile of ISO 68-1"
	asmeB11  = "ASME B1.1: basic 60° profile"
	bs84     = "BS 84: 55°, depth 0.640327 P"
	bs93     = "BS 93: 47½°, depth 0.6 P"
	iso2904  = "ISO 2904"
	asmeB15  = "ASME B1.5: 29°, general purpose"
	squared  = "common practice: a square thread has no standard; depth half the pitch"
	meanArea = "π/4 ((d2 + d3)/2)²: the circle midway between pitch line and root"
)

var (
	asDia = sheet.Method{Text: "dia", Source: "basic profile: the nut's major diameter is nominal"}

	// MetricRoot is the root diameter of an external ISO metric thread: d − 1.226869 P.
	MetricRoot = sheet.Method{Text: "dia - 1.226869 * pitch", Source: "ISO 68-1 and ISO 724: external root d3"}

	// MetricBore is the minor diameter of an internal ISO metric thread: d − 1.082532 P.
	MetricBore = sheet.Method{Text: "dia - 1.082532 * pitch", Source: "ISO 724: internal minor diameter D1"}

	// TrapezoidalRoot is the root diameter of a trapezoidal screw: d − P − 2 a.
	TrapezoidalRoot = sheet.Method{Text: "dia - pitch - 2 * crest_clearance", Source: "ISO 2904: d3 = d − P − 2 a_c"}

	// TrapezoidalBore is the minor diameter of a trapezoidal nut: d − P.
	TrapezoidalBore = sheet.Method{Text: "dia - pitch", Source: "ISO 2904: D1 = d − P"}

	// TrapezoidalClearance at the crest of a trapezoidal thread, by its pitch.
	TrapezoidalClearance = sheet.Method{
		Text:   "when(pitch < mm(2), mm(0.15), when(pitch < mm(6), mm(0.25), when(pitch < mm(14), mm(0.5), mm(1))))",
		Source: "ISO 2904 table 1", Valid: "for pitches of 1.5 mm and more",
	}
)

var halfway = sheet.Method{Text: "pi / 4 * pow((pitch_dia + root) / 2, 2)", Source: meanArea}

// The forms.
var (
	Metric = &Form{
		Label: "ISO metric, 60°", Angle: 60,
		PitchDia:   sheet.Method{Text: "dia - 0.649519 * pitch", Source: iso724},
		Root:       MetricRoot,
		Bore:       MetricBore,
		NutMajor:   asDia,
		StressArea: sheet.Method{Text: halfway.Text, Source: "ISO 898-1: As = π/4 ((d2 + d3)/2)²"},
	}
	Unified = &Form{
		Label: "Unified, 60°", Angle: 60,
		PitchDia:   sheet.Method{Text: "dia - 0.649519 * pitch", Source: asmeB11},
		Root:       sheet.Method{Text: "dia - 1.190785 * pitch", Source: "ASME B1.1: reference minor diameter of a rounded root (UNR)"},
		Bore:       sheet.Method{Text: "dia - 1.082532 * pitch", Source: asmeB11},
		NutMajor:   asDia,
		StressArea: sheet.Method{Text: "pi / 4 * pow(dia - 0.974279 * pitch, 2)", Source: "ASME B1.1: At = π/4 (D − 0.9743/n)²"},
	}
	Whitworth = &Form{
		Label: "Whitworth, 55°", Angle: 55,
		PitchDia:   sheet.Method{Text: "dia - 0.640327 * pitch", Source: bs84},
		Root:       sheet.Method{Text: "dia - 2 * 0.640327 * pitch", Source: bs84},
		Bore:       sheet.Method{Text: "dia - 2 * 0.640327 * pitch", Source: bs84},
		NutMajor:   asDia,
		StressArea: halfway,
	}
	BritishAssociation = &Form{
		Label: "BA, 47½°", Angle: 47.5,
		PitchDia:   sheet.Method{Text: "dia - 0.6 * pitch", Source: bs93},
		Root:       sheet.Method{Text: "dia - 1.2 * pitch", Source: bs93},
		Bore:       sheet.Method{Text: "dia - 1.2 * pitch", Source: bs93},
		NutMajor:   asDia,
		StressArea: halfway,
	}
	Trapezoidal = &Form{
		Label: "trapezoidal, 30°", Angle: 30,
		CrestClearance: TrapezoidalClearance,
		PitchDia:       sheet.Method{Text: "dia - pitch / 2", Source: iso2904 + ": d2 = d − 0.5 P"},
		Root:           TrapezoidalRoot,
		Bore:           TrapezoidalBore,
		NutMajor:       sheet.Method{Text: "dia + 2 * crest_clearance", Source: iso2904 + ": D4 = d + 2 a_c"},
		StressArea:     halfway,
	}
	Acme = &Form{
		Label: "Acme, 29°", Angle: 29,
		CrestClearance: sheet.Method{
			Text:   "when(pitch < mm(2.53), mm(0.127), mm(0.254))",
			Source: "ASME B1.5: 0.005 in finer than 10 to the inch, else 0.010 in",
		},
		PitchDia:   sheet.Method{Text: "dia - pitch / 2", Source: asmeB15},
		Root:       sheet.Method{Text: "dia - pitch - 2 * crest_clearance", Source: asmeB15},
		Bore:       sheet.Method{Text: "dia - pitch", Source: asmeB15},
		NutMajor:   sheet.Method{Text: "dia + 2 * crest_clearance", Source: asmeB15},
		StressArea: halfway,
	}
	Square = &Form{
		Label:      "square",
		PitchDia:   sheet.Method{Text: "dia - pitch / 2", Source: squared},
		Root:       sheet.Method{Text: "dia - pitch", Source: squared + "; give the nut's crests 0.1 to 0.25 mm of room"},
		Bore:       sheet.Method{Text: "dia - pitch", Source: squared},
		NutMajor:   asDia,
		StressArea: halfway,
	}
)

var (
	// Lead is what one turn moves.
	Lead = sheet.Method{Text: "pitch * starts", Source: "definition: lead = pitch × starts"}

	// Depth of the screw's thread, on the radius.
	Depth = sheet.Method{Text: "(dia - root) / 2", Source: "geometry"}

	// LeadAngle at the pitch line.
	LeadAngle = sheet.Method{Text: "atan(lead / (pi * pitch_dia))", Source: "geometry: tan λ = l / π d2"}
)
