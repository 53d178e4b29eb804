package upgrade

import (
	"math"
	"slices"

	"fettle/plan/axis"
	"fettle/plan/sheet"
)

// What the guided kinds ask of an axis.

func has(l *axis.Layout, roles ...string) bool {
	return !slices.ContainsFunc(roles, func(role string) bool {
		_, ok := l.WithRole(role)
		return !ok
	})
}

// screwed is an axis with a screw in a nut.
func screwed(l *axis.Layout) bool { return has(l, "thread", "nut") }

func sliding(l *axis.Layout) bool {
	_, ok := l.OnWays()
	return ok
}

// asFound is a figure of the axis as it was measured, inside; NaN where that is
// not known.
func asFound(l *axis.Layout, name string) float64 {
	leaf, ok := l.Scope.Leaf(name)
	if !ok || leaf.Origin == sheet.Unknown {
		return nan
	}
	return leaf.Value
}

// known tells whether it is.
func known(l *axis.Layout, name string) bool { return !math.IsNaN(asFound(l, name)) }

// foundLength is how long a part is as found, by its length or by both its faces;
// NaN where that is not known.
func foundLength(l *axis.Layout, p *axis.Part) float64 {
	if long := asFound(l, p.Key+".to") - asFound(l, p.Key+".from"); !math.IsNaN(long) {
		return long
	}
	return asFound(l, p.Key+".length")
}

// tailstock is a barrel that is wound, or pushed by a lever, out of its guide, and
// that a key keeps from turning.
func tailstock(l *axis.Layout) bool { return has(l, "quill", "key") && !has(l, "rack") }

// carriage is what a wheel winds along a rack that stays, on ways that lie.
func carriage(l *axis.Layout) bool { return alongRack(l) && !upright(l) && !l.Upright() }

// alongRack is a slide whose pinion goes along a rack that stays.
func alongRack(l *axis.Layout) bool {
	rack, ok := l.WithRole("rack")
	return ok && rack.Side == axis.Fixed && has(l, "slide", "pinion")
}

// latheSlide is a lathe's cross slide: what is the lathe's as a whole is kept with it.
func latheSlide(l *axis.Layout) bool { return l.Capacity.Key == "lathe_cross_slide" }

// overTable is what carries the work under a mill's spindle.
func overTable(l *axis.Layout) bool {
	return l.Capacity.Key == "mill_reach" || has(l, "table") && screwed(l)
}

// upright is what stands between table and spindle.
func upright(l *axis.Layout) bool { return l.Capacity.Key == "daylight" }

// roundColumn is a head or a table that is clamped on a round column.
func roundColumn(l *axis.Layout) bool {
	return upright(l) && !screwed(l) || alongRack(l) && l.Upright()
}

// lifted is what a screw lifts that is turned through gears, with no dial on its end.
func lifted(l *axis.Layout) bool {
	return (l.Arr.Key == "travelling_screw" || l.Arr.Key == "turning_nut") && sliding(l) && screwed(l) && !has(l, "dial")
}

// powered is what is usually fed by power.
func powered(l *axis.Layout) bool { return latheSlide(l) || carriage(l) || overTable(l) }

// mine is the name within the axis of a figure of the upgrade's own.
func (m *making) mine(key string) string { return sheet.Local(m.Scope.Key(key), m.Layout.Key) }
