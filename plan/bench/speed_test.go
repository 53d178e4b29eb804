package bench_test

import (
	"slices"
	"testing"
	"time"

	"fettle/plan/bench"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

// BenchmarkAllMethods works every method out once as it is shown: with its
// defaults or its example, the uncertainty of each output, its checks and its
// list. The three that take longest are named, each with what it takes.
func BenchmarkAllMethods(b *testing.B) {
	methods := bench.Methods()
	spent := make([]time.Duration, len(methods))
	for b.Loop() {
		for i, m := range methods {
			start := time.Now()
			c, err := m.Run(m.Example)
			require.NoError(b, err, m.Key)
			for _, f := range c.Outputs() {
				c.Result.Uncertainty(f.Key, sheet.Planned)
			}
			c.Result.Checks()
			c.Table()
			spent[i] += time.Since(start)
		}
	}
	order := make([]int, len(methods))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int { return int(spent[j] - spent[i]) })
	for _, i := range order[:3] {
		b.ReportMetric(float64(spent[i].Microseconds())/float64(b.N), methods[i].Key+"-µs")
	}
}
