package web

import (
	"strings"

	"fettle/plan/sheet"
)

// fieldURL is the place on a measuring sheet where a figure is typed, by its key in the sheet or by the
// field of a problem.
func (o opened) fieldURL(key string) string {
	for _, l := range o.Layouts {
		if local := sheet.Local(key, l.Key); local != key {
			return axisURL(o.stored.ID, l.Key) + "#" + anchor(local)
		}
	}
	return machineURL(o.stored.ID)
}

// anchor is the id of the field in which a figure of an axis is typed.
func anchor(local string) string {
	if obstacle, ok := strings.CutSuffix(local, ".gap_left"); ok {
		return obstacle + ".gap"
	}
	return local
}

// parent is a key without its last word.
func parent(key string) string { return key[:max(0, strings.LastIndex(key, "."))] }

// fieldLabel names the figure that a problem is about.
func (o opened) fieldLabel(field string) string {
	for _, key := range []string{field, parent(field)} {
		if f, ok := o.Result.Figure(key, sheet.Found); ok {
			return f.Label
		}
	}
	return field
}
