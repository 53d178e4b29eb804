// Package fit holds limits and fits: the ISO code system for tolerances
// (ISO 286-1 and -2) for sizes up to 500 mm, general tolerances (ISO 2768-1),
// the seats of rolling bearings, and what heat and interference do to a fit.
//
//	l, err := fit.Deviations("H7", 25)   // +21 and 0 µm
//	f, err := fit.Fit("H7", "g6", 25)    // clearance 7 to 41 µm
//
// A hole is written in capitals, a shaft in small letters. A deviation is
// counted from the nominal size, in µm. Clearance is hole less shaft, so a
// negative clearance is interference, and interference is always diametral.
//
// Tables are Go functions. What is computed from them is text for a sheet
// ([ClearanceMost], [Pressure], [HotClearance] and their like), so that upgrades,
// the bench and the command line use the same formula.
//
// It holds no sizes above 500 mm, no threads and no tapers.
//
// The tables were compared once, every step, letter and grade from 3 to 18 (some
// 18 000 limits), with two other open transcriptions of ISO 286-1 and a printed
// table of common classes (1 480 limits): they agree but for single misprints in
// those, each of which breaks its own rule. Of the deviation ef over 18 to 30 mm
// the corrected −28 is used (ISO 286-1:2010/Cor 1:2013), not the printed −25.
package fit
