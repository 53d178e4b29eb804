package thread_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"fettle/plan/thread"

	"github.com/stretchr/testify/require"
)

func limits(t *testing.T, text, class string) thread.Limits {
	t.Helper()
	l, err := parse(t, text).Limits(class)
	require.NoError(t, err, "%s %s", text, class)
	return l
}

// Published limits of ISO metric screws, in mm, to half of the last place.
func TestMetricScrewLimits(t *testing.T) {
	for _, tc := range []struct {
		id, thread, class                      string
		majorMax, majorMin, pitchMax, pitchMin float64
		minorMax, minorMin                     float64 // flat and rounded root; 0 where the source has none
	}{ // ASME B1.13M, table of external limits (the M profile is that of ISO 965-1)
		{"limits 1", "M2", "6g", 1.981, 1.886, 1.721, 1.654, 1.548, 1.408},
		{"limits 2", "M3", "6g", 2.980, 2.874, 2.655, 2.580, 2.438, 2.272},
		{"limits 7", "M3.5", "6g", 3.479, 3.354, 3.089, 3.004, 2.829, 2.634},
		{"limits 3", "M5", "6g", 4.976, 4.826, 4.456, 4.361, 4.110, 3.868},
		{"", "M1.6", "6g", 1.581, 1.496, 1.354, 1.291, 1.202, 1.075},
		{"", "M1.6", "6h", 1.600, 1.515, 1.373, 1.310, 1.221, 1.094},
		{"", "M1.6", "4g6g", 1.581, 1.496, 1.354, 1.314, 1.202, 1.098},
		{"", "M2", "4g6g", 1.981, 1.886, 1.721, 1.679, 1.548, 1.433},
		{"", "M2.5", "6g", 2.480, 2.380, 2.188, 2.117, 1.993, 1.840},
		{"", "M2.5", "4g6g", 2.480, 2.380, 2.188, 2.143, 1.993, 1.866},
		{"", "M3", "4g6g", 2.980, 2.874, 2.655, 2.607, 2.438, 2.299},
		{"", "M3.5", "4g6g", 3.479, 3.354, 3.089, 3.036, 2.829, 2.666},
		{"", "M4", "6g", 3.978, 3.838, 3.523, 3.433, 3.220, 3.002},
		{"", "M4", "6h", 4.000, 3.860, 3.545, 3.455, 3.242, 3.024},
		{"", "M4", "4g6g", 3.978, 3.838, 3.523, 3.467, 3.220, 3.036},
		{"", "M5", "4g6g", 4.976, 4.826, 4.456, 4.396, 4.110, 3.903},
	} {
		l := limits(t, tc.thread, tc.class)
		for _, v := range [][2]float64{{tc.majorMax, l.MajorMax}, {tc.majorMin, l.MajorMin}, {tc.pitchMax, l.PitchMax}, {tc.pitchMin, l.PitchMin}, {tc.minorMax, l.MinorMax}, {tc.minorMin, l.MinorMin}} {
			require.InDelta(t, v[0], v[1], 0.0011, "%s %s %s: each diameter is rounded by itself", tc.id, tc.thread, tc.class)
		}
	}
	// ISO 965-4, class 6az: its position is another, its tolerances are those of
	// grade 6. Upper and lower deviations of pitch and major diameter, in µm.
	for _, tc := range []struct {
		thread                             string
		pitchUpper, pitchLower, majorLower float64
	}{
		{"M10", -330, -462, -566}, {"M12", -335, -485, -600}, {"M14", -340, -500, -620}, {"M16", -340, -500, -620}, {"M18", -350, -520, -685},
		{"M22", -350, -520, -685}, {"M24", -360, -560, -735}, {"M27", -360, -560, -735}, {"M30", -370, -582, -795}, {"M33", -370, -582, -795},
		{"M36", -380, -604, -855}, {"M39", -380, -604, -855}, {"M42", -390, -626, -890}, {"M45", -390, -626, -890}, {"M48", -400, -650, -930},
		{"M52", -400, -650, -930}, {"M56", -410, -675, -970}, {"M60", -410, -675, -970}, {"M64", -420, -700, -1020},
	} {
		l := limits(t, tc.thread, "6h")
		require.InDelta(t, tc.pitchUpper-tc.pitchLower, 1000*(l.PitchMax-l.PitchMin), 1e-6, tc.thread)
		require.InDelta(t, tc.pitchUpper-tc.majorLower, 1000*(l.MajorMax-l.MajorMin), 1e-6, tc.thread)
	}
}

// Tolerances of the pitch diameter of nuts, and the position G, in µm, as in
// charts of ISO 965-1 beside tap classes.
func TestMetricNutLimits(t *testing.T) {
	for _, tc := range []struct {
		id, thread string
		h4, h5, h6 float64 // 0 where the chart has none
		g          float64
	}{
		{"", "M1", 45, 56, 0, 0}, {"", "M1.4", 48, 60, 75, 18}, {"", "M1.6", 53, 67, 85, 19}, {"", "M2", 56, 71, 90, 0},
		{"", "M2.5", 60, 75, 95, 0}, {"limits 4", "M3", 63, 80, 100, 20}, {"", "M3.5", 71, 90, 112, 21}, {"", "M4", 75, 95, 118, 22},
		{"", "M4.5", 75, 95, 118, 22}, {"limits 6", "M5", 80, 100, 125, 24}, {"limits 5", "M6", 95, 118, 150, 26}, {"", "M7", 95, 118, 150, 26},
		{"", "M8", 100, 125, 160, 28}, {"", "M9", 100, 125, 160, 28},
	} {
		b := basic(t, tc.thread)
		for class, want := range map[string]float64{"4H": tc.h4, "5H": tc.h5, "6H": tc.h6} {
			if want == 0 {
				continue
			}
			l := limits(t, tc.thread, class)
			require.InDelta(t, want, 1000*(l.PitchMax-l.PitchMin), 1e-6, "%s %s %s", tc.id, tc.thread, class)
			require.InDelta(t, b.PitchDia, l.PitchMin, 1e-9, "EI of H is nothing")
			require.True(t, math.IsNaN(l.MajorMax), "a nut's major diameter has no most")
		}
		if tc.g > 0 {
			require.InDelta(t, b.PitchDia+tc.g/1000, limits(t, tc.thread, "6G").PitchMin, 1e-9, tc.thread)
		}
	}
	// Minor diameters of class 6H in the same standard's limits: T_D1 in µm, from M3 to M39.
	for text, want := range map[string]float64{"M3": 140, "M4": 180, "M5": 200, "M6": 236, "M8": 265, "M10": 300, "M12": 335, "M16": 375, "M20": 450, "M24": 500, "M30": 560, "M36": 600} {
		l := limits(t, text, "6H")
		require.InDelta(t, want, 1000*(l.MinorMax-l.MinorMin), 1e-6, text)
	}
}

// Every value of the tables by the standard's own rule (ISO 965-1:1998, 13): the
// rule gives a raw value, which the standard then rounded to preferred numbers,
// not always to the nearest.
func TestMetricTablesByRule(t *testing.T) {
	grades := map[string]float64{"3": 0.5, "4": 0.63, "5": 0.8, "6": 1, "7": 1.25, "8": 1.6, "9": 2}
	n := 0
	each := func(file string, rule func(row map[string]string, column string) float64) {
		for _, row := range readTable(t, file) {
			for column, cell := range row {
				if cell == "" || len(column) > 2 {
					continue
				}
				want := rule(row, column)
				require.InEpsilon(t, want, float(t, cell), 0.1, "%s %v %s", file, row, column)
				n++
			}
		}
	}
	each("iso965-pitch.csv", func(row map[string]string, column string) float64 {
		p, d := float(t, row["pitch_mm"]), math.Sqrt(float(t, row["over_mm"])*float(t, row["to_mm"]))
		v := 90 * math.Pow(p, 0.4) * math.Pow(d, 0.1) * grades[column[1:]]
		if column[0] == 'D' {
			v *= 1.32
		}
		return v
	})
	each("iso965-crest.csv", func(row map[string]string, column string) float64 {
		p := float(t, row["pitch_mm"])
		v := 180*math.Pow(p, 2.0/3) - 3.15/math.Sqrt(p)
		if column[0] == 'D' {
			v = 230 * math.Pow(p, 0.7)
			if p < 1 {
				v = 433*p - 190*math.Pow(p, 1.22)
			}
		}
		return v * grades[column[1:]]
	})
	each("iso965-position.csv", func(row map[string]string, column string) float64 {
		p := float(t, row["pitch_mm"])
		switch {
		case column == "g" && p < 0.5:
			return float(t, row["g"]) // by table, with no rule
		case column == "f" && p < 0.5:
			return 30 + 11*p
		}
		return map[string]float64{"g": 15, "f": 30, "e": 50}[column] + 11*p
	})
	require.Equal(t, 619, n, "every cell")
}

// ISO 2903 by its own rule, which is that of ISO 965-1.
func TestTrapezoidalTableByRule(t *testing.T) {
	for _, row := range readTable(t, "iso2903.csv") {
		p, d := float(t, row["pitch_mm"]), math.Sqrt(float(t, row["over_mm"])*float(t, row["to_mm"]))
		screw := 90 * math.Pow(p, 0.4) * math.Pow(d, 0.1) * 1.25
		require.InEpsilon(t, screw, float(t, row["pitch_d7"]), 0.06, row)
		require.InEpsilon(t, 1.32*float(t, row["pitch_d7"]), float(t, row["pitch_D7"]), 0.03, row)
		require.InEpsilon(t, 0.63*(180*math.Pow(p, 2.0/3)-3.15/math.Sqrt(p)), float(t, row["crest_d"]), 0.06, row)
		require.InEpsilon(t, 0.63*230*math.Pow(p, 0.7), float(t, row["crest_D1"]), 0.06, row)
		require.InEpsilon(t, 50+11*p, float(t, row["e"]), 0.13, row)
	}
}

func TestTrapezoidalLimits(t *testing.T) {
	for _, tc := range []struct {
		id, thread                                       string
		majorMin, pitchMax, pitchMin, minorMax, minorMin float64
	}{ // ISO 2903, published limits of external threads 7e
		{"", "Tr8x1.5", 7.850, 7.183, 7.013, 6.200, 5.921}, {"", "Tr9x2", 8.820, 7.929, 7.739, 6.500, 6.191},
		{"trapezoidal 7 1", "Tr10x2", 9.820, 8.929, 8.739, 7.500, 7.191}, {"", "Tr10x1.5", 9.850, 9.183, 9.013, 8.200, 7.921},
		{"", "Tr11x3", 10.764, 9.415, 9.203, 7.500, 7.150}, {"", "Tr12x2", 11.820, 10.929, 10.729, 9.500, 9.179},
		{"trapezoidal 7 2", "Tr12x3", 11.764, 10.415, 10.191, 8.500, 8.135}, {"trapezoidal 7 3", "Tr14x3", 13.764, 12.415, 12.191, 10.500, 10.135},
		{"", "Tr16x4", 15.700, 13.905, 13.640, 11.500, 11.074},
	} {
		l := limits(t, tc.thread, "7e")
		require.InDelta(t, parse(t, tc.thread).Dia, l.MajorMax, 1e-9)
		for _, v := range [][2]float64{{tc.majorMin, l.MajorMin}, {tc.pitchMax, l.PitchMax}, {tc.pitchMin, l.PitchMin}, {tc.minorMax, l.MinorMax}, {tc.minorMin, l.MinorMin}} {
			require.InDelta(t, v[0], v[1], 0.0006, "%s %s", tc.id, tc.thread)
		}
		nut := limits(t, tc.thread, "7H")
		require.Greater(t, nut.PitchMin, l.PitchMax, "a 7e screw turns in a 7H nut")
		require.Greater(t, nut.MinorMin, l.MinorMax)
		require.Greater(t, nut.MajorMin, l.MajorMax)
	}
}

func TestUnifiedLimits(t *testing.T) {
	for _, tc := range []struct {
		thread, class                          string
		majorMax, majorMin, pitchMax, pitchMin float64 // inches; a nut has no majorMax
		minorMax, minorMin                     float64 // 0 where the table has none
	}{ // ASME B1.1, table of limits of the standard series, as reproduced in handbooks
		{"0-80 UNF", "2A", 0.0595, 0.0563, 0.0514, 0.0496, 0.0446, 0},
		{"0-80 UNF", "3A", 0.0600, 0.0568, 0.0519, 0.0506, 0.0451, 0},
		{"0-80 UNF", "2B", 0, 0.0600, 0.0542, 0.0519, 0.0514, 0.0465},
		{"1-64 UNC", "2A", 0.0724, 0.0686, 0.0623, 0.0603, 0.0538, 0},
		{"1-64 UNC", "2B", 0, 0.0730, 0.0655, 0.0629, 0.0623, 0.0561},
		{"2-56 UNC", "2A", 0.0854, 0.0813, 0.0738, 0.0717, 0.0642, 0},
		{"2-56 UNC", "2B", 0, 0.0860, 0.0772, 0.0744, 0.0737, 0.0667},
		{"3-48 UNC", "2B", 0, 0.0990, 0.0885, 0.0855, 0.0845, 0.0764},
		{"4-40 UNC", "2B", 0, 0.1120, 0.0991, 0.0958, 0.0939, 0.0849},
		{"10-24 UNC", "2B", 0, 0.1900, 0.1672, 0.1629, 0.156, 0.145},
		{"1/4-20 UNC", "2A", 0.2489, 0.2408, 0.2164, 0.2127, 0, 0},
		{"1/4-20 UNC", "2B", 0, 0.2500, 0.2224, 0.2175, 0.207, 0.196},
		{"3/8-16 UNC", "2B", 0, 0.3750, 0.3401, 0.3344, 0.321, 0.307},
		{"1/2-13 UNC", "2B", 0, 0.5000, 0.4565, 0.4500, 0.434, 0.417},
		{"5/8-11 UNC", "2A", 0.6234, 0.6113, 0.5644, 0.5589, 0, 0},
		{"5/8-11 UNC", "2B", 0, 0.6250, 0.5732, 0.5660, 0.546, 0.527},
		{"5/8-24 UNEF", "2A", 0.6238, 0.6166, 0.5967, 0.5927, 0, 0},
		{"1-8 UNC", "2B", 0, 1.0000, 0.9276, 0.9188, 0.890, 0.865},
		// Class 3B of the same table, from memory; its minor diameters have four places.
		{"0-80 UNF", "3B", 0, 0.0600, 0.0536, 0.0519, 0.0514, 0.0465},
		{"10-32 UNF", "3B", 0, 0.1900, 0.1726, 0.1697, 0.1641, 0.1560},
		{"1/4-20 UNC", "3B", 0, 0.2500, 0.2211, 0.2175, 0.2067, 0.1960},
		{"1/4-28 UNF", "3B", 0, 0.2500, 0.2300, 0.2268, 0.2190, 0.2110},
		{"1/2-13 UNC", "3B", 0, 0.5000, 0.4548, 0.4500, 0.4284, 0.4170},
		{"5/8-11 UNC", "3B", 0, 0.6250, 0.5714, 0.5660, 0.5391, 0.5270},
		{"1-8 UNC", "3B", 0, 1.0000, 0.9254, 0.9188, 0.8797, 0.8650},
	} {
		l := limits(t, tc.thread, tc.class)
		within := 0.00016 // the table rounds each step to four places
		for _, v := range [][2]float64{{tc.majorMax, l.MajorMax}, {tc.majorMin, l.MajorMin}, {tc.pitchMax, l.PitchMax}, {tc.pitchMin, l.PitchMin}} {
			if v[0] > 0 {
				require.InDelta(t, v[0], v[1]/inch, within, "%s %s", tc.thread, tc.class)
			}
		}
		for i, v := range [][2]float64{{tc.minorMax, l.MinorMax}, {tc.minorMin, l.MinorMin}} {
			if v[0] == 0 {
				continue
			}
			within = 0.00016
			if parse(t, tc.thread).Dia > 4.8 && (tc.class == "2B" || tc.class == "3B" && i == 1) {
				within = 0.0006 // three places from No. 10 up; of 3B only the least
			}
			require.InDelta(t, v[0], v[1]/inch, within, "%s %s", tc.thread, tc.class)
		}
	}
}

func TestAcmeLimits(t *testing.T) {
	for _, tc := range []struct {
		id, thread                                       string
		majorMin, pitchMax, pitchMin, minorMax, minorMin float64 // inches
	}{ // ASME B1.5, class 2G, published limits of external threads
		{"Acme 1", "3/8-12 Acme", 0.3700, 0.3284, 0.3161, 0.2817, 0.2632}, {"Acme 2", "1/2-10 Acme", 0.4950, 0.4443, 0.4306, 0.3800, 0.3594},
		{"", "5/8-8 Acme", 0.6188, 0.5562, 0.5408, 0.4800, 0.4570},
		{"Acme 3", "3/4-6 Acme", 0.7417, 0.6598, 0.6424, 0.5633, 0.5371}, {"", "7/8-6 Acme", 0.8667, 0.7842, 0.7663, 0.6883, 0.6615},
		{"", "1-5 Acme", 0.9900, 0.8920, 0.8726, 0.7800, 0.7509},
	} {
		l := limits(t, tc.thread, "2G")
		require.InDelta(t, parse(t, tc.thread).Dia, l.MajorMax, 1e-9, tc.id)
		for _, v := range [][2]float64{{tc.majorMin, l.MajorMin}, {tc.pitchMax, l.PitchMax}, {tc.pitchMin, l.PitchMin}, {tc.minorMax, l.MinorMax}, {tc.minorMin, l.MinorMin}} {
			require.InDelta(t, v[0], v[1]/inch, 0.0012, "%s %s", tc.id, tc.thread)
		}
		nut := limits(t, tc.thread, "2G nut")
		require.Greater(t, nut.PitchMin, l.PitchMax)
	}
}

// What holds for every listed thread in its usual classes.
func TestLimitsOfEverySize(t *testing.T) {
	n := 0
	for _, got := range thread.Sizes() {
		screw, nut := got.Series.Form.UsualClass()
		if screw == "" {
			_, err := got.Limits("6g")
			require.ErrorIs(t, err, thread.ErrClass)
			continue
		}
		s, err := got.Limits(screw)
		if err != nil { // ISO 965-1 and ISO 2903 do not go everywhere
			require.ErrorIs(t, err, thread.ErrClass)
			continue
		}
		h, err := got.Limits(nut)
		if err != nil { // nuts finer than 0.3 mm have no grade 6
			require.ErrorIs(t, err, thread.ErrClass)
			require.Less(t, got.Pitch, 0.3)
			continue
		}
		require.True(t, s.MajorMin < s.MajorMax && s.PitchMin < s.PitchMax && (math.IsNaN(s.MinorMin) || s.MinorMin < s.MinorMax), "%s %+v", got, s)
		require.True(t, h.PitchMin < h.PitchMax && h.MinorMin < h.MinorMax, "%s %+v", got, h)
		require.True(t, s.PitchMax < h.PitchMin && s.MajorMax <= h.MajorMin && s.MinorMax < h.MinorMin, "%s: the screw at its most turns in the nut at its least", got)
		n++
	}
	require.Greater(t, n, 250)
}

// A coarser grade is wider and a further position lower, in every standard.
func TestGradesAndPositionsInOrder(t *testing.T) {
	for _, tc := range []struct {
		thread  string
		classes []string // from narrow to wide
	}{
		{"M10", []string{"3h", "4h", "5h", "6h", "7h", "8h"}}, {"M10", []string{"4H", "5H", "6H", "7H", "8H"}},
		{"1/4-20 UNC", []string{"3A", "2A", "1A"}}, {"1/4-20 UNC", []string{"3B", "2B", "1B"}}, {"10-32 UNF", []string{"3A", "2A", "1A"}},
	} {
		last := 0.0
		for _, class := range tc.classes {
			if class == "3h" || class == "5h" || class == "7h" { // no such grade at the crest: ISO 965-1 has 4, 6 and 8
				class += "6h"
			}
			l := limits(t, tc.thread, class)
			require.Greater(t, l.PitchMax-l.PitchMin, last, "%s %s", tc.thread, class)
			last = l.PitchMax - l.PitchMin
		}
	}
	last := math.Inf(1)
	for _, class := range []string{"6h", "6g", "6f", "6e"} {
		l := limits(t, "M10", class)
		require.Less(t, l.PitchMax, last, class)
		require.InDelta(t, l.MajorMax-10, l.PitchMax-basic(t, "M10").PitchDia, 1e-9, "the position takes the same from both diameters")
		last = l.PitchMax
	}
}

func TestClassRefused(t *testing.T) {
	for _, tc := range []struct{ thread, class, says string }{
		{"M10", "6", "give a class such as 6g"}, {"M10", "6g6h", "give a class such as 6g"}, {"M10", "9H", "has no class"},
		{"M2", "6e", "has no class"}, {"M10x0.5", "6g", "has no class"}, {"M100x2", "6g", "0.99 to 90 mm"},
		{"1/4-20 UNC", "6g", "give 1A, 2A or 3A"}, {"Tr12x3", "6g", "give 7e"}, {"1/4 BSW", "6g", "only the basic sizes"}, {"1/2-10 Acme", "3G", "give 2G"},
	} {
		_, err := parse(t, tc.thread).Limits(tc.class)
		require.ErrorIs(t, err, thread.ErrClass, "%s %s", tc.thread, tc.class)
		require.Contains(t, err.Error(), tc.says)
	}
}

func TestNutClasses(t *testing.T) {
	for class, want := range map[string]bool{"6g": false, "4g6g": false, "6H": true, "4H5H": true, "6G": true, "2A": false, "2B": true, "3B": true, "7e": false, "7H": true, "2G": false, "2G nut": true} {
		require.Equal(t, want, thread.Nut(class), class)
	}
}

func readTable(t *testing.T, file string) []map[string]string {
	t.Helper()
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var all []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, name := range rows[0] {
			m[name] = row[i]
		}
		all = append(all, m)
	}
	return all
}

func float(t *testing.T, cell string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(cell, 64)
	require.NoError(t, err, fmt.Sprintf("cell %q", cell))
	return x
}
