// Package sheet is the engine: quantities, the formulas between them, and what
// follows when one of them is changed. It knows nothing about machines.
//
// A [Sheet] is filled through scopes, a line a quantity. Leaves are measured or
// assumed; the rest is text, and the text is what is computed:
//
//	s := sheet.New()
//	sc := s.Root().In("bracket")
//	sc.Measure(sheet.Q{Key: "length", Label: "bracket length", Symbol: "L", Unit: unit.MM},
//		sheet.Leaf{Value: 26, Origin: sheet.Measured, Spread: sheet.Within(0.05)})
//	sc.Formula(sheet.Q{Key: "reach", Label: "reach", Unit: unit.MM}, "length + mm(0.5)", "geometry")
//	s.Reached(sheet.Now)
//	s.Upgrade("longer bracket")
//	sc.Change("length", "was + mm(10.5)", "decided")
//	r, err := s.Bind()
//
// A formula is a Go expression of numbers, keys, + - * /, comparisons,
// when(condition, a, b) and functions by name: min, max, sum and count, which
// also take families; abs, sqrt, and pow with a constant exponent, as 2 or 1/3;
// sin, cos, tan, atan, exp, log, ceil and floor of plain numbers; a unit's name
// around a number, as mm(0.5); and what is registered ([Sheet.Register]). pi and
// inf are numbers. Units are checked when names are bound; 0 and inf fit any.
//
// # Versions
//
// The sheet is a straight line of versions. A [Scope.Change] of a leaf adds a
// version, in whose formula was is the one before; a [Scope.Formula] is always
// computed from the latest; a [Scope.Fix] is decided once, from what stands
// where it is written; of several [Scope.Require] the largest wins. Three of the
// versions are looked at: as found, now and planned. [Result.KnockOns] is the
// difference between the last two, as a tree.
// A bound sheet can be branched ([Result.Branch]): what is tried on a branch
// reaches no other, and nothing that stood before is laid out again.
//
// # What is not known
//
// A leaf of origin [Unknown] carries bounds through every formula, so that a
// figure is known, "at most", "at least", "between" or unknown, and
// [Result.Missing] says what to measure. A leaf with a [Spread] carries its
// uncertainty to first order ([Result.Uncertainty]), from exact derivatives;
// where that is wrong, by trials. Leaves are independent: errors that hang
// together are written as sums of independent ones, each a leaf.
//
// # How it runs
//
// Reading order: quantity.go and scope.go are what is written down; expr.go
// reads a formula; bind.go and inputs.go find the version that each name means; compile.go
// lays the formulas out on one tape of simple steps. Values and derivatives
// (tape.go), bounds (bounds.go) and trials (trials.go) run along that tape.
// result.go and the rest are the questions that can be asked of it.
package sheet
