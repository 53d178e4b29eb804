package bench_test

import (
	"testing"

	"fettle/plan/bench"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

func TestEveryMethod(t *testing.T) {
	keys := map[string]bool{}
	for _, m := range bench.Methods() {
		t.Run(m.Key, func(t *testing.T) {
			require.False(t, keys[m.Key], "listed twice")
			keys[m.Key] = true
			require.Contains(t, bench.Fields, m.Field)
			c, err := m.Run(m.Example)
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
