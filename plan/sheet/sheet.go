package sheet

import (
	"errors"
	"fmt"
	"math"
)

// Conflict is two claims on one leaf, of which the later does not build on the earlier.
type Conflict struct{ Key, Label, First, Second string }

func (c Conflict) Error() string {
	return fmt.Sprintf("%s: %q and %q both set it, and neither builds on the other", c.Label, c.First, c.Second)
}

// conflict is one, with the step of the earlier claim.
type conflict struct {
	Conflict
	step int
}

// Conflicts are the pairs of upgrades so far that claim the same leaf. What stands now can be changed by anybody: the
// earlier one is planned.
func (s *Sheet) Conflicts() (all []Conflict) {
	for _, c := range s.conflicts {
		if now := s.marks[Now]; now == math.MaxInt || c.step > now {
			all = append(all, c.Conflict)
		}
	}
	return all
}

// Sheet is a set of definitions: a straight line of versions, of which the
// first is the machine as found. Build one with [New], fill it through scopes,
// then [Sheet.Bind] it.
type Sheet struct {
	quantities []*quantity
	past       []*history  // of each quantity
	members    [][]member  // of each family
	bound      [][]version // of each quantity, once bound
	byKey      map[string]*quantity
	families   map[string]*family
	funcs      map[string]*Func
	checks     []*check
	conflicts  []conflict
	errs       []error
	step       int
	author     string
	marks      [3]int
	done       bool

	base   *Sheet  // that it branched from; nil for none
	from   *Result // of base
	begins int     // the first step that is not of base

	room     slab[quantity]
	formulas slab[formula]
	key      []byte // the last that was looked up
}

// usual is how many quantities a sheet may well have.
const usual = 256

// New is an empty sheet, at the version as found.
func New() *Sheet {
	s := &Sheet{byKey: make(map[string]*quantity, usual), families: map[string]*family{}, funcs: map[string]*Func{}}
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

func (s *Sheet) fn(name string) *Func {
	for at := s; at != nil; at = at.base {
		if f := at.funcs[name]; f != nil {
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
