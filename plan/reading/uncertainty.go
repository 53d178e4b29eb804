package reading

import "fettle/plan/sheet"

// Parts of the uncertainty of a reading.
var (
	// TypeA is that of a mean of repeated readings.
	TypeA = sheet.Method{Text: "deviation / sqrt(number)", Source: "JCGM 100:2008, 4.2.3: s / √n"}

	// TypeBResolution is that of the step of the reading.
	TypeBResolution = sheet.Method{Text: "resolution / sqrt(12)", Source: "JCGM 100:2008, F.2.2.1: rectangular over one step"}

	// TypeBLimit is that of an instrument that is within a limit.
	TypeBLimit = sheet.Method{Text: "limit / sqrt(3)", Source: "JCGM 100:2008, 4.3.7: rectangular"}

	// TypeBCertificate is that of a certificate's expanded uncertainty.
	TypeBCertificate = sheet.Method{Text: "expanded / factor", Source: "JCGM 100:2008, 4.3.3: U / k"}

	// Degrees is the effective degrees of freedom where only one part, type_a, has
	// few; number is that of its readings.
	Degrees = sheet.Method{Text: "when(type_a > 0, min(100000, (number - 1) * pow(combined / type_a, 4)), 100000)", Source: "Welch–Satterthwaite, JCGM 100:2008, G.4.1; the other parts are taken as well known"}

	// DegreesOf is the effective degrees of freedom of parts that each have their
	// own; shares is the family of [DegreesShare].
	DegreesOf    = sheet.Method{Text: "min(100000, pow(combined, 4) / sum(shares))", Source: "Welch–Satterthwaite, JCGM 100:2008, G.4.1"}
	DegreesShare = sheet.Method{Text: "pow(part, 4) / degrees", Source: "Welch–Satterthwaite, JCGM 100:2008, G.4.1"}

	// Combined is all parts together; squares is the family of their squares.
	Combined = sheet.Method{Text: "sqrt(sum(squares))", Source: "JCGM 100:2008, 5.1.2, independent parts"}

	// Expanded is for the coverage asked for.
	Expanded = sheet.Method{Text: "factor * combined", Source: "JCGM 100:2008, 6.2.1: U = k u"}

	// Factor is the coverage factor.
	Factor = sheet.Method{Text: "coverage(level, degrees)", Source: annexG}
)

// ManyDegrees stands for degrees of freedom without end: with so many Student's t
// is the normal distribution to five figures.
const ManyDegrees = 100000
