// Package thread knows screw threads: their forms and sizes, limits, tapping
// drills, the cutting of them, their strength, their measurement over three
// wires, and which thread a measured one may be.
//
//	t, err := thread.Parse("Tr12x3 LH")
//	t.Lay(sc)                      // dia, pitch, lead, pitch_dia, root, bore … on a sheet
//	err = t.LayLimits(sc, "7e")    // major_max … minor_min
//	thread.Identify(thread.Measured{Dia: 5.96, Pitch: 1})
//
// The words: dia is the major diameter of the basic profile, root the minor
// diameter of the screw, bore the minor diameter of the nut; lead is what one
// turn moves, which is the pitch times the starts.
//
// Covered: ISO metric coarse and fine (ISO 68-1, 261, 262, 724; limits
// ISO 965-1), UNC, UNF, UNEF (ASME B1.1), Whitworth BSW and BSF (BS 84), brass
// 26 to the inch, BA (BS 93), Model Engineer, parallel pipe G (ISO 228-1),
// trapezoidal (ISO 2901 to 2904), Acme (ASME B1.5), square. Not covered: taper
// pipe threads, buttress and knuckle threads, and gauges.
//
// Sizes are data in CSV files beside the code, all else is formulas on a sheet.
// The sizes of the M, UN, BSW, BSF and G series, the pilot drills of ISO 2306 and
// the positions G agree with the tables of a general-purpose CAD package; they
// were compared once, row by row.
package thread
