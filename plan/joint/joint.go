// Package joint holds the joints by which a shaft is lengthened, as formulas on
// a sheet: a sleeve with a cross pin or a taper pin, held by retaining compound or
// silver-brazed, a screwed stub, grub screws, a split clamp; the torque and thrust
// that each carries, the sizes to give it, and the spigot that an old end has
// metal for.
//
//	sc.Method(q, joint.PinnedSleeve)   // of shear, pin and dia on the sheet
//
// Pins are those of ISO 2338 and ISO 2339, bolt lengths of ISO 888; the shear
// strength of retaining compounds is as tested by ISO 10123. All else is
// elementary mechanics with handbook values and common practice, each with its
// source, and from memory where it says so. The cautions for brazing and bonding
// are here too.
package joint

import "fettle/plan/sheet"

var (
	// TorqueWanted is what a joint must carry: the torque of a hand on the
	// wheel, with a factor for jerks and a wheel that is used to pull.
	TorqueWanted = sheet.Method{Text: "hand_torque * factor", Source: "common practice, no source: three times the hand's torque"}

	// BrazedLap is the torque of a silver-brazed sleeve: shear over the lap.
	BrazedLap = sheet.Method{
		Text:   "shear * pi * pow(dia, 2) * lap / 2",
		Source: "geometry: T = τ π d² L / 2, with the allowable shear of the joint",
		Valid:  "for a gap of 0.025 to 0.1 mm a side, well wetted",
	}

	// BrazedLeast is the least lap: three times the thinner wall.
	BrazedLeast = sheet.Method{Text: "3 * wall", Source: "common practice in brazing: a lap of three times the thinner wall"}

	// BondedLap is the torque of a sleeve held by retaining compound.
	BondedLap = sheet.Method{
		Text:   "shear * pi * pow(dia, 2) * lap / 2",
		Source: "geometry: T = τ π d² L / 2 (shear strength by ISO 10123)",
		Valid:  "for a clean slip fit, below 100 °C",
	}

	// PinnedSleeve is the torque of a pin through sleeve and shaft: two
	// sections in shear at the shaft's surface.
	PinnedSleeve = sheet.Method{
		Text:   "shear * pi / 4 * pow(pin, 2) * dia",
		Source: "elementary mechanics: T = τ (π d²/4) D, double shear",
	}

	// SleeveWall is what is left around the bore of a sleeve.
	SleeveWall = sheet.Method{Text: "(outside - dia) / 2", Source: "geometry"}

	// SolidLeast between the bottom of a sleeve's bore and an undercut or a
	// thread turned on its other end.
	SolidLeast = sheet.Method{Text: "mm(3)", Source: "common practice, no source: 3 mm"}

	// SleeveWallLeast around a spigot: 1.5 up to 12 mm, 2 above.
	SleeveWallLeast = sheet.Method{Text: "when(dia <= mm(12), mm(1.5), mm(2))", Source: "common practice, no source: 1.5 up to 12 mm, 2 above"}
)

// Allowable shears in MPa, with what they rest on. Brazed: published joint
// strengths lie at 130 to 200 MPa; the lower, with a factor of four. Bonded:
// 25 MPa for a high-strength retaining compound by ISO 10123, halved for the
// fit and halved again. Pin: a mild steel pin.
const (
	BrazedShear       = 32.5
	BrazedShearSource = "silver brazing, 130 MPa at the least, with a factor of 4: common practice"
	BondedShear       = 6.0
	BondedShearSource = "high-strength retaining compound, 25 MPa (from memory, unchecked), halved for the fit and halved for safety"
	PinShear          = 70.0
	PinShearSource    = "mild steel pin, 60 to 80 MPa: common practice"
	HandFactor        = 3.0
	HandFactorSource  = "common practice, no source: 3 for a hand on a feed screw"
)
