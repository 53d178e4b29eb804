package sheet_test

import (
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

func mm(key string) sheet.Q { return sheet.Q{Key: key, Label: key, Unit: unit.MM} }

func at(v float64) sheet.Leaf {
	return sheet.Leaf{Value: v, Origin: sheet.Measured, Spread: sheet.Within(0.05)}
}

func TestSmoke(t *testing.T) {
	s := sheet.New()
	m := s.Root()
	m.Measure(mm("travel"), at(88))
	m.Measure(mm("wall"), at(118))
	m.Measure(mm("nut"), at(30))
	m.Measure(mm("bracket_to"), at(167))
	m.Measure(mm("slide"), at(78))
	m.Measure(mm("tray"), sheet.Leaf{Origin: sheet.Unknown, Max: 1e9})
	m.Formula(mm("stop_wall"), "wall - nut", "geometry")
	m.Formula(mm("stop_dial"), "bracket_to + mm(0.5) - slide", "geometry")
	m.Formula(mm("stop_tray"), "travel + tray", "geometry")
	m.Family("stops", "stops", unit.MM, "stop_wall", "stop_dial", "stop_tray")
	m.Formula(mm("reach"), "min(stops)", "geometry")
	m.Measure(mm("asked"), at(88))
	m.Formula(mm("gap"), "stop_dial - asked", "geometry")
	m.Measure(mm("zero"), sheet.Leaf{Origin: sheet.Assumed})
	m.Check(sheet.Check{Key: "gap_check", Label: "slide to dial", Figure: "gap", Limit: "zero", Sentence: "{figure} left of {limit}"})
	s.Reached(sheet.Found)
	s.Reached(sheet.Now)
	s.Upgrade("more travel")
	u := m.In("u1")
	u.Measure(sheet.Q{Key: "amount", Label: "amount", Unit: unit.MM, Quiet: true}, sheet.Leaf{Value: 12, Origin: sheet.Chosen})
	u.Change("asked", "was + amount", "wish")
	u.Fix(sheet.Q{Key: "cut", Label: "cut", Unit: unit.MM, Quiet: true}, "max(0, asked - stop_wall)", "geometry")
	u.Change("wall", "was + cut", "")
	u.Fix(sheet.Q{Key: "longer", Label: "longer", Unit: unit.MM, Quiet: true}, "max(0, asked - stop_dial)", "geometry")
	u.Change("bracket_to", "was + longer", "")
	r, err := s.Bind()
	require.NoError(t, err)
	f, _ := r.Figure("bracket_to", sheet.Planned)
	require.Equal(t, 177.5, f.Value)
	f, _ = r.Figure("reach", sheet.Planned)
	require.Equal(t, "at most 100 mm", f.Text(88))
	for _, k := range r.KnockOns("reach") {
		show(t, k, "")
	}
	for _, c := range r.Checks() {
		t.Logf("%+v", c)
	}
	e, _ := r.Explain("gap", sheet.Planned)
	t.Log(e.Formula, "=", e.Numbers, r.Uncertainty("gap", sheet.Planned))
	t.Logf("%+v", r.HowFar("u1.amount", "reach", 50))
}

func show(t *testing.T, k *sheet.KnockOn, in string) {
	t.Log(in, k.Label, k.Now.Text(0), k.Figure.Text(k.Now.Value), k.Delta, len(k.LimitedWas), len(k.LimitedBy))
	for _, c := range k.Children {
		show(t, c, in+"  ")
	}
}
