package machine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// The mill's Y axis as found, screw and handle on the saddle, nut in the base;
// positions from the rear web's front face, saddle right in:
//
//	inner end  the saddle's rear edge, 40, meets the column at 40: s = 0
//	next       the bracket, from 174, meets the nut that ends at 172: s = −2
//	           the thread ends at 174 too, and a shank of 10 does not enter a nut
//	           of Tr 12 × 3, bore 12 − 3 = 9: s = −2
//	           the screw's tip, 8, meets the web at 0: s = −8
//	outer end  the saddle comes up against a stop screw at 130
//	thread     from 8 + 130 = 138 on at the outer end, the nut begins at 144: 6 to spare
//	table      160 wide; the axis stands 150 behind its front edge, saddle right
//	           out, and 150 − 130 = 20, right in: 130 of it come under the spindle
func TestMillAsFound(t *testing.T) {
	a := ask(t, demo.Mill(), "")
	require.Empty(t, a.Problems)
	a.at(sheet.Now, map[string]float64{
		"y.travel": 130, "y.column_saddle.bound": 0, "y.nut_bracket.bound": -2, "y.thread_end.bound": -2, "y.web_thread.bound": -8,
		"y.front_obstacle.bound": 130, "y.nut_on_thread.spare_plus": 6, "y.nut_on_thread.spare_minus": 2,
		"y.thread.root": 8.5, "y.nut.bore": 9, "y.reach_table": 130, "y.use_front": -20, "y.use_back": 140,
		"y.saddle_on_base_ways.supported_plus": 130, // of 134: the saddle ends at 304, the ways at 300
	})
	require.Empty(t, a.Findings)
}

// 15 more inward, worked out by hand:
//
//	column   met at 0: 15 off the saddle's rear edge, 40 → 55; 174 − 55 = 119 left of it
//	nut      met at −2: a spacer of 13 under the bracket carries bracket and screw out
//	thread   ends at 174 + 13 = 187; at s = −15 at 172, where the nut ends: full, just
//	tip      8 + 13 = 21, at s = −15 at 6: clear of the web by 6, nothing to do
//	outer    begins at 21 + 130 = 151, the nut at 144: 7 of its 28 off, 21 on it,
//	         where the larger of 1.5 × 12 = 18 and 5 × 3 = 15 is the least
//	bolts    grip 10 + 13 = 23, with 1.5 × 6 = 9 in the iron 32: sold 35 long
//	table    the axis comes to 20 − 15 = 5 behind the front edge: 145 of it, 15 more
//	saddle   at the outer end from 55 + 130 = 185 to 300: 115 of 119 on the ways
func TestMillFifteenInward(t *testing.T) {
	a := ask(t, demo.Mill(), "1", "amount", "15")
	a.is(map[string]float64{
		"y.reach_minus": -15, "y.reach_plus": 130, "y.travel": 145, "y.saddle.from": 55, "y.saddle.length": 119,
		"y.bracket.spacer": 13, "y.bracket.length": 26, "y.bracket.from": 187, "y.thread.to": 187, "y.thread.from": 21,
		"y.nut_on_thread.spare_minus": 0, "y.web_thread.gap": 6, "y.nut_on_thread.spare_plus": -7, "y.nut_on_thread.engaged_plus": 21, "y.nut_on_thread.least": 18,
		"y.bracket.bolt_length": 35, "y.reach_table": 145, "y.saddle_on_base_ways.supported_plus": 115,
		"y.shaft_end.out": 35.5, "y.extension.visible": 0, // the end goes out with the bracket
	})
	require.Equal(t, []string{"saddle meets column", "bracket meets nut", "nut jams at the thread's end"}, met(a, "y.reach_minus"))
	require.Empty(t, a.failing())
	require.Equal(t, sheet.Tight, a.check("y.nut_on_thread.full_plus").Verdict) // part engagement is said
	require.Equal(t, "The Y axis goes 15 mm further inward. A spacer of 13 mm goes under the bracket and 15 mm is cut off the saddle. 145 mm of the table's width comes under the spindle, 15 mm more.", a.answer())

	// The nut at the outer end has 6 to spare, less what the spacer is: full as
	// far as x − 2 = 6; 28 − (x − 8) = 18 at 18, the end of it. The table's front
	// edge is under the spindle at 20.
	ends, far := a.howFar()
	require.InDelta(t, 18, far.To, 1e-6)
	require.InDelta(t, 18, ends["y.nut_on_thread.least_plus"], 1e-6)
	require.InDelta(t, 8, ends["y.nut_on_thread.full_plus"], 1e-6)
	require.InDelta(t, 20, ends["y.front_edge_check"], 1e-6)
	require.InDelta(t, 20, far.Best, 1e-6)
	require.False(t, far.AtMost)
}

// met names, as planned, all that the slide meets at an end.
func met(a asked, reach string) []string {
	var labels []string
	f := a.figure(reach, sheet.Planned)
	for _, l := range a.Layouts {
		for _, s := range l.Stops {
			if b, ok := a.Result.Figure(l.Find(s.Key+".bound"), sheet.Planned); ok && l.Find("reach_"+string(s.End)) == reach && b.Value == f.Value {
				labels = append(labels, s.Label)
			}
		}
	}
	return labels
}

// A longer thread for the outer end reaches the web at the inner one: 7 of full
// thread were missing, so its tip comes to 21 − 7 = 14, at s = −15 to −1.
func TestMillLongerThreadMeetsTheWeb(t *testing.T) {
	inputs := []string{"amount", "15", "do.thread_plus", "new_screw"}
	a := ask(t, demo.Mill(), "1", inputs...)
	a.is(map[string]float64{"y.thread.from": 14, "y.nut_on_thread.spare_plus": 0, "y.web_thread.gap": -1, "y.reach_minus": -14})
	require.Equal(t, []string{"y.web_thread.check"}, a.failing())
	require.Contains(t, a.answer(), "not the 15 mm asked for: there the screw thread meets the rear web.")
}

// 5 further out the stop screw is met. With that not known, something that is
// not named is, and that is said to be looked for.
func TestMillOutward(t *testing.T) {
	a := ask(t, demo.Mill(), "1", "end", "plus", "amount", "5")
	require.Contains(t, a.answer(), "The Y axis goes no further outward: there the stop screw is met.")
	require.Equal(t, []string{"y.front_obstacle.check"}, a.failing())

	m := demo.Mill()
	m.Axes[0].Obstacles[0].Gap.Typed = "60"
	a = ask(t, m, "1", "end", "plus", "amount", "5")
	require.Contains(t, a.answer(), "The Y axis goes no further outward: there something is met that is not named.")
	require.Equal(t, []string{"y.unnamed_plus.check"}, a.failing())
	require.Equal(t, []string{"Y axis, outward: no part that was measured stops it where it stops; the next one is 60 mm further. Find out what does."}, a.Findings)
}

// The column, from its measurements: the nose stands 60 over the table with the
// head right down, and 310 with it right up. The tallest work needs 380, so a
// riser of 70 at least; the lowest needs the nose down to 110, so 50 at most.
// No riser does both.
func TestMillRiserIsImpossible(t *testing.T) {
	for _, tc := range []struct {
		amount                string
		highest, lowest, soft float64
		fails                 []string
	}{
		{"40", 350, 100, 1.3138, []string{"head.tallest_check"}},
		{"60", 370, 120, 1.4927, []string{"head.tallest_check", "head.lowest_check"}},
		{"70", 380, 130, 1.5880, []string{"head.lowest_check"}}, // (490/420)³
		{"100", 410, 160, 1.8979, []string{"head.lowest_check", "head.strut_check"}},
	} {
		a := ask(t, demo.Mill(), "2", "amount", tc.amount)
		a.is(map[string]float64{"head.highest": tc.highest, "head.lowest_planned": tc.lowest, "head.riser_least": 70, "head.riser_most": 50})
		require.InDelta(t, tc.soft, a.figure("head.softer", sheet.Planned).Value, 5e-5) // given to four decimals
		require.ElementsMatch(t, tc.fails, a.failing(), tc.amount)
		require.Contains(t, a.answer(), "No height of riser does all that you asked for: your tallest work needs 70 mm at least, and your lowest allows 50 mm at most.")
		_, far := a.howFar()
		require.Less(t, far.To, far.From)
	}
	a := ask(t, demo.Mill(), "2", "amount", "60")
	require.Equal(t, "A riser of 60 mm lifts the spindle's lowest position as much as its highest. The spindle's nose goes up to 370 mm above the table, 60 mm higher; it comes down no lower than 120 mm, 60 mm higher."+
		" The column bends 1.49 times as much. No height of riser does all that you asked for: your tallest work needs 70 mm at least, and your lowest allows 50 mm at most. A sub-table for the low work is the way out.", a.answer())
}

// With lower work given up, the smallest answer is 70 and the largest 90, where
// the strut is at its end.
func TestMillRiserWindow(t *testing.T) {
	m := demo.Mill()
	delete(m.Axes[1].Entries, "lowest_job")
	a := ask(t, m, "2", "amount", "80")
	require.Empty(t, a.failing())
	_, far := a.howFar()
	require.InDelta(t, 70, far.From, 1e-6)
	require.InDelta(t, 90, far.To, 1e-6)
	a = ask(t, m, "2", "amount", "20")
	require.Contains(t, a.answer(), "Your tallest work needs 70 mm at least.")
}

// Both machines have a draft that is only short of an amount.
func TestDemoDrafts(t *testing.T) {
	for _, m := range []machine.Machine{demo.Lathe(), demo.Mill()} {
		require.NotEmpty(t, m.Upgrades)
		for _, u := range m.Upgrades {
			require.Equal(t, upgrade.Draft, u.State)
			require.Empty(t, u.Inputs["amount"])
			ask(t, m, u.ID)
		}
	}
}

// The whole projects hold: nothing was typed that cannot be taken, no measurement
// disagrees, no two upgrades claim one thing, and no check fails that held before.
// They have upgrades on several axes.
func TestDemoProjects(t *testing.T) {
	for _, tc := range []struct {
		machine.Machine
		upgrades, axes int
	}{{demo.LatheProject(), 8, 3}, {demo.MillProject(), 6, 3}} {
		p, err := tc.Build("")
		require.NoError(t, err)
		require.Empty(t, p.Problems)
		require.Empty(t, p.Findings)
		require.Empty(t, p.Result.Conflicts())
		require.Len(t, p.Sites, len(tc.Upgrades))
		require.GreaterOrEqual(t, len(p.Sites), tc.upgrades)
		axes := map[string]bool{}
		for _, s := range p.Sites {
			axes[s.Axis] = true
			require.Empty(t, s.Problems)
			require.NotEmpty(t, upgrade.Text(s.Kind.Answer(s, p.Result)))
		}
		require.GreaterOrEqual(t, len(axes), tc.axes)
		for _, c := range p.Result.Checks() {
			require.False(t, c.Charged(), "%s: %s %s", tc.Name, c.Label, c.Phrase)
		}
	}
}
