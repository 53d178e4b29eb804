package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/sheet"
)

// 0.05 low and 0.02 high wanted: a shim of 0.07. Pitches of 1 and 0.75: 0.25 a turn.
// 0.15 too high: 0.13 comes off, more than is scraped.
func TestTailstockHeight(t *testing.T) {
	p := built(t, on("tailstock", "tailstock_height", "low", "0.05"))
	comes(t, p, map[string]float64{"pack": 0.07, "per_turn": 0.25, "thin": 0})
	p = built(t, on("tailstock", "tailstock_height", "low", "-0.15"))
	comes(t, p, map[string]float64{"pack": -0.13, "thin": 0.13})
	require.Equal(t, sheet.Tight, verdict(t, p, "tailstock.upgrade_1.thin_check").Verdict)
}

// A throw of 1.5 on a radius of 8, 80 N at 150: over a quarter turn it lifts 1.5; 15°
// before its dead centre it draws with 12 000 / (1.5 sin 15° + 0.12 × 8) = 12 000 /
// 1.34823 = 8900 N and holds 2 × 0.15 × 8900 = 2670 N. A throw of 5 works there with
// 1.294 against the lever, and friction holds 0.96: it springs open, the trap.
func TestCamLock(t *testing.T) {
	p := built(t, on("tailstock", "cam_lock", "wanted", "yes", "throw", "1.5", "dia", "16", "lever", "150", "swing", "90"))
	comes(t, p, map[string]float64{"lift": 1.5, "pull": 8900.56, "holds": 2670.2})
	require.Empty(t, broken(p))
	require.Equal(t, []string{"stays_check"}, broken(built(t, on("tailstock", "cam_lock", "throw", "5", "dia", "16", "lever", "250"))))
	require.Equal(t, []string{"holds_check"}, broken(built(t, on("tailstock", "cam_lock", "throw", "1.5", "dia", "16", "lever", "50"))))
}

// A barrel of 28 and a slot of 6.00 to 6.03: the key is 5.98 and a tool turns by
// 0.05 × 50/14 = 0.179 where the slot is widest. Of 6.00 to 6.005: 0.0893.
func TestQuillKey(t *testing.T) {
	m := tailstockAxis()
	p := built(t, and(m, "quill_key", "wanted", "yes", "slot", "6", "slot_wide", "6.03"))
	comes(t, p, map[string]float64{"key_width": 5.98, "turns": 0.178571})
	require.Equal(t, []string{"turns_check"}, broken(p))
	p = built(t, and(tailstockAxis(), "quill_key", "slot", "6", "slot_wide", "6.005"))
	comes(t, p, map[string]float64{"turns": 0.0892857})
	require.Empty(t, broken(p))
}

// M10 × 1.5 at 15 N·m pulls 15 / (0.2 × 0.010) = 7500 N; its root of 8.160 takes 120 ×
// π/4 × 8.160² = 6275 N: too much, the trap. M12 × 1.75: 6250 N, and 120 × π/4 ×
// 9.853² = 9150.
func TestDrawbar(t *testing.T) {
	p := built(t, with("drawbar", "wanted", "yes", "through", "280", "dia", "10", "pitch", "1.5"))
	comes(t, p, map[string]float64{"long": 292, "pull": 7500, "takes": 6275.1})
	require.Equal(t, []string{"pull_check"}, broken(p))
	require.Equal(t, "M10×1.5-6g", piece(t, p, "1", "bar").Round.Outside[2].Thread)
	p = built(t, with("drawbar", "through", "280", "dia", "12", "pitch", "1.75"))
	comes(t, p, map[string]float64{"pull": 6250, "takes": 9149.6})
	require.Empty(t, broken(p))
	require.Contains(t, asked(p), "a spanner left on it flies off")
}

// 200 mm at 25 m/s: 25 / (π × 0.2) × 60 = 2387 rpm. A spindle of 2500 is too fast.
func TestBackPlates(t *testing.T) {
	p := built(t, with("back_plates", "wanted", "yes", "outside", "200", "recess", "150", "fastest", "2500"))
	comes(t, p, map[string]float64{"turns_most": 2387.32})
	require.Equal(t, []string{"speed_check"}, broken(p))
	register := piece(t, p, "1", "plate").Round.Outside[1].Dia
	require.Equal(t, []float64{150, 0, -0.025}, []float64{register.Nominal, register.Upper, register.Lower}) // ISO 286-2: 150 h6
	require.Empty(t, broken(built(t, with("back_plates", "outside", "200", "fastest", "2000"))))
	// The story of what was turned to a list: the chuck in hand is measured first.
	require.Contains(t, asked(p), "Has the chuck in hand been measured, or only its list?")
}

// Centre height 30 above the slide, holders from 24 to 38: 6 below and 8 above. A tip
// that stands 10 further in starts discs on 2 (88 − 14) = 148, where it was 2 (88 − 4)
// = 168. A holder that goes no lower than 30.2 is the trap.
func TestLargerToolpost(t *testing.T) {
	p := built(t, with("larger_toolpost", "wanted", "yes", "centre", "30", "lowest", "24", "highest", "38", "closer", "10"))
	comes(t, p, map[string]float64{"below": 6, "above": 8, "starts": 148, "start_disc": 148, "tip_past_axis": 14})
	require.Empty(t, broken(p))
	require.Equal(t, []string{"low_check"}, broken(built(t, with("larger_toolpost", "centre", "30", "lowest", "30.2", "highest", "38"))))
	is(t, built(t, with("larger_toolpost")), map[string]float64{"cross.start_disc": 168})
	// Travel and tool post together: 12 more travel gives back 24 of it.
	is(t, built(t, and(with("larger_toolpost", "closer", "10"), "extend_travel", "end", "plus", "amount", "12", "do.front_wall_nut", "cut_front_wall")), map[string]float64{"cross.start_disc": 172})
}

// The story of the tool that still chattered when travel was gained: what is wanted
// is asked before the post is bought.
func TestStoryRealNeed(t *testing.T) {
	p := built(t, with("larger_toolpost", "wanted", "yes"))
	o := stepNamed(t, p.Site("1").Make(p.Result), "measure_height")
	require.Contains(t, o.Asks[0], "A solid plinth in its place may be what is wanted")
	// What is bought waits for that step.
	require.Equal(t, "measure_height", p.Site("1").Make(p.Result).Buy[0].Confirm)
}

// 1400 rpm over 60 and 150, 300 apart: 560 rpm; 600 + π 105 + 90²/1200 = 936.6; 180 −
// 2 arcsin 0.15 = 162.7°. 30 to 250 at 160: 180 − 2 arcsin 0.6875 = 93.1°, it slips.
func TestSpeedBelts(t *testing.T) {
	p := built(t, with("speed_belts", "speed", "1400", "driver", "60", "driven", "150", "centres", "300"))
	comes(t, p, map[string]float64{"turns": 560, "belt": 936.617, "wrap": 162.746})
	require.Empty(t, broken(p))
	p = built(t, with("speed_belts", "speed", "1400", "driver", "30", "driven", "250", "centres", "160"))
	comes(t, p, map[string]float64{"wrap": 93.13})
	require.Equal(t, []string{"wrap_check"}, broken(p))
	require.Equal(t, []string{"apart_check"}, broken(built(t, with("speed_belts", "driver", "100", "driven", "120", "centres", "105"))))
	require.Contains(t, asked(p), "competent electrician")
}

// A brass pin of 3 across 16: 0.65 × 400 = 260 MPa over two sections, 260 × 2 × π/4 ×
// 3² × 8 = 29 405 N·mm. It outlasts 1.5 × 15, and goes before 40 / 1.25 = 32. A key
// that bears 30 is broken first: the trap.
func TestFeedTrip(t *testing.T) {
	p := built(t, with("feed_trip", "wanted", "yes", "pin", "3", "dia", "16", "works", "15", "bears", "40"))
	comes(t, p, map[string]float64{"breaks": 29.405})
	require.Empty(t, broken(p))
	require.Equal(t, []string{"protects_check"}, broken(built(t, with("feed_trip", "pin", "3", "dia", "16", "works", "15", "bears", "30"))))
	require.Equal(t, []string{"outlasts_check"}, broken(built(t, with("feed_trip", "pin", "3", "dia", "16", "works", "25", "bears", "60"))))
}

// What moves is 200 long and goes 88: 200 + 88 + 2 × 50 = 388.
func TestTraysGuards(t *testing.T) {
	p := built(t, with("trays_guards", "moves", "200", "goes", "88", "tray", "350"))
	comes(t, p, map[string]float64{"tray_least": 388})
	require.Equal(t, []string{"tray_check"}, broken(p))
	require.Empty(t, broken(built(t, with("trays_guards", "moves", "200", "goes", "88", "tray", "400"))))
}

// Collars 150 apart, 25.03 and 25.00, 105 high, feet 600 by 250: the tool moved 0.015,
// the bed turned by 0.015/105 over 150, four times that over the feet: 0.015/105 × 4 ×
// 250 = 0.143 under a foot.
func TestLevelling(t *testing.T) {
	p := built(t, with("levelling", "far", "25.03", "near", "25", "apart", "150", "height", "105", "feet_long", "600", "feet_wide", "250"))
	comes(t, p, map[string]float64{"taper": 30, "twist": 0.142857, "shim": 0.142857})
	require.Contains(t, answer(p, "1"), "begin with half of it")
}

// A lead of 4 on 30 teeth, two taken: 0.267. A pin of 12 in 12.05 shakes.
func TestShaperFeed(t *testing.T) {
	p := built(t, on("shaper_ram", "shaper_feed", "wanted", "yes", "lead", "4", "teeth", "30", "taken", "2", "pin", "12", "hole", "12.05"))
	comes(t, p, map[string]float64{"feed": 0.266667, "pin_play": 0.05})
	require.Equal(t, []string{"pin_check"}, broken(p))
	require.Empty(t, broken(built(t, on("shaper_ram", "shaper_feed", "pin", "12", "hole", "12.01"))))
}

// A lead of 1 on 200 lines: 5 µm. A wheel of 175 at 3000 rpm: π × 0.175 × 50 = 27.5
// m/s; one that is marked 25 must not be run.
func TestSmallGrinder(t *testing.T) {
	p := built(t, on("grinder_table", "small_grinder", "lead", "1", "divisions", "200", "dial_dia", "70", "wheel", "175", "turns", "3000", "marked", "35"))
	comes(t, p, map[string]float64{"per_division": 5, "rim": 27.489, "spacing": 1.09956})
	require.Empty(t, broken(p))
	p = built(t, on("grinder_table", "small_grinder", "wheel", "175", "turns", "3000", "marked", "25"))
	require.Equal(t, []string{"rim_check"}, broken(p))
	require.Equal(t, sheet.Stop, verdict(t, p, "grinder_table.upgrade_1.rim_check").Level)
}

// ISO 13857, from memory, unchecked: slots up to 4 want 2, 6 want 10, 8 want 20, 10
// want 80, 12 want 100, 20 want 120, wider ones 850 mm.
func TestGuards(t *testing.T) {
	for opening, want := range map[string]float64{"4": 2, "6": 10, "8": 20, "10": 80, "12": 100, "12.1": 120, "20": 120, "21": 850} {
		comes(t, built(t, with("guards", "opening", opening)), map[string]float64{"behind_least": want})
	}
	require.Equal(t, []string{"reach_check"}, broken(built(t, with("guards", "opening", "12", "behind", "90"))))
}

// The stories of what was not written down, not measured before, and cut up: before
// the strip there are readings, at the strip a record, and the old parts are kept.
func TestStoriesOfRecords(t *testing.T) {
	p := built(t, with("scraping", "wanted", "yes"))
	mk := p.Site("1").Make(p.Result)
	require.Equal(t, "readings_before", mk.Steps[0].Key)
	require.Contains(t, stepNamed(t, mk, "slide_off").Record, "with a photo")
	require.Equal(t, "readings, after", mk.Steps[len(mk.Steps)-1].Record)
	p = built(t, with("own_machine", "wanted", "yes"))
	require.Contains(t, asked(p), "Keep the old parts")
}
