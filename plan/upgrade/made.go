package upgrade

import (
	"errors"
	"slices"
	"strings"

	"fettle/plan"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// MadeSize is a size of one of an upgrade's parts, for which a size as made was
// given.
type MadeSize struct {
	Part  string // key
	Label string // of the part
	part.Size
}

// Key names the size within the upgrade: "bracket.length".
func (m MadeSize) Key() string { return m.Part + "." + m.Name }

// settled is a size as made that stands on the sheet.
type settled struct {
	typed   string
	value   float64 // mm, or degrees of an angle
	leaf    sheet.Leaf
	planned string // key of the size as it was planned; "" where nothing depends on the size
}

// Measured are the sizes of the upgrade's parts for which a size as made was
// given, in the order in which the parts are made. Those of a part that is not
// needed are not among them.
func (s *Site) Measured(r *sheet.Result) []MadeSize {
	if len(s.Made) == 0 {
		return nil
	}
	var all []MadeSize
	mk := s.Kind.Parts(s, r)
	for i := range mk.Parts {
		p := &mk.Parts[i]
		for _, size := range p.Measured() {
			m := MadeSize{p.Key, p.Label, *size}
			if s.Made[m.Key()].Given() {
				all = append(all, m)
			}
		}
	}
	return all
}

// Settle puts sizes as made onto the sheet, after the upgrade's own changes.
// Each takes the place of what was planned, and all that follows from it is
// computed anew. What cannot be read is a problem, and changes nothing.
func (s *Site) Settle(sizes []MadeSize) {
	s.settled = map[string]settled{}
	for _, m := range sizes {
		e := s.Made[m.Key()]
		u := s.Units
		if m.Angle {
			u = unit.Degree
		}
		if e.Origin == "" {
			e.Origin = sheet.AsMade
		}
		leaf, err := e.Leaf(u)
		var p plan.Problem
		switch {
		case errors.As(err, &p):
			field := "made." + m.Key()
			if p.Field != "" {
				field += "." + p.Field
			}
			s.Problems = append(s.Problems, plan.Problem{Field: field, Say: p.Say})
			continue
		case leaf.Value <= 0:
			s.Problems = append(s.Problems, plan.Problem{Field: "made." + m.Key(), Say: "give a size above nothing"})
			continue
		}
		t := settled{typed: e.Typed, value: leaf.Value, leaf: leaf}
		if m.Angle {
			t.value = unit.Degree.In(leaf.Value)
		}
		if s.replaces(m) {
			t.planned = s.replace(m, leaf)
		}
		s.settled[m.Key()] = t
	}
}

// replaces tells whether a size takes the place of figures that are there
// already: what only a later upgrade asks for is judged, and no more.
func (s *Site) replaces(m MadeSize) bool {
	root := s.Scope.Sheet().Root()
	return m.Size.Made != nil && m.Size.Key != "" && root.Has(m.Size.Key) && root.Has(m.Size.Made.Leaf)
}

// replace gives the leaves that a size settles their versions as made, and
// keeps what was planned.
func (s *Site) replace(m MadeSize, leaf sheet.Leaf) (planned string) {
	sc := s.Scope.In("made").In(m.Part)
	was := quiet(m.Name+"_planned", m.Label+", "+m.Size.Label+" as planned", "", unit.MM)
	sc.Fix(was, "figure", "decided: what it was planned to be", sheet.With{"figure": m.Size.Key})
	is := quiet(m.Name, m.Label+", "+m.Size.Label+" as made", "", unit.MM)
	sc.Measure(is, leaf)
	for _, made := range append([]part.Made{*m.Size.Made}, m.Size.Made.Also...) {
		owner, name := s.Scope.Sheet().Root(), made.Leaf
		for {
			first, rest, more := strings.Cut(name, ".")
			if !more {
				break
			}
			owner, name = owner.In(first), rest
		}
		if made.Formula == "made" {
			owner.AsMade(name, leaf)
			continue
		}
		owner.Change(name, made.Formula, "as made", sheet.With{"made": sc.Key(is.Key), "planned": sc.Key(was.Key)})
	}
	return sc.Key(was.Key)
}

// AsMade is a size as made beside what was asked for.
type AsMade struct {
	MadeSize
	part.Judged
}

// AsMade judges the sizes as made against their limits.
func (s *Site) AsMade(r *sheet.Result) []AsMade {
	var all []AsMade
	for _, m := range s.Measured(r) {
		if t := m.AsMade; t != nil {
			all = append(all, AsMade{m, m.Judge(t.Value, t.PlusMinus)})
		}
	}
	return all
}

// Says tells what a size as made comes to, in a sentence.
func (a AsMade) Says(u unit.Unit) string {
	say := u.With
	if a.Size.Angle {
		say = func(v float64) string { return unit.One.Text(v, 2) + "°" }
	}
	head := capital(a.Label) + ", " + a.Size.Label + ": " + say(a.Size.AsMade.Value)
	switch a.Verdict {
	case "":
		return head + "; there are no limits to judge it by."
	case part.Within:
		head += ", within its limits"
	default:
		head += ", " + string(a.Verdict) + " by " + say(a.By)
		if a.Rework {
			head += ": more can come off"
		} else {
			head += ": what is off cannot be put back; see whether it works all the same"
		}
	}
	if !a.Sure {
		head += ", as far as this was measured"
	}
	return head + "."
}

// Beside tells sites of the others that count, in the order in which they are
// made: a part that two of them change is made once.
func Beside(sites []*Site) {
	for i, s := range sites {
		s.beside, s.before = nil, nil
		for j, o := range sites {
			if i == j || o.Layout != s.Layout {
				continue
			}
			s.beside = append(s.beside, o)
			if j < i {
				s.before = append(s.before, o)
			}
		}
	}
}

// Make is what the upgrade asks the workshop for. A part that several upgrades
// ask for, which are not finished, is listed with one of them alone, as it is to
// be in the end: with the first that makes it anew, for then the old one is not
// altered, or else with the first.
func (s *Site) Make(r *sheet.Result) Make {
	mk := s.Kind.Parts(s, r)
	if s.State == Finished {
		return mk
	}
	taken := s.taken(r, mk)
	drop := map[string]bool{}
	mk.Parts = slices.DeleteFunc(mk.Parts, func(p part.Part) bool {
		if !taken[p.Key] {
			return false
		}
		for _, o := range p.Steps {
			drop[o.Key] = true
		}
		return true
	})
	mk.Steps = slices.DeleteFunc(mk.Steps, func(o part.Operation) bool { return drop[o.Key] })
	for i := range mk.Steps {
		mk.Steps[i].After = slices.DeleteFunc(mk.Steps[i].After, func(k string) bool { return drop[k] })
	}
	mk.Buy = slices.DeleteFunc(mk.Buy, func(b part.Bought) bool { return taken[b.For] || drop[b.For] })
	for i := range mk.Buy {
		if b := &mk.Buy[i]; drop[b.Confirm] {
			b.Confirm = "" // it is confirmed where the part is made
		}
	}
	return mk
}

// taken are the keys of the parts that are listed with another upgrade.
func (s *Site) taken(r *sheet.Result, mk Make) map[string]bool {
	taken := map[string]bool{}
	for _, o := range s.beside {
		if o.State == Finished {
			continue
		}
		before := slices.Contains(s.before, o)
		for _, p := range o.Kind.Parts(o, r).Parts {
			mine, ok := mk.Part(p.Key)
			altered := ok && mine.Altered
			if altered && !p.Altered || before && (!ok || altered || !p.Altered) {
				taken[p.Key] = true
			}
		}
	}
	return taken
}
