package bench_test

import (
	"testing"

	"fettle/plan/bench"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

func TestBearingsOnTheBench(t *testing.T) {
	got := shown(t, "bearing_static", entered("bearing", "6001", "static", "2390", "radial", "200", "thrust", "600"))
	require.InEpsilon(t, 420, got["equivalent"], 0.005, "ISO 76: 0.6 Fr + 0.5 Fa")
	require.InEpsilon(t, 5.69, got["safety"], 0.005, "ISO 76, a maker's own rating")
	got = shown(t, "bearing_static", entered("bearing", "6001", "radial", "200", "thrust", "600"))
	require.InEpsilon(t, 0.85*5.69, got["safety"], 0.01, "the catalogue's rating, at its low end")
	got = shown(t, "bearing_static", entered("bearing", "AXK1226", "radial", "0", "thrust", "1000"))
	require.InEpsilon(t, 25.5, got["safety"], 1e-9, "0.85 × 30 kN / 1 kN")

	for _, tc := range []struct {
		name, c0 string
		most     float64
	}{{"6001", "2390", 598}, {"6204", "6600", 3300}, {"6804", "2470", 618}, {"6205", "7850", 3925}} {
		got := shown(t, "bearing_axial", entered("bearing", tc.name, "static", tc.c0))
		require.InEpsilon(t, tc.most, got["axial_most"], 0.005, "published rule: 0.25 or 0.5 of C0")
		require.Equal(t, got["axial_most"], got["axial_sure"])
	}
	verdict := func(thrust string) sheet.Verdict {
		c, err := bench.Run("bearing_axial", entered("bearing", "6001", "static", "2390", "thrust", thrust))
		require.NoError(t, err)
		return c.Result.Checks()[0].Verdict
	}
	require.Equal(t, []sheet.Verdict{sheet.Holds, sheet.Tight, sheet.Fails}, []sheet.Verdict{verdict("400"), verdict("450"), verdict("600")}, "tight above 70 % of 598 N")

	got = shown(t, "bearing_life", entered("bearing", "6008", "dynamic", "16000", "radial", "2000", "thrust", "0"))
	require.InEpsilon(t, 512, got["life"], 0.001, "worked examination answer, ISO 281")
	got = shown(t, "bearing_life", entered("bearing", "6004", "dynamic", "9400", "radial", "1500", "thrust", "0", "speed", "1000"))
	require.InEpsilon(t, 4102.0, got["hours"], 0.005, "computed independently")
	got = shown(t, "bearing_life", entered("bearing", "6001"))
	require.InDelta(t, 10000, got["hours"], 1e-6, "by hand life does not limit, and is not counted further")
	got = shown(t, "bearing_life", entered("bearing", "6208", "static", "34000", "geometry_factor", "12.3", "radial", "8400", "thrust", "3000"))
	require.InEpsilon(t, 9290, got["equivalent"], 0.005, "machine design textbook, its factor 1.2 in the radial load")
	require.InDelta(t, 1.53, got["y"], 0.01, "the same")
	got = shown(t, "bearing_life", entered("bearing", "7001", "radial", "100", "thrust", "300"))
	require.InDelta(t, 0.39*100+0.76*300, got["equivalent"], 1e-9, "ISO 281 table 3, 30°")

	for name, want := range map[string]float64{"6001": 8, "7001": 40, "51101": 140} {
		require.InEpsilon(t, want, shown(t, "bearing_stiffness", entered("bearing", name, "thrust", "100"))["ideal"], 0.15, "computed by hand, an order of magnitude")
	}
}

func TestClearanceLeftOnTheBench(t *testing.T) {
	// 12 js6: ±5.5; bore 0/−8: 13.5 of interference at the most, 2 pressed flat,
	// 0.8 of 11.5 taken. 28 in H7 is never tight.
	got := shown(t, "bearing_clearance_left", entered("shaft", "js6"))
	require.InDelta(t, 0.0135, got["inner.interference"], 1e-12)
	require.InDelta(t, 0.0092, got["inner.taken"], 1e-12)
	require.Zero(t, got["outer.taken"])
	require.InDelta(t, 0.003-0.0092, got["left.min"], 1e-12)
	require.InDelta(t, 0.018, got["left.max"], 1e-12, "ISO 5753-1, and the loosest seat takes nothing")
	c, err := bench.Run("bearing_clearance_left", entered("shaft", "h6", "hole", "H7"))
	require.NoError(t, err)
	require.Equal(t, sheet.Tight, c.Result.Checks()[0].Verdict)
	c, err = bench.Run("bearing_clearance_left", entered("shaft", "n6", "hole", "N7"))
	require.NoError(t, err)
	require.Equal(t, sheet.Fails, c.Result.Checks()[0].Verdict, "below −5 µm")
}

func TestSelectOnTheBench(t *testing.T) {
	in := entered("shaft", "12", "width", "10", "body", "38", "thrust", "300", "closed", "open")
	c, err := bench.Run("bearing_select", in)
	require.NoError(t, err)
	got := shown(t, "bearing_select", in)
	require.Equal(t, 4.0, got["suiting"])
	require.Equal(t, 10.0, got["weighed"])
	require.Equal(t, [3]float64{21, 26, 28}, [3]float64{got["choice_1.od"], got["choice_2.od"], got["choice_3.od"]}, "two F12-21M, two AXK1226, 6001")
	require.InDelta(t, 5, got["choice_3.wall"], 1e-12)
	require.InDelta(t, 510, got["choice_3.allowed"], 1e-9, "0.25 × 0.85 × 2400 N")
	require.Equal(t, 14.0, got["choice_3.shaft_shoulder_least"])
	table, ok := c.Table()
	require.True(t, ok)
	require.Len(t, table.Rows, 10)
	require.Equal(t, []string{"F12-21M, small thrust ball", "12 × 21 × 5", "2", "10", "8.5", "2125", "14 %", "nothing"}, table.Rows[0])
	require.Equal(t, "nothing", table.Rows[3][7])
	require.NotEqual(t, "nothing", table.Rows[4][7])
	none := shown(t, "bearing_select", entered("thrust", "20000"))
	require.Zero(t, none["suiting"], "an answer too")
}

func TestMaterialsOnTheBench(t *testing.T) {
	require.InEpsilon(t, 3.853, shown(t, "material_weight", entered("length", "1000"))["weight"], 0.001, "trade tables: 25 mm round steel bar, 3.85 kg/m")
	got := shown(t, "material", entered("material", "gjl250", "thickness", "20"))
	require.InDelta(t, 195, got["in_wall"], 1e-9, "EN 1561")
	require.InDelta(t, 110.0/(2*1.26), got["shear_modulus"], 1e-9, "E / 2(1 + ν)")
	got = shown(t, "stock_size", nil)
	require.Equal(t, 25.0, got["stock"], "24 and 0.5 on bright bar")
	require.Equal(t, 65.0, got["cut_length"], "40, two faced ends, a cut and 20 in the chuck")
	require.Equal(t, 45.0, got["used_length"])
	got = shown(t, "stock_size", entered("system", "inch", "finished", "17", "pieces", "3"))
	require.InDelta(t, 0.75, got["stock"], 1e-9, "17.5 mm wanted, and 11/16 in is 17.46")
	c, err := bench.Run("stock_size", entered("system", "inch", "finished", "26"))
	require.NoError(t, err)
	table, _ := c.Table()
	require.Equal(t, "1 1/8 in", table.Rows[0][0])
}
