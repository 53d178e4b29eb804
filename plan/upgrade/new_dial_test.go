package upgrade_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// with is the demo lathe with one upgrade of a kind, as the only one.
func with(kind string, inputs ...string) machine.Machine {
	m := demo.Lathe()
	m.Axes[0].Obstacles[0].Clear = true
	m.Upgrades = nil
	return and(m, kind, inputs...)
}

// and adds a planned upgrade to the first axis of a machine.
func and(m machine.Machine, kind string, inputs ...string) machine.Machine {
	u := upgrade.Upgrade{ID: string(rune('1' + len(m.Upgrades))), Kind: kind, Axis: m.Axes[0].Key, State: upgrade.Planned, Inputs: map[string]string{}}
	for i := 0; i < len(inputs); i += 2 {
		u.Inputs[inputs[i]] = inputs[i+1]
	}
	m.Upgrades = append(m.Upgrades, u)
	return m
}

func built(t *testing.T, m machine.Machine) *machine.Plan {
	t.Helper()
	p, err := m.Build("")
	require.NoError(t, err)
	require.Empty(t, p.Problems)
	for _, s := range p.Sites {
		require.Empty(t, s.Problems)
	}
	return p
}

func is(t *testing.T, p *machine.Plan, want map[string]float64) {
	t.Helper()
	for key, v := range want {
		f, ok := p.Result.Figure(key, sheet.Planned)
		require.True(t, ok, key)
		require.InDelta(t, v, f.Value, 5e-4, key)
	}
}

func failing(p *machine.Plan) []string {
	keys := []string{}
	for _, c := range p.Result.Checks() {
		if c.Charged() {
			keys = append(keys, c.Key)
		}
	}
	return keys
}

func verdict(t *testing.T, p *machine.Plan, key string) sheet.CheckResult {
	t.Helper()
	for _, c := range p.Result.Checks() {
		if c.Key == key {
			return c
		}
	}
	require.Fail(t, "no such check", key)
	return sheet.CheckResult{}
}

func answer(p *machine.Plan, id string) string {
	s := p.Site(id)
	return upgrade.Text(s.Kind.Answer(s, p.Result))
}

func piece(t *testing.T, p *machine.Plan, id, key string) *part.Part {
	t.Helper()
	mk := p.Site(id).Make(p.Result)
	x, ok := mk.Part(key)
	require.True(t, ok, key)
	return x
}

// A screw of 1.5 mm lead and a line of 0.02 mm on the diameter: 2 × 1.5 / 0.02 =
// 150 lines. At 0.75 mm apart they want 150 × 0.75 / π = 35.81 mm, at 1 mm
// 47.75 mm; on 50 mm they are π 50 / 150 = 1.047 mm apart.
func TestDialOnTheDiameter(t *testing.T) {
	p := built(t, with("new_dial", "reads", "diameter", "value", "0.02 mm", "dia", "50"))
	is(t, p, map[string]float64{
		"cross.dial.divisions": 150, "cross.dial.dia": 50, "cross.dial.spacing": 1.0472, "cross.dial.per_line": 0.01,
		"cross.upgrade_1.dia_least": 35.810, "cross.upgrade_1.dia_good": 47.746, "cross.upgrade_1.off": 0,
	})
	require.Empty(t, failing(p))
	require.Equal(t, "A dial of 50 mm with 150 lines, each worth 0.02 mm on the diameter, has them 1.05 mm apart, where they are 1.78 mm apart now.", answer(p, "1"))

	p = built(t, with("new_dial", "reads", "diameter", "value", "0.02 mm", "dia", "40"))
	require.Equal(t, sheet.Tight, verdict(t, p, "cross.upgrade_1.spacing_check").Verdict) // π 40 / 150 = 0.84
	p = built(t, with("new_dial", "reads", "diameter", "value", "0.02 mm", "dia", "34"))
	require.Equal(t, []string{"cross.upgrade_1.spacing_check"}, failing(p)) // 0.71

	p = built(t, with("new_dial", "reads", "diameter", "value", "0.02 mm"))
	require.Equal(t, "Say how large the dial should be. 150 lines of 0.02 mm on the diameter read well from 47.75 mm on, and want 35.81 mm at the least.", answer(p, "1"))
	require.Empty(t, p.Site("1").Make(p.Result).Parts)
	s := p.Site("1")
	far := p.Result.HowFar(s.Amount, s.Goals[0], s.Most)
	require.InDelta(t, 35.81, far.From, 5e-3)
	is(t, p, map[string]float64{"cross.dial.dia": 34})
}

// How large could it be: 35.81 for the lines, and 2 × (27 − 1) = 52 for the apron.
func TestHowLargeADial(t *testing.T) {
	p := built(t, with("new_dial", "reads", "diameter", "value", "0.02 mm", "dia", "50"))
	s := p.Site("1")
	far := p.Result.HowFar(s.Amount, s.Goals[0], s.Most)
	require.InDelta(t, 35.81, far.From, 5e-3)
	require.InDelta(t, 52, far.To, 1e-6)
	p = built(t, with("new_dial", "dia", "54"))
	require.Equal(t, []string{"cross.upgrade_1.room_check"}, failing(p))
	require.Equal(t, "0 mm is left between the dial and what it passes, and 1 mm is wanted.", verdict(t, p, "cross.upgrade_1.room_check").Sentence)
}

// The slide's underside is 18 above the axis. The old dial, 17 of radius, goes
// under it; one of 20 meets it where the dial begins, 167.5 − 78 = 89.5.
func TestLargerDialCreatesAStop(t *testing.T) {
	m := with("new_dial", "dia", "40")
	slide, _ := m.Axes[0].Part("slide")
	slide.Entries["underside"] = plan.Entry{Typed: "18"}
	p := built(t, m)
	now, _ := p.Result.Figure("cross.dial_slide.bound", sheet.Now)
	require.True(t, math.IsInf(now.Value, 1))
	is(t, p, map[string]float64{"cross.dial_slide.bound": 89.5})
	p = built(t, and(m, "extend_travel", "end", "plus", "amount", "12"))
	is(t, p, map[string]float64{"cross.bracket.length": 36.5}) // seen as the dial left it
}

// 12 threads to the inch want 83⅓ lines of a thousandth: 83 read 0.4 % too little,
// which is tight, and said. A metric value that divides it is not there to find.
func TestLinesThatDoNotDivideTheLead(t *testing.T) {
	m := with("new_dial", "value", "0.001 in", "dia", "40")
	thread, _ := m.Axes[0].Part("thread")
	thread.Entries["pitch"] = plan.Entry{Typed: "2.11666667", With: "dial_gauge"}
	p := built(t, m)
	is(t, p, map[string]float64{"cross.dial.divisions": 83})
	c := verdict(t, p, "cross.upgrade_1.off_check")
	require.Equal(t, sheet.Tight, c.Verdict)
	require.Equal(t, "What the dial shows is 0.4 % off what the slide moves, and 1 % is the most.", c.Sentence)
}

// Which way the figures go round, seen from the handle: with the mark fixed, a
// dial that is turned clockwise brings up what lies anticlockwise of it.
// A nut on a right-hand screw that is held comes towards the handle; the mill's
// right-hand screw, in a nut that is held, goes away from it with all it carries.
func TestWayOfTheFigures(t *testing.T) {
	for _, tc := range []struct {
		hand, rises string
		mill        bool
		clockwise   bool
		turned      string
	}{
		{"left", "", false, false, "minus"}, // fed in by turning clockwise, the figures rise
		{"left", "plus", false, true, "minus"},
		{"right", "", false, false, "plus"},
		{"right", "minus", false, true, "plus"},
		{"right", "", true, false, "minus"},
		{"left", "", true, false, "plus"},
		{"left", "minus", true, true, "plus"},
	} {
		m := with("new_dial", "dia", "40", "rises", tc.rises)
		if tc.mill {
			m = demo.Mill()
			m.Upgrades = nil
			m = and(m, "new_dial", "dia", "40", "rises", tc.rises)
		}
		thread, _ := m.Axes[0].Part("thread")
		thread.Entries["hand"] = plan.Entry{Typed: tc.hand}
		p := built(t, m)
		require.Equal(t, tc.clockwise, piece(t, p, "1", "dial").Dial.Clockwise, "%+v", tc)
		for _, f := range p.Site("1").Fields {
			if f.Name == "clockwise" {
				require.Equal(t, tc.turned, f.Value, "%+v", tc)
			}
		}
	}
	p := built(t, with("new_dial", "dia", "40", "clockwise", "plus"))
	require.Contains(t, answer(p, "1"), "A left-hand thread that is held so takes the slide inward when it is turned clockwise: wind it, and see which of the two is wrong")
}

// 150 lines of 0.02: figures every 10, 0.2 apart, a middle line every 5. 60 of
// 0.025: every 4, 0.1 apart. 127 is prime: every 10, and the last is short.
func TestMarks(t *testing.T) {
	d := piece(t, built(t, with("new_dial", "reads", "diameter", "value", "0.02 mm", "dia", "50")), "1", "dial").Dial
	require.Equal(t, "0.02 mm ⌀", d.Value)
	require.Len(t, d.Every, 3)
	require.Equal(t, []int{10, 5, 1}, []int{d.Every[0].Divisions, d.Every[1].Divisions, d.Every[2].Divisions})
	require.Equal(t, 0.2, d.Every[0].Step)
	require.InDelta(t, 2.5, d.Every[0].Numeral, 1e-9)                               // 400 / 160
	require.InDelta(t, 2*1.0472, d.Every[2].Length, 1e-3)                           // twice the spacing
	require.InDelta(t, 2.3*d.Every[2].Length, d.Every[0].Length, 1e-9)              // 1 : 1.6 : 2.3
	require.True(t, d.Every[0].Width >= 0.1 && d.Every[0].Width <= 0.25*1.0472+0.1) // a quarter of the spacing at most

	d = piece(t, built(t, with("new_dial", "value", "0.025 mm", "dia", "40")), "1", "dial").Dial
	require.Equal(t, []int{4, 2, 1}, []int{d.Every[0].Divisions, d.Every[1].Divisions, d.Every[2].Divisions})
	require.Equal(t, 0.1, d.Every[0].Step)

	m := with("new_dial", "value", "0.02 mm", "dia", "45")
	thread, _ := m.Axes[0].Part("thread")
	thread.Entries["pitch"] = plan.Entry{Typed: "2.54", With: "dial_gauge"}
	x := piece(t, built(t, m), "1", "dial")
	require.Equal(t, 127, x.Dial.Divisions)
	require.Equal(t, 10, x.Dial.Every[0].Divisions)
	require.Contains(t, x.Notes, "127 lines are no multiple of 10: the last space between figures is shorter.")
}

// An O-ring of 1.78 squeezed by a tenth lies 1.602 deep: on a screw of 10 the
// sleeve is 10 + 2 × (1.602 + 1.5) = 16.2 at the least. Of 17.5 its groove is
// 17.5 − 3.204 = 14.296 across, which ring 015, 14.00 inside, goes over stretched
// by 2.1 %; no ring goes over 13.296 or 13.796 stretched by 2 to 5 %.
// Drag 0.4 × 0.4 N/mm × π × 17.5 = 8.80 N, at 8.75 mm: 0.077 N·m.
func TestZeroingRing(t *testing.T) {
	p := built(t, with("new_dial", "dia", "50", "ring", "1.78"))
	is(t, p, map[string]float64{"cross.upgrade_1.ring.sleeve": 17.5, "cross.upgrade_1.ring.groove_dia": 14.296, "cross.upgrade_1.ring.drag_torque": 76.969, "cross.upgrade_1.ring.wall": 16.25})
	mk := p.Site("1").Make(p.Result)
	require.Equal(t, "ISO 3601-1 015 14 × 1.78", mk.Buy[0].Designation)
	sleeve := piece(t, p, "1", "dial_sleeve")
	require.Equal(t, "O-ring groove", sleeve.Round.Grooves[0].Form)
	require.Equal(t, "dial_sleeve.outside", piece(t, p, "1", "dial").Round.Left[0].Dia.Awaits)
	require.InDelta(t, 16.5-2.5-0.1, piece(t, p, "1", "dial").Round.Outside[0].Length.Nominal, 1e-9)

	p = built(t, with("new_dial", "dia", "50", "ring", "none"))
	mk = p.Site("1").Make(p.Result)
	_, there := mk.Part("dial_sleeve")
	require.False(t, there)
	require.Empty(t, mk.Buy)
}

// A dial 20 wide where one of 16.5 was: 3.5 more of the screw's end is wanted.
func TestWiderDialAndTheScrewsEnd(t *testing.T) {
	p := built(t, with("new_dial", "dia", "50", "width", "20"))
	is(t, p, map[string]float64{"cross.shaft_end.short": 3.5})
	require.Equal(t, []string{"cross.shaft_end.check"}, failing(p))
	// After more travel, whose extension grows by itself: 10.5 + 3.5.
	m := and(with("extend_travel", "end", "plus", "amount", "12"), "new_dial", "dia", "50", "width", "20")
	p = built(t, m)
	is(t, p, map[string]float64{"cross.extension.visible": 14, "cross.dial.bore": 14})
	require.Empty(t, failing(p))
	require.Contains(t, answer(p, "2"), "The screw's end then needs an extension of 14 mm.")
	// The old dial is not bored out when a new one is made, with the bore that it needs.
	mk := p.Site("1").Make(p.Result)
	_, there := mk.Part("dial")
	require.False(t, there)
	require.InDelta(t, 14, piece(t, p, "2", "dial_sleeve").Round.Left[0].Dia.Nominal, 1e-9)
}

// Two dials on one axis: each sets its size, and both are named.
func TestTwoDials(t *testing.T) {
	p := built(t, and(with("new_dial", "dia", "50"), "new_dial", "dia", "45"))
	var labels []string
	for _, c := range p.Result.Conflicts() {
		require.Equal(t, "New dial, Cross slide", c.First)
		require.Equal(t, "New dial, Cross slide (2)", c.Second)
		labels = append(labels, c.Label)
	}
	require.Contains(t, labels, "dial outside diameter")
}

// A lead of 1.5 mm has no whole number of lines in inches: what is proposed to an owner who
// measures in inches is 1.5 / 0.02 = 75 lines, and not the finest that there is, 300.
func TestDialOfAMetricScrewInInches(t *testing.T) {
	p := built(t, with("new_dial", "dia", "2").In("in"))
	is(t, p, map[string]float64{"cross.dial.divisions": 75})
}
