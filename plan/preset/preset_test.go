package preset_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/preset"
	"fettle/plan/sheet"
)

// every runs f for each axis and class.
func every(t *testing.T, f func(t *testing.T, a axis.Axis)) {
	for _, key := range preset.Axes() {
		for _, class := range preset.Classes {
			t.Run(key+" "+class, func(t *testing.T) {
				a, ok := preset.Axis(key, class)
				require.True(t, ok)
				f(t, a)
			})
		}
	}
}

func built(t *testing.T, m machine.Machine) *machine.Plan {
	t.Helper()
	p, err := m.Build("")
	require.NoError(t, err)
	return p
}

func alone(a axis.Axis) machine.Machine {
	return machine.Machine{Name: "m", Kind: "lathe", Units: "mm", Axes: []axis.Axis{a}}
}

// The figures of a preset fit one another: nothing of them cannot be read, the
// stops agree with the travel at both ends, and nothing fails that was not asked for.
func TestPresetsAgree(t *testing.T) {
	every(t, func(t *testing.T, a axis.Axis) {
		p := built(t, alone(a))
		require.Empty(t, p.Problems)
		require.Empty(t, p.Findings)
		require.Empty(t, p.Result.Faults())
		travel, _ := p.Result.Figure(a.Key+".travel", sheet.Found)
		found, _ := p.Result.Figure(a.Key+".travel_found", sheet.Found)
		require.True(t, travel.Known())
		require.InDelta(t, found.Value, travel.Value, 1e-9)
		for _, c := range p.Result.Checks() {
			require.NotEqual(t, sheet.Fails, c.Verdict, "%s: %s", c.Label, c.Sentence)
			require.NotEqual(t, sheet.Unmeasured, c.Verdict, "%s: %s", c.Label, c.Sentence)
		}
	})
}

// Everything is marked as assumed, with what to do about it, and nothing is measured.
func TestPresetsAreAssumed(t *testing.T) {
	every(t, func(t *testing.T, a axis.Axis) {
		all := []map[string]plan.Entry{a.Entries}
		for _, p := range a.Parts {
			all = append(all, p.Entries)
			role, ok := axis.RoleNamed(p.Role)
			require.True(t, ok, p.Role)
			require.NotEmpty(t, p.Material)
			asked := map[string]bool{}
			for _, s := range p.Sizes() {
				asked[s.Key] = true
				require.True(t, s.Optional || s.Default != "" || p.Entries[s.Key].Given(), "%s: %s is asked for", p.Key, s.Key)
			}
			for key := range p.Entries {
				require.True(t, asked[key], "%s is not asked of a %s", key, role.Label)
			}
		}
		for _, o := range a.Obstacles {
			require.True(t, o.Clear || o.Gap.Given(), o.Key)
			all = append(all, map[string]plan.Entry{"gap": o.Gap})
		}
		for _, entries := range all {
			for key, e := range entries {
				if e.Given() {
					require.Equal(t, sheet.Assumed, e.Origin, key)
					require.NotEmpty(t, e.Note, key)
				}
			}
		}
		arr, _ := axis.ArrangementNamed(a.Arrangement)
		capacity, _ := axis.CapacityNamed(a.Capacity)
		require.Equal(t, a.Capacity, capacity.Key)
		asked := map[string]bool{}
		for _, s := range slices.Concat(arr.Sizes, capacity.Sizes) {
			asked[s.Key] = true
		}
		for key := range a.Entries {
			require.True(t, asked[key], "%s is not asked of such an axis", key)
		}
	})
}

// Each kind has its means in words for each class, and axes that there are.
func TestMachines(t *testing.T) {
	for _, k := range preset.Kinds {
		require.Len(t, k.Means, len(preset.Classes))
		for _, class := range preset.Classes {
			m, ok := preset.Machine(k.Key, class)
			require.True(t, ok)
			require.Len(t, m.Axes, len(k.Axes))
			p := built(t, m)
			require.Empty(t, p.Problems)
			require.Empty(t, p.Findings)
		}
		for _, key := range slices.Concat(k.Axes, k.More) {
			_, ok := preset.Axis(key, preset.Small)
			require.True(t, ok, key)
		}
	}
	_, ok := preset.Machine("lathe", "huge")
	require.False(t, ok)
	_, ok = preset.Machine("loom", preset.Small)
	require.False(t, ok)
	_, ok = preset.Axis("shuttle", preset.Small)
	require.False(t, ok)
}

// Every way of driving an axis has a preset.
func TestEveryArrangementHasAPreset(t *testing.T) {
	have := map[string]bool{}
	every(t, func(_ *testing.T, a axis.Axis) { have[a.Arrangement] = true })
	for _, arr := range axis.Arrangements {
		require.True(t, have[arr.Key], arr.Key)
	}
}

// What the drives give, by hand from the figures of the small class:
//
//	cross slide     the lead, 1.5; 60 lines: 0.025 a line
//	carriage        π · 1 · 14 / 2 = 21.9911 a turn of the wheel; 2 a turn of the lead screw
//	mill quill      π · 1 · 14 = 43.9823; through a wheel of 20 teeth, 2.19911
//	drill table     π · 1.5 · 12 / 16 = 3.53429
//	knee (medium)   5 / 2 = 2.5, through bevels of 2 : 1
//	wheel head      4 / 4 = 1
//	ram             stroke 2 · 50 · 300 / 200 = 150; with 60 of the clamp 210; sin θ = 50/200, θ = 14.4775°:
//	                (180 + 28.955) / (180 − 28.955) = 1.38340; the longest work 150 − 15 − 5 = 130
//	lever           2 · 50 · sin 30° = 50; 180 / 50 = 3.6
//	table X         at either end all 130 of the saddle is under the table
//	ram             forward, −400 + 210 = −190: 190 of the 260 of its ways, 70 hang over
//	toolpost        55 − 16 = 39 for a block in place of the top slide; 16 lies within 10 to 18
func TestDrives(t *testing.T) {
	for _, c := range []struct {
		key, class string
		want       map[string]float64
	}{
		{"cross_slide", preset.Small, map[string]float64{"per_turn": 1.5, "dial.per_line": 0.025, "turns": 70 / 1.5}},
		{"carriage", preset.Small, map[string]float64{"per_turn": 21.99115, "per_screw_turn": 2}},
		{"mill_quill", preset.Small, map[string]float64{"per_turn": 43.98230, "per_fine_turn": 2.199115}},
		{"drill_table", preset.Small, map[string]float64{"per_turn": 3.534292}},
		{"knee", preset.Medium, map[string]float64{"per_turn": 2.5}},
		{"grinder_head", preset.Small, map[string]float64{"per_turn": 1}},
		{"set_over", preset.Small, map[string]float64{"per_turn": 1, "travel": 10}},
		{"shaper_ram", preset.Small, map[string]float64{"stroke": 150, "drive_range": 210, "quick_return": 1.38340, "longest_work": 130,
			"column_ways_on_ram.supported_minus": 260, "column_ways_on_ram.supported_plus": 190, "column_ways_on_ram.hangs_plus": 70}},
		{"tailstock_lever", preset.Small, map[string]float64{"drive_range": 50, "lever_gain": 3.6}},
		{"mill_x", preset.Small, map[string]float64{"saddle_ways_on_table.supported_minus": 130, "saddle_ways_on_table.supported_plus": 130}},
		{"top_slide", preset.Small, map[string]float64{"top_slide_height": 39, "packing": 0}},
	} {
		a, _ := preset.Axis(c.key, c.class)
		p := built(t, alone(a))
		for key, want := range c.want {
			f, ok := p.Result.Figure(c.key+"."+key, sheet.Found)
			require.True(t, ok, c.key+"."+key)
			require.InDelta(t, want, f.Value, 1e-5, c.key+"."+key)
		}
	}
}

// A shorter crank ends the stroke before the travel that was found; that does not agree.
func TestDriveEnds(t *testing.T) {
	a, _ := preset.Axis("shaper_ram", preset.Small)
	a.Entries["crank_radius"] = plan.Entry{Typed: "45"} // 2 · 45 · 300 / 200 + 60 = 195
	p := built(t, alone(a))
	require.Equal(t, []string{
		"Ram, forward: by the parts it stops 15 mm before the end of the travel that was measured. One of the figures is wrong.",
		"Ram, back: by the parts it stops 15 mm before the end of the travel that was measured. One of the figures is wrong.",
	}, p.Findings)
}

// A screw that does not turn says nothing about a bracket that does not hold it,
// and its dial's shaft is the nut's.
func TestTurningNut(t *testing.T) {
	a, _ := preset.Axis("shaper_table", preset.Small)
	p := built(t, alone(a))
	_, ok := p.Result.Figure("shaper_table.screw_line.side_force", sheet.Found)
	require.False(t, ok)
	f, ok := p.Result.Figure("shaper_table.nut_on_screw_thread.engaged_plus", sheet.Found) // 40 to 75, thread from -110 + 140 = 30 on
	require.True(t, ok)
	require.Equal(t, 35.0, f.Value)
}

// What stands on a screw's end can be put there and held: bored as the end is thick, the
// lock nut on its thread with all its turns, and the thread begun inside the handle
// (common practice, no source: else the nut stops on the shank and holds nothing).
func TestHandlesAreHeld(t *testing.T) {
	every(t, func(t *testing.T, a axis.Axis) {
		shank, okS := a.Part("shank")
		nut, okN := a.Part("lock_nut")
		if !okS || !okN || shank.Entries["end_thread"].Typed == "" {
			return
		}
		p := built(t, alone(a))
		size := func(name string) float64 {
			f, ok := p.Result.Figure(a.Key+"."+name, sheet.Found)
			require.True(t, ok && f.Known(), name)
			return f.Value
		}
		begins := size(shank.Key+".to") - size(shank.Key+".end_thread")
		require.GreaterOrEqual(t, size(shank.Key+".to"), size(nut.Key+".to"), "the end stands out of the nut")
		require.LessOrEqual(t, begins, size(nut.Key+".from"), "the thread begins inside the handle")
		require.LessOrEqual(t, size(nut.Key+".thread_dia"), size(shank.Key+".dia"), "it is cut on the end")
		for _, role := range []string{"dial", "handle"} {
			over, ok := a.Part(role)
			require.True(t, ok, role)
			require.InDelta(t, size(shank.Key+".dia"), size(over.Key+".bore"), 1e-9, role)
		}
	})
}

// A line of a dial is a figure that one can count in, as a maker would have it: 0.01, 0.02,
// 0.025 or 0.05 mm (common practice, no source).
func TestDialsCountInRoundFigures(t *testing.T) {
	every(t, func(t *testing.T, a axis.Axis) {
		d, ok := a.Part("dial")
		if !ok {
			return
		}
		p := built(t, alone(a))
		if line, ok := p.Result.Figure(a.Key+"."+d.Key+".per_line", sheet.Found); ok && line.Known() {
			round := slices.ContainsFunc([]float64{0.01, 0.02, 0.025, 0.05}, func(v float64) bool { return math.Abs(line.Value-v) < 1e-9 })
			require.True(t, round, "%g mm", line.Value)
		}
	})
}
