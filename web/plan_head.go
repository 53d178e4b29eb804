package web

import "fettle/web/ui"

// What the head of the planning page says.

// saidUnits is the note in the page's head.
func (v *planView) saidUnits() string { return v.Units + " · " + v.Saved }

// of is what the upgrade is made on: an axis, or the machine.
func (v *planView) of() string {
	if v.whole {
		return v.Machine
	}
	return v.Axis
}

// crumbs lead back; an upgrade of the whole machine is on no axis.
func (v *planView) crumbs() []ui.Link {
	all := []ui.Link{{Text: v.Machine, Href: v.machineURL}}
	if !v.whole {
		all = append(all, ui.Link{Text: v.Axis, Href: v.axisURL})
	}
	return append(all, ui.Link{Text: v.Title})
}

// guidedWord says what a guided kind is, and of what.
func (v *planView) guidedWord() string {
	if v.whole {
		return "Guided, for the whole machine: it tells how, and computes what it has formulas for."
	}
	return "Guided: it tells how, and computes what it has formulas for."
}

// doubtfulWord counts the measurements that cannot be read.
func (v *planView) doubtfulWord() string {
	return count(len(v.Doubtful), "measurement", "measurements") + " cannot be read: "
}

// doubtfulStop is what follows the name of the one at i.
func (v *planView) doubtfulStop(i int) string {
	if i == len(v.Doubtful)-1 {
		return "."
	}
	return ","
}
