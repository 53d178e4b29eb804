package machine_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// What goes wrong with a change of travel, each as a machine, a wish, and what
// the program says of it before metal is cut.
func TestStories(t *testing.T) {
	for _, tc := range []struct {
		story   string
		machine func() machine.Machine
		inputs  []string
		check   string
		verdict sheet.Verdict
		says    string // the check's sentence
		phrase  string
	}{
		{
			// The wall was cut back 20; the slide meets the dial after 1.5.
			"travel lengthened, and the next thing is met at once",
			lathe, []string{"amount", "20", "do.dial_slide", "none"}, "cross.dial_slide.check", sheet.Fails,
			"Room left between the slide and the dial, with the travel that is asked for: −18.5 mm.", "short by 18.5 mm",
		}, {
			// 10.5 of spacer: 13.5 of the nut's 24 are left on the thread right in.
			"a spacer takes from the other end what it gives at this one",
			lathe, []string{"amount", "12", "do.dial_slide", "spacer"}, "cross.nut_on_thread.least_minus", sheet.Fails,
			"13.5 mm of the nut is on full thread, and 18 mm is the least.", "short by 4.5 mm",
		}, {
			// 30 + 118 = 148, 8 past the thread's end: 16 of 24 left.
			"the nut runs off the thread and strips its first turns",
			lathe, []string{"amount", "30"}, "cross.nut_on_thread.least_plus", sheet.Fails,
			"16 mm of the nut is on full thread, and 18 mm is the least.", "short by 2 mm",
		}, {
			// A shank of 12 does not enter a nut of M12 × 1.5, bore 10.376: met at 140 − 30 = 110.
			"the nut jams on a shank that is larger than its bore",
			func() machine.Machine { m := lathe(); measure(part(&m, "shank"), "dia", "12"); return m },
			[]string{"amount", "25", "do.thread_end", "none", "bearing", "none"}, "cross.thread_end.check", sheet.Fails,
			"Room left between the nut and the thread's end, with the travel that is asked for: −3 mm.", "short by 3 mm",
		}, {
			// The mill's bracket lets the saddle in; the screw's tip, 8 from the web, does not.
			"the screw's tip bores into the web",
			demo.Mill, []string{"amount", "15", "do.nut_bracket", "move_nut", "do.web_thread", "none"}, "y.web_thread.check", sheet.Fails,
			"Room left between the screw thread and the rear web, with the travel that is asked for: −7 mm.", "short by 7 mm",
		}, {
			// (30 − 26)/2 = 2 around a bearing of 26; 0.2 × 26 = 5.2 are wanted.
			"the bearing's recess breaks through the bracket",
			lathe, []string{"amount", "12", "bearing", "10x26x8"}, "cross.support.wall_check", sheet.Fails,
			"2 mm of the bracket is left around the support bearing, and 5.2 mm is wanted.", "short by 3.2 mm",
		}, {
			// a = 141 − (18 + 100) = 23, root 12 − 1.226869 × 1.5 = 10.160, I = 522.9:
			// 3 × 206000 × 522.9 × 0.02 / 23³ = 531 N.
			"the screw binds towards the bracket: not in line with its nut",
			lathe, []string{"amount", "12"}, "cross.screw_line.side_check", sheet.Tight,
			"A nut as far off the line as is assumed presses with 531 N where it comes nearest the bracket; above 200 N it is felt. Pinch the nut up at that end, then wind out and tighten.", "beyond what is usual, by 331 N",
		}, {
			// 6 + 100 + 204 = 310 free at the inner end: w = 7.85e-9 × 9806.65 × π/4 × 10.160² = 0.006241 N/mm,
			// 0.006241 × 310⁴ / (8 × 206000 × 522.9) = 0.0669 mm.
			"a long screw hangs down and wears its nut oval",
			func() machine.Machine { m := lathe(); measure(part(&m, "thread"), "from", "-204"); return m },
			[]string{"amount", "12"}, "cross.screw_line.sag_check", sheet.Fails,
			"The free end of the screw hangs 66.9 µm low, and 50 µm is the most.", "over by 16.9 µm",
		}, {
			// The screws at 66 + 100 = 166 and 34 + 100 … of five, those over ways that end at 141: with only
			// two, at 34 and 66, one lies at 134 and one at 166.
			"one gib screw bears, and the slide rocks",
			func() machine.Machine { m := lathe(); measure(part(&m, "slide"), "gib_screws", "34; 66"); return m },
			[]string{"amount", "12"}, "cross.slide_on_saddle_ways.gib_check_plus", sheet.Fails,
			"1 of the gib screws lie over the ways, and 2 must.", "short by 1",
		}, {
			// 25 + 30 = 55 of 150 over the ways.
			"the slide hangs over and chatters",
			lathe, []string{"amount", "30"}, "cross.slide_on_saddle_ways.overhang_plus", sheet.Fails,
			"55 mm of the slide hangs over, and 50 mm is the most.", "over by 5 mm",
		}, {
			// A screw that ends at 195: 28 stand out, and 36 are to go on it.
			"the handle's nut is on by two turns",
			func() machine.Machine { m := lathe(); measure(part(&m, "shank"), "to", "195"); return m },
			nil, "cross.shaft_end.check", sheet.Fails,
			"What the screw's end is too short by, for all that stands on it: 8 mm.", "over by 8 mm",
		}, {
			// Bolts of 20 through a flange of 12: 8 in the iron, 1.5 × 6 = 9 wanted.
			"bolts too short for what they go through",
			func() machine.Machine { m := lathe(); measure(part(&m, "bracket"), "flange", "12"); return m },
			nil, "cross.bracket.bolt_check", sheet.Fails,
			"8 mm of the bolts' thread is in the casting, and 9 mm is the least.", "short by 1 mm",
		}, {
			// Bolts of 25 through a flange of 8: 17 in a hole 14 deep.
			"bolts that bottom in their holes",
			func() machine.Machine { m := lathe(); measure(part(&m, "bracket"), "bolt_length", "25"); return m },
			nil, "cross.bracket.bottom_check", sheet.Fails,
			"−3 mm is left below the bolts, and 1 mm is wanted.", "short by 4 mm",
		}, {
			// Holes of M6 tapped 6 deep in a lip, bolts of 12 through a flange of 8: 4 of thread hold, 9 should.
			"a thread in a thin lip strips",
			func() machine.Machine {
				m := lathe()
				measure(part(&m, "bracket"), "bolt_length", "12", "tapped_depth", "6")
				return m
			},
			nil, "cross.bracket.bolt_check", sheet.Fails,
			"4 mm of the bolts' thread is in the casting, and 9 mm is the least.", "short by 5 mm",
		}, {
			// A pocket of 44 comes within 24 − 22 − 3 = −1 of M6 holes that are 24 off the axis.
			"the cutter breaks into a tapped hole",
			lathe, []string{"amount", "12", "pocket.front_wall", "44"}, "cross.front_wall.hole_check", sheet.Fails,
			"−1 mm is left between the pocket and the tapped holes, and 3 mm is wanted.", "short by 4 mm",
		}, {
			// 2 × (112 − 4) = 216 could be started on, and 206 swings.
			"travel gained that the swing swallows",
			lathe, []string{"amount", "24"}, "cross.swing_check", sheet.Tight,
			"The tool stands outside of 216 mm; no disc larger than 206 mm swings over the bed.", "beyond what is of use, by 10 mm",
		},
	} {
		t.Run(tc.story, func(t *testing.T) {
			id := "1"
			if tc.inputs == nil {
				id = ""
			}
			c := ask(t, tc.machine(), id, tc.inputs...).check(tc.check)
			require.Equal(t, tc.verdict, c.Verdict)
			require.Equal(t, tc.says, c.Sentence)
			require.Equal(t, tc.phrase, c.Phrase)
		})
	}
}

// A gain that the swing swallows in part is told with what swallows it: 206 of
// 2 × (112 − 4) = 216, so 38 more than 168.
func TestSwallowedGain(t *testing.T) {
	a := ask(t, lathe(), "1", "amount", "24")
	a.is(map[string]float64{"cross.start_disc": 206, "cross.travel": 112, "cross.usable": 107})
	require.Contains(t, a.answer(), "Disc work can start on 206 mm, 38 mm more, where the limit is the swing over the bed, less clearance;")
}

// One nut for end float and dial: asked, since no sum can tell; answered with
// yes, the plan says what to do.
func TestSharedNutIsAsked(t *testing.T) {
	m := lathe()
	arr, ok := axis.ArrangementNamed(m.Axes[0].Arrangement)
	require.True(t, ok)
	require.Len(t, arr.Questions, 1)
	require.True(t, strings.HasSuffix(arr.Questions[0].Ask, "?"))
	for answer, advice := range map[string]int{"yes": 1, "no": 0, "": 0} {
		m.Axes[0].Answers[arr.Questions[0].Key] = answer
		p, err := m.Build("")
		require.NoError(t, err)
		require.Len(t, p.Advice, advice)
	}
	m.Axes[0].Answers[arr.Questions[0].Key] = "yes"
	p, err := m.Build("")
	require.NoError(t, err)
	require.Equal(t, "Cross slide: Tightening it locks the dial, slackening it gives end float. Plan an adjuster of its own before a longer end is made.", p.Advice[0])
}

// The riser is fitted, and the chuck no longer comes down to the vice, the strut is
// at its end, the cable pulled: 60 + 60 = 120 over the table at the lowest, where
// 110 is wanted; 90 of strut to spare, less 100.
func TestStoryRiser(t *testing.T) {
	a := ask(t, demo.Mill(), "2", "amount", "60")
	c := a.check("head.lowest_check")
	require.Equal(t, sheet.Fails, c.Verdict)
	require.Equal(t, "The spindle's nose comes down to 120 mm above the table, and your lowest work needs 110 mm.", c.Sentence)
	c = ask(t, demo.Mill(), "2", "amount", "100").check("head.strut_check")
	require.Equal(t, sheet.Fails, c.Verdict)
	require.Equal(t, "The strut or cable has −10 mm to spare with the head at the top.", c.Sentence)
}

// A radius in a sketch, taken for a diameter; an inch for a millimetre.
func TestStoryRadiusAndInch(t *testing.T) {
	find := func(key, size, typed string) []string {
		m := lathe()
		measure(part(&m, key), size, typed)
		return ask(t, m, "").Findings
	}
	require.Empty(t, find("bracket", "dia", "30"))
	require.Equal(t, []string{"The bore of the bracket, 10 mm, and its outside, 7.5 mm: the one does not go into the other. Is one of them a radius, or in another unit?"}, find("bracket", "dia", "7.5"))
	require.Equal(t, []string{"The screw shank, 5 mm, and the bore of the bracket, 10 mm: that is hardly more than half. Is one of them a radius, or in another unit?"}, find("shank", "dia", "5"))
	require.Equal(t, []string{"The screw shank, 0.39 mm, and the bore of the bracket, 10 mm: that is hardly more than half. Is one of them a radius, or in another unit?"}, find("shank", "dia", "0.39"))
	require.Empty(t, find("shank", "dia", "0.39 in")) // 9.9

	// The travel read in inches and typed as millimetres does not agree with what stops it.
	m := lathe()
	m.Axes[0].Entries["travel_found"] = plan.Entry{Typed: "3.46"}
	require.Contains(t, strings.Join(ask(t, m, "").Findings, " "), "no part that was measured stops it where it stops")
	m.Axes[0].Entries["travel_found"] = plan.Entry{Typed: "3.46 in"}
	require.Empty(t, ask(t, m, "").Findings)
}

// A metric dial on a screw in inches drifts: 1.27 of lead in lines of 0.02 are 63.5
// of them; 64 read 0.8 % too much, over a travel of 88 that is 0.69 out.
func TestStoryMetricDialOnAnInchScrew(t *testing.T) {
	m := lathe()
	measure(part(&m, "thread"), "pitch", "1.27")
	m.Upgrades = []upgrade.Upgrade{{ID: "1", Kind: "new_dial", Axis: "cross", State: upgrade.Planned, Inputs: map[string]string{"value": "0.02 mm", "dia": "45"}}}
	a := ask(t, m, "")
	c := a.check("cross.upgrade_1.off_check")
	require.NotEqual(t, sheet.Holds, c.Verdict)
	require.Regexp(t, "0\\.[78]", c.Sentence)
}

// The old part is cut up, and there is no way back: a kind that takes metal off one
// of the machine's castings says so.
func TestStoryNoWayBack(t *testing.T) {
	for _, m := range everyMachine("medium") {
		offers, err := m.Offers()
		require.NoError(t, err)
		for _, o := range offers {
			m.Upgrades = []upgrade.Upgrade{{ID: "1", Kind: o.About.Key, Axis: o.Axis.Key, State: upgrade.Planned, Inputs: o.Inputs}}
			p, err := m.Build("")
			require.NoError(t, err)
			for _, x := range p.Site("1").Make(p.Result).Parts {
				if x.Altered && x.Material == "old_iron" {
					require.NotEqual(t, upgrade.Undone, o.About.Undo, "%s cuts the %s", o.About.Key, x.Label)
				}
			}
		}
	}
}
