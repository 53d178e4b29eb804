package machine_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
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
			"2 mm of the bracket is left around the bearing, and 5.2 mm is wanted.", "short by 3.2 mm",
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
