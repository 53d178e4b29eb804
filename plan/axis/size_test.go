package axis_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Of all that is asked, these alone can be 0, and those alone less: every other size is of a thing that is there.
var (
	canBeNothing = []string{"lost_motion", "lost_motion_minus", "lost_motion_plus", "keep", "bolt_offset", "end_thread", "drive_offset", "end_float", "gib_play", "tang_depth", "work_clearance", "load_inset", "lowest", "lowest_job", "strut_spare", "spaced.travel_found",
		"push_minus", "push_middle", "push_plus", "counterweight", "tang_longest", "clamp_range", "run_out", "nose", "run_on", "run_off"}
	canBeLess = []string{"from", "to", "gap", "height", "underside", "tip_past_axis", "axis_from_front", "gear_out"}
)

// laid is an axis on a sheet of its own, whatever is wrong with it.
func laid(t *testing.T, a axis.Axis) (*axis.Layout, *sheet.Result) {
	t.Helper()
	a.Key, a.Label = "a", "A"
	s := sheet.New()
	l := axis.Define(s.Root(), &a, unit.MM)
	r, err := s.Bind()
	require.NoError(t, err)
	return l, r
}

// refused requires that a figure is taken, or else said to be wrong at its field and nothing is computed from it.
func refused(t *testing.T, a axis.Axis, owner string, s axis.Size, local, typed string) {
	t.Helper()
	l, r := laid(t, a)
	is := func(list []string) bool {
		return slices.Contains(list, s.Key) || slices.Contains(list, owner+"."+s.Key)
	}
	f, ok := r.Figure("a."+local, sheet.Found)
	require.True(t, ok, "%s.%s", owner, s.Key)
	want := ""
	switch {
	case is(canBeLess):
	case is(canBeNothing) && typed == "-1":
		want = "give 0 or more"
	case !is(canBeNothing):
		want = "give more than 0"
	}
	if want == "" {
		require.Empty(t, l.Problems, "%s.%s = %s", owner, s.Key, typed)
		require.True(t, f.Known())
		return
	}
	require.Equal(t, []plan.Problem{{Field: "a." + local, Say: want}}, l.Problems, "%s.%s = %s", owner, s.Key, typed)
	require.Equal(t, sheet.Unknown, f.Origin, "%s.%s", owner, s.Key)
}

func TestImpossibleSizes(t *testing.T) {
	figure := func(s axis.Size) bool { return !s.List && s.Choices == nil }
	for _, typed := range []string{"0", "-1"} {
		for _, role := range axis.Roles {
			for _, tie := range []*axis.Tie{nil, {Part: "other", Face: "to"}} {
				p := axis.Part{Key: "part", Label: "part", Role: role.Key, Side: axis.Fixed, Tie: tie}
				for _, s := range p.Sizes() {
					if figure(s) {
						p.Entries = map[string]plan.Entry{s.Key: {Typed: typed}}
						refused(t, axis.Axis{Arrangement: "held_screw", Parts: []axis.Part{{Key: "other", Label: "other", Role: "other", Side: axis.Fixed}, p}},
							role.Key, s, "part."+s.Key, typed)
					}
				}
			}
		}
		for _, arrangement := range axis.Arrangements {
			for _, s := range slices.DeleteFunc(slices.Clone(arrangement.Sizes), func(s axis.Size) bool { return !figure(s) }) {
				refused(t, axis.Axis{Arrangement: arrangement.Key, Entries: map[string]plan.Entry{s.Key: {Typed: typed}}}, arrangement.Key, s, s.Key, typed)
			}
		}
		for _, capacity := range axis.Capacities {
			for _, s := range capacity.Sizes {
				refused(t, axis.Axis{Arrangement: "held_screw", Capacity: capacity.Key, Entries: map[string]plan.Entry{s.Key: {Typed: typed}}}, capacity.Key, s, s.Key, typed)
			}
		}
	}
}

// The gap that is left to an obstacle can be nothing, not less.
func TestImpossibleGap(t *testing.T) {
	for typed, want := range map[string]string{"0": "", "-1": "give 0 or more"} {
		l, _ := laid(t, axis.Axis{Arrangement: "held_screw", Obstacles: []axis.Obstacle{{Key: "tray", Label: "tray", End: axis.Plus, Gap: plan.Entry{Typed: typed}}}})
		if want == "" {
			require.Empty(t, l.Problems)
			continue
		}
		require.Equal(t, []plan.Problem{{Field: "a.tray.gap", Say: want}}, l.Problems)
	}
}

// A count that is no whole number is said once, at its field.
func TestCountIsWhole(t *testing.T) {
	for typed, want := range map[string]string{"2.5": "give a whole number", "0": "give more than 0", "-2": "give more than 0", "4": ""} {
		l, r := laid(t, axis.Axis{Arrangement: "held_screw", Parts: []axis.Part{piece("bracket", "bracket", axis.Fixed, "bolts", typed)}})
		require.Empty(t, r.Faults(), typed)
		if want == "" {
			require.Empty(t, l.Problems)
			continue
		}
		require.Equal(t, []plan.Problem{{Field: "a.bracket.bolts", Say: want}}, l.Problems)
	}
}
