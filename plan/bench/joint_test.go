package bench_test

import (
	"fmt"
	"testing"

	"fettle/plan/bench"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

const (
	lbfInNm = 0.1129848290276 // N·m in a lbf·in, exact to the figures given: 4.4482216152605 N × 25.4 mm
	lbfN    = 4.4482216152605
)

func TestPublishedJoints(t *testing.T) {
	for i, p := range []published{
		{"sleeve_brazed", map[string]string{"dia": "10", "wall": "1.27", "tensile": "482.63", "strength": "172.37", "integrity": "0.8"}, "lap_as_strong", 4.45, 0.03, "a brazing alloy maker's handbook: 0.050 in of 70 000 psi wants 0.18 in"},
		{"sleeve_brazed", map[string]string{"dia": "10", "wall": "2", "lap": "12", "strength": "135", "safety": "4"}, "torque", 63.62, 0.005, "by hand: τ π d² L / 2"},
		{"sleeve_pinned", map[string]string{"dia": "10", "pin": "3", "shear": "120"}, "torque", 8.48, 0.005, "double shear, form read in a machine design forum; by hand"},
		{"sleeve_bonded", map[string]string{"dia": "10", "lap": "15", "strength": "25", "derate": "0.5"}, "force", 5890, 0.005, "by hand: area times shear times 0.5"},
		{"sleeve_bonded", map[string]string{"dia": "10", "lap": "15", "strength": "25", "derate": "0.5"}, "torque", 29.45, 0.005, "by hand: area times shear times 0.5"},
		{"sleeve_taper_pin", map[string]string{"dia": "16", "small": "4", "length": "30"}, "large", 4.6, 1e-9, "ISO 2339: 1 : 50, nominal at the small end"},
		{"grub_screw", map[string]string{"screw": "#10", "dia": "10"}, "seating", 36 * lbfInNm, 1e-9, "machine design handbook; agrees with two tables read"},
		{"grub_screw", map[string]string{"screw": "#10", "dia": "10"}, "holding_power", 540 * lbfN, 1e-9, "machine design handbook, from memory"},
		{"grub_screw", map[string]string{"screw": "1/4", "dia": "10"}, "seating", 87 * lbfInNm, 1e-9, "machine design handbook; agrees with two tables read"},
		{"grub_screw", map[string]string{"screw": "1/4", "dia": "10"}, "holding_power", 1000 * lbfN, 1e-9, "machine design handbook, from memory"},
		{"grub_screw", map[string]string{"screw": "5/16", "dia": "10"}, "seating", 165 * lbfInNm, 1e-9, "machine design handbook; agrees with two tables read"},
		{"grub_screw", map[string]string{"screw": "5/16", "dia": "10"}, "holding_power", 1500 * lbfN, 1e-9, "machine design handbook, from memory"},
		{"grub_screw", map[string]string{"screw": "1/4", "dia": "10", "point": "cone", "held": "1"}, "holding", 1070 * lbfN, 1e-9, "a screw maker's guide, read: cone 1.07 of cup"},
		{"clamp", map[string]string{"dia": "12", "bolt_dia": "5", "bolt_torque": "6", "share": "1"}, "bolt_force", 6000, 1e-9, "by hand: 6 N·m / (0.2 · 5 mm)"},
		{"clamp", map[string]string{"dia": "12", "bolt_dia": "5", "bolt_torque": "6", "share": "1"}, "torque", 16.965, 1e-4, "by hand: 0.15 π · 6000 N · 12 mm / 2"},
		{"spigot", map[string]string{"shank": "10", "thread_dia": "10", "pitch": "1"}, "spigot_most", 8.773, 1e-4, "ISO 724: d3 of M10 x 1"},
		{"sleeve_threaded", map[string]string{"dia": "8", "pitch": "1.25", "engagement": "12"}, "torque", 3.716, 1e-3, "by hand: τ π d3³ / 16 with d3 = 6.466, 70 MPa"},
	} {
		t.Run(fmt.Sprint(i, " ", p.method), p.check)
	}
}

func TestVerdictsOfJoints(t *testing.T) {
	for _, tc := range []struct {
		method string
		typed  map[string]string
		check  string
		want   sheet.Verdict
	}{
		{"sleeve_pinned", map[string]string{"dia": "10", "pin": "3", "shear": "100", "hand_torque": "2"}, "carries", sheet.Tight},
		{"sleeve_pinned", map[string]string{"dia": "10", "pin": "3", "hand_torque": "3"}, "carries", sheet.Fails},
		{"sleeve_pinned", map[string]string{"dia": "10", "pin": "4"}, "pin_size", sheet.Fails},
		{"sleeve_pinned", map[string]string{"dia": "16", "hand_torque": "1"}, "shaft", sheet.Holds},
		{"sleeve_pinned", map[string]string{"dia": "10", "outside": "12"}, "sleeve_wall", sheet.Fails},
		{"sleeve_bonded", map[string]string{"dia": "10", "lap": "15"}, "carries", sheet.Holds},
		{"sleeve_bonded", map[string]string{"dia": "10", "lap": "15", "surface": "passive", "gap": "0.12"}, "carries", sheet.Fails},
		{"sleeve_bonded", map[string]string{"dia": "10", "lap": "15", "gap": "0.16"}, "gap_most", sheet.Fails},
		{"sleeve_brazed", map[string]string{"dia": "10", "wall": "2", "lap": "14"}, "lap_long", sheet.Holds},
		{"sleeve_brazed", map[string]string{"dia": "10", "wall": "2", "lap": "5"}, "lap_long", sheet.Tight},
		{"sleeve_brazed", map[string]string{"dia": "10", "wall": "2", "lap": "3"}, "lap_long", sheet.Fails},
		{"sleeve_brazed", map[string]string{"dia": "10", "wall": "2", "lap": "14"}, "lap_short", sheet.Tight},
		{"sleeve_brazed", map[string]string{"dia": "10", "wall": "2", "gap": "0.2"}, "gap_wide", sheet.Fails},
		{"sleeve_threaded", map[string]string{"dia": "8", "pitch": "1.25", "engagement": "8"}, "engaged", sheet.Fails},
		{"spigot", map[string]string{"shank": "10", "thread_dia": "10", "pitch": "1", "spigot": "9"}, "metal", sheet.Fails},
		{"spigot", map[string]string{"shank": "10", "thread_dia": "10", "pitch": "1", "spigot": "8.5", "outside": "14"}, "sleeve_wall", sheet.Holds},
		{"grub_screw", map[string]string{"screw": "M3", "dia": "10"}, "carries", sheet.Fails},
	} {
		c, _ := worked(t, tc.method, tc.typed)
		require.Equal(t, tc.want, verdicts(c)[tc.check], "%s %v", tc.method, tc.typed)
	}
}

// A size that a method proposes carries what was wanted, or the method says so.
func TestProposedSizesCarry(t *testing.T) {
	for _, dia := range []string{"6", "8", "10", "12", "16", "25"} {
		for _, torque := range []string{"0.2", "1", "3", "8"} {
			c, f := worked(t, "sleeve_pinned", map[string]string{"dia": dia, "hand_torque": torque})
			least, most, proposed := f["pin_least"], f["pin_most"], f["pin_proposed"]
			if least <= most {
				require.NotEqual(t, sheet.Fails, verdicts(c)["carries"])
				require.GreaterOrEqual(t, proposed, least)
			} else {
				require.Equal(t, sheet.Fails, verdicts(c)["carries"])
			}
			for _, method := range []string{"sleeve_bonded", "sleeve_brazed"} {
				typed := map[string]string{"dia": dia, "hand_torque": torque}
				if method == "sleeve_brazed" {
					typed["wall"] = "1.5"
				}
				c, _ := worked(t, method, typed)
				require.NotEqual(t, sheet.Fails, verdicts(c)["carries"], "%s %v", method, typed)
			}
		}
	}
}

// The thinnest pin, and the shortest lap, carry exactly what is wanted.
func TestJointsThereAndBack(t *testing.T) {
	_, f := worked(t, "sleeve_pinned", map[string]string{"dia": "12"})
	_, back := worked(t, "sleeve_pinned", map[string]string{"dia": "12", "pin": fmt.Sprint(f["pin_least"])})
	require.InEpsilon(t, f["torque_wanted"], back["torque"], 1e-9)

	_, f = worked(t, "sleeve_bonded", map[string]string{"dia": "12"})
	_, back = worked(t, "sleeve_bonded", map[string]string{"dia": "12", "lap": fmt.Sprint(f["lap_least"])})
	require.InEpsilon(t, f["torque_wanted"], back["torque_allowed"], 1e-9)

	_, f = worked(t, "sleeve_brazed", map[string]string{"dia": "12", "wall": "2"})
	_, back = worked(t, "sleeve_brazed", map[string]string{"dia": "12", "wall": "2", "lap": fmt.Sprint(f["lap_least"])})
	require.InEpsilon(t, f["torque_wanted"], back["torque"], 1e-9)
}

func TestWorkThatCanHurtSaysSo(t *testing.T) {
	for method, word := range map[string]string{"sleeve_brazed": "cadmium", "sleeve_bonded": "skin"} {
		m, ok := bench.Named(method)
		require.True(t, ok)
		require.Contains(t, fmt.Sprint(m.Cautions), word)
	}
}

func TestJointsRefuse(t *testing.T) {
	for _, tc := range []struct {
		method, field string
		typed         map[string]string
	}{
		{"sleeve_pinned", "pin", map[string]string{"dia": "10", "pin": "10"}},
		{"sleeve_pinned", "outside", map[string]string{"dia": "10", "outside": "10"}},
		{"sleeve_threaded", "pitch", map[string]string{"dia": "2", "pitch": "1.75", "engagement": "12"}},
		{"sleeve_bonded", "gap", map[string]string{"dia": "10", "gap": "0.3"}},
		{"clamp", "bolt_torque", map[string]string{"dia": "10", "bolt_dia": "7"}},
		{"spigot", "pitch", map[string]string{"shank": "10", "thread_dia": "10"}},
		{"grub_screw", "screw", map[string]string{"dia": "10", "screw": "M7"}},
	} {
		_, err := bench.Run(tc.method, tc.typed)
		var p bench.Problems
		require.ErrorAs(t, err, &p, "%s %v", tc.method, tc.typed)
		require.Equal(t, tc.field, p[0].Field)
	}
}
