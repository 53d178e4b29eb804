// Package axis lays one direction of a machine out as parts along a line, and
// gives what follows: where it stops, what engages, what hangs over, what of
// the screw sticks out.
//
// Every part is an interval in millimetres at s = 0, on the fixed or on the
// moving side, in one or more lanes. Two parts on opposite sides that share a
// lane meet somewhere, and that bounds s. A part can be tied to a face of
// another and then follows it. s is 0 at the minus end of the travel as found.
// Plus is the positive direction, whichever the axis calls so: towards the
// operator for a slide, out of its body for a quill.
//
//	l := axis.Define(root, &machine.Axes[0], unit.MM)
//
// puts on the sheet, in the axis's scope: for each part "bracket.from",
// ".to", ".length" and its own sizes; for each stop "dial_slide.bound", ".gap"
// and a check; "asked_plus" and "asked_minus", where the travel is wanted to;
// "reach_plus" and "reach_minus", where it ends; "per_turn" and what else the drive gives; "travel" and "usable"; the
// thread window "nut_on_thread"; the cover "slide_on_ways"; the "shaft_end";
// the "screw_line"; and what the travel is for ([Capacity]).
//
// A figure asked for is worked out at the asked position, so that a part is
// sized for what was wanted; what is got is the nearest stop.
//
// # What is not known
//
// An obstacle or a face that was not measured lies at or beyond the travel as
// found: the present travel stays exact, and a gain is "at most". What is
// usual for an arrangement and was not asked for counts as not measured. Where
// no named stop explains an end, the end itself is a stop until one is named.
//
// # Tables
//
// The ways of driving an axis ([Arrangements]), what each gives ([Drive]), what a part can be
// ([Roles]) and what travel is for ([Capacities]) are tables. Adding an axis
// kind is adding a row.
//
// # Thresholds
//
// Limits that are common practice, and assumptions, are defined through
// [Layout.Assume] and [Layout.Limit], here and in upgrades, so that an entry of
// the axis under the figure's key takes their place: "slide_on_ways.overhang_most"
// for this slide alone. [Layout.Thresholds] lists them.
package axis
