package bench_test

import (
	"testing"

	"fettle/plan/bench"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

// runs, read by Inputs that have no default.
var given = map[string]map[string]string{
	"dovetail_male":    {"roller": "6", "narrow": "40", "over": "56.4", "depth": "9"},
	"dovetail_female":  {"roller": "6", "wide": "60", "between": "43.6", "depth": "9"},
	"dovetail_angle":   {"small_roller": "5", "small_reading": "53.66", "large_roller": "6", "large_reading": "56.39"},
	"gib_thickness":    {"slot": "64", "slide_width": "60", "depth": "9"},
	"taper_gib":        {"left": "20"},
	"gib_screws":       {"length": "150", "thickness": "4", "blank": "10"},
	"gib_rollover":     {"thickness": "4", "contact": "12"},
	"slide_support":    {"length": "150", "ways": "141", "past": "25", "width": "60"},
	"slide_jam":        {"length": "120", "offset": "60", "width": "60"},
	"way_pressure":     {"load": "300", "width": "30", "length": "120", "offset": "15"},
	"slide_overhang":   {"overhang": "37", "supported": "113", "width": "60", "height": "20", "ways_width": "30", "overhang_before": "25"},
	"wall_thinned":     {"before": "23", "after": "11", "width": "28", "reach": "20", "force": "300", "iron": "gjl200"},
	"play_swing":       {"play": "0.03", "overhang": "60", "guide": "50"},
	"riser_compliance": {"before": "180", "riser": "60", "face_length": "80", "face_width": "60"},
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
			c, err := m.Run(given[m.Key])
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
