package sheet

import (
	"errors"
	"fmt"
	"math"
	"strings"

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
	leaf    Leaf
	author  string   // the upgrade
	targets []target // what its names mean, once bound
	failed  bool     // something is wrong with it, and reported
}

func (f *formula) usesWas() (yes bool) {
	f.expr.names(func(e *expr, _ string) { yes = yes || e.name == "was" })
	return yes
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

// changeAt is the change of a leaf that stands at step, and since when; nil
// for the leaf as first given.
func (q *quantity) changeAt(step int) (f *formula, since int) {
	since = q.born
	for _, c := range q.changes {
		if c.step <= step {
			f, since = c, c.step
		}
	}
	return f, since
}

// demandsAt are the demands on a leaf. What was measured on the finished part
// has met the demands before it, or they are past.
func (q *quantity) demandsAt(step int) (all []*quantity) {
	made := 0
	for _, c := range q.changes {
		if c.expr == nil && c.step <= step {
			made = c.step
		}
	}
	for _, d := range q.demands {
		if d.born > made && d.born <= step {
			all = append(all, d)
		}
	}
	return all
}

type member struct {
	*quantity
	from, to int // steps; to 0 means for ever
}

type family struct {
	dim     unit.Dim
	members []member
}

func (f *family) at(step int, yield func(*quantity)) {
	for _, m := range f.members {
		if m.from <= step && (m.to == 0 || step < m.to) && m.exists(step) {
			yield(m.quantity)
		}
	}
}

// Conflict is two claims on one leaf, of which the later does not build on the earlier.
type Conflict struct{ Key, Label, First, Second string }

func (c Conflict) Error() string {
	return fmt.Sprintf("%s: %q and %q both set it, and neither builds on the other", c.Label, c.First, c.Second)
}

// Sheet is a set of definitions: a straight line of versions, of which the
// first is the machine as found. Build one with [New], fill it through scopes,
// then [Sheet.Bind] it.
type Sheet struct {
	quantities []*quantity
	byKey      map[string]*quantity
	families   map[string]*family
	funcs      map[string]*Func
	checks     []*check
	conflicts  []Conflict
	errs       []error
	step       int
	author     string
	marks      [3]int
	done       bool
}

// New is an empty sheet, at the version as found.
func New() *Sheet {
	s := &Sheet{byKey: map[string]*quantity{}, families: map[string]*family{}, funcs: map[string]*Func{}}
	s.marks = [3]int{math.MaxInt, math.MaxInt, math.MaxInt}
	return s
}

// Stage is one of the three versions of a sheet that are looked at.
type Stage int

// The stages: without upgrades, with the finished ones, with all.
const (
	Found Stage = iota
	Now
	Planned
)

func (s Stage) String() string { return [...]string{"as found", "now", "planned"}[s] }

// Upgrade begins a new version: what follows is the upgrade's, until the next.
// Finished upgrades come before planned ones; [Sheet.Reached] marks the borders.
func (s *Sheet) Upgrade(name string) {
	s.step++
	s.author = name
}

// Reached marks the present version as a stage; what follows is not in it. A
// stage that is not marked is the last version.
func (s *Sheet) Reached(at Stage) {
	s.marks[at] = s.step
	s.step++
}

// Register makes a discrete function known to formulas.
func (s *Sheet) Register(f *Func) { s.funcs[f.Name] = f }

// Scope is a part of the sheet's names: the machine, an axis, a part of an
// axis. Names are looked up in it first, then outwards.
type Scope struct {
	sheet  *Sheet
	prefix string // "" or ending in a dot
	outer  *Scope
}

// Root is the outermost scope.
func (s *Sheet) Root() *Scope { return &Scope{sheet: s} }

// In is the scope of the name inside sc.
func (sc *Scope) In(name string) *Scope {
	return &Scope{sheet: sc.sheet, prefix: sc.prefix + name + ".", outer: sc}
}

// Key is the whole key of a local name.
func (sc *Scope) Key(name string) string { return sc.prefix + name }

// Sheet is the sheet that sc is a part of.
func (sc *Scope) Sheet() *Sheet { return sc.sheet }

// Has tells whether a name can be found from sc.
func (sc *Scope) Has(name string) bool { return sc.find(name) != nil }

// Leaf gives what is known of the leaf name as found, and whether there is one.
func (sc *Scope) Leaf(name string) (Leaf, bool) {
	if q := sc.find(name); q != nil && q.kind == leaf {
		return q.leaf, true
	}
	return Leaf{}, false
}

func (sc *Scope) find(name string) *quantity {
	for at := sc; at != nil; at = at.outer {
		if q := sc.sheet.byKey[at.prefix+name]; q != nil {
			return q
		}
	}
	return nil
}

func (s *Sheet) fail(format string, args ...any) {
	s.errs = append(s.errs, fmt.Errorf(format, args...))
}

// claim checks that a key can be given to a quantity or a family.
func (s *Sheet) claim(key string) {
	err := checkKey(key)
	last := key[strings.LastIndexByte(key, '.')+1:]
	switch {
	case err != nil:
		s.fail("%s: %w", key, err)
	case last == "was" || names[last].symbol != "":
		s.fail("%s: %q has a meaning of its own in formulas", key, last)
	case s.byKey[key] != nil || s.families[key] != nil:
		s.fail("%s is defined twice", key)
	}
}

func (sc *Scope) add(q Q, k kind) *quantity {
	s := sc.sheet
	key := sc.prefix + q.Key
	s.claim(key)
	if q.Symbol == "" {
		q.Symbol = q.Label
	}
	if q.Decimals == 0 {
		q.Decimals = q.Unit.Decimals
	}
	q.Key = key
	n := &quantity{Q: q, id: len(s.quantities), kind: k, born: s.step, author: s.author}
	s.quantities = append(s.quantities, n)
	s.byKey[key] = n
	return n
}

func (sc *Scope) formula(text, source string, with []With) *formula {
	e, err := parse(text)
	if err != nil {
		sc.sheet.errs = append(sc.sheet.errs, err)
		e = &expr{op: opConst}
	}
	f := &formula{expr: e, text: text, scope: sc, source: source, step: sc.sheet.step, author: sc.sheet.author}
	if len(with) > 0 {
		f.with = with[0]
	}
	return f
}

// Measure defines a leaf.
func (sc *Scope) Measure(q Q, l Leaf) { sc.add(q, leaf).leaf = l.settle() }

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

// Formula defines a derived figure: always re-computed from the latest versions.
// The source is where the formula stands, or "geometry", or "common practice, no source".
func (sc *Scope) Formula(q Q, text, source string, with ...With) {
	sc.add(q, derived).formula = sc.formula(text, source, with)
}

// Fix defines a decision: computed once, from the versions that stand here.
func (sc *Scope) Fix(q Q, text, source string, with ...With) {
	f := sc.formula(text, source, with)
	sc.add(q, fixed).formula = f
	sc.sheet.step++
}

// Change gives a leaf a new version. In the formula, "was" is the former value.
func (sc *Scope) Change(name, text, source string, with ...With) {
	sc.change(name, sc.formula(text, source, with))
}

// AsMade replaces the version of a leaf that stands here by what was measured
// on the finished part, or anew on the machine.
func (sc *Scope) AsMade(name string, l Leaf) {
	sc.change(name, &formula{scope: sc, leaf: l.settle(), step: sc.sheet.step, author: sc.sheet.author})
}

func (sc *Scope) change(name string, f *formula) {
	s := sc.sheet
	q := sc.find(name)
	switch {
	case q == nil:
		s.fail("change of %s from %s: no such quantity", name, sc.prefix)
		return
	case q.kind != leaf:
		s.fail("change of %s: only a leaf can be changed; a derived figure follows by itself", q.Key)
		return
	}
	if n := len(q.changes); n > 0 && f.expr != nil && !f.usesWas() && q.changes[n-1].author != f.author {
		s.conflicts = append(s.conflicts, Conflict{q.Key, q.Label, q.changes[n-1].author, f.author})
	}
	s.step++
	f.step = s.step
	q.changes = append(q.changes, f)
}

// Require demands at least a size of a leaf; the largest demand wins. Demands
// are derived: they follow what they are computed from.
func (sc *Scope) Require(name, text, source string, with ...With) {
	s := sc.sheet
	q := sc.find(name)
	if q == nil || q.kind != leaf {
		s.fail("requirement on %s from %s: no such leaf", name, sc.prefix)
		return
	}
	s.step++
	d := s.Root().add(Q{Key: fmt.Sprintf("%s_wanted_%d", q.Key, len(q.demands)+1),
		Label: q.Label + " wanted", Unit: q.Unit, Decimals: q.Decimals, Quiet: true}, derived)
	d.formula = sc.formula(text, source, with)
	q.demands = append(q.demands, d)
}

// largest is the formula of a leaf with demands on it.
var largest = &expr{op: opCall, name: "max", args: []*expr{{op: opName, name: "was"}, {op: opName, name: "wanted"}}}

// Family adds keys, each looked up from sc, to a named list of one dimension.
// Formulas take its min, max, sum or count.
func (sc *Scope) Family(name, label string, u unit.Unit, keys ...string) {
	s := sc.sheet
	key := sc.prefix + name
	f := s.families[key]
	if f == nil {
		s.claim(key)
		f = &family{dim: u.Dim}
		s.families[key] = f
	}
	for _, k := range keys {
		q := sc.find(k)
		switch {
		case q == nil:
			s.fail("family %s: no quantity %s", key, k)
		case q.Unit.Dim != f.dim:
			s.fail("family %s: %s is %s, not %s", key, q.Key, q.Unit.Dim, f.dim)
		case f.last(q) != nil:
			s.fail("family %s: %s is in it already", key, q.Key)
		default:
			f.members = append(f.members, member{q, s.step, 0})
		}
	}
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

// Drop takes a key out of a family from this version on.
func (sc *Scope) Drop(name, key string) {
	q, f := sc.find(key), sc.family(name)
	if q == nil || f == nil || f.last(q) == nil {
		sc.sheet.fail("drop %s from family %s: no such", key, name)
		return
	}
	sc.sheet.step++
	f.last(q).to = sc.sheet.step
}

// Remove takes the quantity name, and all within it, off the machine from this
// version on: out of every family too. A formula that still needs it is an error.
func (sc *Scope) Remove(name string) {
	s := sc.sheet
	s.step++
	key, found := sc.prefix+name, false
	for _, q := range s.quantities {
		if q.ended == 0 && (q.Key == key || strings.HasPrefix(q.Key, key+".")) {
			q.ended, found = s.step, true
		}
	}
	if !found {
		s.fail("removal of %s from %s: no such quantity", name, sc.prefix)
	}
}

func (sc *Scope) family(name string) *family {
	for at := sc; at != nil; at = at.outer {
		if f := sc.sheet.families[at.prefix+name]; f != nil {
			return f
		}
	}
	return nil
}

// Errors are the programming errors so far: bad keys, bad formulas, changes of
// derived figures. [Sheet.Bind] returns them joined.
func (s *Sheet) Errors() error { return errors.Join(s.errs...) }

// Keys lists every key in the order of definition.
func (s *Sheet) Keys() []string {
	keys := make([]string, len(s.quantities))
	for i, q := range s.quantities {
		keys[i] = q.Key
	}
	return keys
}

// Local is a key without its scope: "bracket.length" of "cross.bracket.length" in "cross".
func Local(key, scope string) string { return strings.TrimPrefix(key, scope+".") }
