package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/part"
	"fettle/plan/sheet"
)

var gibSide = []string{"thickness", "4.5", "blank", "10.4", "wall", "12", "edge", "8"}

// By hand: screws at −60, −28, 3, 34, 66 on a slide from −72 to 78. Halving each space puts
// four more at −44, −12.5, 18.5 and 50: 32 becomes 16. Ways from 0 to 141: right in, 3, 18.5,
// 34, 50 and 66 lie over them; 88 further out all but 66, at 154. A strip 4.5 × 10.4, I = 10.4 ×
// 4.5³ / 12 = 78.98, gives 100 × 16³ / (192 × 110000 × 78.98) = 0.25 µm. It may have 8 × 4.5 =
// 36 between two, and so wants 1 + ⌈(150 − 30) / 36⌉ = 5.
func TestGibScrews(t *testing.T) {
	p := built(t, with("gib_screws", append([]string{"where", "between"}, gibSide...)...))
	is(t, p, map[string]float64{"cross.slide.gib_widest": 16, "cross.upgrade_1.bear_minus": 5, "cross.upgrade_1.bear_plus": 8, "cross.upgrade_1.wanted": 5,
		"cross.slide_on_saddle_ways.gib_screws_minus": 5, "cross.slide_on_saddle_ways.gib_screws_plus": 8, "cross.upgrade_1.nearest": 15.5, "cross.upgrade_1.give": 0.000246})
	require.Empty(t, failing(p))
	require.Equal(t, "Outward, 8 screws lie over the ways. Inward, 5 screws lie over the ways. The widest space comes to 16 mm, where it is 32 mm now. Nothing else follows.", answer(p, "1"))
	var at []float64
	for _, f := range piece(t, p, "1", "gib_side").Flat.Features {
		require.Equal(t, part.Hole, f.Kind)
		require.Equal(t, "M5", f.Thread)
		at = append(at, f.X.Nominal)
	}
	require.Equal(t, []float64{28, 59.5, 90.5, 122}, at) // from the end at −72
	mk := p.Site("1").Make(p.Result)
	require.Equal(t, "ISO 4028 M5 × 20", mk.Buy[0].Designation) // 12 of wall, 4.7 of nut (ISO 4032), 1 more
	require.Equal(t, 4, mk.Buy[0].Quantity)

	// A new strip after it has its screws nearer together.
	p = built(t, and(with("gib_screws", append([]string{"where", "between"}, gibSide...)...), "gib_strip", "oil", "0.02"))
	require.Len(t, piece(t, p, "2", "gib").Flat.Features, 9)
	require.Empty(t, failing(p))
}

func TestGibScrewsFails(t *testing.T) {
	for _, tc := range []struct {
		why    string
		inputs []string
		fails  []string
	}{
		// 15 from the ends is 3 from the screws at 12: 15 are the least between M5.
		{"beyond screws that are at the ends already", []string{"where", "ends"}, []string{"nearest_check"}},
		{"M6 15.5 apart, where 18 are the least", []string{"where", "between", "screw", "M6", "edge", "9"}, []string{"nearest_check"}},
		{"a side of 6 for M5", []string{"where", "between", "wall", "6"}, []string{"wall_check"}},
		{"holes 5 from the edge", []string{"where", "between", "edge", "5"}, []string{"edge_check"}},
		// 8 × 1.5 = 12 between two; it gives 27 times as much: 6.6 µm.
		{"a strip of 1.5", []string{"where", "between", "thickness", "1.5"}, []string{"apart_check", "give_check"}},
	} {
		want := []string{}
		for _, f := range tc.fails {
			want = append(want, "cross.upgrade_1."+f)
		}
		p := built(t, with("gib_screws", append(append([]string{}, gibSide...), tc.inputs...)...))
		require.ElementsMatch(t, want, failing(p), tc.why)
	}
}

// Story: the slide rocks at its end, where one gib screw bears. Of two at −60 and 60 the one
// at 60 lies over the ways right in; one half way, at 0, is the second, and one is still wanted to cut there.
func TestStoryOneGibScrewBears(t *testing.T) {
	m := with("gib_screws", append([]string{"where", "none"}, gibSide...)...)
	slide, _ := m.Axes[0].Part("slide")
	slide.Entries["gib_screws"] = plan.Entry{Typed: "-60; 60", With: "rule"}
	c := verdict(t, built(t, m), "cross.slide_on_saddle_ways.gib_check_minus")
	require.Equal(t, sheet.Fails, c.Verdict)
	require.True(t, c.AsFound)
	m.Upgrades[0].Inputs["where"] = "between"
	p := built(t, m)
	require.NotEqual(t, sheet.Fails, verdict(t, p, "cross.slide_on_saddle_ways.gib_check_minus").Verdict)
	is(t, p, map[string]float64{"cross.upgrade_1.bear_minus": 2})
	c = verdict(t, p, "cross.upgrade_1.cutting_minus")
	require.Equal(t, sheet.Tight, c.Verdict)
	require.Equal(t, "2 of the gib screws lie over the ways there; to cut there, 3 are wanted.", c.Sentence)
}

// Where they are was not measured: nothing is judged, and they are named.
func TestGibScrewsUnmeasured(t *testing.T) {
	m := with("gib_screws", append([]string{"where", "between"}, gibSide...)...)
	slide, _ := m.Axes[0].Part("slide")
	delete(slide.Entries, "gib_screws")
	p := built(t, m)
	for _, key := range []string{"better_check", "apart_check", "give_check", "cutting_plus"} {
		c := verdict(t, p, "cross.upgrade_1."+key)
		require.Equal(t, sheet.Unmeasured, c.Verdict, key)
		require.Contains(t, c.Missing[0].Key, "cross.slide.gib_screw_")
	}
	require.Contains(t, answer(p, "1"), "the slide gib screw ")
}

// Twice: both are named; after one that is finished its screws are those that there are.
func TestGibScrewsTwice(t *testing.T) {
	m := and(with("gib_screws", append([]string{"where", "between"}, gibSide...)...), "gib_screws", append([]string{"where", "between", "screw", "M4"}, gibSide...)...)
	require.NotEmpty(t, built(t, m).Result.Conflicts())
	m.Upgrades[0].State = "finished"
	p := built(t, m)
	require.Empty(t, p.Result.Conflicts())
	is(t, p, map[string]float64{"cross.slide.gib_widest": 8})
	m = demo.Mill()
	m.Upgrades = nil
	// 60, 95, 130, 160 on the mill's saddle: 35 becomes 17.5.
	is(t, built(t, and(m, "gib_screws", "where", "between")), map[string]float64{"y.saddle.gib_widest": 17.5})
}
