package machine

import (
	"fettle/plan/axis"
	"fettle/plan/upgrade"
)

// Machine is a machine as found, and what is to become of it.
type Machine struct {
	Name     string
	Kind     string // "lathe", "mill", "drill", "shaper", "other"
	Units    string // "mm" or "in": how figures are shown, and what a bare number is taken for
	Note     string
	Axes     []axis.Axis
	Upgrades []upgrade.Upgrade // in the order in which they are made
}
