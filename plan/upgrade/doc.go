// Package upgrade holds what can be done to a machine. Each [Kind] is one file
// with its test, and a line in [Kinds]; nothing else names it.
//
// A kind is applied at a [Site]: it reads its inputs, changes leaves of the
// axis, adds checks, and lists the fields of its form with what it proposes.
// Which remedy is used is an input; the sheet's structure never depends on a
// computed value, so a remedy that is not needed at an amount is there all the
// same, and gives nothing.
package upgrade
