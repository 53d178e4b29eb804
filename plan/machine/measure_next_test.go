package machine_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/preset"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

func nextOf(t *testing.T, m machine.Machine, draft string) (*machine.Plan, []machine.Next) {
	t.Helper()
	p, err := m.Build(draft)
	require.NoError(t, err)
	return p, p.MeasureNext()
}

func fields(list []machine.Next) (all []string) {
	for _, n := range list {
		all = append(all, n.Field)
	}
	return all
}

func named(t *testing.T, list []machine.Next, field string) machine.Next {
	t.Helper()
	i := slices.Index(fields(list), field)
	require.GreaterOrEqual(t, i, 0, "%s is not in %v", field, fields(list))
	return list[i]
}

func checkOf(t *testing.T, p *machine.Plan, key string) sheet.CheckResult {
	t.Helper()
	all := p.Result.Checks()
	i := slices.IndexFunc(all, func(c sheet.CheckResult) bool { return c.Key == key })
	require.GreaterOrEqual(t, i, 0, key)
	return all[i]
}

// wall is the demo lathe with so much more travel outward, its splash tray ruled out.
func wall(amount string) machine.Machine {
	m := demo.Lathe()
	m.Upgrades[0].Inputs["amount"] = amount
	m.Axes[0].Obstacles[0].Clear = true
	return m
}

// The front wall of the demo lathe, by hand. As much is cut off it as is asked for beyond
// the gap that there is: what is left is 141 − nut's end 30 − travel 88 − amount, whatever
// the wall's inner face is. It can be off by 0.05 + 0.05 (caliper) + 0.01 (dial gauge) = 0.11.
// 8 are to stay, so 15 leave 0 to spare; at 14.96, 0.04 to spare, either caliper could turn
// it alone, the gauge makes 0.01 of the 0.11, which is less than a tenth.
func TestMeasureNextWall(t *testing.T) {
	const check = "cross.front_wall.left_check"
	p, _ := nextOf(t, wall("12"), "1")
	c := checkOf(t, p, check)
	require.InDelta(t, 3, c.Margin.Value, 1e-9)
	require.InDelta(t, 0.11, p.Doubt(c), 1e-9)

	p, list := nextOf(t, wall("14.96"), "1")
	require.InDelta(t, 0.04, checkOf(t, p, check).Margin.Value, 1e-9)
	for _, field := range []string{"front_wall.to", "nut.to"} {
		n := named(t, list, field)
		require.Equal(t, check, n.Check)
		require.Equal(t, "Known to ± 0.05 mm. It could turn “Wall left: front wall” from tight to fails.", n.Why)
	}
	require.NotContains(t, fields(list), "travel_found")
	require.NotContains(t, fields(list), "front_wall.from")
	require.NotContains(t, fields(list), "front_wall.keep", "it is decided, not measured")

	_, list = nextOf(t, wall("15.5"), "1") // 0.5 short: nothing that is measured could cure that
	for _, n := range list {
		require.NotEqual(t, check, n.Check)
	}
}

// What a verdict waits for comes first; what is not there at all is told by what waits for it.
func TestMeasureNextUnknown(t *testing.T) {
	m := wall("14.96")
	m.Axes[0].Obstacles[0].Clear = false
	_, list := nextOf(t, m, "1")
	require.Equal(t, "splash_tray.gap", list[0].Field)
	require.Equal(t, "“Splash tray, outward” cannot be judged without it.", list[0].Why)
	require.Equal(t, "steel rule", list[0].With)

	_, list = nextOf(t, m, "") // nothing asked for: no verdict waits, but where it is met is not known
	require.Equal(t, "With more travel, the splash tray is met sooner or later: where is not known.", named(t, list, "splash_tray.gap").Why)

	delete(m.Axes[0].Parts[10].Entries, "to") // the nut's end: the wall, its engagement and its stop wait for it
	_, list = nextOf(t, m, "1")
	require.Equal(t, "nut.to", list[0].Field)
	require.Contains(t, list[0].Why, " verdicts wait for it, “")
}

// The figures of a size class can be off by a fifth, a face by 2 mm at the least; what is
// chosen, counted or measured exactly by nothing.
func TestMeasureNextAssumed(t *testing.T) {
	m, _ := preset.Machine("lathe", preset.Medium)
	p, list := nextOf(t, m, "")
	require.NotEmpty(t, list)
	for _, n := range list {
		require.Equal(t, sheet.Assumed, n.Origin)
		require.Positive(t, n.Half)
		require.NotEmpty(t, n.How)
		require.NotEmpty(t, n.Why)
		f, _ := p.Result.Figure(n.Key, sheet.Found)
		require.GreaterOrEqual(t, n.Half, 0.2*math.Abs(f.Value)-1e-9)
	}
	ways := named(t, list, "saddle_ways.from") // at the datum, 0
	require.Equal(t, 2.0, ways.Half)
	require.InDelta(t, 50, named(t, list, "swing_bed").Half, 1e-9) // of 250

	allExact(&m)
	_, list = nextOf(t, m, "")
	require.Empty(t, list)
}

// allExact marks all that is given as measured without an error.
func allExact(m *machine.Machine) {
	each(m, func(e *plan.Entry, _ axis.Size) { e.Origin, e.Spread = sheet.Measured, "0" })
}

// each runs f over the entries that are given.
func each(m *machine.Machine, f func(e *plan.Entry, s axis.Size)) {
	run := func(entries map[string]plan.Entry, sizes []axis.Size) {
		for _, s := range sizes {
			if e := entries[s.Key]; e.Given() && s.Choices == nil {
				f(&e, s)
				entries[s.Key] = e
			}
		}
	}
	for i := range m.Axes {
		a := &m.Axes[i]
		arr, _ := axis.ArrangementNamed(a.Arrangement)
		capacity, _ := axis.CapacityNamed(a.Capacity)
		run(a.Entries, slices.Concat(arr.Sizes, capacity.Sizes))
		for _, p := range a.Parts {
			run(p.Entries, p.Sizes())
		}
		for j := range a.Obstacles {
			if o := &a.Obstacles[j]; o.Gap.Given() {
				f(&o.Gap, a.AsksGap())
			}
		}
	}
}

// measureField puts the value that an entry has as measured with the usual instrument.
func measureField(t *testing.T, a *axis.Axis, field string) {
	t.Helper()
	part, key, ok := strings.Cut(field, ".")
	for i := range a.Obstacles {
		if o := &a.Obstacles[i]; ok && o.Key == part && key == "gap" {
			o.Gap = plan.Entry{Typed: o.Gap.Typed, With: "caliper"}
			return
		}
	}
	entries := a.Entries
	if p, is := a.Part(part); ok && is {
		entries = p.Entries
	}
	if !ok {
		key = field
	}
	e, given := entries[key]
	require.True(t, given, field)
	entries[key] = plan.Entry{Typed: e.Typed, With: "micrometer"}
}

// For any preset with more travel asked for: measuring what comes first, better than it
// is known, never makes the verdict that it names less certain, and then it is not first
// any more, or has less to say.
func TestMeasureNextHelps(t *testing.T) {
	for _, key := range preset.Axes() {
		for _, class := range preset.Classes {
			a, _ := preset.Axis(key, class)
			m := machine.Machine{Units: "mm", Axes: []axis.Axis{a}, Upgrades: []upgrade.Upgrade{
				{ID: "1", Kind: "extend_travel", Axis: a.Key, State: upgrade.Planned, Inputs: map[string]string{"end": "plus", "amount": "6"}}}}
			p, list := nextOf(t, m, "")
			for range 4 {
				if len(list) == 0 || list[0].Check == "" || list[0].Half <= 0.01 { // no better instrument
					break
				}
				first := list[0]
				before := p.Doubt(checkOf(t, p, first.Check))
				measureField(t, &m.Axes[0], first.Field)
				p, list = nextOf(t, m, "")
				require.Less(t, p.Doubt(checkOf(t, p, first.Check)), before, "%s %s: %s", key, class, first.Field)
				for _, n := range list {
					require.False(t, n.Field == first.Field && n.Half >= first.Half, "%s %s", key, first.Field)
				}
			}
		}
	}
}

// BenchmarkMeasureNext ranks what to measure of the demo lathe with all its upgrades.
func BenchmarkMeasureNext(b *testing.B) {
	m := demo.Lathe()
	for i := range m.Upgrades {
		m.Upgrades[i].State = upgrade.Planned
		if _, ok := m.Upgrades[i].Inputs["amount"]; ok {
			m.Upgrades[i].Inputs["amount"] = "12"
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		b.StopTimer()
		p, err := m.Build("")
		if err != nil {
			b.Fatal(err)
		}
		p.Result.Checks()
		b.StartTimer()
		p.MeasureNext()
	}
}
