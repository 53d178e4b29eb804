package web

import (
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
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

// limits lists what the program assumed for the axis: as it is and as planned, and of each draft on it, so that what a
// draft is held against can be changed before it is planned.
func (w *sheetWriter) limits(alone machine.Machine, p *machine.Plan) {
	seen := map[string]bool{}
	of := func(p *machine.Plan) {
		for _, t := range p.Layouts[0].Thresholds() {
			if !seen[t.Key] {
				seen[t.Key] = true
				w.view.Limits = append(w.view.Limits, w.limit(t, p))
			}
		}
	}
	of(p)
	for _, u := range alone.Upgrades {
		if u.State != upgrade.Draft {
			continue
		}
		if with, err := alone.Build(u.ID); err == nil && len(with.Layouts) > 0 {
			of(with)
		}
	}
}

func (w *sheetWriter) limit(t axis.Threshold, p *machine.Plan) sheetLimit {
	u := t.Unit
	if u == unit.MM {
		u = w.units
	}
	e := w.axis.Entries[t.Key]
	otherwise := "as worked out"
	if f, ok := p.Result.Figure(p.Layouts[0].Find(t.Key), sheet.Planned); !math.IsNaN(t.Default) {
		otherwise = u.Text(t.Default, u.Decimals)
	} else if ok && f.Known() && !t.Changed {
		otherwise = in(w.units, f).Text(0) + ", as worked out"
		if symbol := in(w.units, f).Unit.Symbol; symbol != "" { // it stands behind the field
			otherwise = strings.Replace(otherwise, " "+symbol+",", ",", 1)
		}
	}
	return sheetLimit{Key: t.Key, Label: capital(t.Label), Changed: t.Changed, Source: t.Source,
		Value: ui.Field{Name: t.Key, Label: capital(t.Label), Value: e.Typed, Unit: u.Symbol, Otherwise: otherwise, Problem: w.problem(t.Key, e)},
		Note:  ui.Field{Name: t.Key + ".note", Label: "Why it was changed", Value: e.Note},
	}
}
