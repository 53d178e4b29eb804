package screw

import (
	"fettle/plan/sheet"
	"fettle/plan/thread"
)

const power = "statics of the power screw, as in any machine design text: an inclined plane of the lead wound on the pitch diameter"

// Torque and thrust. pitch_dia is the diameter on which the flanks bear, lead
// what a turn moves, flank half of the included angle (0 for a square thread),
// friction that of the thread; collar_friction and collar_dia belong to the face
// or bearing that takes the thrust. sec α of the flank stands for the exact
// normal angle: 0.5 % off at the leads of feed screws.
var (
	// ThreadAgainst is the thread's torque when the load is pushed back; without
	// end where the thread jams.
	ThreadAgainst = sheet.Method{
		Text: "when(pi * pitch_dia > friction * lead / cos(flank), " +
			"force * pitch_dia / 2 * (lead + pi * friction * pitch_dia / cos(flank)) / (pi * pitch_dia - friction * lead / cos(flank)), inf)",
		Source: power + ": T = F d_m/2 (l + π µ d_m sec α)/(π d_m − µ l sec α)",
	}

	// ThreadWith is the thread's torque when the load helps: below nothing where
	// the thread runs back by itself.
	ThreadWith = sheet.Method{
		Text: "force * pitch_dia / 2 * (pi * friction * pitch_dia / cos(flank) - lead) / (pi * pitch_dia + friction * lead / cos(flank))",

		Source: power + ": T = F d_m/2 (π µ d_m sec α − l)/(π d_m + µ l sec α)",
	}

	// CollarTorque is what the thrust face or bearing takes.
	CollarTorque = sheet.Method{Text: "force * collar_friction * collar_dia / 2", Source: "statics: F µ_c d_c/2"}

	// TorqueAgainst the load, at the handle.
	TorqueAgainst = sheet.Method{Text: "thread_against + collar_torque", Source: "sum of thread and collar"}

	// TorqueWith the load, at the handle.
	TorqueWith = sheet.Method{Text: "thread_with + collar_torque", Source: "sum of thread and collar"}

	// Efficiency is the part of the work that reaches the slide.
	Efficiency = sheet.Method{Text: "force * lead / (2 * pi * torque_against)", Source: "definition: e = F l / 2 π T"}

	// LeadAngle of the thread at the pitch line.
	LeadAngle = thread.LeadAngle

	// FrictionAngle of the flanks.
	FrictionAngle = sheet.Method{Text: "atan(friction / cos(flank))", Source: "statics: tan ρ = µ sec α"}

	// Holding is friction over lead: above 1 the thread alone holds its load. A
	// collar is left out, because a ball bearing in its place would hold nothing.
	Holding = sheet.Method{
		Text:   "pi * friction * pitch_dia / (cos(flank) * lead)",
		Source: power + ": self-locking where π µ d_m sec α > l, the thread alone",
	}

	// RimForce is the force of a hand on the wheel or crank.
	RimForce = sheet.Method{Text: "torque_against / radius", Source: "statics: T / R"}

	// ThrustFrom is the thrust that a hand's force on the rim gives.
	ThrustFrom = sheet.Method{
		Text: "hand * radius / (when(pi * pitch_dia > friction * lead / cos(flank), " +
			"pitch_dia / 2 * (lead + pi * friction * pitch_dia / cos(flank)) / (pi * pitch_dia - friction * lead / cos(flank)), inf) + collar_friction * collar_dia / 2)",
		Source: power + ", the other way round",
	}

	// NutPressure on the flanks, over at most ten turns.
	NutPressure = sheet.Method{
		Text:   "force / (pi * pitch_dia * flank_height * min(10, nut_length / pitch))",
		Source: "common practice: F / (π d2 H1 z), no more than ten turns counted",
	}
)

// What presses on a nut's flanks and wears them slowly, in MPa; below
// NutPressureGood bronze hardly wears.
const (
	NutPressureGood   = 3.0
	NutPressureBronze = 7.0
	NutPressureIron   = 4.0
	NutPressureAcetal = 3.0
	NutPressureSource = "common practice, no source, from memory: a slow screw, oiled, lasts at up to 7 MPa in bronze, 4 in cast iron, 3 in acetal"
)
