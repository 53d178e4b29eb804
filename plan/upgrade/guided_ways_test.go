package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/sheet"
)

// The story of the way that was scraped and the nut that then bound: 0.1 off the
// flats lets the slide down 0.1, and the nut is as much off its screw. At its nearest
// the nut's middle stands 141 − 18 − 88 = 35 from the bracket: 3 × 206 000 × 522.99 ×
// 0.1 / 35³ = 753.8 N. A shim of 0.1 brings it back. The swing over the slide grows
// by 0.2, and its gib's gap by 0.1 cos 60° = 0.05.
func TestStoryScrapedWay(t *testing.T) {
	p := built(t, with("scraping", "wanted", "yes", "removed", "0.1"))
	comes(t, p, map[string]float64{"nut_off": 0.1, "side_force": 753.84, "tool_lower": 0.1, "swing_slide": 118.2, "slide.gib_gap": 4.57, "slide.gib_gap_other": 4.59, "passes": 20})
	require.Equal(t, []string{"nut_check"}, broken(p))
	p = built(t, with("scraping", "wanted", "yes", "removed", "0.1", "shim", "0.1"))
	comes(t, p, map[string]float64{"nut_off": 0, "side_force": 0})
	require.Empty(t, broken(p))
	require.Contains(t, asked(p), "Measure how far the slide has come down")
	// Two axes that are corrected one by one can end out of square: it is asked.
	require.Contains(t, asked(p), "Before the second axis is touched: is this one square to it?")
}

// The story of the lining that lifted the slide: 1.2 more, 2.4 less swing, and a gap
// of 4.52 − 1.2 cos 60° = 3.92: a gib strip planned after it is 3.90 and no longer 4.50.
func TestStoryLining(t *testing.T) {
	alone := built(t, with("gib_strip", "oil", "0.02 mm"))
	is(t, alone, map[string]float64{"cross.gib.thickness": 4.5})
	p := built(t, and(with("way_liner", "wanted", "yes", "lining", "1.2"), "gib_strip", "oil", "0.02 mm"))
	comes(t, p, map[string]float64{"rises": 1.2, "tool_higher": 1.2, "swing_slide": 115.6, "slide.gib_gap": 3.92})
	is(t, p, map[string]float64{"cross.gib.thickness": 3.9})
	require.Equal(t, []string{"nut_check"}, broken(p))
	require.Empty(t, broken(built(t, with("way_liner", "lining", "1.2", "milled", "1.2"))), "as much milled off: nothing moves")
}

// A gap of 0.11 to 0.13: the strip comes up by 0.11 − 0.02 = 0.09, and 0.04 of lift is
// left. A bed worn by 0.14 leaves 0.16: no strip makes up for that.
func TestHoldDowns(t *testing.T) {
	p := built(t, on("carriage", "hold_downs", "gap_least", "0.11", "gap_most", "0.13"))
	comes(t, p, map[string]float64{"take_up": 0.09, "lift": 0.04})
	require.Empty(t, broken(p))
	require.Equal(t, []string{"lift_check"}, broken(built(t, on("carriage", "hold_downs", "gap_least", "0.11", "gap_most", "0.25"))))
}

// 1 off a lip of 12 leaves (11/12)² = 84 % of its strength, 2 leave 69 %.
func TestTableRepair(t *testing.T) {
	p := built(t, on("mill_y", "table_repair", "thick", "12", "skim", "1"))
	comes(t, p, map[string]float64{"lip": 11, "strength_left": 84.028})
	require.Empty(t, broken(p))
	p = built(t, on("mill_y", "table_repair", "wanted", "yes", "thick", "12", "skim", "2"))
	comes(t, p, map[string]float64{"strength_left": 69.444})
	require.Equal(t, []string{"lip_check"}, broken(p))
	// The story of what bowed in the vice, or warped after the cut: it is asked.
	require.Contains(t, asked(p), "Slacken the clamps before the last cut: does it spring?")
}

// A plate of 600 × 160 × 20 in aluminium: 1.92 × 10⁶ mm³ × 2700 kg/m³ = 5.184 kg.
// I = 160 × 20³/12 = 106 667; 200 N at 100 out: 200 × 100³ / (3 × 70 000 × 106 667) =
// 8.93 µm; at 150, 1.5³ times that, 30.1.
func TestAuxiliaryTable(t *testing.T) {
	p := built(t, on("mill_x", "auxiliary_table", "wanted", "yes", "long", "600", "wide", "160", "thick", "20", "out", "100"))
	comes(t, p, map[string]float64{"mass": 5.184, "droop": 8.9286})
	require.Empty(t, broken(p))
	require.Equal(t, 600.0, piece(t, p, "1", "plate").Flat.Length.Nominal)
	p = built(t, on("mill_x", "auxiliary_table", "long", "600", "wide", "160", "thick", "20", "out", "150"))
	comes(t, p, map[string]float64{"droop": 30.134})
	require.Equal(t, []string{"droop_check"}, broken(p))
}

// 105 more on 420: 1.25³ = 1.953 times the bending (elementary beam theory), the nose
// goes from 310 to 415, and no lower than 60 as before. A tube of 80 wants a wall of
// 10: 8 are too thin.
func TestLongColumn(t *testing.T) {
	m := on("column", "long_column", "wanted", "yes", "longer", "105", "dia", "80", "wall", "8")
	for key, typed := range map[string]string{"travel_found": "250", "lowest": "60", "column": "420"} {
		m.Axes[0].Entries[key] = entry(typed)
	}
	p := built(t, m)
	comes(t, p, map[string]float64{"bends": 1.953125, "highest": 415, "lowest_planned": 60})
	require.Equal(t, []string{"wall_check"}, broken(p))
	m.Upgrades[0].Inputs["longer"] = "300" // (720/420)³ = 5.04
	p = built(t, m)
	comes(t, p, map[string]float64{"bends": 5.03790})
	require.Equal(t, []string{"bends_check", "wall_check"}, broken(p))
}

// A nod of 0.2 under 200 N is 1000 N/mm. A plate of 12 × 80 and 400 long is 206 000 ×
// 960/400 = 494 400 N/mm, a fiftieth of it behind its joints, a quarter of that at half
// the throat: 2472. 200 / 3472 = 0.0576 is left.
func TestColumnBrace(t *testing.T) {
	p := built(t, on("column", "column_brace", "wanted", "yes", "nod", "0.2", "section", "960", "long", "400", "arm", "120", "throat", "240"))
	comes(t, p, map[string]float64{"column_stiffness": 1000, "brace_stiffness": 2472, "nod_left": 0.057604})
	require.Equal(t, sheet.Holds, verdict(t, p, "column.upgrade_1.worth_check").Verdict)
	p = built(t, on("column", "column_brace", "nod", "0.2", "section", "100", "long", "400", "arm", "60", "throat", "240")) // 64.4 N/mm: 0.188
	comes(t, p, map[string]float64{"nod_left": 0.18790})
	require.Equal(t, sheet.Tight, verdict(t, p, "column.upgrade_1.worth_check").Verdict)
}

// (0.02 + 0.01) carried out from 120 to 250: 0.0625; from 200: 0.0375.
func TestColumnKey(t *testing.T) {
	p := built(t, on("column_head", "column_key", "play", "0.02", "slant", "0.01", "arm", "120", "reach", "250"))
	comes(t, p, map[string]float64{"shift": 0.0625})
	require.Equal(t, []string{"shift_check"}, broken(p))
	p = built(t, on("column_head", "column_key", "play", "0.02", "slant", "0.01", "arm", "200", "reach", "250"))
	comes(t, p, map[string]float64{"shift": 0.0375})
	require.Empty(t, broken(p))
}

// 30 further down with 12 under the screw: 30 + 10 − 12 = 28; with 50, nothing.
func TestKneeClearance(t *testing.T) {
	comes(t, built(t, on("knee", "knee_clearance", "more", "30", "room", "12")), map[string]float64{"deeper": 28})
	comes(t, built(t, on("knee", "knee_clearance", "more", "30", "room", "50")), map[string]float64{"deeper": 0})
}
