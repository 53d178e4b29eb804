package slide

import "fettle/plan/sheet"

// A head that goes up and down, and the gas struts that carry it. angle is from
// the direction of travel; rise is how much more a strut pushes all the way in
// than all the way out, as a share.
var (
	// Weight of a mass.
	Weight = sheet.Method{Text: "mass * gravity(9.80665)", Source: "definition: m g"}

	// StrutOut is the lift of the struts with the head at the top, where they are out.
	StrutOut = sheet.Method{Text: "struts * strut_force * cos(angle)", Source: "statics: F cos α each"}

	// StrutIn is the lift with the head at the bottom.
	StrutIn = sheet.Method{
		Text:   "struts * strut_force * (1 + rise * travel / stroke) * cos(angle)",
		Source: "statics, the push taken to rise evenly along the stroke",
	}
)

// Figures of gas struts.
const (
	StrutRise       = 0.3
	StrutRiseSource = "common practice, no source: a gas strut pushes 20 to 40 % harder all the way in"
	StrutSpare      = 10.0
	StrutSource     = "common practice, no source: 10 mm more stroke than travel"
	BalanceOff      = 0.2
	BalanceSource   = "common practice, no source: as heavy upwards as downwards within 20 %"
)
