package axis_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// piece is a part with what was typed for it.
func piece(key, role string, side axis.Side, typed ...string) axis.Part {
	p := axis.Part{Key: key, Label: key, Role: role, Side: side, Entries: map[string]plan.Entry{}}
	for i := 0; i < len(typed); i += 2 {
		p.Entries[typed[i]] = plan.Entry{Typed: typed[i+1]}
	}
	return p
}

// on ties a part to the end of another.
func on(p axis.Part, other, face string) axis.Part {
	p.Tie = &axis.Tie{Part: other, Face: face}
	return p
}

// lay lays parts out on a held screw's axis with a travel of 100 and nothing in the way.
func lay(t *testing.T, parts ...axis.Part) (*axis.Layout, *sheet.Result) {
	t.Helper()
	return layAs(t, axis.Axis{Arrangement: "held_screw", Parts: parts})
}

func layAs(t *testing.T, a axis.Axis) (*axis.Layout, *sheet.Result) {
	t.Helper()
	a.Key, a.Label, a.Plus, a.Minus = "a", "A", "out", "in"
	if a.Entries == nil {
		a.Entries = map[string]plan.Entry{"travel_found": {Typed: "100"}}
	}
	if a.Obstacles == nil {
		a.Obstacles = []axis.Obstacle{{Key: "splash_tray", End: axis.Plus, Clear: true}, {Key: "rear_obstacle", End: axis.Minus, Clear: true}}
	}
	s := sheet.New()
	l := axis.Define(s.Root(), &a, unit.MM)
	r, err := s.Bind()
	require.NoError(t, err)
	return l, r
}

func figure(t *testing.T, r *sheet.Result, key string) sheet.Figure {
	t.Helper()
	f, ok := r.Figure("a."+key, sheet.Found)
	require.True(t, ok, key)
	return f
}

func is(t *testing.T, r *sheet.Result, key string, want float64) {
	t.Helper()
	f := figure(t, r, key)
	require.True(t, f.Known(), key)
	require.InDelta(t, want, f.Value, 1e-9, key)
}

// Two parts meet where they lie on opposite sides and share a lane, at the end
// at which the one comes to the other.
func TestMeetings(t *testing.T) {
	l, r := lay(t,
		piece("front", "wall", axis.Fixed, "from", "130", "to", "140"),
		piece("rear", "wall", axis.Fixed, "from", "-10", "to", "-4"),
		piece("bracket", "bracket", axis.Fixed, "from", "140", "to", "160"), // another lane
		piece("nut", "nut", axis.Moving, "from", "0", "to", "30"),
		piece("slide", "slide", axis.Moving, "from", "-20", "to", "60"), // another lane
	)
	require.Empty(t, l.Findings)
	is(t, r, "front_nut.bound", 100) // 130 − 30
	is(t, r, "rear_nut.bound", -4)   // −4 − 0
	var between []string
	for _, s := range l.Stops {
		if s.Fixed != "" {
			between = append(between, s.Key+" "+string(s.End)+": "+s.Says)
		}
	}
	require.Equal(t, []string{"front_nut plus: the nut meets the front", "rear_nut minus: the nut meets the rear"}, between)
}

// A lane of one's own, given to both, lets them meet; none lets them pass.
func TestLanes(t *testing.T) {
	bracket := piece("bracket", "bracket", axis.Fixed, "from", "140", "to", "160")
	slide := piece("slide", "slide", axis.Moving, "from", "-20", "to", "35")
	bracket.Lanes, slide.Lanes = []string{"low"}, []string{"slide", "low"}
	_, r := lay(t, bracket, slide)
	is(t, r, "bracket_slide.bound", 105)
	bracket.Lanes = []string{}
	_, r = lay(t, bracket, slide)
	_, ok := r.Figure("a.bracket_slide.bound", sheet.Found)
	require.False(t, ok)
}

// What is smaller than the room under the slide passes below it: a dial of 34,
// 17 about the axis, under a slide 18 above it. A larger dial is a stop.
func TestUnderTheSlide(t *testing.T) {
	for dia, want := range map[string]string{"34": "∞ mm", "36": "∞ mm", "38": "101 mm"} {
		_, r := lay(t,
			piece("dial", "dial", axis.Fixed, "from", "161", "to", "178", "dia", dia),
			piece("slide", "slide", axis.Moving, "from", "-20", "to", "60", "underside", "18"))
		require.Equal(t, want, figure(t, r, "dial_slide.bound").Text(0), dia)
	}
}

// A tied part follows the one it is tied to, step by step, at its gap.
func TestTies(t *testing.T) {
	l, r := lay(t,
		piece("bracket", "bracket", axis.Fixed, "from", "140", "to", "160"),
		on(piece("dial", "dial", axis.Fixed, "gap", "0.5", "length", "16"), "bracket", "to"),
		on(piece("handle", "handle", axis.Fixed, "length", "14"), "dial", "to"),
		on(piece("cap", "other", axis.Fixed, "length", "2", "gap", "1"), "bracket", "from"))
	require.Empty(t, l.Problems)
	is(t, r, "dial.from", 160.5)
	is(t, r, "handle.to", 190.5)
	is(t, r, "cap.from", 141)
	require.Equal(t, sheet.Assumed, figure(t, r, "handle.gap").Origin) // not given: they touch

	l, _ = lay(t, on(piece("dial", "dial", axis.Fixed, "length", "16"), "bracket", "to"), piece("bracket", "bracket", axis.Fixed, "from", "140", "to", "160"))
	require.Equal(t, []plan.Problem{{Field: "a.dial.tie", Say: "tie it to a face of a part that stands above it in the list"}}, l.Problems)
}

// No named stop explains the end: it is a stop until one is named. One that
// lies within what measurements may disagree by explains it.
func TestNotNamed(t *testing.T) {
	for at, want := range map[string]string{"130.4": "∞ mm", "131": "100 mm"} {
		_, r := lay(t, piece("front", "wall", axis.Fixed, "from", at, "to", "140"), piece("nut", "nut", axis.Moving, "from", "0", "to", "30"))
		require.Equal(t, want, figure(t, r, "unnamed_plus.bound").Text(0), at)
		is(t, r, "reach_plus", 100) // the travel as found is measured
	}
	_, r := lay(t, piece("front", "wall", axis.Fixed, "from", "128", "to", "140"), piece("nut", "nut", axis.Moving, "from", "0", "to", "30"))
	is(t, r, "reach_plus", 98) // a stop before it counts all the same
}

// Parts that lie in one another were measured wrong, and so was one that ends
// before it begins.
func TestMeasuredWrong(t *testing.T) {
	l, _ := lay(t, piece("front", "wall", axis.Fixed, "from", "20", "to", "140"), piece("nut", "nut", axis.Moving, "from", "0", "to", "30"))
	require.Equal(t, []string{"As measured, nut and front lie in one another: one of the figures is wrong, or they never meet."}, l.Findings)
	l, _ = lay(t, piece("front", "wall", axis.Fixed, "from", "140", "to", "130"))
	require.Equal(t, []plan.Problem{{Field: "a.front.to", Say: "the front would end before it begins"}}, l.Problems)
}

// What is usual in the way and was not asked for is unknown; a gap that was
// measured is the stop, and one that is ruled out is none.
func TestObstructions(t *testing.T) {
	a := axis.Axis{Arrangement: "held_screw", Obstacles: []axis.Obstacle{{Key: "lamp", Label: "lamp", End: axis.Minus, Gap: plan.Entry{Typed: "7"}}}}
	var keys []string
	for _, o := range a.Obstructions() {
		keys = append(keys, o.Key)
	}
	require.Equal(t, []string{"lamp", "splash_tray", "rear_obstacle"}, keys)
	_, r := layAs(t, a)
	is(t, r, "lamp.bound", -7)
	require.Equal(t, "at least 100 mm", figure(t, r, "splash_tray.bound").Text(0))
	is(t, r, "reach_plus", 100)
}

// The jam: a nut of M12 × 1.5, bore 10.376, on thread from 0 to 120. Its shank
// begins where the thread ends, or before it; the nut moves, or the screw.
func TestShankJam(t *testing.T) {
	for _, tc := range []struct {
		name        string
		shank       [2]string
		nut, thread axis.Side
		dia         string
		end         axis.End
		want        string
	}{
		{"handle side, nut travels", [2]string{"120", "160"}, axis.Moving, axis.Fixed, "12", axis.Plus, "90 mm"},     // 120 − 30
		{"handle side, screw travels", [2]string{"120", "160"}, axis.Fixed, axis.Moving, "12", axis.Minus, "−90 mm"}, // 30 − 120
		{"far side, nut travels", [2]string{"-40", "0"}, axis.Moving, axis.Fixed, "12", axis.Minus, "−10 mm"},        // 0 − 10
		{"far side, screw travels", [2]string{"-40", "0"}, axis.Fixed, axis.Moving, "12", axis.Plus, "10 mm"},
		{"a thin shank enters", [2]string{"120", "160"}, axis.Moving, axis.Fixed, "10", axis.Plus, "∞ mm"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			l, r := lay(t,
				piece("thread", "thread", tc.thread, "from", "0", "to", "120", "dia", "12", "pitch", "1.5"),
				piece("shank", "shank", tc.thread, "from", tc.shank[0], "to", tc.shank[1], "dia", tc.dia),
				piece("nut", "nut", tc.nut, "from", "10", "to", "30"))
			require.Equal(t, tc.want, figure(t, r, "thread_end.bound").Text(0))
			for _, s := range l.Stops {
				if s.Key == "thread_end" {
					require.Equal(t, tc.end, s.End)
				}
			}
		})
	}
}

// The nut is nearest to the bracket at the end where the slide and the handle's
// side come together: from its middle, 20, to the bracket's face, 130 or −20.
func TestNearestTheBracket(t *testing.T) {
	for _, tc := range []struct {
		name           string
		bracket        [2]string
		nut, screw     axis.Side
		distance, free float64
	}{
		{"nut travels to the bracket", [2]string{"130", "150"}, axis.Moving, axis.Fixed, 10, 110}, // at 100: 130 − 120; 10 + 100 − 0
		{"bracket travels to the nut", [2]string{"130", "150"}, axis.Fixed, axis.Moving, 110, 10}, // at 0
		{"bracket behind, nut travels", [2]string{"-40", "-20"}, axis.Moving, axis.Fixed, 40, 90}, // at 0: 20 + 20; 120 − 30
		{"bracket behind and travels", [2]string{"-140", "-120"}, axis.Fixed, axis.Moving, 40, 190},
	} {
		t.Run(tc.name, func(t *testing.T) {
			_, r := lay(t,
				piece("bracket", "bracket", tc.screw, "from", tc.bracket[0], "to", tc.bracket[1]),
				piece("thread", "thread", tc.screw, "from", "0", "to", "120", "dia", "12", "pitch", "1.5"),
				piece("nut", "nut", tc.nut, "from", "10", "to", "30"))
			is(t, r, "screw_line.distance", tc.distance)
			is(t, r, "screw_line.free", tc.free)
		})
	}
}

// A slide that is driven off its line: 2 × 0.15 × 60 = 18 of guide at which it jams.
func TestJamming(t *testing.T) {
	_, r := layAs(t, axis.Axis{Arrangement: "held_screw",
		Entries: map[string]plan.Entry{"travel_found": {Typed: "100"}, "drive_offset": {Typed: "60"}},
		Parts:   []axis.Part{piece("ways", "ways", axis.Fixed, "from", "0", "to", "120"), piece("slide", "slide", axis.Moving, "from", "0", "to", "120")}})
	is(t, r, "slide_on_ways.jam_length", 18)
	is(t, r, "slide_on_ways.supported_plus", 20)
	for _, c := range r.Checks() {
		if c.Key == "a.slide_on_ways.jam_plus" {
			require.Equal(t, sheet.Tight, c.Verdict)
			require.Equal(t, "20 mm of the slide is guided; it jams at 18 mm.", c.Sentence)
		}
	}
}

// Words that are none: a thread's form, an arrangement, a capacity.
func TestUnknownWords(t *testing.T) {
	l, _ := lay(t, piece("thread", "thread", axis.Fixed, "from", "0", "to", "120", "dia", "12", "pitch", "1.5", "form", "square"), piece("nut", "nut", axis.Moving, "from", "10", "to", "30"))
	require.Equal(t, []plan.Problem{{Field: "a.thread.form", Say: "choose one of the list"}}, l.Problems)
	l, _ = layAs(t, axis.Axis{Arrangement: "steam"})
	require.Equal(t, "a.arrangement", l.Problems[0].Field)
	l, _ = layAs(t, axis.Axis{Arrangement: "rack", Capacity: "weight"})
	require.Equal(t, "a.capacity", l.Problems[0].Field)
}

// Gib screws are typed in a row; one that cannot be read is said to be so.
func TestGibScrews(t *testing.T) {
	parts := []axis.Part{piece("ways", "ways", axis.Fixed, "from", "0", "to", "120"), piece("slide", "slide", axis.Moving, "from", "0", "to", "120", "gib_screws", "10; 60 110")}
	_, r := lay(t, parts...)
	is(t, r, "slide_on_ways.gib_screws_minus", 3)
	is(t, r, "slide_on_ways.gib_screws_plus", 1) // 110 and 160, 210 at 100: ways end at 120
	parts[1].Entries["gib_screws"] = plan.Entry{Typed: "10; sixty"}
	l, _ := lay(t, parts...)
	require.Equal(t, "a.slide.gib_screws", l.Problems[0].Field)
}

// Every row of the tables is whole: keys by which nothing else goes, labels,
// how to measure, with an instrument that there is, units that go with defaults.
func TestTables(t *testing.T) {
	seen := map[string]bool{}
	once := func(kind, key string) {
		require.True(t, axis.IsKey(key), key)
		require.False(t, seen[kind+key], key)
		seen[kind+key] = true
	}
	sizes := func(owner string, list []axis.Size) {
		for _, s := range list {
			once(owner+".", s.Key)
			require.NotEmpty(t, s.Label, s.Key)
			require.NotEmpty(t, s.How, s.Key)
			_, ok := plan.InstrumentNamed(s.With)
			require.True(t, ok, s.With)
			if s.Default != "" {
				_, err := unit.Parse(s.Default, s.Unit)
				require.NoError(t, err)
				require.NotEmpty(t, s.Source)
			}
		}
	}
	for _, r := range axis.Roles {
		once("role ", r.Key)
		sizes(r.Key, axis.Part{Role: r.Key}.Sizes())
	}
	for _, a := range axis.Arrangements {
		once("arrangement ", a.Key)
		require.NotEmpty(t, a.Answer)
		sizes(a.Key, a.Sizes)
		for _, g := range a.Engages {
			for _, role := range []string{g.Inner, g.Outer} {
				_, ok := axis.RoleNamed(role)
				require.True(t, ok, role)
			}
			require.Equal(t, g.Kind == axis.Held, g.Least.Text != "", g.Label)
		}
		for _, o := range a.Obstacles {
			once(a.Key+" obstacle ", o.Key)
		}
	}
	for _, c := range axis.Capacities {
		once("capacity ", c.Key)
		sizes(c.Key, c.Sizes)
		require.NotEmpty(t, c.Goals)
	}
}
