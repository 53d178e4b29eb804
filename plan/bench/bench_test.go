package bench_test

import (
	"testing"

	"fettle/plan/bench"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

// given is what a method is run with that has no Example of its own.
var given = map[string]map[string]string{
	"sleeve_pinned":    {"dia": "10"},
	"sleeve_taper_pin": {"dia": "10", "outside": "18"},
	"sleeve_threaded":  {"dia": "8", "pitch": "1.25", "engagement": "12"},
	"sleeve_bonded":    {"dia": "10", "lap": "15"},
	"sleeve_brazed":    {"dia": "10", "wall": "2", "tensile": "460"},
	"grub_screw":       {"dia": "12"},
	"clamp":            {"dia": "12"},
	"spigot":           {"shank": "10", "thread_dia": "10", "pitch": "1", "outside": "14"},
	"positioning":      {"unit": "um", "up": "1 0 2 1 0; -1 0 -1 -1 -1; -5 -6 -5 -5 -3; 3 3 2 2 3; 8 7 9 7 9", "down": "-8 -8 -9 -9 -8; -11 -10 -11 -9 -9; -16 -15 -12 -14 -14; -7 -6 -6 -6 -7; -3 0 -2 -3 -2"},
	"straightness":     {"unit": "um", "readings": "0 4 9 9 6 2"},
	"squareness":       {"readings": "0 0.004 0.011", "turned": "0 -0.002 -0.003", "along": "100"},
	"uncertainty":      {"readings": "25.003 25.004 25.002", "within": "0.004", "certificate": "0.002"},
	"combine":          {"parts": "0.004:4 0.0006"},
	"before_after":     {"before": "0.12 0.13 0.11 0.12", "after": "0.04 0.05 0.04"},
	"side_force":       {"root": "9", "distance": "40"},
	"which_thread":     {"dia": "5.96", "pitch": "1"},
}

func TestEveryMethod(t *testing.T) {
	keys := map[string]bool{}
	for _, m := range bench.Methods() {
		t.Run(m.Key, func(t *testing.T) {
			require.False(t, keys[m.Key], "listed twice")
			keys[m.Key] = true
			require.Contains(t, bench.Fields, m.Field)
			typed := m.Example
			if typed == nil {
				typed = given[m.Key]
			}
			c, err := m.Run(typed)
			require.NoError(t, err, "units balance, names are found")
			require.NotEmpty(t, c.Outputs())
			for _, f := range c.Outputs() {
				e, _ := c.Result.Explain(f.Key, sheet.Planned)
				require.NotEmpty(t, e.Source+e.Note, "%s has no source", f.Key)
				require.True(t, f.Known(), f.Key)
			}
			for _, f := range c.Result.Figures(sheet.Planned) {
				if f.Origin == sheet.Assumed {
					require.NotEmpty(t, f.Note, "%s is assumed without a source", f.Key)
				}
			}
			require.Empty(t, c.Result.Faults())
		})
	}
}
