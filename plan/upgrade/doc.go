// Package upgrade holds what can be done to a machine. Each [Kind] is one file
// with its test, and a line in [Kinds]; nothing else names it.
//
// A kind is applied at a [Site]: it reads its inputs, changes leaves of the
// axis, adds checks, and lists the fields of its form with what it proposes.
// Which remedy is used is an input; the sheet's structure never depends on a
// computed value, so a remedy that is not needed at an amount is there all the
// same, and gives nothing.
//
// What it asks the workshop for ([Kind].Parts) is made from the figures of a
// result: each size has its key, so that it can be opened, its limits, or what
// it must suit and the measurement that settles it, and how its size as made
// goes back into the sheet. Remedies ask where they are applied; what is not
// needed at an amount is not listed.
package upgrade
