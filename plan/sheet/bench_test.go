package sheet_test

import (
	"fmt"
	"math"
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

// The machine of the benchmarks: four axes, each a screw held by a bracket, and
// three upgrades of each axis. All figures are invented.
const (
	axes           = 4
	changesPerAxis = 3
)

// part of the axis as found: the leaves, in the order of axis.
var leaves = []struct {
	key  string
	unit unit.Unit
	v    float64
}{
	{"wall", unit.MM, 118}, {"wall_in", unit.MM, 6}, {"nut", unit.MM, 24}, {"nut_at", unit.MM, 6}, {"bracket", unit.MM, 26},
	{"bracket_at", unit.MM, 141}, {"dial_gap", unit.MM, 0.5}, {"dial", unit.MM, 16.5}, {"hub", unit.MM, 14}, {"lock", unit.MM, 5},
	{"slide_from", unit.MM, -72}, {"slide_to", unit.MM, 78}, {"thread_from", unit.MM, 6}, {"thread_to", unit.MM, 140},
	{"shank", unit.MM, 10}, {"screw_end", unit.MM, 203}, {"dia", unit.MM, 12}, {"pitch", unit.MM, 1.5}, {"pull", unit.Newton, 800},
	{"friction", unit.One, 0.15}, {"modulus", unit.GPa, 206000}, {"density", unit.Density, 7.85e-9}, {"off", unit.MM, 0.05}, {"keep", unit.MM, 8},
	{"swing", unit.MM, 210}, {"swing_slide", unit.MM, 118}, {"clear", unit.MM, 2}, {"tip", unit.MM, 4}, {"outer", unit.MM, 30},
	{"bearing", unit.MM, 19}, {"share", unit.One, 0.2}, {"third", unit.One, 1.0 / 3}, {"least", unit.MM, 18}, {"felt", unit.Newton, 200},
	{"nothing", unit.MM, 0}, {"limit", unit.MPa, 120}, {"backlash", unit.MM, 0.15}, {"backlash_most", unit.MM, 0.3}, {"asked", unit.MM, 88},
}

// figures are what is computed, in the order of axis.compute.
var figures = []struct {
	key   string
	unit  unit.Unit
	text  string
	quiet bool
}{
	{"nut_to", unit.MM, "nut_at + nut", true},
	{"bracket_to", unit.MM, "bracket_at + bracket", true},
	{"dial_from", unit.MM, "bracket_to + dial_gap", true},
	{"dial_to", unit.MM, "dial_from + dial", true},
	{"hub_to", unit.MM, "dial_to + hub", true},
	{"lock_to", unit.MM, "hub_to + lock", true},
	{"stop_wall", unit.MM, "wall - nut_to", false},
	{"stop_dial", unit.MM, "dial_from - slide_to", false},
	{"stop_hub", unit.MM, "dial_to - slide_to", false},
	{"stop_thread", unit.MM, "thread_to + mm(28) - nut_to", false},
	{"reach", unit.MM, "min(stops)", false},
	{"inner", unit.MM, "max(wall_in - nut_at, thread_from - nut_at, 0)", true},
	{"travel", unit.MM, "reach - inner", false},
	{"gap_wall", unit.MM, "stop_wall - asked", true},
	{"gap_dial", unit.MM, "stop_dial - asked", true},
	{"spare", unit.MM, "thread_to - nut_to - asked", false},
	{"engaged", unit.MM, "max(0, min(nut, nut + spare))", false},
	{"supported", unit.MM, "min(bracket_at, slide_to + asked) - max(0, slide_from + asked)", false},
	{"length", unit.MM, "slide_to - slide_from", true},
	{"overhang", unit.MM, "length - supported", false},
	{"hang_share", unit.One, "overhang / length", false},
	{"wall_left", unit.MM, "bracket_at - wall", false},
	{"sticks_out", unit.MM, "screw_end - bracket_to", false},
	{"stack", unit.MM, "dial_gap + dial + hub + lock", true},
	{"short", unit.MM, "max(0, stack - sticks_out)", false},
	{"root", unit.MM, "dia - 1.226869 * pitch", true},
	{"inertia", unit.MM4, "pi / 64 * pow(root, 4)", true},
	{"near", unit.MM, "bracket_at - (nut_to + asked)", true},
	{"side_force", unit.Newton, "3 * modulus * inertia * off / pow(max(near, mm(20)), 3)", false},
	{"free", unit.MM, "bracket_at - thread_from - nut", true},
	{"weight", unit.Newton, "density * gravity(9.80665) * pi / 4 * pow(root, 2) * free", true},
	{"sag", unit.Micrometre, "weight * pow(free, 3) / (8 * modulus * inertia)", false},
	{"pitch_dia", unit.MM, "dia - 0.649519 * pitch", true},
	{"lead", unit.One, "pitch / (pi * pitch_dia)", true},
	{"rub", unit.One, "friction / cos(deg(30))", true},
	{"torque", unit.NewtonMetre, "pull * pitch_dia / 2 * (lead + rub) / (1 - lead * rub)", false},
	{"efficiency", unit.Percent, "pull * pitch / (2 * pi * torque)", false},
	{"stress", unit.MPa, "pull / (pi / 4 * pow(root, 2))", true},
	{"shear", unit.MPa, "16 * torque / (pi * pow(root, 3))", true},
	{"mises", unit.MPa, "sqrt(stress * stress + 3 * shear * shear)", false},
	{"stretch", unit.Micrometre, "pull * free / (modulus * pi / 4 * pow(root, 2))", false},
	{"stiff", unit.NewtonPerMicrometre, "pull / stretch", false},
	{"buckling", unit.Newton, "pow(pi, 2) * modulus * inertia / pow(0.7 * free, 2)", false},
	{"safety", unit.One, "buckling / pull", false},
	{"dial_mark", unit.MM, "pitch / 100", false},
	{"lost", unit.MM, "backlash + stretch", false},
	{"starts", unit.MM, "2 * (tip + asked)", false},
	{"disc", unit.MM, "swing - 2 * clear", true},
	{"over_slide", unit.MM, "swing_slide - 2 * clear", true},
	{"disc_work", unit.MM, "min(starts, disc)", false},
	{"slide_work", unit.MM, "min(starts, over_slide)", false},
	{"seat_wall", unit.MM, "(outer - bearing) / 2", false},
	{"seat_least", unit.MM, "max(mm(2.5), share * bearing)", true},
	{"handle_turns", unit.One, "travel / pitch", false},
}

var axisChecks = []sheet.Check{
	{Key: "wall_check", Figure: "wall_left", Limit: "keep", Level: sheet.Rule},
	{Key: "dial_check", Figure: "gap_dial", Limit: "nothing", Level: sheet.Stop},
	{Key: "engaged_check", Figure: "engaged", Limit: "least", Level: sheet.Rule},
	{Key: "hang_check", Figure: "hang_share", Limit: "third", AtMost: true, Level: sheet.Rule},
	{Key: "force_check", Figure: "side_force", Limit: "felt", AtMost: true, Level: sheet.Rule},
	{Key: "seat_check", Figure: "seat_wall", Limit: "seat_least", Level: sheet.Rule},
	{Key: "stress_check", Figure: "mises", Limit: "limit", AtMost: true, Level: sheet.Stop},
	{Key: "lost_check", Figure: "lost", Limit: "backlash_most", AtMost: true, Level: sheet.Use},
}

// machine fills a sheet.
func machine() *sheet.Sheet {
	s := sheet.New()
	m := s.Root()
	for a := range axes {
		sc := m.In(fmt.Sprintf("axis_%d", a+1))
		for _, l := range leaves {
			leaf := sheet.Leaf{Value: l.v, Origin: sheet.Measured, Spread: sheet.Within(0.05)}
			if l.unit.Dim != unit.LengthD {
				leaf.Spread = sheet.Within(0.02 * l.v)
			}
			sc.Measure(sheet.Q{Key: l.key, Label: l.key, Symbol: l.key, Unit: l.unit}, leaf)
		}
		sc.Family("stops", "stops", unit.MM)
		for _, f := range figures {
			sc.Formula(sheet.Q{Key: f.key, Label: f.key, Symbol: f.key, Unit: f.unit, Quiet: f.quiet}, f.text, "invented")
		}
		sc.Family("stops", "stops", unit.MM, "stop_wall", "stop_dial", "stop_hub", "stop_thread")
		for _, c := range axisChecks {
			c.Label, c.Sentence, c.Source = c.Key, "{figure} where {limit} is wanted.", "invented"
			sc.Check(c)
		}
	}
	s.Reached(sheet.Found)
	s.Reached(sheet.Now)
	for i := range axes * changesPerAxis {
		s.Upgrade(fmt.Sprintf("change %d", i+1))
		sc := m.In(fmt.Sprintf("axis_%d", i%axes+1))
		u := sc.In(fmt.Sprintf("change_%d", i+1))
		q := func(key string) sheet.Q {
			return sheet.Q{Key: key, Label: key, Symbol: key, Unit: unit.MM, Quiet: true}
		}
		u.Measure(q("amount"), sheet.Leaf{Value: 4 + float64(i)/8, Origin: sheet.Chosen})
		u.Change("asked", "was + amount", "as asked")
		u.Fix(q("cut"), "max(0, asked - stop_wall)", "decided")
		u.Change("wall", "was + cut", "decided")
		u.Fix(q("longer"), "max(0, asked - stop_dial)", "decided")
		u.Change("bracket", "was + longer", "decided")
	}
	return s
}

// shown are the figures of a page: fifteen of each axis.
func shown() (keys []string) {
	for a := range axes {
		for _, f := range figures {
			if !f.quiet && len(keys) < 15*(a+1) {
				keys = append(keys, fmt.Sprintf("axis_%d.%s", a+1, f.key))
			}
		}
	}
	return keys
}

func bound(t testing.TB) *sheet.Result {
	r, err := machine().Bind()
	require.NoError(t, err)
	return r
}

// axis is the same arithmetic by hand.
type axis struct {
	wall, wallIn, nut, nutAt, bracket, bracketAt, dialGap, dial, hub, lock, slideFrom, slideTo, threadFrom, threadTo,
	shank, screwEnd, dia, pitch, pull, friction, modulus, density, off, keep, swing, swingSlide, clear, tip, outer,
	bearing, share, third, least, felt, nothing, limit, backlash, backlashMost, asked float64
}

// computed are the figures of an axis and the margins of its checks.
type computed [54 + 8]float64

func (a *axis) compute(out *computed) {
	nutTo := a.nutAt + a.nut
	bracketTo := a.bracketAt + a.bracket
	dialFrom := bracketTo + a.dialGap
	dialTo := dialFrom + a.dial
	hubTo := dialTo + a.hub
	lockTo := hubTo + a.lock
	stopWall := a.wall - nutTo
	stopDial := dialFrom - a.slideTo
	stopHub := dialTo - a.slideTo
	stopThread := a.threadTo + 28 - nutTo
	reach := min(stopWall, stopDial, stopHub, stopThread)
	inner := max(a.wallIn-a.nutAt, a.threadFrom-a.nutAt, 0)
	travel := reach - inner
	gapWall := stopWall - a.asked
	gapDial := stopDial - a.asked
	spare := a.threadTo - nutTo - a.asked
	engaged := max(0, min(a.nut, a.nut+spare))
	supported := min(a.bracketAt, a.slideTo+a.asked) - max(0, a.slideFrom+a.asked)
	length := a.slideTo - a.slideFrom
	overhang := length - supported
	hangShare := overhang / length
	wallLeft := a.bracketAt - a.wall
	sticksOut := a.screwEnd - bracketTo
	stack := a.dialGap + a.dial + a.hub + a.lock
	short := max(0, stack-sticksOut)
	root := a.dia - 1.226869*a.pitch
	inertia := math.Pi / 64 * (root * root * root * root)
	near := a.bracketAt - (nutTo + a.asked)
	far := max(near, 20)
	sideForce := 3 * a.modulus * inertia * a.off / (far * far * far)
	free := a.bracketAt - a.threadFrom - a.nut
	weight := a.density * 9806.65 * math.Pi / 4 * (root * root) * free
	sag := weight * (free * free * free) / (8 * a.modulus * inertia)
	pitchDia := a.dia - 0.649519*a.pitch
	lead := a.pitch / (math.Pi * pitchDia)
	rub := a.friction / math.Cos(30*math.Pi/180)
	torque := a.pull * pitchDia / 2 * (lead + rub) / (1 - lead*rub)
	efficiency := a.pull * a.pitch / (2 * math.Pi * torque)
	stress := a.pull / (math.Pi / 4 * (root * root))
	shear := 16 * torque / (math.Pi * (root * root * root))
	mises := math.Sqrt(stress*stress + 3*shear*shear)
	stretch := a.pull * free / (a.modulus * math.Pi / 4 * (root * root))
	stiff := a.pull / stretch
	square := 0.7 * free
	buckling := math.Pi * math.Pi * a.modulus * inertia / (square * square)
	safety := buckling / a.pull
	dialMark := a.pitch / 100
	lost := a.backlash + stretch
	starts := 2 * (a.tip + a.asked)
	disc := a.swing - 2*a.clear
	overSlide := a.swingSlide - 2*a.clear
	discWork := min(starts, disc)
	slideWork := min(starts, overSlide)
	seatWall := (a.outer - a.bearing) / 2
	seatLeast := max(2.5, a.share*a.bearing)
	handleTurns := travel / a.pitch
	*out = computed{nutTo, bracketTo, dialFrom, dialTo, hubTo, lockTo, stopWall, stopDial, stopHub, stopThread, reach, inner, travel,
		gapWall, gapDial, spare, engaged, supported, length, overhang, hangShare, wallLeft, sticksOut, stack, short, root, inertia, near,
		sideForce, free, weight, sag, pitchDia, lead, rub, torque, efficiency, stress, shear, mises, stretch, stiff, buckling, safety,
		dialMark, lost, starts, disc, overSlide, discWork, slideWork, seatWall, seatLeast, handleTurns,
		wallLeft - a.keep, gapDial - a.nothing, engaged - a.least, a.third - hangShare, a.felt - sideForce, seatWall - seatLeast,
		a.limit - mises, a.backlashMost - lost}
}

func (a *axis) change(amount float64) {
	a.asked += amount
	cut := max(0, a.asked-(a.wall-(a.nutAt+a.nut)))
	a.wall += cut
	longer := max(0, a.asked-(a.bracketAt+a.bracket+a.dialGap-a.slideTo))
	a.bracket += longer
}

func axisAsFound() axis {
	v := func(i int) float64 { return leaves[i].v }
	return axis{v(0), v(1), v(2), v(3), v(4), v(5), v(6), v(7), v(8), v(9), v(10), v(11), v(12), v(13), v(14), v(15), v(16), v(17), v(18), v(19),
		v(20), v(21), v(22), v(23), v(24), v(25), v(26), v(27), v(28), v(29), v(30), v(31), v(32), v(33), v(34), v(35), v(36), v(37), v(38)}
}

// byHand computes all axes now and planned.
func byHand(found *[axes]axis, now, planned *[axes]computed) {
	at := *found
	for i := range at {
		at[i].compute(&now[i])
	}
	for i := range axes * changesPerAxis {
		at[i%axes].change(4 + float64(i)/8)
	}
	for i := range at {
		at[i].compute(&planned[i])
	}
}

func TestTheMachineOfTheBenchmarks(t *testing.T) {
	r := bound(t)
	require.GreaterOrEqual(t, len(r.Figures(sheet.Planned)), 400)
	require.Len(t, shown(), 60)
	require.Len(t, r.Checks(), axes*len(axisChecks))
	require.NotEmpty(t, r.KnockOns())
	require.Empty(t, r.Faults())

	var found [axes]axis
	for i := range found {
		found[i] = axisAsFound()
	}
	var now, planned [axes]computed
	byHand(&found, &now, &planned)
	for a := range axes {
		in := fmt.Sprintf("axis_%d.", a+1)
		for i, f := range figures {
			require.InEpsilon(t, 1+now[a][i], 1+r.Value(in+f.key, sheet.Now), 1e-12, "%s now", f.key)
			require.InEpsilon(t, 1+planned[a][i], 1+r.Value(in+f.key, sheet.Planned), 1e-12, "%s planned", f.key)
		}
		for i, c := range axisChecks {
			require.InEpsilon(t, 1+planned[a][len(figures)+i], 1+r.Value(in+c.Key+".margin", sheet.Planned), 1e-12, "%s planned", c.Key)
		}
	}
	require.Zero(t, testing.AllocsPerRun(10, r.Recompute))
}

// BenchmarkRecompute is all that a page needs after a keystroke.
func BenchmarkRecompute(b *testing.B) {
	r := bound(b)
	keys := shown()
	b.ReportAllocs()
	x := 0.0
	for b.Loop() {
		x = math.Mod(x+0.5, 12)
		r.Try("axis_1.change_1.amount", x)
		for _, k := range keys {
			r.Figure(k, sheet.Now)
			r.Figure(k, sheet.Planned)
			r.FirstOrder(k, sheet.Planned)
		}
		r.Checks()
		r.KnockOns("axis_1.reach")
	}
	b.ReportMetric(float64(len(r.Figures(sheet.Planned))), "quantities")
}

// The parts of it.
func BenchmarkParts(b *testing.B) {
	r := bound(b)
	keys := shown()
	for _, part := range []struct {
		name string
		do   func()
	}{
		{"figures", func() {
			for _, k := range keys {
				r.Figure(k, sheet.Now)
				r.Figure(k, sheet.Planned)
			}
		}},
		{"first order", func() {
			r.Recompute()
			for _, k := range keys {
				r.FirstOrder(k, sheet.Planned)
			}
		}},
		{"uncertainty", func() {
			r.Recompute()
			for _, k := range keys {
				r.Uncertainty(k, sheet.Planned)
			}
		}},
		{"checks", func() { r.Checks() }},
		{"knock-ons", func() { r.KnockOns("axis_1.reach") }},
		{"how far", func() { r.HowFar("axis_1.change_1.amount", sheet.Goal{Key: "axis_1.reach"}, 50) }},
	} {
		b.Run(part.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				part.do()
			}
		})
	}
}

func BenchmarkEvaluate(b *testing.B) {
	r := bound(b)
	b.ReportAllocs()
	for b.Loop() {
		r.Recompute()
	}
}

// BenchmarkEvaluateBounds is with something unknown in every axis.
func BenchmarkEvaluateBounds(b *testing.B) {
	s := machine()
	for a := range axes {
		sc := s.Root().In(fmt.Sprintf("axis_%d", a+1))
		sc.AsMade("nut_at", sheet.Leaf{Origin: sheet.Unknown, Min: 5, Max: 7})
	}
	r, err := s.Bind()
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		r.Recompute()
	}
}

func BenchmarkHandwritten(b *testing.B) {
	var found [axes]axis
	for i := range found {
		found[i] = axisAsFound()
	}
	var now, planned [axes]computed
	b.ReportAllocs()
	for b.Loop() {
		byHand(&found, &now, &planned)
	}
}

// BenchmarkBuild is definitions and binding, with every text parsed before.
func BenchmarkBuild(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := machine().Bind(); err != nil {
			b.Fatal(err)
		}
	}
}
