package web

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/unit"
	"fettle/web/ui"
)

// sheetLimit is a threshold that the program brings along, and that can be changed.
type sheetLimit struct {
	Key     string   `json:"key"`
	Label   string   `json:"label"`
	Value   ui.Field `json:"value"`
	Note    ui.Field `json:"note"`
	Source  string   `json:"source"`
	Changed bool     `json:"changed"`
}

func (w *sheetWriter) limit(t axis.Threshold) sheetLimit {
	u := t.Unit
	if u == unit.MM {
		u = w.units
	}
	e := w.axis.Entries[t.Key]
	otherwise := "as worked out"
	if !math.IsNaN(t.Default) {
		otherwise = u.Text(t.Default, u.Decimals)
	}
	return sheetLimit{Key: t.Key, Label: capital(t.Label), Changed: t.Changed, Source: t.Source,
		Value: ui.Field{Name: t.Key, Label: capital(t.Label), Value: e.Typed, Unit: u.Symbol, Otherwise: otherwise, Problem: w.problem(t.Key, e)},
		Note:  ui.Field{Name: t.Key + ".note", Label: "Why it was changed", Value: e.Note},
	}
}
