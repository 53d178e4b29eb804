package thread_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"fettle/plan/thread"

	"github.com/stretchr/testify/require"
)

const inch = 25.4

func parse(t *testing.T, text string) thread.Thread {
	t.Helper()
	got, err := thread.Parse(text)
	require.NoError(t, err, text)
	return got
}

func basic(t *testing.T, text string) thread.Basic {
	t.Helper()
	b, err := parse(t, text).Basic()
	require.NoError(t, err)
	return b
}

// How a row of the reference table is said.
var said = map[string]func(size, tpi string) string{
	"ISO metric coarse": func(s, _ string) string { return s },
	"ISO metric fine":   func(s, _ string) string { return s },
	"Tr":                func(s, _ string) string { return s },
	"BA":                func(s, _ string) string { return s },
	"BSW":               func(s, _ string) string { return s + " BSW" },
	"BSF":               func(s, _ string) string { return s + " BSF" },
	"BSP":               func(s, _ string) string { return "G " + s },
	"UNC":               func(s, _ string) string { return s + " UNC" },
	"UNF":               func(s, _ string) string { return s + " UNF" },
	"UNEF":              func(s, _ string) string { return s + " UNEF" },
	"Acme":              func(s, _ string) string { return s + " Acme" },
	"ME":                func(s, n string) string { return s + "x" + n + " ME" },
	"ME 60 tpi":         func(s, n string) string { return s + "x" + n + " ME" },
}

// The whole reference table, worked out apart from this program: basic sizes by
// ISO 261, 262 and 724, BS 84, BS 93, ASME B1.1 and B1.5, ISO 228-1 and ISO 2904,
// to four decimals; stress areas by ISO 898-1 and ASME B1.1; drills by ISO 2306.
func TestWholeTable(t *testing.T) {
	f, err := os.Open("testdata/threads.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 162, "161 threads and the header")
	for _, row := range rows[1:] {
		family, size := row[0], row[1]
		t.Run(family+" "+size, func(t *testing.T) {
			got := parse(t, said[family](size, row[4]))
			require.True(t, got.Listed)
			b, err := got.Basic()
			require.NoError(t, err)
			within := 6e-5 // half of the last place
			if family == "BSP" {
				within = 5e-4 // the row is turned from inches, ISO 228-1 prints whole micrometres
			}
			near := func(cell string, v float64, what string) {
				if cell != "" {
					want, err := strconv.ParseFloat(cell, 64)
					require.NoError(t, err)
					require.InDelta(t, want, v, within, what)
				}
			}
			near(row[2], got.Dia, "major diameter")
			near(row[3], got.Pitch, "pitch")
			near(row[5], b.PitchDia, "pitch diameter")
			near(row[6], b.Root, "root")
			near(row[7], b.Bore, "bore")
			near(row[9], got.Tap, "pilot drill")
			if row[8] != "" {
				want, err := strconv.ParseFloat(row[8], 64)
				require.NoError(t, err)
				require.InEpsilon(t, want, b.StressArea, 1e-3, "the table's 0.9382 and 0.9743 are rounded")
			}
		})
	}
}

// Published basic sizes, each row as printed.
func TestPublishedSizes(t *testing.T) {
	for _, tc := range []struct {
		id, thread     string
		pitchDia, bore float64
		source         string
	}{
		{"metric 1", "M5", 4.480, 4.134, "ISO 724, as in a table of tap sizes"},
		{"metric 2", "M6", 5.350, 4.917, "ISO 724, as in a table of tap sizes"},
		{"metric 3", "M8", 7.188, 6.647, "ISO 724, as in a table of tap sizes"},
		{"metric 4", "M8x1", 7.350, 6.917, "ISO 724, as in a table of tap sizes"},
		{"metric 5", "M10", 9.026, 8.376, "ISO 724, as in a table of tap sizes"},
		{"metric 6", "M6x0.75", 5.513, 5.188, "ISO 724, as in a table of tap sizes"},
		{"metric 7", "M7", 6.350, 5.917, "ISO 724, as in a table of tap sizes"},
		{"", "M9", 8.188, 7.647, "ISO 724, as in a table of tap sizes"},
		{"trapezoidal 1", "Tr8x1.5", 7.25, 6.5, "ISO 2904"},
		{"trapezoidal 2", "Tr10x2", 9, 8, "ISO 2904"},
		{"trapezoidal 3", "Tr12x3", 10.5, 9, "ISO 2904"},
		{"trapezoidal 4", "Tr14x3", 12.5, 11, "ISO 2904"},
		{"trapezoidal 5", "Tr11x3", 9.5, 8, "ISO 2904"},
	} {
		b := basic(t, tc.thread)
		require.InDelta(t, tc.pitchDia, b.PitchDia, 0.0006, "%s %s: %s", tc.id, tc.thread, tc.source)
		require.InDelta(t, tc.bore, b.Bore, 0.0006, "%s %s: %s", tc.id, tc.thread, tc.source)
	}
	for _, tc := range []struct {
		id, thread     string
		root, nutMajor float64
	}{ // ISO 2904
		{"trapezoidal 1", "Tr8x1.5", 6.2, 8.3}, {"trapezoidal 2", "Tr10x2", 7.5, 10.5}, {"trapezoidal 3", "Tr12x3", 8.5, 12.5},
		{"trapezoidal 4", "Tr14x3", 10.5, 14.5}, {"trapezoidal 5", "Tr11x3", 7.5, 11.5},
	} {
		b := basic(t, tc.thread)
		require.InDelta(t, tc.root, b.Root, 1e-9, tc.id)
		require.InDelta(t, tc.nutMajor, b.NutMajor, 1e-9, tc.id)
	}
	for _, tc := range []struct {
		id, thread     string
		pitchDia, bore float64 // inches
	}{
		{"Whitworth 1", "1/4 BSW", 0.2180, 0.1860}, {"Whitworth 2", "3/8 BSW", 0.3350, 0.2950}, // BS 84
		{"Whitworth 3", "3/16 BSW", 0.1608, 0.1341}, {"Whitworth 5", "1/2 BSW", 0.4466, 0.3933},
		{"Unified 1", "1/4-20 UNC", 0.2175, 0.1959}, {"Unified 2", "3/8-16 UNC", 0.3344, 0.3073}, // ASME B1.1
		{"Unified 3", "1/4-28 UNF", 0.2268, 0.2113}, {"Unified 4", "5/16-24 UNF", 0.2854, 0.2674},
	} {
		b := basic(t, tc.thread)
		require.InDelta(t, tc.pitchDia, b.PitchDia/inch, 0.0002, tc.id)
		require.InDelta(t, tc.bore, b.Bore/inch, 0.0002, tc.id)
	}
	for _, tc := range []struct {
		id, thread string
		area       float64 // mm²
		source     string
	}{
		{"unified 1", "M6", 20.1, "ISO 898-1, from memory"}, {"unified 2", "M8", 36.6, "ISO 898-1, from memory"},
		{"unified 3", "M10", 58.0, "ISO 898-1, from memory"}, {"unified 4", "M12", 84.3, "ISO 898-1, from memory"},
		{"Unified 1", "1/4-20 UNC", 0.0318 * inch * inch, "ASME B1.1"}, {"Unified 2", "3/8-16 UNC", 0.0775 * inch * inch, "ASME B1.1"},
		{"Unified 3", "1/4-28 UNF", 0.0364 * inch * inch, "ASME B1.1"}, {"Unified 4", "5/16-24 UNF", 0.058 * inch * inch, "ASME B1.1"},
		{"", "1/2-13 UNC", 0.1420 * inch * inch, "ASME B1.1"}, {"", "1-8 UNC", 0.6060 * inch * inch, "ASME B1.1"},
	} {
		require.InEpsilon(t, tc.area, basic(t, tc.thread).StressArea, 0.005, "%s %s", tc.id, tc.source)
	}
	// BS 84, the pitches of 1/4 inch.
	require.Equal(t, 20.0, parse(t, "1/4 BSW").TPI)
	require.Equal(t, 26.0, parse(t, "1/4 BSF").TPI)
	for _, tc := range []struct { // BS 93, as in a table in inches; the diameters to 0.0003 in, tpi to 0.5 %
		id, thread string
		dia, tpi   float64
		mm, pitch  float64
	}{
		{"BA 1", "0BA", 0.2362, 25.38, 6, 1}, {"BA 2", "2BA", 0.1850, 31.35, 4.7, 0.81}, {"BA 3", "4BA", 0.1417, 38.46, 3.6, 0.66},
		{"BA 4", "6BA", 0.1102, 47.85, 2.8, 0.53}, {"BA 5", "3BA", 0.1614, 34.84, 4.1, 0.73},
	} {
		got := parse(t, tc.thread)
		require.InDelta(t, tc.dia, got.Dia/inch, 0.0003, tc.id)
		require.InEpsilon(t, tc.tpi, inch/got.Pitch, 0.005, tc.id)
		require.Equal(t, tc.mm, got.Dia, tc.id)
		require.Equal(t, tc.pitch, got.Pitch, tc.id)
	}
}

// BS 93 is a rule: p = 0.9ⁿ mm, D = 6 p^1.2, each to two significant figures.
func TestBritishAssociationByRule(t *testing.T) {
	two := func(x float64) float64 {
		v, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 2, 64), 64)
		require.NoError(t, err)
		return v
	}
	n := 0
	for _, got := range thread.Sizes() {
		if got.Series.Key != "BA" {
			continue
		}
		p := math.Pow(0.9, float64(n))
		require.Equal(t, two(p), got.Pitch, got)
		require.Equal(t, two(6*math.Pow(p, 1.2)), got.Dia, got)
		n++
	}
	require.Equal(t, 17, n, "0BA to 16BA")
}

// What holds for every thread of every table.
func TestEverySize(t *testing.T) {
	seen := map[string]bool{}
	for _, got := range thread.Sizes() {
		name := got.String()
		require.False(t, seen[name], "%s is there twice", name)
		seen[name] = true
		again, err := thread.Parse(name)
		require.NoError(t, err, name)
		require.Equal(t, got, again)
		b, err := got.Basic()
		require.NoError(t, err, name)
		require.True(t, 0 < b.Root && b.Root <= b.Bore && b.Bore < b.PitchDia && b.PitchDia < got.Dia && got.Dia <= b.NutMajor, "%s: %+v", name, b)
		require.Less(t, b.StressArea, math.Pi/4*got.Dia*got.Dia, name)
		if got.Series.Form != thread.Metric && got.Series.Form != thread.Unified {
			require.InDelta(t, got.Dia-b.PitchDia, b.PitchDia-b.Bore, 1e-9, "%s: the pitch line is halfway", name)
		}
		if got.Tap > 0 {
			require.InDelta(t, got.Dia-got.Pitch, got.Tap, 0.051, "%s: ISO 2306 is d − P, rounded to a drill", name)
		}
	}
	require.Greater(t, len(seen), 390)
}

func TestParse(t *testing.T) {
	for _, tc := range []struct {
		text, again      string
		dia, pitch, lead float64
		left             bool
		class            string
		listed           bool
	}{
		{"M12x1.5 LH", "M12x1.5 LH", 12, 1.5, 1.5, true, "", true},
		{"m12 X 1,5", "M12x1.5", 12, 1.5, 1.5, false, "", true},
		{"M8", "M8", 8, 1.25, 1.25, false, "", true},
		{"M8x1.25", "M8", 8, 1.25, 1.25, false, "", true},
		{"M8-1.25", "M8", 8, 1.25, 1.25, false, "", true},
		{"M8x1-6g", "M8x1", 8, 1, 1, false, "6g", true},
		{"M20x2-4H5H-LH", "M20x2 LH", 20, 2, 2, true, "4H5H", true},
		{"M10x0.5", "M10x0.5", 10, 0.5, 0.5, false, "", false},
		{"M16xPh3P1.5", "M16xPh3P1.5", 16, 1.5, 3, false, "", true},
		{"Tr 12x3 LH", "Tr12x3 LH", 12, 3, 3, true, "", true},
		{"Tr40x14(P7)LH", "Tr40x14(P7) LH", 40, 7, 14, true, "", true},
		{"Tr8x8(P2)", "Tr8x8(P2)", 8, 2, 8, false, "", false}, // 4 starts
		{"TR10x2-7e", "Tr10x2", 10, 2, 2, false, "7e", true},
		{"1/4-20 UNC", "1/4-20 UNC", 6.35, 1.27, 1.27, false, "", true},
		{`1/4" UNC`, "1/4-20 UNC", 6.35, 1.27, 1.27, false, "", true},
		{"¼-20 UNC-2A", "1/4-20 UNC", 6.35, 1.27, 1.27, false, "2A", true},
		{"0.25-20 UNC", "1/4-20 UNC", 6.35, 1.27, 1.27, false, "", true},
		{"#10-32 UNF", "10-32 UNF", 4.826, inch / 32, inch / 32, false, "", true},
		{"10-32", "10-32 UNF", 4.826, inch / 32, inch / 32, false, "", true},
		{"1-64 UNC", "1-64 UNC", 0.073 * inch, inch / 64, inch / 64, false, "", true},
		{"1-8 UNC", "1-8 UNC", inch, inch / 8, inch / 8, false, "", true},
		{"1 1/8-7 UNC", "1-1/8-7 UNC", 1.125 * inch, inch / 7, inch / 7, false, "", true},
		{"1/4-24 UN", "1/4-24 UN", 6.35, inch / 24, inch / 24, false, "", false},
		{"2BA", "2BA", 4.7, 0.81, 0.81, false, "", true},
		{"2 BA LH", "2BA LH", 4.7, 0.81, 0.81, true, "", true},
		{"1/4 BSF", "1/4-26 BSF", 6.35, inch / 26, inch / 26, false, "", true},
		{"3/8x32 ME", "3/8x32 ME", 9.525, inch / 32, inch / 32, false, "", true},
		{"3/8 BSB", "3/8x26 BSB", 9.525, inch / 26, inch / 26, false, "", true},
		{"G 1/8", "G 1/8", 9.728, inch / 28, inch / 28, false, "", true},
		{"1/8 BSP", "G 1/8", 9.728, inch / 28, inch / 28, false, "", true},
		{"1/2-10 Acme 2 starts LH", "1/2-10 Acme 2 starts LH", 12.7, 2.54, 5.08, true, "", true},
		{"Sq 12x3", "Sq 12x3", 12, 3, 3, false, "", false},
	} {
		t.Run(tc.text, func(t *testing.T) {
			got, err := thread.Parse(tc.text)
			require.NoError(t, err)
			require.InDelta(t, tc.dia, got.Dia, 1e-9)
			require.InDelta(t, tc.pitch, got.Pitch, 1e-9)
			require.InDelta(t, tc.lead, got.Lead(), 1e-9)
			require.Equal(t, tc.left, got.Left)
			require.Equal(t, tc.class, got.Class)
			require.Equal(t, tc.listed, got.Listed)
			require.Equal(t, tc.again, got.String())
		})
	}
	require.Equal(t, 4, parse(t, "Tr8x8(P2)").Starts, "form of the designation as in ISO 2902")
}

func TestParseRefuses(t *testing.T) {
	for _, tc := range []struct {
		text, says string
		want       error
	}{
		{"", "give a thread", thread.ErrDesignation}, {"garbage", "give a thread", thread.ErrDesignation},
		{"12x1.5", "give a thread", thread.ErrDesignation}, {"M", "give a thread", thread.ErrDesignation},
		{"M-5", "give a thread", thread.ErrDesignation}, {"1/0 UNC", "give a thread", thread.ErrDesignation},
		{"17BA", "it has 0, 1, 2", thread.ErrSize}, {"G 9/16", "it has 1/16, 1/8", thread.ErrSize},
		{"M13", "give the pitch", thread.ErrSize}, {"M3x3", "does not go on", thread.ErrSize}, {"M2000x3", "does not go on", thread.ErrSize},
		{"1/4-24 UNC", "1/4 UNC has 20 threads to the inch; for another pitch say 1/4-24 UN", thread.ErrSize},
		{"1/4-24 BSW", "say 1/4-24 Whit", thread.ErrSize}, {"5/32 BSW", "there is no 5/32", thread.ErrSize},
		{"1/4-20", "say which of these is meant: 1/4-20 UNC, 1/4-20 BSW", thread.ErrSize},
		{"1/4 ME", "40 or 32 threads to the inch", thread.ErrSize}, {"3/8x28 BSB", "26 threads", thread.ErrSize},
		{"Tr40x15(P7)", "whole number of pitches", thread.ErrSize}, {"Tr12x1", "1.5 to 44 mm", thread.ErrSize},
		{"#14-20 UNC", "numbered sizes are 0 to 12", thread.ErrSize},
	} {
		t.Run(tc.text, func(t *testing.T) {
			_, err := thread.Parse(tc.text)
			require.ErrorIs(t, err, tc.want)
			require.Contains(t, err.Error(), tc.says)
		})
	}
}

// Whatever is typed, Parse does not panic; what it takes has sizes that make
// sense, and is said in a way that is read back the same.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"M12x1.5 LH", "Tr40x14(P7)LH", "1/4-20 UNC-2A", "2BA", "3/8x32 ME", "G 1/8", "1/2-10 Acme 2 starts", "Sq 12x3", "M16xPh3P1.5", "#10-36 UN", "1-1/8-7 UNC", "1/0 UNC", "M1e9x1", "½-12 BSW"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, err := thread.Parse(text)
		if err != nil {
			return
		}
		b, err := got.Basic()
		require.NoError(t, err)
		require.True(t, b.Root > 0 && b.Root < got.Dia && got.Dia <= 320 && got.Pitch > 0, "%q: %+v", text, got)
		again, err := thread.Parse(got.String())
		require.NoError(t, err, "%q is said %q", text, got)
		require.Equal(t, got.String(), again.String())
		require.InDelta(t, got.Dia, again.Dia, 1e-5)
		require.InDelta(t, got.Lead(), again.Lead(), 1e-4)
	})
}
