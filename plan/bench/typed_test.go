package bench_test

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fettle/plan/bench"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

// someNumber is a number as a person, or a slip of the finger, may type it.
func someNumber(rng *rand.Rand) string {
	switch rng.IntN(12) {
	case 0:
		return "0"
	case 1:
		return fmt.Sprint(-100 * rng.Float64())
	case 2:
		return "1e-9"
	case 3:
		return "99999"
	}
	return fmt.Sprint(math.Pow(10, 4*rng.Float64()-2))
}

// someInput is an input of any sort: mostly as good shows it.
func someInput(rng *rand.Rand, in bench.Input, good string) string {
	switch {
	case rng.IntN(5) > 0:
		return good
	case len(in.Options) > 0:
		return in.Options[rng.IntN(len(in.Options))].Value
	case !in.Word:
		return someNumber(rng)
	}
	lists := []string{"1 2 3; 4 5 6", "0 0 0", "1 1; 1 1", "1e-9 2e-9 1e-9", "-5 99999 0.001", "7", ";", "±", "a: 52 ±0.03; -14 1e-7 large", "0.02:1 99999:3", "5 0; 5 0.000000002"}
	if rng.IntN(2) == 0 {
		return lists[rng.IntN(len(lists))]
	}
	var b strings.Builder
	for range 1 + rng.IntN(6) {
		b.WriteString(someNumber(rng) + []string{" ", "; ", " ±", ", ", " : "}[rng.IntN(5)])
	}
	return b.String()
}

// someTyped is all inputs of a method.
func someTyped(rng *rand.Rand, m bench.Method) map[string]string {
	typed := maps.Clone(m.Example)
	if typed == nil {
		typed = map[string]string{}
	}
	for _, in := range m.Inputs {
		good, ok := typed[in.Key]
		if !ok {
			good = in.Default
		}
		typed[in.Key] = someInput(rng, in, good)
	}
	return typed
}

// finite holds a calculation to margins and uncertainties that are numbers.
func finite(t *testing.T, m bench.Method, typed map[string]string) (worked bool) {
	t.Helper()
	sound(t, m, typed)
	c, err := m.Run(typed)
	if err != nil {
		return false
	}
	for _, f := range c.Outputs() {
		u := c.Result.Uncertainty(f.Key, sheet.Planned)
		require.False(t, math.IsNaN(u.Std) || math.IsInf(u.Std, 0), "%s of %s %v", f.Key, m.Key, typed)
	}
	for _, k := range c.Result.Checks() {
		require.False(t, math.IsNaN(k.Margin.Value) || math.IsNaN(k.PlusMinus), "%s of %s %v", k.Key, m.Key, typed)
	}
	return true
}

// Slides, joints, readings and chains, with anything typed: a sentence, or figures,
// margins and uncertainties that are finite.
func TestAnythingInRows(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 230)) // the same every time
	for _, m := range fields("Slides", "Joints", "Readings", "Tolerance chains") {
		worked := 0
		for range 60 {
			if finite(t, m, someTyped(rng, m)) {
				worked++
			}
		}
		require.Greater(t, worked, 5, "%s is not always refused", m.Key)
	}
}

func FuzzRows(f *testing.F) {
	for seed := range uint64(50) {
		f.Add(seed)
	}
	some := fields("Slides", "Joints", "Readings", "Tolerance chains")
	f.Fuzz(func(t *testing.T, seed uint64) {
		rng := rand.New(rand.NewPCG(seed, 7))
		m := some[rng.IntN(len(some))]
		finite(t, m, someTyped(rng, m))
	})
}
