package upgrade

import "fettle/plan"

// State is how far an upgrade has got.
type State string

// The states of an upgrade: a draft does not count; a planned one does; a
// finished one is part of the machine as it is now.
const (
	Draft    State = "draft"
	Planned  State = "planned"
	Finished State = "finished"
)

// Upgrade is one change that the owner wants, with its inputs as typed.
type Upgrade struct {
	ID     string // unique within the machine: "1", "2", …
	Kind   string // key of a [Kind]
	Axis   string // key of the axis
	State  State
	On     string            // the day it was finished, as 2006-01-02
	Inputs map[string]string // as typed or chosen, by the name of the input

	// Made are sizes as measured on the finished parts, by the part's key and
	// the size's name within it: "bracket.length".
	Made map[string]plan.Entry
}
