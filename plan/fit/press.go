package fit

import "fettle/plan/sheet"

const lame = "thick cylinders (Lamé): two rings, elastic, plane stress"

// Formulas of a press fit. size is the joint's diameter, outside the hub's,
// bore the hollow shaft's (0 where it is solid), length the joint's;
// hub_modulus, hub_poisson, shaft_modulus, shaft_poisson the materials'.
var (
	// Effective is the interference that is left when the peaks of both surfaces
	// are pressed flat.
	Effective = sheet.Method{
		Text:   "max(0, interference - smoothing * (hub_roughness + shaft_roughness))",
		Source: "DIN 7190: loses 0.8 of both Rz (edition of 2001; that of 2017 is quoted with 0.4)",
	}

	// HubGive and ShaftGive are how far hub and shaft yield to the pressure, as
	// shares of the diameter.
	HubGive = sheet.Method{
		Text:   "((pow(outside, 2) + pow(size, 2)) / (pow(outside, 2) - pow(size, 2)) + hub_poisson) / hub_modulus",
		Source: lame,
	}
	ShaftGive = sheet.Method{
		Text:   "((pow(size, 2) + pow(bore, 2)) / (pow(size, 2) - pow(bore, 2)) - shaft_poisson) / shaft_modulus",
		Source: lame,
	}

	// Pressure between hub and shaft.
	Pressure = sheet.Method{Text: "effective / (size * (hub_give + shaft_give))", Source: lame, Valid: "while both stay elastic"}

	// HubHoop is the pull around the hub's bore.
	HubHoop = sheet.Method{Text: "pressure * (pow(outside, 2) + pow(size, 2)) / (pow(outside, 2) - pow(size, 2))", Source: lame}

	// HubEquivalent is the stress to compare with the yield of a tough hub.
	HubEquivalent = sheet.Method{Text: "2 * pressure * pow(outside, 2) / (pow(outside, 2) - pow(size, 2))", Source: lame + "; greatest shear (Tresca) at the bore"}

	// ShaftStress is the push in the shaft, at its bore where it is hollow.
	ShaftStress = sheet.Method{Text: "when(bore > 0, 2 * pressure * pow(size, 2) / (pow(size, 2) - pow(bore, 2)), pressure)", Source: lame}

	// AxialHold is the force along the axis that the joint holds, or that presses it on.
	AxialHold = sheet.Method{Text: "pi * size * length * pressure * friction", Source: "friction over the joint's surface: F = π d L p µ"}

	// TorqueHold is the torque that the joint holds.
	TorqueHold = sheet.Method{Text: "force * size / 2", Source: "friction over the joint's surface: T = F d / 2"}
)

// Figures that a press fit assumes.
const (
	Smoothing       = 0.8
	SmoothingSource = "DIN 7190, edition of 2001; the edition of 2017 is quoted with 0.4, which holds more"
	Friction        = 0.12
	FrictionSource  = "common practice: steel on steel or iron, dry 0.12 to 0.15, pressed with oil 0.08"
	Roughness       = 0.006
	RoughnessSource = "common practice: Rz 6 µm, finely turned or reamed"
)
