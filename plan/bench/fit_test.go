package bench_test

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"fettle/plan/bench"
	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

// shown runs a method and gives its outputs as they are shown, in their units.
func shown(t *testing.T, key string, typed map[string]string) map[string]float64 {
	t.Helper()
	c, err := bench.Run(key, typed)
	require.NoError(t, err, "%s %v", key, typed)
	got := map[string]float64{}
	for _, f := range c.Outputs() {
		got[f.Key] = f.Unit.In(f.Value)
	}
	return got
}

func entered(pairs ...string) map[string]string {
	m := map[string]string{}
	for i := 0; i < len(pairs); i += 2 {
		m[pairs[i]] = pairs[i+1]
	}
	return m
}

// The one contract that is fixed: keys and signs of limits and fit, in mm.
func TestFitContract(t *testing.T) {
	c, err := bench.Run("fit", entered("size", "25", "hole", "H7", "shaft", "g6"))
	require.NoError(t, err)
	for key, want := range map[string]float64{"hole.upper": 0.021, "hole.lower": 0, "shaft.upper": -0.007, "shaft.lower": -0.020, "clearance.max": 0.041, "clearance.min": 0.007} {
		f, ok := c.Result.Figure(key, sheet.Planned)
		require.True(t, ok, key)
		require.Equal(t, unit.MM.Symbol, f.Unit.Symbol)
		require.InDelta(t, want, f.Value, 1e-12, "%s: ISO 286-2", key)
		require.Contains(t, c.Method.Outputs, key)
		require.Equal(t, unit.MM.Text(want, 3), f.Unit.Text(f.Value, f.Decimals), "%s shows its micrometres", key)
	}
	inch := shown(t, "fit", entered("size", "1 in", "hole", " H 7", "shaft", "p6"))
	require.InDelta(t, -0.035, inch["clearance.min"], 1e-12, "25.4 mm is in 18 to 30: H7/p6")
	table, ok := c.Table()
	require.True(t, ok)
	require.Equal(t, []string{"H7/g6", "clearance", "0.041", "0.007", "as asked for"}, table.Rows[0])
	require.Greater(t, len(table.Rows), 10)
}

func TestPublishedFitsOnTheBench(t *testing.T) {
	for _, tc := range []struct {
		size, hole, shaft string
		most, least       float64
		kind              string
	}{
		{"20", "H7", "g6", 41, 7, "clearance"}, {"25", "H7", "k6", 19, -15, "transition"}, {"12", "H7", "p6", 0, -29, "interference"},
		{"30", "H8", "f7", 74, 20, "clearance"}, {"22", "H7", "n6", 6, -28, "transition"},
	} {
		c, err := bench.Run("fit", entered("size", tc.size, "hole", tc.hole, "shaft", tc.shaft))
		require.NoError(t, err)
		require.InDelta(t, tc.most/1000, c.Result.Value("clearance.max", sheet.Planned), 1e-12, "ISO 286-1 clause 3, limits read in published tables")
		require.InDelta(t, tc.least/1000, c.Result.Value("clearance.min", sheet.Planned), 1e-12)
		table, _ := c.Table()
		require.Equal(t, tc.kind, table.Rows[0][1])
	}
}

func TestSeatsOnTheBench(t *testing.T) {
	const source = "table of bearing and shaft fits, normal class (GB/T 275 style)"
	for _, tc := range []struct {
		bore, class         string
		clearance, pressing float64
	}{{"5", "g6", 12, 4}, {"8", "h6", 9, 8}, {"12", "j6", 3, 16}, {"25", "h6", 13, 10}, {"40", "js6", 8, 20}, {"10", "js6", 4.5, 12.5}, {"15", "g6", 17, 2}} {
		got := shown(t, "fit_seat", entered("size", tc.bore, "class", tc.class))
		require.InDelta(t, tc.clearance/1000, got["clearance.max"], 1e-12, source)
		require.InDelta(t, -tc.pressing/1000, got["clearance.min"], 1e-12, source)
	}
	// A 28 mm ring, 0/−9 by ISO 492, in H7 of 28, +21/0: never tight.
	got := shown(t, "fit_seat", entered("ring", "outer", "size", "28"))
	require.InDelta(t, 0.030, got["clearance.max"], 1e-12)
	require.InDelta(t, 0, got["clearance.min"], 1e-12)
}

func TestHeatAndPressOnTheBench(t *testing.T) {
	// By hand: 22 (23.4 − 11.5) 10⁻⁶ × 40 − 0.008 = 0.00247; 19 (110 − 11.5) 10⁻⁶ × 20 − 0.03 = 0.00743.
	const source = "by hand, at 20 °C as ISO 1 has it"
	got := shown(t, "fit_temperature", entered("size", "22", "clearance", "-8 um", "hole_expansion", "23.4", "shaft_expansion", "11.5", "temperature", "60"))
	require.InEpsilon(t, 0.00247, got["hot.max"], 0.005, source)
	require.Equal(t, got["hot.max"], got["hot.min"])
	got = shown(t, "fit_temperature", entered("size", "19", "clearance", "-0.03", "hole_expansion", "110", "shaft_expansion", "11.5", "temperature", "40"))
	require.InEpsilon(t, 0.00743, got["hot.max"], 0.005, source)
	got = shown(t, "fit_temperature", entered("hole_material", "c45"))
	require.NotContains(t, got, "loose_at", "like materials never part")
	require.Equal(t, got["cold.min"], got["hot.min"])

	got = shown(t, "fit_assembly_temperature", entered("size", "25", "interference", "0.03", "clearance", "0.01", "expansion", "12.5"))
	require.InEpsilon(t, 148.0, got["temperature"], 0.01, source)
	c, err := bench.Run("fit_assembly_temperature", entered("size", "25", "interference", "0.03", "clearance", "0.01", "expansion", "12.5", "part", "bearing"))
	require.NoError(t, err)
	require.Equal(t, sheet.Fails, c.Result.Checks()[0].Verdict, "a bearing may be 110 °C")
	got = shown(t, "fit_assembly_temperature", entered("way", "cool", "size", "24"))
	require.InEpsilon(t, 0.0105, got["freezer"], 0.01, "11.5 × 38 × 24 / 10⁶")
	require.Less(t, got["temperature"], 20.0)

	got = shown(t, "fit_press", entered("interference", "0.03", "hub_roughness", "6", "shaft_roughness", "4"))
	require.InEpsilon(t, 0.022, got["least.effective"], 0.005, "DIN 7190, edition of 2001")
	// One material, solid: E δ / 2d × (1 − d²/D²), smoothed by nothing.
	got = shown(t, "fit_press", entered("size", "40", "outside", "70", "interference", "0.03", "length", "30", "friction", "0.12", "smoothing", "0", "hub_material", "c45", "shaft_material", "c45"))
	require.InEpsilon(t, 52.03, got["most.pressure"], 0.005, "textbook identity")
	require.InEpsilon(t, 102.5, got["most.hoop"], 0.005)
	require.InEpsilon(t, 23540, got["most.force"], 0.005)
	require.InEpsilon(t, 471.0, got["least.torque"], 0.005)
	got = shown(t, "fit_press", entered("size", "25", "outside", "45", "interference", "0.03", "hub_material", "gjl250", "shaft_material", "c45"))
	require.InEpsilon(t, 52.13, got["most.pressure"], 0.005, "two thick cylinders; scipy solve_bvp")
	require.InEpsilon(t, 98.68, got["most.hoop"], 0.005)
	c, err = bench.Run("fit_press", entered("size", "25", "outside", "45", "interference", "0.03", "hub_material", "gjl250"))
	require.NoError(t, err)
	require.Equal(t, sheet.Fails, c.Result.Checks()[0].Verdict, "cast iron may be pulled to a third of 250 MPa")
	got = shown(t, "fit_press", entered("size", "20", "hole", "H7", "shaft", "p6"))
	require.InDelta(t, 0.035, got["most.overlap"], 1e-12)
	require.InDelta(t, 0.001, got["least.overlap"], 1e-12, "ISO 286-2: +21/0 and +35/+22")
	require.Zero(t, got["least.torque"], "next to nothing is left when the peaks are pressed flat")
}

func TestGeneralToleranceOnTheBench(t *testing.T) {
	got := shown(t, "general_tolerance", entered("size", "120", "class", "f"))
	require.Equal(t, 0.15, got["tolerance"], "ISO 2768-1")
	require.Equal(t, 120.15, got["largest"])
	require.InDelta(t, 0.5, shown(t, "general_tolerance", entered("size", "50", "of", "angle"))["angle"], 1e-9, "ISO 2768-1: 30′")
	require.Equal(t, 1.0, shown(t, "general_tolerance", entered("size", "7", "of", "edge"))["tolerance"])
}

// Each refusal is at the input that it is about, and says what is taken.
func TestRefusalsOnTheBench(t *testing.T) {
	for _, tc := range []struct {
		key, field, say string
		typed           map[string]string
	}{
		{"fit", "size", "500", entered("size", "501")},
		{"fit", "hole", "such as H7", entered("hole", "g6")},
		{"fit", "shaft", "begins above 24 mm", entered("shaft", "t6")},
		{"fit", "shaft", "such as g6", entered("shaft", "H7")},
		{"fit", "size", "above 0", entered("size", "-3")},
		{"fit_seat", "size", "180", entered("size", "200")},
		{"fit_seat", "class", "such as g6", entered("class", "H7")},
		{"fit_press", "outside", "more than the diameter", entered("outside", "20")},
		{"fit_press", "bore", "less than the diameter", entered("bore", "40")},
		{"fit_temperature", "temperature", "500", entered("temperature", "5000")},
		{"general_tolerance", "size", "4000", entered("size", "0.2")},
		{"general_tolerance", "size", "has none", entered("size", "2", "class", "v")},
		{"bearing_static", "bearing", "not in the catalogue", entered("bearing", "6999")},
		{"bearing_static", "radial", "no radial load", entered("bearing", "51101", "radial", "5")},
		{"bearing_static", "thrust", "above 0", entered("radial", "0", "thrust", "0")},
		{"bearing_static", "thrust", "0 or more", entered("thrust", "-1")},
		{"bearing_life", "thrust", "half of the static rating", entered("thrust", "2000")},
		{"bearing_stiffness", "bearing", "faces", entered("bearing", "AXK1226")},
		{"bearing_clearance_left", "bore", "2.5 to 40", entered("bore", "50", "outside", "90")},
		{"bearing_clearance_left", "outside", "more than the bore", entered("outside", "12")},
		{"bearing_select", "shaft", "turned down", entered("shaft", "11")},
		{"material_weight", "wall", "half", entered("form", "tube", "across", "5")},
		{"material", "thickness", "5 to 80 mm", entered("thickness", "10")},
		{"stock_size", "finished", "80 mm", entered("finished", "200")},
		{"stock_size", "ends", "from 0 to 2", entered("ends", "3")},
	} {
		c, err := bench.Run(tc.key, tc.typed)
		var problems bench.Problems
		require.ErrorAs(t, err, &problems, "%s %v", tc.key, tc.typed)
		require.Equal(t, tc.field, problems[0].Field, "%s %v: %s", tc.key, tc.typed, problems[0].Say)
		require.Contains(t, problems[0].Say, tc.say)
		for k, v := range tc.typed {
			require.Equal(t, v, c.Typed[k], "what was typed is kept")
		}
	}
}

var ownFields = []string{"Limits and fits", "Rolling bearings", "Materials and stock"}

// Random words and figures never panic, and never give what is no figure.
func FuzzFieldsOfFits(f *testing.F) {
	f.Add(uint(0), "25", "H7", "g6")
	f.Add(uint(3), "1e12", "P9", "1e-12")
	f.Add(uint(7), "0", "", "-1")
	f.Add(uint(9), "6001", "1e300", "inf")
	f.Add(uint(11), "½", "t6", "0x1p4")
	var methods []bench.Method
	for _, m := range bench.Methods() {
		for _, field := range ownFields {
			if m.Field == field {
				methods = append(methods, m)
			}
		}
	}
	f.Fuzz(func(t *testing.T, pick uint, a, b, c string) {
		m := methods[pick%uint(len(methods))]
		texts := []string{a, b, c}
		given := map[string]string{}
		for i, in := range m.Inputs {
			if len(in.Options) > 0 {
				given[in.Key] = in.Options[(int(pick%97)+i)%len(in.Options)].Value
			} else if (pick>>uint(i%16))&1 == 0 {
				given[in.Key] = texts[i%3]
			}
		}
		run, err := m.Run(given)
		if err != nil {
			var problems bench.Problems
			require.True(t, errors.As(err, &problems), "%s: %v", m.Key, err)
			require.NotEmpty(t, problems[0].Say)
			return
		}
		for _, out := range run.Outputs() {
			require.False(t, math.IsNaN(out.Value) || math.IsInf(out.Value, 0), "%s: %s", m.Key, out.Key)
		}
		run.Result.Checks()
		if table, ok := run.Table(); ok {
			for _, row := range table.Rows {
				require.Len(t, row, len(table.Header))
				require.NotContains(t, strings.Join(row, " "), "NaN")
			}
		}
	})
}

// Monotone where physics is: more of one never gives less of the other.
func TestMonotoneOnTheBench(t *testing.T) {
	rises := func(method, input, output string, from, to float64, up bool, fixed ...string) {
		t.Helper()
		last := math.Inf(-1)
		if !up {
			last = math.Inf(1)
		}
		for i := range 12 {
			in := entered(fixed...)
			in[input] = strconv.FormatFloat(from+(to-from)*float64(i)/11, 'g', -1, 64)
			got := shown(t, method, in)[output]
			if up {
				require.GreaterOrEqual(t, got, last, "%s: %s by %s", method, output, input)
			} else {
				require.LessOrEqual(t, got, last, "%s: %s by %s", method, output, input)
			}
			last = got
		}
	}
	rises("fit", "size", "hole.upper", 1.5, 500, true, "shaft", "h6")
	rises("fit_press", "interference", "most.pressure", 0.001, 0.05, true)
	rises("fit_press", "outside", "most.pressure", 41, 120, true, "interference", "0.02")
	rises("fit_press", "bore", "most.pressure", 0, 18, false, "interference", "0.02")
	rises("fit_press", "length", "least.torque", 5, 50, true, "interference", "0.03")
	rises("fit_temperature", "temperature", "hot.min", -40, 120, true)
	rises("bearing_static", "thrust", "safety", 10, 900, false)
	rises("bearing_life", "thrust", "life", 10, 1100, false)
	rises("bearing_life", "speed", "hours", 10, 3000, false)
	rises("bearing_stiffness", "thrust", "stiffness", 1, 500, true)
	rises("material_weight", "across", "weight", 2, 80, true)
	rises("stock_size", "finished", "stock", 1, 75, true)
}
