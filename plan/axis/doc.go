// Package axis lays one direction of a machine out as parts along a line, and
// gives what follows: where it stops, what engages, what hangs over, what of
// the screw sticks out.
//
// Every part is an interval in millimetres at s = 0, on the fixed or on the
// moving side, in one or more lanes. Two parts on opposite sides that share a
// lane meet somewhere, and that bounds s. A part can be tied to a face of
// another and then follows it. s is 0 at the minus end of the travel as found;
// the plus end is where the handle is, if the axis has one.
//
//	l := axis.Define(root, &machine.Axes[0], unit.MM)
//
// puts on the sheet, in the axis's scope: for each part "bracket.from",
// ".to", ".length" and its own sizes; for each meeting "dial_slide.bound",
// ".gap" and a check; "asked_plus" and "asked_minus", where the travel is
// wanted to; "reach_plus" and "reach_minus", where it ends; "travel" and
// "usable"; the thread window "nut_on_thread"; the cover "slide_on_ways"; the
// "shaft_end"; and what the travel is for ([Capacity]).
//
// A figure asked for is worked out at the asked position, so that a part is
// sized for what was wanted; what is got is the nearest stop. An obstacle that
// was not measured lies at or beyond the travel as found: the present travel
// stays exact, and a gain is "at most".
//
// The five ways of driving an axis ([Arrangements]), what a part can be
// ([Roles]) and what travel is for ([Capacities]) are tables. Adding an axis
// kind is adding a row.
package axis
