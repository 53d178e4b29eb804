package sheet

import (
	"fmt"
	"slices"
	"strings"

	"fettle/plan/unit"
)

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

func (sc *Scope) find(name string) *quantity { return sc.sheet.find(sc, name) }

// find is the quantity of a name in a scope, of this sheet or one that it branched from.
func (s *Sheet) find(sc *Scope, name string) *quantity {
	for at := sc; at != nil; at = at.outer {
		if q := s.own(at, name); q != nil {
			return q
		}
	}
	return nil
}

// own is the quantity of a name in this very scope.
func (s *Sheet) own(sc *Scope, name string) *quantity {
	s.key = append(append(s.key[:0], sc.prefix...), name...)
	for at := s; at != nil; at = at.base {
		if q := at.byKey[string(s.key)]; q != nil {
			return q
		}
	}
	return nil
}

// named is the quantity of a whole key.
func (s *Sheet) named(key string) *quantity {
	for at := s; at != nil; at = at.base {
		if q := at.byKey[key]; q != nil {
			return q
		}
	}
	return nil
}

// family is the one of a whole key.
func (s *Sheet) family(key string) *family {
	for at := s; at != nil; at = at.base {
		if f := at.families[key]; f != nil {
			return f
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
	case s.named(key) != nil || s.family(key) != nil:
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
	n := s.room.one()
	*n = quantity{Q: q, id: len(s.quantities), kind: k, born: s.step, author: s.author}
	s.quantities = append(s.quantities, n)
	s.past = append(s.past, nothing)
	s.byKey[key] = n
	return n
}

func (sc *Scope) formula(text, source string, with []With) *formula {
	e, err := parse(text)
	if err != nil {
		sc.sheet.errs = append(sc.sheet.errs, err)
		e = &expr{op: opConst}
	}
	f := sc.sheet.formulas.one()
	*f = formula{expr: e, text: text, scope: sc, source: source, step: sc.sheet.step, author: sc.sheet.author}
	if len(with) > 0 {
		f.with = with[0]
	}
	return f
}

// Measure defines a leaf.
func (sc *Scope) Measure(q Q, l Leaf) { sc.add(q, leaf).leaf = l.settle() }

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

// AsMade replaces the version of a quantity that stands here by what was
// measured on the finished part, or anew on the machine. A derived figure or a
// decision gives way to it too: the part has the size that it has.
func (sc *Scope) AsMade(name string, l Leaf) {
	l = l.settle()
	sc.change(name, &formula{scope: sc, made: &l, step: sc.sheet.step, author: sc.sheet.author})
}

func (sc *Scope) change(name string, f *formula) {
	s := sc.sheet
	q := sc.find(name)
	switch {
	case q == nil:
		s.fail("change of %s from %s: no such quantity", name, sc.prefix)
		return
	case q.kind != leaf && f.expr != nil:
		s.fail("change of %s: only a leaf can be changed; a derived figure follows by itself", q.Key)
		return
	}
	past := s.past[q.id].after()
	if n := len(past.changes); n > 0 && f.expr != nil && !f.usesWas() && past.changes[n-1].author != f.author {
		s.conflicts = append(s.conflicts, conflict{Conflict{q.Key, q.Label, past.changes[n-1].author, f.author}, past.changes[n-1].step})
	}
	s.step++
	f.step = s.step
	past.changes = append(past.changes, f)
	s.past[q.id] = past
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
	d := s.Root().add(Q{Key: fmt.Sprintf("%s_wanted_%d", q.Key, len(s.past[q.id].demands)+1),
		Label: q.Label + " wanted", Unit: q.Unit, Decimals: q.Decimals, Quiet: true}, derived)
	d.formula = sc.formula(text, source, with)
	past := s.past[q.id].after()
	past.demands = append(past.demands, d)
	s.past[q.id] = past
}

// largest is the formula of a leaf with demands on it.
var largest = &expr{op: opCall, name: "max", args: []*expr{{op: opName, name: "was"}, {op: opName, name: "wanted"}}}

// Family adds keys, each looked up from sc, to a named list of one dimension.
// Formulas take its min, max, sum or count.
func (sc *Scope) Family(name, label string, u unit.Unit, keys ...string) {
	s := sc.sheet
	key := sc.prefix + name
	f := s.family(key)
	if f == nil {
		s.claim(key)
		f = &family{len(s.members), u.Dim}
		s.families[key] = f
		s.members = append(s.members, nil)
	}
	for _, k := range keys {
		q := sc.find(k)
		switch {
		case q == nil:
			s.fail("family %s: no quantity %s", key, k)
		case q.Unit.Dim != f.dim:
			s.fail("family %s: %s is %s, not %s", key, q.Key, q.Unit.Dim, f.dim)
		case s.last(f, q) >= 0:
			s.fail("family %s: %s is in it already", key, q.Key)
		default:
			s.members[f.id] = append(s.members[f.id], member{q, s.step, 0})
		}
	}
}

// Drop takes a key out of a family from this version on.
func (sc *Scope) Drop(name, key string) {
	s := sc.sheet
	q, f := sc.find(key), s.familyFrom(sc, name)
	if q == nil || f == nil || s.last(f, q) < 0 {
		s.fail("drop %s from family %s: no such", key, name)
		return
	}
	s.step++
	s.members[f.id] = slices.Clone(s.members[f.id]) // a sheet that this one branched from keeps its own
	s.members[f.id][s.last(f, q)].to = s.step
}

// Remove takes the quantity name, and all within it, off the machine from this
// version on: out of every family too. A formula that still needs it is an error.
func (sc *Scope) Remove(name string) {
	s := sc.sheet
	s.step++
	key, found := sc.prefix+name, false
	for _, q := range s.quantities {
		if s.past[q.id].ended == 0 && (q.Key == key || strings.HasPrefix(q.Key, key+".")) {
			past := s.past[q.id].after()
			past.ended, found = s.step, true
			s.past[q.id] = past
		}
	}
	if !found {
		s.fail("removal of %s from %s: no such quantity", name, sc.prefix)
	}
}

// familyFrom is the family of a name, looked for in a scope first, then outwards.
func (s *Sheet) familyFrom(sc *Scope, name string) *family {
	for at := sc; at != nil; at = at.outer {
		if f := s.family(at.prefix + name); f != nil {
			return f
		}
	}
	return nil
}

// Local is a key without its scope: "bracket.length" of "cross.bracket.length" in "cross".
func Local(key, scope string) string { return strings.TrimPrefix(key, scope+".") }
