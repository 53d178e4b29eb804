package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/machine"
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

// Story: a screw was tapped into a lip too thin for it, and stripped. In cast iron M5 wants 1.5 × 5 = 7.5 of
// thread, M8 12: sides of 6 and of 18 less a pad's hole of 8 are short, and so is a cross slide tapped 10 deep.
func TestStoryThreadTooShort(t *testing.T) {
	for key, m := range map[string]machine.Machine{
		"cross.upgrade_1.wall_check":       with("gib_screws", append(append([]string{}, gibSide...), "where", "between", "wall", "6")...),
		"cross.upgrade_1.thread_check":     with("slide_lock", "torque", "4", "wall", "18"),
		"top_slide.upgrade_1.tapped_check": on("top_slide", "plinth", "height", "55", "across", "50", "tapped", "10"),
	} {
		require.Equal(t, sheet.Fails, verdict(t, built(t, m), key).Verdict, key)
	}
}

// Story: the slide hangs over, and the tool chatters. More of it over the front is told by the axis; the gib
// screws that still bear there are counted with those that are added.
func TestStorySlideHangsOver(t *testing.T) {
	p := built(t, and(with("gib_screws", append([]string{"where", "between"}, gibSide...)...), "extend_travel", "end", "plus", "amount", "40"))
	// From −72 + 128 = 56 to the ways' end at 141: 85 on them, 65 over, where 50 are the most.
	is(t, p, map[string]float64{"cross.slide_on_saddle_ways.supported_plus": 85, "cross.slide_on_saddle_ways.hangs_plus": 65})
	require.Contains(t, failing(p), "cross.slide_on_saddle_ways.overhang_plus")
	// −60, −44, −28, −12.5 and 3 are at 68 to 131; 18.5 is at 146.5, off.
	is(t, p, map[string]float64{"cross.upgrade_1.bear_plus": 5})
}
