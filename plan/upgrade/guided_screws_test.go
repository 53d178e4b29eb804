package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/sheet"
)

// The lathe's thread is 134 long. Worn from 20 to 60 of the handle's end, 40 of it
// come to 74 to 114 the other way round: none again. Worn in the very middle, 47 to
// 87, all 40 come back to where they were: the trap. The root of M12 × 1.5 is
// 12 − 1.226869 × 1.5 = 10.16 (ISO 68-1), the shank 10: a spigot of 10, 15 deep.
func TestScrewTurned(t *testing.T) {
	p := built(t, with("screw_turned", "wanted", "yes", "worn_from", "20", "worn_to", "60"))
	comes(t, p, map[string]float64{"worn_again": 0, "root": 10.1597, "spigot": 10, "lap": 15})
	require.Empty(t, broken(p))

	p = built(t, with("screw_turned", "wanted", "yes", "worn_from", "47", "worn_to", "87"))
	comes(t, p, map[string]float64{"worn_again": 40})
	require.Equal(t, []string{"worn_check"}, broken(p))
	require.Contains(t, answer(p, "1"), "This does not hold: turning it round brings fresh thread")
	require.Contains(t, asked(p), "Is it worn in the middle?")

	// Two that want the one screw are both named.
	p = built(t, and(with("screw_turned", "wanted", "yes"), "screw_turned", "wanted", "yes"))
	require.Equal(t, "Screw turned end for end, Cross slide", p.Result.Conflicts()[0].First)
}

// A screw of M12 × 1.5 whose free end is 88 long: w = 7850 × 9.80665 × π/4 × 10.16² =
// 0.006241 N/mm, I = π/64 × 10.16⁴ = 522.99 mm⁴. Free, it hangs w L⁴/8 E I =
// 0.006241 × 88⁴ / (8 × 206 000 × 522.99) = 0.434 µm; held, 8/184.6 of that.
func TestScrewTail(t *testing.T) {
	p := built(t, with("screw_tail", "wanted", "yes", "runout", "0.05"))
	comes(t, p, map[string]float64{"hangs": 0.43425, "hangs_held": 0.018819})
	require.Empty(t, broken(p))
	require.Equal(t, []string{"straight_check"}, broken(built(t, with("screw_tail", "runout", "0.2"))), "a bent screw in a third bearing")
	require.Equal(t, 12.0, piece(t, p, "1", "bush").Round.Left[0].Dia.Nominal)
}

// 30 folded in a room of 22 takes 8 of the travel; 88 + 22 = 110 must be spanned at
// the other end, and a cover that opens to 100 does not: the trap.
func TestScrewCovers(t *testing.T) {
	p := built(t, with("screw_covers", "fold", "30", "room", "22", "open", "100"))
	comes(t, p, map[string]float64{"lost": 8, "span": 110})
	require.Equal(t, []string{"span_check"}, broken(p))
	require.Equal(t, sheet.Tight, verdict(t, p, "cross.upgrade_1.lost_check").Verdict)
	require.Empty(t, broken(built(t, with("screw_covers", "fold", "30", "room", "22", "open", "120"))))
}

// Not measured: no verdict, and the answer names what is to be given.
func TestScrewCoversNotMeasured(t *testing.T) {
	p := built(t, with("screw_covers", "fold", "30"))
	require.Equal(t, sheet.Unmeasured, verdict(t, p, "cross.upgrade_1.span_check").Verdict)
	require.Contains(t, answer(p, "1"), "Give the room for the folded cover, and what follows from it is shown here.")
}

// A carriage with a pinion of module 1 and 14 teeth moves π × 14 = 43.98 a turn. A
// line of 0.5 asks for 87.96: 88 lines read 100 × (88 − 87.965)/87.965 = 0.040 wrong
// over 100, and stand π 60/88 = 2.142 apart. The middle class's own, π × 1.25 × 16 /
// 3 = 20.944, asks for 209.44 lines of 0.1: 209 are 0.210 wrong, the trap; a gear of
// 20.944/20 = 1.0472 makes a turn of the dial 20.
func TestCarriageDial(t *testing.T) {
	m := on("carriage", "carriage_dial", "wanted", "yes", "value", "0.5", "dial_dia", "60")
	for i := range m.Axes[0].Parts {
		if p := &m.Axes[0].Parts[i]; p.Role == "pinion" {
			p.Entries["module"], p.Entries["teeth"] = entry("1"), entry("14")
		}
	}
	m.Axes[0].Entries["gear_ratio"] = entry("1")
	p := built(t, m)
	comes(t, p, map[string]float64{"lines": 88, "off": 0.04026, "spacing": 2.14200, "gear": 1.09956})
	require.Empty(t, broken(p))

	p = built(t, on("carriage", "carriage_dial", "wanted", "yes", "value", "0.1", "dial_dia", "60"))
	comes(t, p, map[string]float64{"lines": 209, "off": 0.20993, "gear": 1.04720, "spacing": 0.90189})
	require.Equal(t, []string{"off_check"}, broken(p))
}

// A screw of 1 mm and 50 lines: 0.02 a line, π 25/50 = 1.571 apart on 25 mm. The body
// takes 20 of 88: 68 are left; 90 leave nothing.
func TestStops(t *testing.T) {
	p := built(t, with("stops", "wanted", "yes", "lead", "1", "divisions", "50", "dial_dia", "25", "takes", "20"))
	comes(t, p, map[string]float64{"per_division": 0.02, "spacing": 1.5708, "left": 68})
	require.Empty(t, broken(p))
	require.Contains(t, asked(p), "never what ends a power feed")
	require.Equal(t, []string{"spacing_check", "left_check"}, broken(built(t, with("stops", "divisions", "100", "dial_dia", "20", "takes", "90"))))
}

// A rod of 12 at 100: I = π/64 × 12⁴ = 1017.9, 1.5 × 100³ / (3 × 206 000 × 1017.9) =
// 2.385 µm, too much; of 16: I = 3217, 0.7545 µm.
func TestGaugeHolder(t *testing.T) {
	p := built(t, with("gauge_holder", "rod", "12", "reach", "100"))
	comes(t, p, map[string]float64{"gives": 2.3846})
	require.Equal(t, []string{"gives_check"}, broken(p))
	p = built(t, with("gauge_holder", "rod", "16", "reach", "100"))
	comes(t, p, map[string]float64{"gives": 0.75449})
	require.Empty(t, broken(p))
}

// Bearings 200 apart, 8 K warmer: 200 × 8 × 11.5 × 10⁻⁶ = 18.4 µm.
func TestSpindleBearings(t *testing.T) {
	p := built(t, with("spindle_bearings", "wanted", "yes", "apart", "200"))
	comes(t, p, map[string]float64{"grows": 18.4})
	require.Contains(t, answer(p, "1"), "Warm, the spindle is 18.4 µm longer")
	p = built(t, with("spindle_bearings"))
	require.Contains(t, answer(p, "1"), "Give the distance of the bearings from one another, and what follows from it is shown here.")
}

// The story of a preload that was too high, a hot head and a seized spindle: it is
// run in for 20 minutes, the temperature written down, and a question asked.
func TestStoryHotBearings(t *testing.T) {
	p := built(t, with("spindle_bearings", "wanted", "yes"))
	o := stepNamed(t, p.Site("1").Make(p.Result), "run_in")
	require.Contains(t, o.Record, "temperature every five minutes")
	require.NotEmpty(t, o.Asks)
}
