package screw

import "fettle/plan/sheet"

// Wind-up and stretch of a screw of root diameter root, length from the thrust
// bearing to the nut, and the springs that it is in series with.
var (
	// PolarMoment of a round bar.
	PolarMoment = sheet.Method{Text: "pi / 32 * pow(root, 4)", Source: "geometry: J = π d⁴/32"}

	// WindUp is the angle by which a torque twists the screw.
	WindUp = sheet.Method{Text: "torque * length / (shear_modulus * polar_moment)", Source: "elementary mechanics: φ = T L/G J"}

	// WindUpLost is what the slide lags behind by.
	WindUpLost = sheet.Method{Text: "wind_up * lead / (2 * pi)", Source: "definition of the lead: φ l/2π"}

	// BarArea of a round bar.
	BarArea = sheet.Method{Text: "pi / 4 * pow(root, 2)", Source: "geometry"}

	// Stretch of the screw under a thrust.
	Stretch = sheet.Method{Text: "force * length / (modulus * area)", Source: "elementary mechanics: F L/E A"}

	// ScrewStiffness of a screw held at one end: it falls with the nut's distance.
	ScrewStiffness = sheet.Method{Text: "modulus * area / length", Source: "elementary mechanics: E A/L, L from the thrust bearing to the nut"}

	// ScrewStiffnessBoth is that of a screw held against thrust at both ends.
	ScrewStiffnessBoth = sheet.Method{
		Text:   "modulus * area * between / (length * (between - length))",
		Source: "elementary mechanics: E A L/(x (L − x)), two springs side by side",
	}

	// InSeries is the stiffness of screw, bearing, nut and bracket together.
	InSeries = sheet.Method{Text: "1 / sum(compliances)", Source: "springs in series: 1/k = Σ 1/k_i"}

	// GivesWay is how far the whole gives under a thrust.
	GivesWay = sheet.Method{Text: "force / stiffness", Source: "definition"}
)

// The figures of steel in shear.
const (
	ShearModulus       = 79000 // MPa
	ShearModulusSource = "carbon steel, handbook value 79 GPa"
	YieldSource        = "free-cutting steel, cold drawn, 375 MPa: handbook value; put your own in"
)
