package sheet_test

import (
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

// slideway is a small axis as found: a wall and a bracket that limit a travel.
// Figures are invented; expected values in this file are worked out by hand.
func slideway(m *sheet.Scope) {
	m.Measure(mm("wall"), within(118, 0.05))
	m.Measure(mm("nut"), within(30, 0.05))
	m.Measure(mm("bracket"), within(26, 0.05))
	m.Formula(mm("stop_wall"), "wall - nut", "geometry")
	m.Formula(mm("stop_bracket"), "bracket + mm(63.5)", "geometry")
	m.Family("stops", "stops", unit.MM, "stop_wall", "stop_bracket")
	m.Formula(mm("reach"), "min(stops)", "geometry")
	m.Measure(mm("asked"), exactly(88))
	m.Formula(mm("gap"), "reach - asked", "geometry")
}

// moreTravel is an upgrade of it.
func moreTravel(s *sheet.Sheet, m *sheet.Scope, name string, amount float64) {
	s.Upgrade(name)
	u := m.In(name)
	u.Measure(mm("amount"), sheet.Leaf{Value: amount, Origin: sheet.Chosen})
	u.Change("asked", "was + amount", "as asked")
	u.Fix(mm("cut"), "max(0, asked - stop_wall)", "decided")
	u.Change("wall", "was + cut", "decided")
	u.Fix(mm("longer"), "max(0, asked - stop_bracket)", "decided")
	u.Change("bracket", "was + longer", "decided")
}

// values are all figures of a stage.
func values(r *sheet.Result, at sheet.Stage) map[string]float64 {
	v := map[string]float64{}
	for _, f := range r.Figures(at) {
		v[f.Key] = f.Value
	}
	return v
}

func TestUpgradesSeeWhatEarlierOnesLeft(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		slideway(m)
		s.Reached(sheet.Found)
		moreTravel(s, m, "first", 12)
		s.Reached(sheet.Now)
		moreTravel(s, m, "second", 5)
	})
	for _, tc := range []struct {
		key                 string
		found, now, planned float64
	}{
		{"asked", 88, 100, 105},
		{"wall", 118, 130, 135},
		{"bracket", 26, 36.5, 41.5}, // 1.5 of slack, used once
		{"stop_wall", 88, 100, 105},
		{"stop_bracket", 89.5, 100, 105},
		{"reach", 88, 100, 105},
		{"gap", 0, 0, 0},
	} {
		require.Equal(t, tc.found, r.Value(tc.key, sheet.Found), "%s as found", tc.key)
		require.Equal(t, tc.now, r.Value(tc.key, sheet.Now), "%s now", tc.key)
		require.Equal(t, tc.planned, r.Value(tc.key, sheet.Planned), "%s planned", tc.key)
	}
	require.Equal(t, 10.5, r.Value("first.longer", sheet.Planned), "decided once")
	require.Equal(t, 5.0, r.Value("second.longer", sheet.Planned))
	_, ok := r.Figure("second.longer", sheet.Now)
	require.False(t, ok)

	f := figure(t, r, "wall", sheet.Planned)
	require.Equal(t, "second", f.Author)
	require.Equal(t, "decided", f.Source)
	require.Equal(t, sheet.Chosen, f.Origin)
	require.Equal(t, "first", figure(t, r, "wall", sheet.Now).Author)
	require.Empty(t, figure(t, r, "wall", sheet.Found).Author)
	require.Equal(t, sheet.Measured, figure(t, r, "wall", sheet.Found).Origin)
	require.Equal(t, sheet.Computed, figure(t, r, "reach", sheet.Planned).Origin)
	require.Equal(t, sheet.Chosen, figure(t, r, "second.cut", sheet.Planned).Origin)
}

func TestDroppingAnUpgradeRestoresEveryFigure(t *testing.T) {
	plan := func(upgrades ...string) *sheet.Result {
		return bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
			slideway(m)
			s.Reached(sheet.Found)
			for i, u := range upgrades {
				s.Reached(sheet.Now) // at last, before the last one
				moreTravel(s, m, u, 12.3/float64(i+1))
			}
		})
	}
	none, first, both := plan(), plan("first"), plan("first", "second")
	require.NotEqual(t, values(first, sheet.Planned), values(both, sheet.Planned))
	require.Equal(t, values(first, sheet.Planned), values(both, sheet.Now), "without the second")
	require.Equal(t, values(none, sheet.Planned), values(both, sheet.Found), "without either")
}

func TestASheetWithoutUpgradesEqualsItself(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		slideway(m)
		s.Reached(sheet.Found)
		s.Reached(sheet.Now)
	})
	require.Equal(t, r.Figures(sheet.Found), r.Figures(sheet.Now))
	require.Equal(t, r.Figures(sheet.Now), r.Figures(sheet.Planned))
	require.Empty(t, r.KnockOns())
	require.Empty(t, r.Conflicts())
	require.Empty(t, r.Faults())

	unmarked := bind(t, func(_ *sheet.Sheet, m *sheet.Scope) { slideway(m) })
	require.Equal(t, r.Figures(sheet.Planned), unmarked.Figures(sheet.Found), "a stage that is not marked is the last version")
}

func TestOrderMatters(t *testing.T) {
	build := func(double, add string) float64 {
		order := map[string]string{"double": "was * 2", "add": "was + mm(3)"}
		r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
			m.Measure(mm("size"), exactly(10))
			for _, u := range []string{double, add} {
				s.Upgrade(u)
				m.Change("size", order[u], "decided")
			}
		})
		require.Empty(t, r.Conflicts(), "both build on what was")
		return r.Value("size", sheet.Planned)
	}
	require.Equal(t, 23.0, build("double", "add"))
	require.Equal(t, 26.0, build("add", "double"))
}

func TestADecisionIsMadeOnce(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("a"), exactly(1))
		m.Formula(mm("derived"), "a * 10", "invented")
		s.Reached(sheet.Now)
		s.Upgrade("u")
		m.Fix(mm("before"), "derived", "decided")
		m.Change("a", "mm(2)", "decided")
		m.Fix(mm("after"), "derived", "decided")
		m.Change("a", "mm(3)", "decided")
		m.Formula(mm("sum"), "before + after + derived", "invented")
	})
	require.Equal(t, 10.0, r.Value("before", sheet.Planned))
	require.Equal(t, 20.0, r.Value("after", sheet.Planned))
	require.Equal(t, 30.0, r.Value("derived", sheet.Planned))
	require.Equal(t, 60.0, r.Value("sum", sheet.Planned))
	// A decision is computed again with its leaves, as all else is.
	require.True(t, r.Try("a", 4))
	require.Equal(t, 40.0, r.Value("before", sheet.Planned))
	require.Equal(t, 20.0, r.Value("after", sheet.Planned))
}

func TestConflicts(t *testing.T) {
	for _, tc := range []struct {
		name          string
		first, second string
		want          []sheet.Conflict
	}{
		{"both set it", "mm(30)", "mm(40)", []sheet.Conflict{{Key: "size", Label: "size", First: "first", Second: "second"}}},
		{"the later sets it", "was + mm(5)", "mm(40)", []sheet.Conflict{{Key: "size", Label: "size", First: "first", Second: "second"}}},
		{"the later builds on it", "mm(30)", "was + mm(5)", nil},
		{"both build on it", "was + mm(5)", "was + mm(5)", nil},
	} {
		t.Run(tc.name, func(t *testing.T) {
			r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
				m.Measure(mm("size"), exactly(10))
				s.Upgrade("first")
				m.Change("size", tc.first, "decided")
				s.Upgrade("second")
				m.Change("size", tc.second, "decided")
			})
			require.Equal(t, tc.want, r.Conflicts())
		})
	}
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("size"), exactly(10))
		for _, name := range []string{"first", "second"} {
			s.Upgrade(name)
			m.Change("size", "mm(20)", "decided")
		}
		s.Reached(sheet.Now)
		for _, name := range []string{"third", "fourth"} {
			s.Upgrade(name)
			m.Change("size", "mm(30)", "decided")
		}
	})
	require.Equal(t, []sheet.Conflict{{Key: "size", Label: "size", First: "third", Second: "fourth"}}, r.Conflicts(), "what is there now can be changed by anybody")
	require.EqualError(t, sheet.Conflict{Key: "size", Label: "bracket length", First: "longer", Second: "shorter"},
		`bracket length: "longer" and "shorter" both set it, and neither builds on the other`)

	r = bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("size"), exactly(10))
		s.Upgrade("one")
		m.Change("size", "mm(20)", "decided")
		m.Change("size", "mm(30)", "decided")
		s.Upgrade("two")
		m.AsMade("size", exactly(31))
	})
	require.Empty(t, r.Conflicts(), "an upgrade may set it twice, and a measurement settles it")
	require.Equal(t, 31.0, r.Value("size", sheet.Planned))
}

func TestRequire(t *testing.T) {
	build := func(after func(s *sheet.Sheet, m *sheet.Scope)) *sheet.Result {
		return bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
			m.Measure(mm("bore"), exactly(10))
			m.Measure(mm("sleeve"), exactly(14))
			m.Measure(mm("pin"), exactly(3))
			m.Formula(mm("left"), "mm(30) - bore", "geometry")
			s.Reached(sheet.Found)
			s.Reached(sheet.Now)
			s.Upgrade("sleeve")
			m.Require("bore", "sleeve", "goes over the sleeve")
			s.Upgrade("pin")
			m.Require("bore", "4 * pin", "room for the pin")
			if after != nil {
				after(s, m)
			}
		})
	}
	r := build(nil)
	require.Equal(t, 10.0, r.Value("bore", sheet.Now))
	require.Equal(t, 14.0, r.Value("bore", sheet.Planned), "the largest wins")
	require.Equal(t, 16.0, r.Value("left", sheet.Planned))
	require.Equal(t, "sleeve", figure(t, r, "bore", sheet.Planned).Author, "and is the cause")
	require.Equal(t, []string{"bore_wanted_1", "bore_wanted_2"}, labels(r.Causes("bore")), "first what moves it most")
	require.Empty(t, r.Conflicts(), "several may push on it")

	// A demand follows what it is computed from, also where that changes later.
	r = build(func(s *sheet.Sheet, m *sheet.Scope) {
		s.Upgrade("larger pin")
		m.Change("pin", "mm(5)", "decided")
	})
	require.Equal(t, 20.0, r.Value("bore", sheet.Planned))
	require.Equal(t, "pin", figure(t, r, "bore", sheet.Planned).Author)

	// A change builds on what the demands came to, and cannot undercut them.
	r = build(func(s *sheet.Sheet, m *sheet.Scope) {
		s.Upgrade("clearance")
		m.Change("bore", "was + mm(1)", "decided")
	})
	require.Equal(t, 15.0, r.Value("bore", sheet.Planned))
	r = build(func(s *sheet.Sheet, m *sheet.Scope) {
		s.Upgrade("smaller")
		m.Change("bore", "was - mm(3)", "decided")
	})
	require.Equal(t, 14.0, r.Value("bore", sheet.Planned))

	// What was made is as it is; a later demand counts anew.
	r = build(func(_ *sheet.Sheet, m *sheet.Scope) { m.AsMade("bore", exactly(13.9)) })
	require.Equal(t, 13.9, r.Value("bore", sheet.Planned))
	r = build(func(s *sheet.Sheet, m *sheet.Scope) {
		m.AsMade("bore", exactly(13.9))
		s.Upgrade("bush")
		m.Require("bore", "mm(16)", "decided")
	})
	require.Equal(t, 16.0, r.Value("bore", sheet.Planned))

	// A size that is large enough already stays.
	require.True(t, r.Try("bore", 18))
	require.Equal(t, 18.0, r.Value("bore", sheet.Found))
}

func labels(figures []sheet.Figure) (keys []string) {
	for _, f := range figures {
		keys = append(keys, f.Key)
	}
	return keys
}

func TestAsMade(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		slideway(m)
		s.Reached(sheet.Found)
		moreTravel(s, m, "first", 12)
		m.AsMade("bracket", sheet.Leaf{Value: 36.4, Origin: sheet.AsMade, Note: "caliper", Spread: sheet.Within(0.02)})
		s.Reached(sheet.Now)
		moreTravel(s, m, "second", 1)
	})
	f := figure(t, r, "bracket", sheet.Now)
	require.Equal(t, 36.4, f.Value, "replaces the 36.5 planned")
	require.Equal(t, sheet.AsMade, f.Origin)
	require.Equal(t, "caliper", f.Note)
	require.Equal(t, "first", f.Author)
	require.Equal(t, 26.0, r.Value("bracket", sheet.Found))
	require.InDelta(t, 99.9, r.Value("reach", sheet.Now), 1e-12)
	// The next upgrade makes good what was made 0.1 too short.
	require.InDelta(t, 1.1, r.Value("second.longer", sheet.Planned), 1e-12)
	require.InDelta(t, 37.5, r.Value("bracket", sheet.Planned), 1e-12)
	// Its own uncertainty counts from there on, not that of the old bracket.
	require.InDelta(t, 0.02/1.7320508, r.Uncertainty("bracket", sheet.Planned).Std, 1e-8)

	unknown := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("a"), exactly(3))
		s.Reached(sheet.Found)
		m.AsMade("a", sheet.Leaf{Origin: sheet.Unknown})
	})
	require.Equal(t, "unknown", figure(t, unknown, "a", sheet.Planned).Text(3))
}

func TestFamiliesChange(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		slideway(m)
		s.Reached(sheet.Found)
		s.Upgrade("guard off")
		m.Drop("stops", "stop_wall")
		s.Reached(sheet.Now)
		s.Upgrade("new stop")
		u := m.In("u")
		u.Measure(mm("block"), exactly(70))
		m.Family("stops", "stops", unit.MM, "u.block", "stop_wall")
	})
	require.Equal(t, 88.0, r.Value("reach", sheet.Found))
	require.Equal(t, 89.5, r.Value("reach", sheet.Now))
	require.Equal(t, 70.0, r.Value("reach", sheet.Planned), "what was dropped may come back, too")
	require.Equal(t, 88.0, r.Value("stop_wall", sheet.Now), "it is out of the family, and exists all the same")
}

func TestRemove(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		dial := m.In("dial")
		dial.Measure(mm("from"), exactly(80))
		dial.Formula(mm("to"), "from + mm(10)", "geometry")
		dial.Check(sheet.Check{Key: "room", Label: "room for the dial", Figure: "to", Limit: "from"})
		m.Measure(mm("wall"), exactly(88))
		m.Measure(mm("dial_wall"), exactly(1)) // only begins with the same letters
		m.Family("stops", "stops", unit.MM, "dial.from", "wall")
		m.Formula(mm("reach"), "min(stops)", "geometry")
		s.Reached(sheet.Now)
		s.Upgrade("no dial")
		m.Remove("dial")
	})
	require.Equal(t, 80.0, r.Value("reach", sheet.Now))
	require.Equal(t, 88.0, r.Value("reach", sheet.Planned))
	_, ok := r.Figure("dial.to", sheet.Planned)
	require.False(t, ok)
	_, ok = r.Figure("dial_wall", sheet.Planned)
	require.True(t, ok)
	require.Empty(t, r.Checks(), "its checks go with it")
}

func TestTry(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		slideway(m)
		s.Reached(sheet.Found)
		s.Reached(sheet.Now)
		moreTravel(s, m, "first", 12)
		m.Measure(mm("tray"), between(0, 5))
	})
	before := values(r, sheet.Planned)
	require.True(t, r.Try("first.amount", 20))
	require.Equal(t, 44.5, r.Value("bracket", sheet.Planned))
	require.True(t, r.Try("first.amount", 12))
	after := values(r, sheet.Planned)
	delete(before, "tray") // not known, so not equal even to itself
	delete(after, "tray")
	require.Equal(t, before, after)
	require.False(t, r.Try("reach", 3), "not a leaf")
	require.False(t, r.Try("nothing", 3))
	require.False(t, r.Try("tray", 3), "not known")
}

func TestFaults(t *testing.T) {
	table := &sheet.Func{Name: "table", Args: []unit.Dim{unit.LengthD}, Result: unit.LengthD,
		F: func(x []float64) float64 {
			if x[0] > 500 {
				return nan
			}
			return x[0]
		}}
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		s.Register(table)
		m.Measure(sheet.Q{Key: "bolts", Label: "number of bolts", Unit: unit.Count, Whole: true}, exactly(2.5))
		m.Measure(sheet.Q{Key: "screws", Label: "number of screws", Unit: unit.Count, Whole: true}, exactly(4))
		m.Measure(sheet.Q{Key: "pins", Label: "number of pins", Unit: unit.Count, Whole: true}, between(0, 9))
		m.Formula(sheet.Q{Key: "size", Label: "size from the table", Unit: unit.MM}, "table(mm(501))", "invented")
		m.Formula(sheet.Q{Key: "root", Label: "root", Unit: unit.One}, "sqrt(bolts - screws)", "invented")
	})
	require.Equal(t, []string{
		"number of bolts is a count, and 2.5 is no whole number",
		"size from the table cannot be computed from these figures",
		"root cannot be computed from these figures",
	}, r.Faults())
	require.Equal(t, "unknown", figure(t, r, "size", sheet.Planned).Text(0))
	require.Empty(t, r.Missing("size", sheet.Planned), "no measurement would help")
}

func TestAsMadeOfWhatWasComputed(t *testing.T) {
	s := sheet.New()
	m := s.Root()
	m.Measure(mm("needed"), exactly(36))
	m.Measure(mm("out"), exactly(25.5))
	m.Formula(mm("extension"), "needed - out", "geometry")
	m.Formula(mm("missing"), "needed - out - extension", "geometry")
	s.Reached(sheet.Now)
	s.Upgrade("extension")
	m.Fix(mm("stock"), "extension + mm(1)", "decided")
	m.Fix(mm("decided"), "extension", "decided")
	m.AsMade("extension", sheet.Leaf{Value: 10.4, Origin: sheet.AsMade, Spread: sheet.Within(0.02)})
	m.AsMade("decided", exactly(10.45))
	r, err := s.Bind()
	require.NoError(t, err)
	value := func(key string) float64 { f, _ := r.Figure(key, sheet.Planned); return f.Value }
	require.Equal(t, 10.4, value("extension"))
	require.InDelta(t, 0.1, value("missing"), 1e-12, "what it closes is open by as much as it came out short")
	require.Equal(t, 11.5, value("stock"), "decided before it was made")
	require.Equal(t, 10.45, value("decided"))
	f, _ := r.Figure("extension", sheet.Planned)
	require.Equal(t, sheet.AsMade, f.Origin)
	require.InDelta(t, 0.02/1.7320508, r.Uncertainty("extension", sheet.Planned).Std, 1e-8)
}
