package bench_test

import (
	"strings"
	"testing"

	"fettle/plan/bench"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

func TestCuttingSpeed(t *testing.T) {
	for _, tc := range []struct {
		id     string
		in     typed
		key    string
		want   float64
		within float64
		source string
	}{
		{"cutting 1", typed{"speed": "30", "dia": "25"}, "turns", 382, 0.01, "n = 1000 v / π d; 30 m/min is within what trade tables give for mild steel"},
		{"cutting 3", typed{"metal": "iron", "speed": "25", "dia": "40"}, "turns", 199, 0.01, "n = 1000 v / π d; 25 m/min is within what trade tables give for cast iron"},
		{"cutting 2", typed{"speed": "30", "dia": "25", "most": "380", "length": "80", "approach": "2", "feed": "0.1", "passes": "3"}, "time", 6.474, 0.001, "(L + approach) / f n, three passes, computed apart from this program"},
		{"", typed{"metal": "mild_steel"}, "cutting_speed", 25, 1e-9, "trade tables: mild steel, high-speed steel, 25 to 45 m/min"},
		{"", typed{"metal": "brass", "tool": "carbide", "cut": "slow"}, "cutting_speed", 45 * 2 * 0.4, 1e-9, "by hand: 45 m/min, twice with carbide, 0.4 for parting"},
		{"", typed{"speed": "100 ft/min", "dia": "1 in"}, "turns", 100 * 12 / 3.14159265, 1e-6, "by hand: 100 feet a minute around an inch"},
	} {
		require.InEpsilon(t, tc.want, valueOf(t, ran(t, "cutting_speed", tc.in), tc.key), tc.within, "%s %s", tc.id, tc.source)
	}
	slow := ran(t, "cutting_speed", typed{"dia": "5", "most": "600"})
	require.InDelta(t, 600, valueOf(t, slow, "turns"), 1e-9, "no faster than the machine turns")
	require.Greater(t, valueOf(t, slow, "turns_most"), valueOf(t, slow, "turns_wanted"))
	_, err := bench.Run("cutting_speed", typed{"metal": "stainless", "work": "drilling"})
	require.ErrorContains(t, err, "speed: give the cutting speed")
	_, err = bench.Run("cutting_speed", typed{"approach": "-1"})
	require.ErrorContains(t, err, "approach: ")
	// What turns half as fast takes twice as long.
	one, two := ran(t, "cutting_speed", typed{"dia": "20"}), ran(t, "cutting_speed", typed{"dia": "40"})
	require.InEpsilon(t, 2*valueOf(t, one, "time"), valueOf(t, two, "time"), 1e-12)
}

func TestAnodise(t *testing.T) {
	c := ran(t, "anodise", typed{"kind": "hard", "film": "25"})
	require.InEpsilon(t, 12.5, valueOf(t, c, "growth"), 1e-9, "half of a hard film grows outward, from memory, within a fifth")
	require.InEpsilon(t, 25, valueOf(t, c, "on_diameter"), 1e-9)
	u := c.Result.Uncertainty("on_diameter", sheet.Planned)
	require.InEpsilon(t, 0.2, u.Worst/0.025, 1e-9, "within a fifth")
	c = ran(t, "anodise", typed{"film": "15", "size": "20"})
	require.InDelta(t, 19.99, valueOf(t, c, "make_to"), 1e-9, "by hand: a third of 15 µm, twice, off an outside")
	c = ran(t, "anodise", typed{"film": "15", "size": "20", "surface": "bore"})
	require.InDelta(t, 20.01, valueOf(t, c, "make_to"), 1e-9, "a bore closes")
	c = ran(t, "anodise", typed{"share": "40 %", "film": "10"})
	require.InDelta(t, 4, valueOf(t, c, "growth"), 1e-9)
	for key, value := range map[string]string{"film": "1 mm", "share": "120"} {
		_, err := bench.Run("anodise", typed{key: value})
		require.ErrorContains(t, err, key+": give a figure from")
	}
	m, _ := bench.Named("anodise")
	require.Contains(t, strings.Join(m.Cautions, " "), "add acid to water")
}

func TestBearingSizes(t *testing.T) {
	got := shown(t, "bearing", entered("bearing", "6001"))
	for key, want := range map[string]float64{"bore": 12, "od": 28, "width": 8, "shaft_shoulder.least": 14, "housing_shoulder.most": 26} {
		require.Equal(t, want, got[key], "%s: ISO 15; a published list has the shoulders", key)
	}
	require.Equal(t, 5.0, shown(t, "bearing", entered("bearing", "688 ZZ"))["width"], "closed ones of small sizes are wider")
	require.Equal(t, 4.0, shown(t, "bearing", entered("bearing", "AXK1226"))["width"], "with its two washers of 1 mm")
	c, err := bench.Run("bearing", entered("bearing", "6001"))
	require.NoError(t, err)
	table, ok := c.Table()
	require.True(t, ok)
	require.Len(t, table.Rows, 10, "every bearing of 12 mm bore")
	_, err = bench.Run("bearing", entered("bearing", "6999"))
	require.ErrorContains(t, err, "not in the catalogue")
}
