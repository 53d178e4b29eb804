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

// quantity is what does not change of one; what becomes of it is its [history].
type quantity struct {
	Q
	id      int
	kind    kind
	born    int // step
	leaf    Leaf
	author  string
	formula *formula
}

// history is what became of a quantity; it is not written to, but put in the place of the one before.
type history struct {
	ended   int         // step; 0 means never
	changes []*formula  // of a leaf, in order
	demands []*quantity // on a leaf, in order
}

// nothing became of it yet.
var nothing = &history{}

// after is a history to be added to.
func (h *history) after() *history {
	return &history{h.ended, slices.Clip(h.changes), slices.Clip(h.demands)}
}

func (s *Sheet) exists(q *quantity, step int) bool {
	ended := s.past[q.id].ended
	return q.born <= step && (ended == 0 || step < ended)
}

// changeAt is the change of a quantity that stands at step, nil for the one as first
// given, and the steps between which it stands.
func (s *Sheet) changeAt(q *quantity, step int) (f *formula, since span) {
	since = span{q.born, math.MaxInt}
	past := s.past[q.id]
	if past.ended > 0 {
		since.to = past.ended
	}
	for _, c := range past.changes {
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
func (s *Sheet) demandsAt(q *quantity, step int) (all []*quantity, same span) {
	same, past := always, s.past[q.id]
	made := 0
	for _, c := range past.changes {
		if c.expr == nil && c.step <= step {
			made = c.step
		}
	}
	for _, d := range past.demands {
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

// has tells whether a family has a member at step.
func (s *Sheet) has(m *member, step int) bool {
	return m.from <= step && (m.to == 0 || step < m.to) && s.exists(m.quantity, step)
}

// steady is the part of a span, with step in it, in which that stays so.
func (s *Sheet) steady(m *member, in span, step int) span {
	for _, event := range [...]int{m.from, m.to, m.born, s.past[m.id].ended} {
		if event > 0 {
			in = in.around(step, event)
		}
	}
	return in
}

// family is what does not change of one; its members come and go.
type family struct {
	id  int
	dim unit.Dim
}

// last is the place among a family's members of the one to which no end is set; −1 where there is none.
func (s *Sheet) last(f *family, q *quantity) int {
	return slices.IndexFunc(s.members[f.id], func(m member) bool { return m.quantity == q && m.to == 0 })
}
