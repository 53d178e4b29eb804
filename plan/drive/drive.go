// Package drive holds what turns one motion into another, as formulas on a sheet:
// belts and pulleys, the ratchet of a feed, two screws of nearly one pitch, an
// eccentric that clamps, and how fast a rim runs.
//
//	sc.Method(q, drive.BeltLength)   // of driver, driven and centres on the sheet
//
// A formula's names are the keys that its sheet must have; the comment over each
// group says which. No standard holds these: they are geometry and statics; limits
// are common practice, and say so.
package drive

import "fettle/plan/sheet"

// An open belt over two pulleys, by the diameters at which it runs; centres is how
// far their axes are apart.
var (
	// BeltLength is the length of the belt along its pitch line.
	BeltLength = sheet.Method{
		Text:   "2 * centres + pi * (driver + driven) / 2 + pow(driver - driven, 2) / (4 * centres)",
		Source: "geometry, as in belt catalogues: 2 C + π (D + d)/2 + (D − d)²/4 C",
		Valid:  "within 0.1 % while the axes are as far apart as the larger pulley's diameter",
	}

	// BeltCentres is how far apart the axes are to be for a belt that there is.
	BeltCentres = sheet.Method{
		Text:   "(belt - pi * (driver + driven) / 2 + sqrt(pow(belt - pi * (driver + driven) / 2, 2) - 2 * pow(driver - driven, 2))) / 4",
		Source: "geometry: the belt's length, solved for C", Valid: BeltLength.Valid,
	}

	// BeltWrap is the angle over which the belt lies on the smaller pulley.
	BeltWrap = sheet.Method{
		Text:   "when(2 * centres > abs(driver - driven), pi - 2 * atan(abs(driver - driven) / sqrt(pow(2 * centres, 2) - pow(driver - driven, 2))), 0)",
		Source: "geometry: 180° − 2 arcsin((D − d)/2 C); none where one pulley would stand within the other",
	}

	// Driven is the speed of the driven pulley.
	Driven = sheet.Method{Text: "speed * driver / driven", Source: "geometry: both rims run as fast; slip, 1 to 2 % of a vee belt, not counted"}

	// Rim is the speed of a rim of the diameter dia that turns at turns.
	Rim = sheet.Method{Text: "turns * dia / 2", Source: "geometry: v = π D n"}

	// RimTurns is the speed of turning at which a rim runs as fast as rim.
	RimTurns = sheet.Method{Text: "2 * rim / dia", Source: "geometry: n = v / π D"}
)

// What belts are asked.
const (
	WrapLeast       = 120.0
	WrapLeastSource = "common practice, no source: 120° on the smaller pulley"
	IronRim         = 25.0
	IronRimSource   = "common practice, from memory, unchecked: 25 m/s for wheels and plates of plain grey iron"
)

// RatchetFeed is what a stroke feeds when the pawl takes so many teeth of a wheel
// on a screw.
var RatchetFeed = sheet.Method{Text: "lead * taken / teeth", Source: "geometry: the screw turns by the teeth that the pawl takes"}

// Differential is what a turn moves where one screw, of two threads of the same
// hand, leaves one nut as it enters the other.
var Differential = sheet.Method{Text: "abs(coarse - fine)", Source: "geometry: the difference of the two pitches"}

// An eccentric that draws a clamp together: throw is how far its middle stands off
// its axis, radius that of the eccentric, lever and hand what turns it.
var (
	// EccentricLift is what it moves when it is swung up to its dead centre by swing.
	EccentricLift = sheet.Method{Text: "throw * (1 - cos(swing))", Source: "geometry: e (1 − cos φ), up to the dead centre"}

	// EccentricPull is what it draws with, before its dead centre by short.
	EccentricPull = sheet.Method{
		Text:   "hand * lever / (throw * sin(short) + friction * radius)",
		Source: "statics: T / (e sin φ + µ r), the friction of its pivot not counted",
	}

	// EccentricHolds is the throw up to which it does not come back by itself.
	EccentricHolds = sheet.Method{Text: "friction * radius", Source: "statics: it stays wherever it stands while e is at most µ r; further out only near its dead centre"}
)
