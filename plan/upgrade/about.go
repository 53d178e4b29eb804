package upgrade

import "fettle/plan/part"

// About describes a kind.
type About struct {
	Key, Label string
	Words      []string // other words for it, British and American, by which it is found as well
	Purpose    string
	Guided     bool     // it tells how, and computes no more than the formulas that it has
	Whole      bool     // of the whole machine, not of one axis: it is kept with the first axis that it suits
	Measure    []string // what to measure first; of a kind that is computed, what its figures ask for says it
	Cautions   []string
	Proof      string     // how to see afterwards that it is better
	Hours      [2]float64 // least and most, of a practised owner, by [EffortSource]
	Risk       Risk
	Undo       Undo
	Needs      []part.Capability
	Own        bool     // its parts are usually made on the machine itself, before that comes apart
	Cures      []string // causes of complaints that it takes away: keys of [Cause]
}

// Risk is how likely the work is to go wrong, and how badly.
type Risk int

// The risks.
const (
	LowRisk Risk = iota + 1
	MediumRisk
	HighRisk
)

func (r Risk) String() string { return [...]string{"not said", "low", "medium", "high"}[r] }

// Undo is whether the machine can be put back as it was.
type Undo int

// The ways back.
const (
	Undone     Undo = iota + 1 // the old parts go back on
	UndonePart                 // holes or recesses stay
	NotUndone                  // metal of the machine itself is gone
)

func (u Undo) String() string {
	return [...]string{"not said", "fully", "in part: holes or recesses stay", "no: metal of the machine is cut away"}[u]
}
