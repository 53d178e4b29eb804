// Package dial knows graduated dials: what a division is worth, which counts of
// lines give round figures for a lead, whether they can be read, what a dial
// that does not suit its screw gets wrong, how to divide one, and what holds it.
//
// A lead of 1 mm and 100 divisions read 0.01 mm; 40 divisions of 0.025 are one
// turn of it. On work that turns, the diameter changes by twice that: a dial is
// engraved in either, and the word for it is never left out.
//
// Nothing here is standardised but the sections of O-rings (ISO 3601-1): it is
// geometry and arithmetic, with sizes of lines and figures from human-factors
// handbooks and common practice.
//
//	dial.Counts(25.4/12)                       // what a lead of 1/12 inch can be divided into
//	dial.Turns(127, 40, []int{24, 28, 30})     // none: see Differential
package dial
