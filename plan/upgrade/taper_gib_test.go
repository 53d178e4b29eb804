package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/sheet"
)

// By hand, a slide 150 long with a gap of 4.52: tapered 1 in 60 its side loses 150 / 60 =
// 2.5 at the wider end, 10 − 2.5 = 7.5 of it stay. With 0.02 for the oil the gib is
// 4.52 + 2.5 − 0.02 = 7 at its thick end, 150 − 10 = 140 long, 7 − 140 / 60 = 4.667 at
// the thin one; its blank 7 + 2 × 0.3 = 7.6. Driven 10 it takes up 10 / 60 = 0.167, a
// turn of M5 × 0.8 0.8 / 60 = 13.3 µm. Common practice, no source: 10 at 1 in 80 gives 0.125.
func TestTaperGib(t *testing.T) {
	p := built(t, with("taper_gib", "oil", "0.02", "wall", "10"))
	is(t, p, map[string]float64{"cross.upgrade_1.opens": 2.5, "cross.upgrade_1.left": 7.5, "cross.upgrade_1.thick": 7, "cross.upgrade_1.long": 140, "cross.upgrade_1.thin": 4.6667,
		"cross.upgrade_1.rough": 7.6, "cross.upgrade_1.take_up": 0.16667, "cross.upgrade_1.turn": 0.013333, "cross.upgrade_1.blank": 10.3923, "cross.slide.gib_play": 0.02})
	require.Empty(t, failing(p))
	require.Equal(t, "The gib is 7 mm at its thick end and 4.67 mm at its thin one, 140 mm long. Driven home it takes up 0.17 mm of wear, 13.3 µm a turn. Sideways play comes to 0.02 mm, where it is 0.08 mm now.", answer(p, "1"))
	g := piece(t, p, "1", "gib")
	require.InDelta(t, 60, g.Flat.Taper, 1e-9)
	require.InDelta(t, 7, g.Flat.Thickness.Nominal, 1e-9)
	require.Equal(t, "ISO 4762 M5 × 16", p.Site("1").Make(p.Result).Buy[0].Designation)
	is(t, built(t, with("taper_gib", "oil", "0.02", "taper", "80", "wall", "10")), map[string]float64{"cross.upgrade_1.take_up": 0.125})

	s := p.Site("1")
	far := p.Result.HowFar(s.Amount, s.Goals[0], s.Most)
	require.InDelta(t, 0.01, far.From, 1e-6)
	require.InDelta(t, 0.03, far.To, 1e-6)
}

// The traps: 4 of room at 1 in 100 takes up 0.04, where 0.1 is wanted; a side of 8 keeps
// 5.5; a gap of 2.5 gives a thin end of 2.5 − 0.02 + 10 / 60 = 2.647.
func TestTaperGibFails(t *testing.T) {
	require.Equal(t, []string{"cross.upgrade_1.take_up_check"}, failing(built(t, with("taper_gib", "oil", "0.02", "wall", "10", "taper", "100", "moves", "4"))))
	require.Equal(t, []string{"cross.upgrade_1.left_check"}, failing(built(t, with("taper_gib", "oil", "0.02", "wall", "8"))))
	m := with("taper_gib", "oil", "0.02", "wall", "10")
	slide, _ := m.Axes[0].Part("slide")
	slide.Entries["gib_gap"] = plan.Entry{Typed: "2.5", With: "micrometer"}
	p := built(t, m)
	is(t, p, map[string]float64{"cross.upgrade_1.thin": 2.6467})
	require.Equal(t, []string{"cross.upgrade_1.thin_check"}, failing(p))
	require.Equal(t, sheet.Tight, verdict(t, built(t, with("taper_gib", "oil", "0.02", "wall", "10", "taper", "30")), "cross.upgrade_1.steep_check").Verdict)
}

// A gap that tapers already, 4.52 to 7.02 over 150, is 1 in 60, and nothing is milled.
func TestTaperGibForAWornOne(t *testing.T) {
	m := with("taper_gib", "oil", "0.02", "gap_is", "tapers")
	slide, _ := m.Axes[0].Part("slide")
	slide.Entries["gib_gap_other"] = plan.Entry{Typed: "7.02", With: "micrometer"}
	p := built(t, m)
	is(t, p, map[string]float64{"cross.upgrade_1.taper": 60, "cross.upgrade_1.thick": 7})
	require.Empty(t, failing(p))
	for _, o := range p.Site("1").Make(p.Result).Steps {
		require.NotEqual(t, "mill_side", o.Key)
	}
}

// The wall is not measured: no verdict on it, and it is named. On the mill nothing is.
func TestTaperGibUnmeasured(t *testing.T) {
	c := verdict(t, built(t, with("taper_gib", "oil", "0.02")), "cross.upgrade_1.left_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Equal(t, "cross.upgrade_1.wall", c.Missing[0].Key)
	m := demo.Mill()
	m.Upgrades = nil
	p := built(t, and(m, "taper_gib", "oil", "0.02"))
	c = verdict(t, p, "y.upgrade_1.better_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Equal(t, "y.saddle.gib_play", c.Missing[0].Key)
	require.True(t, piece(t, p, "1", "gib").Flat.Thickness.Open())
}

// Two gibs in one gap: both are named.
func TestTwoGibs(t *testing.T) {
	p := built(t, and(with("gib_strip", "oil", "0.02"), "taper_gib", "oil", "0.02"))
	require.NotEmpty(t, p.Result.Conflicts())
	require.Equal(t, []string{"New gib strip, Cross slide", "Taper gib, Cross slide"}, []string{p.Result.Conflicts()[0].First, p.Result.Conflicts()[0].Second})
}

// Story: a blank that warped after milling, a job bent in the vice. It is asked before it is cut.
func TestStoryWarpedTaperGib(t *testing.T) {
	mk := func() []string {
		p := built(t, with("taper_gib", "oil", "0.02"))
		is(t, p, map[string]float64{"cross.upgrade_1.skin": 0.3})
		return stepNamed(t, p.Site("1").Make(p.Result), "rough_gib").Asks
	}()
	require.Len(t, mk, 2)
	require.Contains(t, mk[0], "bow")
	require.Contains(t, mk[1], "soft jaws")
}
