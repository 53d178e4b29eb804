package machine_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

func threshold(t *testing.T, p *machine.Plan, key string) axis.Threshold {
	t.Helper()
	for _, h := range p.Layouts[0].Thresholds() {
		if h.Key == key {
			return h
		}
	}
	require.Fail(t, "no such threshold", key)
	return axis.Threshold{}
}

// A fifth of the slide may hang over instead of a third: 30 of 150, reached at
// 25 + x = 30, so at 5. The figure carries the owner's note.
func TestThresholdMovesTheBound(t *testing.T) {
	m := lathe()
	key := "slide_on_saddle_ways.overhang_most"
	h := threshold(t, ask(t, m, "1", "amount", "12").Plan, key)
	require.False(t, h.Changed)
	require.InDelta(t, 1.0/3, h.Value, exact)

	m.Axes[0].Entries[key] = plan.Entry{Typed: "0.2", Note: "it chattered", On: "2026-03-01"}
	a := ask(t, m, "1", "amount", "12")
	require.Contains(t, a.failing(), "cross.slide_on_saddle_ways.overhang_plus") // 37 of 30
	ends, far := a.howFar()
	require.InDelta(t, 5, far.To, 1e-6)
	require.InDelta(t, 5, ends["cross.slide_on_saddle_ways.overhang_plus"], 1e-6)
	h = threshold(t, a.Plan, key)
	require.True(t, h.Changed)
	require.InDelta(t, 0.2, h.Value, exact)
	require.InDelta(t, 1.0/3, h.Default, exact)
	require.Equal(t, "it chattered, 2026-03-01", h.Note)
	f := a.figure("cross."+key, sheet.Planned)
	require.Equal(t, sheet.Chosen, f.Origin)
	require.Equal(t, "it chattered, 2026-03-01", f.Note)
}

// A limit that follows from other figures can be given instead: 12 of the nut
// at the least, reached at 24 + 22 − x = 12, so at 34.
func TestLimitGiven(t *testing.T) {
	m := lathe()
	m.Axes[0].Entries["nut_on_thread.least"] = plan.Entry{Typed: "12"}
	a := ask(t, m, "1", "amount", "12")
	ends, _ := a.howFar()
	require.InDelta(t, 34, ends["cross.nut_on_thread.least_plus"], 1e-6)
	require.True(t, math.IsNaN(threshold(t, a.Plan, "nut_on_thread.least").Default))
}

// Clearances are kept where they are asked for: 2 to the dial bring it to 87.5
// as found, and the bracket grows by 12.5 for 12 more.
func TestClearance(t *testing.T) {
	m := lathe()
	m.Axes[0].Entries["dial_slide.clearance"] = plan.Entry{Typed: "2"}
	m.Axes[0].Entries["front_wall_nut.clearance"] = plan.Entry{Typed: "0"}
	a := ask(t, m, "1", "amount", "12")
	a.is(map[string]float64{"cross.bracket.length": 38.5})
	require.Len(t, a.Findings, 1) // by the parts it stops before the end that was measured
}

// Every threshold of every machine can be changed, and then is what was given.
func TestEveryThreshold(t *testing.T) {
	for _, m := range machines() {
		for i := range m.Axes {
			id := m.Upgrades[min(i, len(m.Upgrades)-1)].ID
			m.Upgrades[min(i, len(m.Upgrades)-1)].Inputs["amount"] = "9"
			p, err := m.Build(id)
			require.NoError(t, err)
			all := p.Layout(m.Axes[i].Key).Thresholds()
			require.NotEmpty(t, all)
			for _, h := range all {
				require.NotEmpty(t, h.Label, h.Key)
				require.NotEmpty(t, h.Source, h.Key)
				want := h.Unit.Inside(7)
				m.Axes[i].Entries[h.Key] = plan.Entry{Typed: fmt.Sprintf("7 %s", h.Unit.Symbol), Note: "mine"}
				p, err := m.Build(id)
				require.NoError(t, err, h.Key)
				require.Empty(t, p.Problems, h.Key)
				f, ok := p.Result.Figure(m.Axes[i].Key+"."+h.Key, sheet.Planned)
				require.True(t, ok, h.Key)
				require.InDelta(t, want, f.Value, math.Abs(want)*1e-12, h.Key)
				require.Equal(t, "mine", f.Note)
				delete(m.Axes[i].Entries, h.Key)
			}
		}
	}
}

// What cannot be read is said at the threshold, and the default stands.
func TestThresholdUnreadable(t *testing.T) {
	m := lathe()
	m.Axes[0].Entries["slide_on_saddle_ways.overhang_most"] = plan.Entry{Typed: "a fifth"}
	p, err := m.Build("")
	require.NoError(t, err)
	require.Equal(t, []plan.Problem{{Field: "cross.slide_on_saddle_ways.overhang_most", Say: "cannot be read; give a number such as 3 or 0.15"}}, p.Problems)
	require.InDelta(t, 1.0/3, threshold(t, p, "slide_on_saddle_ways.overhang_most").Value, exact)
}

// A machine in inches takes a bare number for inches, here too.
func TestThresholdInInches(t *testing.T) {
	m := lathe().In("in")
	m.Axes[0].Entries["front_wall.hole_least"] = plan.Entry{Typed: "1/8"}
	m.Axes[0].Entries["extension.factor"] = plan.Entry{Typed: "5"}
	a := ask(t, m, "1", "amount", "12 mm")
	a.is(map[string]float64{"cross.front_wall.hole_least": unit.Inch.Inside(0.125), "cross.extension.factor": 5, "cross.extension.torque_wanted": 15000, "cross.front_wall.length": 11})
}

// Shown in other units, a share stays a share, and a length what it was.
func TestThresholdInOtherUnits(t *testing.T) {
	m := lathe()
	m.Upgrades[0].Inputs["amount"] = "12"
	m.Axes[0].Entries["slide_on_saddle_ways.overhang_most"] = plan.Entry{Typed: "0.2"}
	m.Axes[0].Entries["screw_line.sag_most"] = plan.Entry{Typed: "40"} // µm
	m.Axes[0].Entries["front_wall.hole_least"] = plan.Entry{Typed: "4"}
	a := ask(t, m.In("in"), "1")
	require.Empty(t, a.Problems)
	a.is(map[string]float64{"cross.slide_on_saddle_ways.overhang_most": 0.2, "cross.front_wall.hole_least": 4, "cross.screw_line.sag_most": 0.04})
}
