package fit_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"fettle/plan/fit"

	"github.com/stretchr/testify/require"
)

var ends = []float64{3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500}

func parse(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return x
}

func TestGradesWholeTable(t *testing.T) {
	rows := 0
	for line := range strings.SplitSeq(strings.TrimSpace(grades), "\n") {
		cells := strings.Fields(line)
		require.Len(t, cells, 14)
		for i, cell := range cells[1:] {
			over := 0.0
			if i > 0 {
				over = ends[i-1]
			}
			for _, size := range []float64{math.Nextafter(over, 1000), (over + ends[i]) / 2, ends[i]} {
				if size <= 1 {
					size = 1.5 // grades 14 and coarser begin above 1 mm
				}
				got, err := fit.Tolerance(cells[0], size)
				require.NoError(t, err)
				require.Equal(t, parse(t, cell), got, "IT%s at %g", cells[0], size)
			}
		}
		rows++
	}
	require.Equal(t, len(fit.Grades), rows)
}

// The standard gives the formula behind the grades; its table is rounded, so
// the two agree within 16 % up to 6 mm and 7 % above.
func TestGradesAgainstTheirFormula(t *testing.T) {
	multiples := []float64{7, 10, 16, 25, 40, 64, 100, 160, 250, 400, 640, 1000, 1600, 2500} // of i, from IT5
	over := 0.0
	for _, to := range ends {
		mean := math.Sqrt(max(1, over) * to)
		i := 0.45*math.Cbrt(mean) + 0.001*mean
		for k, m := range multiples {
			got, err := fit.Tolerance(strconv.Itoa(5+k), to)
			require.NoError(t, err)
			within := 0.07
			if to <= 6 {
				within = 0.16
			}
			require.InEpsilon(t, m*i, got, within, "IT%d to %g", 5+k, to)
		}
		over = to
	}
}

func TestCommonClassesAllSteps(t *testing.T) {
	var steps []string
	limits := 0
	for line := range strings.SplitSeq(strings.TrimSpace(published), "\n") {
		cells := strings.Fields(line)
		if len(cells) == 0 {
			continue
		}
		if cells[0] == "steps" {
			steps = cells[1:]
			continue
		}
		require.Len(t, cells[1:], len(steps), cells[0])
		for i, cell := range cells[1:] {
			upper, lower, _ := strings.Cut(cell, "/")
			size := parse(t, steps[i])
			got, err := fit.Deviations(cells[0], size)
			require.NoError(t, err)
			require.Equal(t, fit.Limits{Upper: parse(t, upper), Lower: parse(t, lower)}, got, "%s at %g", cells[0], size)
			limits += 2
		}
	}
	require.Greater(t, limits, 1500)
}

func TestPublishedLimits(t *testing.T) {
	const (
		shafts = "JIS B 0401-2 (ISO 286-2), shaft table in a trade handbook"
		holes  = "JIS B 0401-2 (ISO 286-2), hole table in a trade handbook"
		older  = "JIS B 0401:1999, hole table in a trade handbook"
		cor    = "ISO 286-2:1988/Cor 1:2006, misprints put right"
		edge   = "ISO 286-1:2010 rules, from memory, agreeing with two other transcriptions"
	)
	for _, tc := range []struct {
		class        string
		size         float64
		upper, lower float64
		source       string
	}{
		{"f7", 3, -6, -16, shafts}, {"g6", 5, -4, -12, shafts}, {"h6", 8, 0, -9, shafts}, {"k6", 8, 10, 1, shafts},
		{"j6", 10, 7, -2, shafts}, {"g6", 12, -6, -17, shafts}, {"h7", 12, 0, -18, shafts}, {"m6", 15, 18, 7, shafts},
		{"x6", 16, 56, 45, shafts}, {"f7", 20, -20, -41, shafts}, {"k6", 20, 15, 2, shafts}, {"p6", 25, 35, 22, shafts},
		{"t6", 25, 54, 41, shafts}, {"n6", 30, 28, 15, shafts}, {"c9", 35, -120, -182, shafts}, {"k6", 40, 18, 2, shafts},
		{"s6", 50, 59, 43, shafts}, {"r6", 60, 60, 41, shafts}, {"js6", 3, 3, -3, shafts}, {"e8", 4, -20, -38, shafts},
		{"n6", 6, 16, 8, shafts}, {"p6", 6, 20, 12, shafts}, {"d9", 7, -40, -76, shafts},
		{"J7", 3, 4, -6, holes}, {"K7", 5, 3, -9, holes}, {"N7", 6, -4, -16, holes}, {"J6", 12, 6, -5, holes},
		{"K6", 15, 2, -9, holes}, {"M7", 16, 0, -18, holes}, {"N8", 18, -3, -30, holes}, {"K7", 22, 6, -15, holes},
		{"M8", 26, 4, -29, holes}, {"N7", 28, -7, -28, holes}, {"R7", 30, -20, -41, holes}, {"J8", 32, 24, -15, holes},
		{"M6", 42, -4, -20, holes}, {"N7", 47, -8, -33, holes}, {"R7", 60, -30, -60, holes}, {"K7", 90, 10, -25, holes},
		{"J7", 130, 26, -14, holes},
		{"G6", 8, 14, 5, older}, {"E8", 10, 47, 25, older}, {"D9", 14, 93, 50, older}, {"F8", 20, 53, 20, older},
		{"P7", 26, -14, -35, older}, {"G7", 35, 34, 9, older},
		{"M7", 4, 0, -12, holes}, {"K8", 5, 5, -13, holes}, {"R7", 6, -11, -23, holes}, {"N7", 13, -5, -23, holes},
		{"J8", 17, 15, -12, holes}, {"R7", 14, -16, -34, holes}, {"J7", 19, 12, -9, holes},
		{"H7", 6, 12, 0, edge}, {"M6", 280, -9, -41, edge}, {"K9", 2, 0, -25, edge}, {"N9", 20, 0, -52, edge},
		{"P8", 20, -22, -55, edge}, {"M6", 300, -9, -41, edge},
		{"A13", 340, 2090, 1200, cor}, {"E8", 100, 126, 72, cor}, {"R10", 25, -28, -112, cor}, {"f9", 300, -56, -186, cor},
		{"ef6", 25, -28, -41, "ISO 286-1:2010/Cor 1:2013: −28, printed −25 before"},
		{"a13", 132.5, -460, -1090, "worked example of an open calculator"},
	} {
		got, err := fit.Deviations(tc.class, tc.size)
		require.NoError(t, err)
		require.Equal(t, fit.Limits{Upper: tc.upper, Lower: tc.lower}, got, "%s at %g: %s", tc.class, tc.size, tc.source)
	}
}

func TestPublishedGrades(t *testing.T) {
	const h = "ISO 286-1 table 1, read as the widths of h1 to h9 in a trade handbook"
	for _, tc := range []struct {
		grade  string
		size   float64
		um     float64
		source string
	}{
		{"5", 8, 6, h}, {"7", 12, 18, h}, {"9", 25, 52, h}, {"8", 150, 63, h}, {"4", 300, 16, h},
		{"01", 10, 0.4, "ISO 286-1 table 1, from memory"}, {"12", 10, 150, "ISO 286-1 table 1, from memory, agreeing with its formula"},
		{"14", 100, 870, "encyclopaedia article"}, {"16", 60, 1900, "ISO 286-1 table 1, from memory, agreeing with its formula"},
		{"5", 16, 8, h}, {"7", 40, 25, h},
	} {
		got, err := fit.Tolerance(tc.grade, tc.size)
		require.NoError(t, err)
		require.Equal(t, tc.um, got, tc.source)
	}
}

func TestFits(t *testing.T) {
	const source = "ISO 286-1 clause 3, from limits read in published tables"
	for _, tc := range []struct {
		size        float64
		hole, shaft string
		most, least float64
		kind        fit.Kind
	}{
		{20, "H7", "g6", 41, 7, fit.Loose},
		{25, "H7", "k6", 19, -15, fit.Transition},
		{12, "H7", "p6", 0, -29, fit.Tight},
		{30, "H8", "f7", 74, 20, fit.Loose},
		{22, "H7", "n6", 6, -28, fit.Transition},
		{25, "H7", "h6", 34, 0, fit.Loose},
	} {
		got, err := fit.Fit(tc.hole, tc.shaft, tc.size)
		require.NoError(t, err)
		require.Equal(t, [2]float64{tc.most, tc.least}, [2]float64{got.Max, got.Min}, source)
		require.Equal(t, tc.kind, got.Kind)
	}
}

func TestRefusals(t *testing.T) {
	for _, tc := range []struct {
		class string
		size  float64
		err   error
		say   string
	}{
		{"H7", 500.001, fit.ErrRange, "500"}, {"H7", 0, fit.ErrRange, "500"}, {"H7", -3, fit.ErrRange, "500"},
		{"H7", math.NaN(), fit.ErrRange, "500"}, {"H7", math.Inf(1), fit.ErrRange, "500"},
		{"i7", 20, fit.ErrClass, "without i"}, {"L7", 20, fit.ErrClass, "without i"}, {"o7", 20, fit.ErrClass, "without i"},
		{"Q7", 20, fit.ErrClass, "without i"}, {"w7", 20, fit.ErrClass, "without i"},
		{"H19", 20, fit.ErrClass, "to 18"}, {"H007", 20, fit.ErrClass, "to 18"}, {"Js7", 20, fit.ErrClass, "capitals"},
		{"", 20, fit.ErrClass, "such as H7"}, {"7", 20, fit.ErrClass, "such as H7"}, {"H", 20, fit.ErrClass, "such as H7"},
		{"t6", 24, fit.ErrClass, "t6 begins above 24 mm"}, {"v6", 14, fit.ErrClass, "begins above 14 mm"}, {"y6", 18, fit.ErrClass, "begins above 18 mm"},
		{"T7", 20, fit.ErrClass, "begins above 24 mm"}, {"cd6", 51, fit.ErrClass, "up to 50 mm"}, {"EF7", 60, fit.ErrClass, "up to 50 mm"},
		{"a11", 1, fit.ErrClass, "above 1 mm"}, {"B11", 0.8, fit.ErrClass, "above 1 mm"}, {"N9", 1, fit.ErrClass, "above 1 mm"},
		{"K9", 3.1, fit.ErrClass, "up to 3 mm"}, {"j8", 4, fit.ErrClass, "up to 3 mm"}, {"j9", 2, fit.ErrClass, "5 to 8"}, {"J5", 20, fit.ErrClass, "6 to 8"},
		{"H14", 1, fit.ErrClass, "above 1 mm"}, {"P2", 20, fit.ErrClass, "from grade 3"},
	} {
		_, err := fit.Deviations(tc.class, tc.size)
		require.ErrorIs(t, err, tc.err, "%s at %g", tc.class, tc.size)
		require.ErrorContains(t, err, tc.say)
	}
	_, err := fit.Fit("g6", "H7", 20)
	require.ErrorIs(t, err, fit.ErrClass)
	require.ErrorContains(t, err, "such as H7")
	_, err = fit.Fit("H7", "H7", 20)
	require.ErrorContains(t, err, "such as g6")
}

// everyClass calls f for each class that exists at each step's end.
func everyClass(f func(class, letter, grade string, size float64, l fit.Limits)) {
	for _, size := range []float64{0.9, 1.5, 3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, 500} {
		for _, letter := range strings.Fields("a b c cd d e ef f fg g h js j k m n p r s t u v x y z za zb zc A B C CD D E EF F FG G H JS J K M N P R S T U V X Y Z ZA ZB ZC") {
			for _, grade := range fit.Grades {
				if l, err := fit.Deviations(letter+grade, size); err == nil {
					f(letter+grade, letter, grade, size, l)
				}
			}
		}
	}
}

func TestLaws(t *testing.T) {
	n := 0
	everyClass(func(class, letter, grade string, size float64, l fit.Limits) {
		n++
		width, err := fit.Tolerance(grade, size)
		require.NoError(t, err)
		require.InDelta(t, width, l.Width(), 1e-9, "%s at %g is as wide as its grade", class, size)
		spaced, err := fit.Deviations(" "+letter+" "+grade+" ", size)
		require.NoError(t, err)
		require.Equal(t, l, spaced)
	})
	require.Greater(t, n, 20000)
	for _, size := range ends[1:] {
		// The delta rule: hole basis and shaft basis give the same interference.
		for _, letter := range strings.Fields("k m n p r s u x z") {
			for g := 4; g <= 8; g++ {
				fine, coarse := strconv.Itoa(g-1), strconv.Itoa(g)
				if letter >= "p" && g == 8 || letter == "k" && g-1 < 4 || letter == "m" && g == 6 && size == 315 {
					continue // beyond the rule
				}
				hole, err := fit.Fit("H"+coarse, letter+fine, size)
				require.NoError(t, err)
				shaft, err := fit.Fit(strings.ToUpper(letter)+coarse, "h"+fine, size)
				require.NoError(t, err)
				require.InDelta(t, hole.Max, shaft.Max, 1e-9, "%s%d at %g", letter, g, size)
				require.InDelta(t, hole.Min, shaft.Min, 1e-9, "%s%d at %g", letter, g, size)
			}
		}
		// Clearance turns its sign when hole and shaft swap places.
		h, err := fit.Deviations("H7", size)
		require.NoError(t, err)
		s, err := fit.Deviations("p6", size)
		require.NoError(t, err)
		f, err := fit.Fit("H7", "p6", size)
		require.NoError(t, err)
		require.Equal(t, f.Min, -(s.Upper - h.Lower))
		// Later letters lie higher, and coarser grades are wider.
		last := -math.MaxFloat64
		for _, letter := range strings.Fields("a b c d e f g h k m n p r s u x z za zb zc") {
			l, err := fit.Deviations(letter+"6", size)
			require.NoError(t, err)
			require.GreaterOrEqual(t, l.Upper, last, "%s6 at %g", letter, size)
			last = l.Upper
		}
	}
}

func TestKindTouches(t *testing.T) {
	require.Equal(t, fit.Loose, fit.KindOf(34, 0))
	require.Equal(t, fit.Tight, fit.KindOf(0, -29))
	require.Equal(t, fit.Transition, fit.KindOf(0.1, -0.1))
}

func TestPreferredFitsExist(t *testing.T) {
	for _, p := range fit.PreferredFits {
		f, err := fit.Fit(p.Hole, p.Shaft, 20)
		require.NoError(t, err, p.Use)
		require.NotEmpty(t, p.Use)
		if strings.Contains(p.Use, "press") && p.Shaft >= "p" {
			require.LessOrEqual(t, f.Min, 0.0)
		}
	}
}

func TestGeneralTolerances(t *testing.T) {
	const source = "ISO 2768-1:1989 tables 1 to 3 (read in a reprint; coarse below 6 mm from memory)"
	for _, tc := range []struct {
		size       float64
		f, m, c, v float64 // 0: none
	}{
		{0.5, 0.05, 0.1, 0.2, 0}, {3, 0.05, 0.1, 0.2, 0}, {3.1, 0.05, 0.1, 0.3, 0.5}, {6, 0.05, 0.1, 0.3, 0.5},
		{6.1, 0.1, 0.2, 0.5, 1}, {30, 0.1, 0.2, 0.5, 1}, {120, 0.15, 0.3, 0.8, 1.5}, {400, 0.2, 0.5, 1.2, 2.5},
		{1000, 0.3, 0.8, 2, 4}, {2000, 0.5, 1.2, 3, 6}, {4000, 0, 2, 4, 8},
	} {
		for i, want := range []float64{tc.f, tc.m, tc.c, tc.v} {
			got, err := fit.GeneralLength(fit.GeneralClasses[i], tc.size)
			if want == 0 {
				require.ErrorIs(t, err, fit.ErrGeneral)
				continue
			}
			require.NoError(t, err)
			require.Equal(t, want, got, "%g: %s", tc.size, source)
		}
	}
	for _, tc := range []struct{ size, fine, coarse float64 }{{0.5, 0.2, 0.4}, {3, 0.2, 0.4}, {6, 0.5, 1}, {7, 1, 2}} {
		for i, want := range []float64{tc.fine, tc.fine, tc.coarse, tc.coarse} {
			got, err := fit.GeneralEdge(fit.GeneralClasses[i], tc.size)
			require.NoError(t, err)
			require.Equal(t, want, got, source)
		}
	}
	for _, tc := range []struct{ leg, m, c, v float64 }{{10, 60, 90, 180}, {50, 30, 60, 120}, {120, 20, 30, 60}, {400, 10, 15, 30}, {401, 5, 10, 20}} {
		for i, want := range []float64{tc.m, tc.m, tc.c, tc.v} {
			got, err := fit.GeneralAngle(fit.GeneralClasses[i], tc.leg)
			require.NoError(t, err)
			require.InDelta(t, want/60, got, 1e-12, source)
		}
	}
	for _, size := range []float64{0.49, 4001, math.NaN(), math.Inf(1), -5} {
		_, err := fit.GeneralLength("m", size)
		require.ErrorIs(t, err, fit.ErrGeneral)
	}
	_, err := fit.GeneralLength("x", 20)
	require.ErrorIs(t, err, fit.ErrGeneral)
}

func TestBearingSeats(t *testing.T) {
	// A published table of fits of bearings of the normal class on shafts.
	const source = "table of bearing and shaft fits, normal class (GB/T 275 style)"
	for _, tc := range []struct {
		bore, lower float64
		class       string
		clearance   float64
		tight       float64
	}{
		{5, -8, "g6", 12, 4}, {8, -8, "h6", 9, 8}, {12, -8, "j6", 3, 16}, {25, -10, "h6", 13, 10},
		{40, -12, "js6", 8, 20}, {10, -8, "js6", 4.5, 12.5}, {15, -8, "g6", 17, 2},
		{5, -8, "g5", 9, 4}, {5, -8, "h5", 5, 8}, {5, -8, "j5", 2, 11}, {25, -10, "j5", 4, 15}, {40, -12, "g5", 20, 3}, {60, -15, "h6", 19, 15},
	} {
		ring, err := fit.RingBore(tc.bore)
		require.NoError(t, err)
		require.Equal(t, fit.Limits{Lower: tc.lower}, ring, "ISO 492")
		seat, err := fit.Deviations(tc.class, tc.bore)
		require.NoError(t, err)
		require.Equal(t, tc.clearance, ring.Upper-seat.Lower, source)
		require.Equal(t, tc.tight, seat.Upper-ring.Lower, source)
	}
	for _, tc := range []struct{ size, lower float64 }{{18, -8}, {30, -9}, {50, -11}, {80, -13}, {120, -15}, {150, -18}, {180, -25}} {
		ring, err := fit.RingOutside(tc.size)
		require.NoError(t, err)
		require.Equal(t, tc.lower, ring.Lower, "ISO 492, outer ring of the normal class, as reprinted in two lists")
	}
	for _, tc := range []struct{ size, lower float64 }{{18, -11}, {30, -13}, {50, -16}, {80, -19}, {120, -22}, {180, -25}} {
		ring, err := fit.WasherOutside(tc.size)
		require.NoError(t, err)
		require.Equal(t, tc.lower, ring.Lower, "ISO 199, outside of washers, as reprinted in a list")
	}
	for _, size := range []float64{0, 2, 181, math.NaN()} {
		_, err := fit.RingBore(size)
		require.ErrorIs(t, err, fit.ErrRing)
	}
}

func TestSeatClassesSuit(t *testing.T) {
	for _, tc := range []struct {
		ring fit.Ring
		load fit.Load
		size float64
		soft bool
		want string
	}{ // published fit tables for rolling bearings; the feed screw's from practice
		{fit.Inner, fit.TurningLight, 12, false, "js5"}, {fit.Inner, fit.TurningLight, 25, false, "js6"},
		{fit.Inner, fit.TurningNormal, 12, false, "j5"}, {fit.Inner, fit.TurningNormal, 40, false, "k5"}, {fit.Inner, fit.TurningNormal, 120, false, "m5"},
		{fit.Inner, fit.Still, 20, false, "h6"}, {fit.Inner, fit.FeedScrew, 12, false, "h6"},
		{fit.Outer, fit.Still, 30, false, "H7"}, {fit.Outer, fit.TurningNormal, 30, false, "N7"}, {fit.Outer, fit.TurningLight, 30, false, "M7"},
		{fit.Outer, fit.TurningNormal, 30, true, "P7"}, {fit.Outer, fit.Still, 30, true, "J7"}, {fit.ShaftWasher, fit.Still, 12, false, "js6"},
	} {
		seats := fit.Seats(tc.ring, tc.load, tc.size, tc.soft)
		require.NotEmpty(t, seats)
		require.Equal(t, tc.want, seats[0].Class, "%s %s %g", tc.ring, tc.load, tc.size)
	}
	// Every seat that is proposed exists and is of the right kind.
	for _, ring := range []fit.Ring{fit.Inner, fit.Outer, fit.ShaftWasher, fit.HousingWasher, fit.NeedleInner, fit.NeedleOuter} {
		for _, load := range []fit.Load{fit.TurningLight, fit.TurningNormal, fit.Still, fit.FeedScrew} {
			for _, size := range []float64{3, 12, 18, 40, 110, 170} {
				for _, soft := range []bool{false, true} {
					for _, s := range fit.Seats(ring, load, size, soft) {
						c, err := fit.ParseClass(s.Class)
						require.NoError(t, err)
						require.Equal(t, ring.OnShaft(), !c.Hole())
						_, err = c.At(size)
						require.NoError(t, err)
						require.NotEmpty(t, s.Source)
						_, source, err := fit.RingLimits(ring, size)
						require.NoError(t, err)
						require.NotEmpty(t, source)
					}
				}
			}
		}
	}
	require.Nil(t, fit.Seats("none", fit.Still, 10, false))
}

func FuzzParseClass(f *testing.F) {
	for _, s := range []string{"H7", " g 6", "js01", "ZC18", "", "H07", "Ω7", "h\x007", "j8", "K9"} {
		f.Add(s, 20.0)
	}
	f.Fuzz(func(t *testing.T, text string, size float64) {
		c, err := fit.ParseClass(text)
		if err != nil {
			require.ErrorIs(t, err, fit.ErrClass)
			return
		}
		again, err := fit.ParseClass(c.String())
		require.NoError(t, err)
		require.Equal(t, c, again)
		l, err := c.At(size)
		if err == nil {
			require.GreaterOrEqual(t, l.Upper, l.Lower)
			require.False(t, math.IsNaN(l.Upper+l.Lower) || math.IsInf(l.Upper+l.Lower, 0))
		}
	})
}
