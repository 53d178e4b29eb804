package sheet

import (
	"math"
	"slices"

	"fettle/plan/unit"
)

// Origin is where a figure comes from.
type Origin string

// The origins of a figure.
const (
	Measured Origin = "measured" // on the machine, with what and when in the note
	AsMade   Origin = "as made"  // measured on the finished part; replaces the planned size
	Assumed  Origin = "assumed"  // a default with a stated source
	Chosen   Origin = "chosen"   // a decision of the user's or of an upgrade
	Computed Origin = "computed" // by a formula
	Unknown  Origin = "unknown"  // not measured yet
)

// Q describes a quantity: what it is called and how it is shown.
type Q struct {
	Key      string    // within its scope: "length", or "bracket.length"
	Label    string    // in trade words: "bracket length"
	Symbol   string    // as in its formulas: "L_b"; the label where there is none
	Unit     unit.Unit // how it is shown; its dimension is checked
	Decimals int       // shown; 0 means as many as the unit usually has
	Quiet    bool      // an inner figure, passed through in the tree of knock-ons
	Whole    bool      // a count: anything but a whole number is a fault
}

// nearly is the difference between two values that is only a rounding error.
func (q Q) nearly() float64 { return nearly * q.Unit.Scale }

// Leaf is what is known of a quantity that is not computed.
type Leaf struct {
	Value  float64 // inside units
	Spread Spread
	Origin Origin // never Computed
	Note   string // with what and when it was measured; the source of an assumption
	// Bounds of what is not known. Used only with the origin Unknown; both 0
	// means that nothing is known.
	Min, Max float64
}

// settle gives a leaf that is not known its bounds and no value.
func (l Leaf) settle() Leaf {
	if l.Origin != Unknown {
		return l
	}
	if l.Min == 0 && l.Max == 0 {
		l.Min, l.Max = -inf, inf
	}
	l.Value = math.NaN()
	if l.Min == l.Max {
		l.Value = l.Min
	}
	return l
}

// With binds a formula's own words to keys, so that one text serves every part:
// With{"face": "front_wall.from"}.
type With map[string]string

// Func is a discrete thing, such as a standard's table or a rounding to a stock
// size, that formulas call by name.
type Func struct {
	Name     string
	Args     []unit.Dim
	Result   unit.Dim
	F        func(args []float64) float64
	Slope    func(args []float64, i int) float64 // nil: flat between steps
	Monotone bool                                // rises or falls in each argument: bounds come from the ends
	Source   string
}

// formula is the text of a figure, of a change or of a size as made.
type formula struct {
	expr    *expr // nil for a size as made
	text    string
	with    With
	scope   *Scope
	source  string
	step    int // the version at which it stands
	made    *Leaf
	author  string   // the upgrade
	targets []target // what its names mean, once bound
	failed  bool     // something is wrong with it, and reported
}

func (f *formula) usesWas() bool {
	return slices.ContainsFunc(f.expr.names, func(n naming) bool { return n.name.name == "was" })
}

type kind uint8

const (
	leaf kind = iota
	derived
	fixed
)

type quantity struct {
	Q
	id          int
	kind        kind
	born, ended int // steps; ended 0 means never
	leaf        Leaf
	author      string
	formula     *formula
	changes     []*formula  // of a leaf, in order
	demands     []*quantity // on a leaf, in order
	bound       []version
}

func (q *quantity) exists(step int) bool {
	return q.born <= step && (q.ended == 0 || step < q.ended)
}

// changeAt is the change of a quantity that stands at step, nil for the one as first
// given, and the steps between which it stands.
func (q *quantity) changeAt(step int) (f *formula, since span) {
	since = span{q.born, math.MaxInt}
	if q.ended > 0 {
		since.to = q.ended
	}
	for _, c := range q.changes {
		since = since.around(step, c.step)
		if c.step <= step {
			f = c
		}
	}
	return f, since
}

// demandsAt are the demands on a leaf at step, and the steps between which they are the
// same. What was measured on the finished part has met the demands before it, or they
// are past.
func (q *quantity) demandsAt(step int) (all []*quantity, same span) {
	same = always
	made := 0
	for _, c := range q.changes {
		if c.expr == nil && c.step <= step {
			made = c.step
		}
	}
	for _, d := range q.demands {
		same = same.around(step, d.born)
		if d.born > made && d.born <= step {
			all = append(all, d)
		}
	}
	return all, same
}

type member struct {
	*quantity
	from, to int // steps; to 0 means for ever
}

// at tells whether it is one at step.
func (m *member) at(step int) bool {
	return m.from <= step && (m.to == 0 || step < m.to) && m.exists(step)
}

// around is the part of s, with step in it, in which that stays so.
func (m *member) around(s span, step int) span {
	for _, event := range [...]int{m.from, m.to, m.born, m.ended} {
		if event > 0 {
			s = s.around(step, event)
		}
	}
	return s
}

type family struct {
	dim     unit.Dim
	members []member
}

// last is the entry of q that no end is set to; nil where there is none.
func (f *family) last(q *quantity) *member {
	for i := range f.members {
		if m := &f.members[i]; m.quantity == q && m.to == 0 {
			return m
		}
	}
	return nil
}
