package upgrade_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/part"
	"fettle/plan/sheet"
)

// As found: the tool is pushed out at 2 − 65 + s = −60, s = 3; the keyway ends the
// travel at 58; 18 of the nut, 1.5 × 12, engage up to 60: 55 are of use. Without
// its tang a shank of Morse taper 2 is 75 − 64 = 11 shorter (ISO 296): it is pushed
// out at 3 − 11 = −8, which is never. All 58 are of use, 3 more, and a pad of
// 8 + 1 = 9 pushes it out.
func TestShorterShank(t *testing.T) {
	p := built(t, and(tailstockAxis(), "quill_travel", "way", "shank", "taper", "2"))
	is(t, p, map[string]float64{"a.upgrade_1.amount": 11, "a.tang_depth": 54, "a.ejects_at": -8, "a.usable": 58, "a.upgrade_1.better": 3, "a.upgrade_1.push": -8, "a.upgrade_1.pad": 9, "a.upgrade_1.softer": 1})
	require.Empty(t, failing(p))
	require.Equal(t, "It can be used over 58 mm of travel, 3 mm more. The screw no longer pushes the tool out: a pad of 9 mm on its tip does, or a drift.", answer(p, "1"))
	require.InDelta(t, 9, piece(t, p, "1", "pad").Round.Outside[0].Length.Nominal, 1e-9)
	mk := p.Site("1").Make(p.Result)
	require.NotEmpty(t, stepNamed(t, mk, "cut_tangs").Asks)
}

// 10 longer on the same screw. The nut lasts to 70, the keyway, 10 longer, to 68;
// where the tool is pushed out stays at 3; the rear, at −148, meets the collar at
// −138 with the quill 10 out: 10 to 68 are of use, 58 of them. 3 would have done.
// Out of the body it stands 2 + 68 = 70 where it was 60: (70/60)³ = 1.588.
func TestLongerQuill(t *testing.T) {
	p := built(t, and(tailstockAxis(), "quill_travel", "way", "longer", "amount", "10"))
	is(t, p, map[string]float64{"a.quill.length": 150, "a.nut_on_thread.lasts_plus": 70, "a.reach_plus": 68, "a.reach_minus": 10, "a.ejects_at": 3, "a.usable": 58,
		"a.upgrade_1.lost": 10, "a.upgrade_1.softer": 1.58796, "a.quill_on_body.engaged_plus": 80})
	require.Empty(t, failing(p))
	require.Contains(t, answer(p, "1"), "Right in it stands out 10 mm further than it did.")
	s := p.Site("1")
	require.InDelta(t, 3, p.Result.HowFar(s.Amount, s.Goals[0], s.Most).Best, 1e-6)
	quill := piece(t, p, "1", "quill")
	require.InDelta(t, 150, quill.Round.Length.Nominal, 1e-9)
	require.Equal(t, 17.78, quill.Round.Right[0].Dia.Nominal) // ISO 296, Morse taper 2

	// The nut alone further back does the same, and the quill stays as long as it is.
	p = built(t, and(tailstockAxis(), "quill_travel", "way", "nut_back", "amount", "10"))
	is(t, p, map[string]float64{"a.quill.length": 140, "a.reach_plus": 68, "a.reach_minus": 10, "a.usable": 58, "a.quill_on_body.engaged_plus": 70})
	require.InDelta(t, 30, piece(t, p, "1", "nut").Round.Length.Nominal, 1e-9)
	require.Equal(t, "Tr12×3-7H", piece(t, p, "1", "nut").Round.Left[0].Thread)
}

// A screw that is 2 shorter lets go at 1 and holds to 58: 57 of use, which is all
// that there is, whatever the screw: Lq − e − Dt = 140 − 18 − 65. At 3 the nut is
// held at 57 no more.
func TestShorterScrew(t *testing.T) {
	p := built(t, and(tailstockAxis(), "quill_travel", "way", "tip", "amount", "2"))
	is(t, p, map[string]float64{"a.ejects_at": 1, "a.nut_on_thread.lasts_plus": 58, "a.usable": 57})
	require.Empty(t, failing(p))
	s := p.Site("1")
	require.InDelta(t, 2, p.Result.HowFar(s.Amount, s.Goals[0], s.Most).To, 1e-6)
	p = built(t, and(tailstockAxis(), "quill_travel", "way", "tip", "amount", "3"))
	require.Equal(t, []string{"a.nut_on_thread.least_plus"}, failing(p))
}

// A screw that is 30 longer pushes the tool out at 33: of 58 no more than 25 are
// left. That is what is told of it.
func TestStoryLongerScrewEjectsEarly(t *testing.T) {
	m := and(tailstockAxis(), "quill_travel", "way", "tip", "amount", "0")
	m.Axes[0].Parts[2].Entries["to"] = plan.Entry{Typed: "-30"}
	p := built(t, m)
	is(t, p, map[string]float64{"a.ejects_at": 33, "a.usable": 25})
	// Made 30 shorter again, 55 come back.
	m.Upgrades[0].Inputs["amount"] = "30"
	p = built(t, m)
	is(t, p, map[string]float64{"a.ejects_at": 3, "a.usable": 55})
	require.Equal(t, "It can be used over 55 mm of travel, 30 mm more, where the limit is the point at which the tool is pushed out.", answer(p, "1"))
}

// The trap: 50 longer with room behind. Full out, at 108, the rear stands at
// −188 + 108 = −80 with 80 in the body; that is held. In a body of 60 it is not:
// −80 to −60 counts for nothing, and with a nut that is 50 further back alone the
// old quill has −138 + 108 = −30: 30 of 42, 1.5 × 28.
func TestStoryQuillOutOfItsGuide(t *testing.T) {
	m := tailstockAxis()
	m.Axes[0].Parts[1].Entries = map[string]plan.Entry{"from": {Typed: "-246"}, "to": {Typed: "-238"}}
	p := built(t, and(m, "quill_travel", "way", "nut_back", "amount", "50"))
	is(t, p, map[string]float64{"a.quill_on_body.engaged_plus": 30, "a.quill_on_body.least": 42})
	require.Contains(t, failing(p), "a.quill_on_body.least_plus")
	c := verdict(t, p, "a.quill_on_body.least_plus")
	require.Equal(t, "30 mm of the quill is held, and 42 mm is the least.", c.Sentence)
	require.Contains(t, answer(p, "1"), "This does not hold")
	require.Contains(t, failing(p), "a.upgrade_1.softer_check") // (110/60)³ = 6.2
}

// Two that make the quill anew are both named; a shank not measured gives no verdict.
func TestQuillClaimsAndUnmeasured(t *testing.T) {
	p := built(t, and(and(tailstockAxis(), "quill_travel", "way", "longer", "amount", "5"), "quill_travel", "way", "nut_back", "amount", "5"))
	require.NotEmpty(t, p.Result.Conflicts())
	require.Equal(t, []string{"More use of the quill, Quill", "More use of the quill, Quill (2)"}, []string{p.Result.Conflicts()[0].First, p.Result.Conflicts()[0].Second})

	m := tailstockAxis()
	delete(m.Axes[0].Entries, "tang_depth")
	p = built(t, and(m, "quill_travel"))
	require.Equal(t, sheet.Unmeasured, verdict(t, p, "a.upgrade_1.better_check").Verdict)
	require.Equal(t, "What it comes to is told when the depth of the tool's tang behind the nose is measured.", answer(p, "1"))
}

// A screw is cut shorter when it is out: the tailstock is taken apart first, and a quill that
// is only known to be of steel is not made of the soft free-cutting sort.
func TestQuillIsTakenOutFirst(t *testing.T) {
	p := built(t, on("tailstock", "quill_travel", "way", "tip", "amount", "5"))
	mk := p.Site("1").Make(p.Result)
	order := func(key string) int {
		return slices.IndexFunc(mk.Steps, func(o part.Operation) bool { return o.Key == key })
	}
	require.GreaterOrEqual(t, order("strip_tailstock"), 0)
	require.Less(t, order("strip_tailstock"), order("shorten_tip"))
	require.Less(t, order("shorten_tip"), order("fit_quill"))

	p = built(t, on("tailstock", "quill_travel", "way", "longer", "amount", "10"))
	require.Equal(t, "c45", piece(t, p, "1", "barrel").Material)
}
