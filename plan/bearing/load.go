package bearing

import "fettle/plan/sheet"

// Formulas of static load. static is the rating C0; x0 and y0 from [StaticFactors].
var (
	// StaticEquivalent is the load that strains a radial bearing as much.
	StaticEquivalent = sheet.Method{Text: "max(radial, x0 * radial + y0 * thrust)", Source: "ISO 76: P0 = X0 Fr + Y0 Fa, and not less than Fr"}

	// StaticEquivalentThrust is that of a thrust bearing, which carries nothing else.
	StaticEquivalentThrust = sheet.Method{Text: "thrust", Source: "ISO 76: P0 = Fa of a thrust bearing of 90°"}

	// StaticSafety is s0.
	StaticSafety = sheet.Method{Text: "static / equivalent", Source: "ISO 76: s0 = C0 / P0"}

	// AxialMost is the thrust that may be asked of a bearing.
	AxialMost = sheet.Method{Text: "axial_share * static", Source: "a share of the static rating, by kind and size"}
)

// StaticFactors are X0 and Y0 of a radial bearing; both 0 for a thrust bearing.
//
// Source: ISO 76, one row: deep groove, and angular contact of 30°.
func StaticFactors(k Kind) (x0, y0 float64) {
	switch k {
	case DeepGroove:
		return 0.6, 0.5
	case AngularContact:
		return 0.5, 0.33
	}
	return 0, 0
}

// SafetyWanted is the static safety to ask for, and its source: more of rollers
// than of balls.
func SafetyWanted(k Kind) (s0 float64, source string) {
	if k == NeedleThrust {
		return 3, "ISO 76:2006, guidance, from memory, unchecked: rollers that run quietly 3, normal 1.5, with shocks 3"
	}
	return 2, "ISO 76:2006, guidance, from memory, unchecked: balls that run quietly 2, normal 1, with shocks 1.5"
}

// AxialShare is the share of the static rating that may be asked of a bearing as
// thrust alone, and its source.
func (b Bearing) AxialShare() (share float64, source string) {
	switch {
	case b.Kind == AngularContact:
		return 1, "common practice, no source: no more than C0, so that the balls stay off the groove's edge"
	case b.Thrust():
		return 1, "ISO 76: a thrust bearing's rating is of thrust"
	case b.Series == "17":
		return 0.15, "common practice, no source: 0.15 of C0 in the thinnest series"
	case b.Bore <= 12 || b.Series != "02" && b.Series != "03":
		return 0.25, "published rule: 0.25 of C0 up to 12 mm of bore and in the diameter series 8, 9, 0 and 1"
	}
	return 0.5, "published rule: 0.5 of C0"
}
