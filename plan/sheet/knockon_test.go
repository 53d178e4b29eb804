package sheet_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

// tree draws knock-ons, a line each, two spaces a level:
//
//	key: now → planned (+ other causes) [limited by now → limited by then]
func tree(knockOns []*sheet.KnockOn) string {
	var b strings.Builder
	var draw func(list []*sheet.KnockOn, in string)
	draw = func(list []*sheet.KnockOn, in string) {
		for _, k := range list {
			was, will := k.Now.Text(nan), k.Figure.Text(k.Now.Value)
			switch {
			case k.New:
				was = "new"
			case k.Gone:
				will = "gone"
			}
			fmt.Fprintf(&b, "%s%s: %s → %s", in, k.Key, was, will)
			if len(k.Also) > 0 {
				fmt.Fprintf(&b, " + %s", strings.Join(labels(k.Also), ", "))
			}
			if len(k.LimitedWas)+len(k.LimitedBy) > 0 {
				fmt.Fprintf(&b, " [%s → %s]", strings.Join(labels(k.LimitedWas), ", "), strings.Join(labels(k.LimitedBy), ", "))
			}
			b.WriteString("\n")
			draw(k.Children, in+"  ")
		}
	}
	draw(knockOns, "")
	return b.String()
}

func quiet(q sheet.Q) sheet.Q {
	q.Quiet = true
	return q
}

func lines(s ...string) string { return strings.Join(s, "\n") + "\n" }

func TestTreeOfKnockOns(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		slideway(m)
		m.Measure(mm("screw_end"), exactly(203))
		m.Formula(mm("sticks_out"), "screw_end - mm(141) - bracket", "geometry")
		m.Measure(mm("far_away"), exactly(1))
		m.Formula(mm("far_too"), "far_away * 2", "geometry")
		s.Reached(sheet.Now)
		s.Upgrade("more travel")
		u := m.In("u")
		u.Measure(quiet(mm("amount")), sheet.Leaf{Value: 12, Origin: sheet.Chosen})
		u.Change("asked", "was + amount", "as asked")
		u.Fix(quiet(mm("cut")), "max(0, asked - stop_wall)", "decided")
		u.Change("wall", "was + cut", "decided")
		u.Fix(quiet(mm("longer")), "max(0, asked - stop_bracket)", "decided")
		u.Change("bracket", "was + longer", "decided")
		u.Formula(mm("extension"), "max(0, mm(36) - sticks_out)", "geometry")
		u.Formula(mm("not_needed"), "max(0, mm(20) - sticks_out)", "geometry")
	})
	require.Equal(t, lines(
		// The wish is the root; what is quiet is passed through; what does not move
		// is not there, but for the goal.
		"asked: 88 mm → 100 mm",
		"  wall: 118 mm → 130 mm",
		"    stop_wall: 88 mm → 100 mm",
		"      reach: 88 mm → 100 mm + stop_bracket [stop_wall → stop_wall, stop_bracket]",
		"  bracket: 26 mm → 36.5 mm",
		"    stop_bracket: 89.5 mm → 100 mm",
		"    sticks_out: 36 mm → 25.5 mm",
		"      u.extension: new → 10.5 mm",
	), tree(r.KnockOns("reach")))

	k := r.KnockOns("reach")[0]
	require.Equal(t, 12.0, k.Delta)
	require.Equal(t, "more travel", k.Author)
	reach := k.Children[0].Children[0].Children[0]
	require.True(t, reach.Goal)
	require.False(t, k.Goal)

	require.Equal(t, []string{"bracket"}, labels(r.Causes("sticks_out")))
	require.Empty(t, r.Causes("far_too"))
	require.Empty(t, r.Causes("none"))
}

func TestTheGoalIsListedWithWhatSwallowedTheGain(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		slideway(m)
		m.Measure(mm("dial"), exactly(88))
		m.Family("stops", "stops", unit.MM, "dial")
		s.Reached(sheet.Now)
		s.Upgrade("cut the wall")
		m.Change("wall", "was + mm(12)", "decided")
	})
	require.Equal(t, lines(
		"wall: 118 mm → 130 mm",
		"  stop_wall: 88 mm → 100 mm",
		"    reach: 88 mm → 88 mm [stop_wall, dial → dial]",
	), tree(r.KnockOns("reach")))
	require.NotContains(t, tree(r.KnockOns()), "reach")

	// Nor is a goal left out on which the plan has no bearing at all.
	require.Contains(t, tree(r.KnockOns("dial")), "dial: 88 mm → 88 mm\n")
}

func TestTheMainCauseMovesMost(t *testing.T) {
	build := func(a, b string) string {
		r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
			m.Measure(mm("a"), exactly(10))
			m.Measure(mm("b"), exactly(10))
			m.Formula(mm("sum"), "a + 3 * b", "geometry")
			m.Formula(quiet(mm("inner")), "a + b", "geometry")
			m.Formula(mm("outer"), "inner * 2", "geometry")
			s.Reached(sheet.Now)
			m.Change("a", a, "decided")
			m.Change("b", b, "decided")
		})
		return tree(r.KnockOns())
	}
	require.Equal(t, lines(
		"a: 10 mm → 12 mm",
		"  outer: 40 mm → 46 mm",
		"b: 10 mm → 11 mm",
		"  sum: 40 mm → 45 mm + a",
	), build("was + mm(2)", "was + mm(1)"), "b moves the sum by 3, a by 2")
	require.Equal(t, lines(
		"a: 10 mm → 14 mm",
		"  sum: 40 mm → 47 mm + b",
		"  outer: 40 mm → 50 mm",
		"b: 10 mm → 11 mm",
	), build("was + mm(4)", "was + mm(1)"))
}

func TestACauseOfManyVersions(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("small"), exactly(1))
		m.Measure(mm("large"), exactly(1))
		m.Measure(mm("size"), exactly(10))
		s.Reached(sheet.Now)
		m.Change("small", "mm(2)", "decided")
		m.Change("large", "mm(9)", "decided")
		m.Change("size", "was + large", "decided")
		m.Change("size", "was + small", "decided")
		m.Change("small", "mm(3)", "decided") // too late for the size
	})
	require.Equal(t, lines(
		"small: 1 mm → 3 mm",
		"large: 1 mm → 9 mm",
		"  size: 10 mm → 21 mm + small", // of the 11, large gave 8, and small only its first 1
	), tree(r.KnockOns()))
}

func TestNewAndGone(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("dial.from"), exactly(88))
		m.Measure(mm("wall"), exactly(100))
		m.Measure(mm("guard"), exactly(95))
		m.Family("stops", "stops", unit.MM, "dial.from", "wall", "guard")
		m.Formula(mm("reach"), "min(stops)", "geometry")
		m.Formula(mm("room"), "reach - mm(80)", "geometry")
		s.Reached(sheet.Now)
		s.Upgrade("ball bearing")
		m.Remove("dial")
		m.Drop("stops", "guard")
		u := m.In("u")
		u.Measure(mm("bearing"), exactly(5))
		u.Measure(mm("block"), exactly(97))
		u.Measure(mm("unmeasured"), sheet.Leaf{Origin: sheet.Unknown})
		u.Measure(mm("spacer"), exactly(0))
		m.Family("stops", "stops", unit.MM, "u.block")
	})
	require.Equal(t, lines(
		// The dial held it at 88: without it 95 would have been reached. The new
		// block holds it at 97 where 100 would have been.
		"dial.from: 88 mm → gone",
		"  reach: 88 mm → 97 mm + u.block [dial.from → u.block]",
		"    room: 8 mm → 17 mm",
		"u.bearing: new → 5 mm",
		"u.block: new → 97 mm",
		"u.unmeasured: new → unknown",
	), tree(r.KnockOns()))
	require.Equal(t, []string{"dial.from", "u.block", "guard"}, labels(r.Causes("reach")))
}

func TestWhatDoesNotShowDoesNotCount(t *testing.T) {
	build := func(by float64) string {
		r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
			m.Measure(mm("a"), exactly(10))
			m.Formula(sheet.Q{Key: "tenths", Unit: unit.MM, Decimals: 1}, "a * 1", "geometry")
			m.Formula(sheet.Q{Key: "microns", Unit: unit.Micrometre}, "a * 1", "geometry")
			m.Measure(mm("by"), exactly(by))
			s.Reached(sheet.Now)
			m.Change("a", "was + by", "decided")
		})
		return tree(r.KnockOns())
	}
	require.Equal(t, lines("a: 10 mm → 10.02 mm", "  microns: 10000 µm → 10020 µm"), build(0.02))
	require.Equal(t, lines("microns: 10000 µm → 10004 µm"), build(0.004), "0.004 does not show in two decimals")
	require.Empty(t, build(0.00004))
}

func TestKnockOnsOfWhatIsNotKnown(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		slideway(m)
		m.Measure(mm("tray_gap"), between(0, inf))
		m.Formula(quiet(mm("stop_tray")), "mm(88) + tray_gap", "geometry")
		m.Family("stops", "stops", unit.MM, "stop_tray")
		m.Measure(mm("a"), exactly(1))
		m.Measure(mm("b"), sheet.Leaf{Origin: sheet.Unknown})
		m.Formula(mm("never_known"), "a + b", "geometry")
		s.Reached(sheet.Now)
		s.Upgrade("more travel")
		m.Change("wall", "was + mm(1)", "decided")
		m.Change("a", "was + mm(1)", "decided")
		m.AsMade("bracket", sheet.Leaf{Origin: sheet.Unknown})
	})
	got := r.KnockOns("reach")
	require.Equal(t, lines(
		"wall: 118 mm → 119 mm",
		"  stop_wall: 88 mm → 89 mm",
		"    reach: 88 mm → at most 89 mm + stop_bracket [stop_wall → stop_wall]",
		"      gap: 0 mm → at most 1 mm",
		"bracket: 26 mm → unknown",
		"  stop_bracket: 89.5 mm → unknown",
		"a: 1 mm → 2 mm",
	), tree(got), "what stays unknown has not moved")
	reach := got[0].Children[0].Children[0]
	require.Equal(t, 1.0, reach.Delta, "if all goes as asked")
	require.Zero(t, got[1].Delta)
	require.False(t, math.IsNaN(got[1].Children[0].Delta))
}

func TestRequiredSizesNameTheirCause(t *testing.T) {
	r := bind(t, func(s *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("bore"), exactly(10))
		m.Formula(mm("left"), "mm(30) - bore", "geometry")
		s.Reached(sheet.Now)
		s.Upgrade("pin")
		m.In("u").Measure(mm("pin"), exactly(13))
		m.Require("bore", "u.pin", "room for the pin")
		s.Upgrade("sleeve")
		m.In("u").Measure(mm("sleeve"), exactly(14))
		m.Require("bore", "u.sleeve", "goes over the sleeve")
	})
	require.Equal(t, lines(
		"u.pin: new → 13 mm",
		"u.sleeve: new → 14 mm",
		"  bore: 10 mm → 14 mm [ → bore_wanted_2]",
		"    left: 20 mm → 16 mm",
	), tree(r.KnockOns()))
}
