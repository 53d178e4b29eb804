package bench_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"fettle/plan/bench"
	"fettle/plan/sheet"

	"github.com/stretchr/testify/require"
)

// What people, and others, type.
var anything = []string{"", "0", "1", "2", "3", "10", "12.5", "40", "100", "127", "1000", "1e-9", "1e-200", "-1", "-0.5", "1e5", "1e12", "1/8 in", "0.001 in", "15 thou", "9,5",
	"30°", "0.15", "75 %", "600 N", "2 N·m", "abc", "∞", "NaN", "1e400", "\x00", "M10", "M5x0.8 LH", "Tr40x14(P7)", "Sq 12x3", "1/4-20 UNC", "2BA", "1/2-10 Acme 3 starts",
	"6g", "6H", "2A", "15 16 17", "18", "0 0", "fixed-free", "standard", "nut", "55", "yes", "6001", "688ZZ", "AXK1226", "H7", "g6", "gjl250"}

// sound: whatever was typed, there is an answer of finite figures and whole
// tables, or problems that name inputs of the method.
func sound(t *testing.T, m bench.Method, in map[string]string) {
	t.Helper()
	c, err := m.Run(in)
	if err != nil {
		var problems bench.Problems
		require.True(t, errors.As(err, &problems), "%s %v: %v", m.Key, in, err)
		require.NotEmpty(t, problems)
		for _, p := range problems {
			require.NotEmpty(t, p.Say)
		}
		return
	}
	for _, f := range c.Outputs() {
		require.False(t, math.IsNaN(f.Value) || math.IsInf(f.Value, 0), "%s %v: %s is %v", m.Key, in, f.Key, f.Value)
		require.NotEmpty(t, f.Source+f.Note, "%s %v: %s has no source", m.Key, in, f.Key)
	}
	before := make([]float64, 0, len(m.Outputs))
	for _, f := range c.Outputs() {
		before = append(before, f.Value)
	}
	for _, k := range c.Result.Checks() {
		require.NotEmpty(t, k.Sentence)
		require.NotEqual(t, sheet.Unmeasured, k.Verdict, "%s %v: %s", m.Key, in, k.Key)
	}
	if table, ok := c.Table(); ok {
		require.NotEmpty(t, table.Source, m.Key)
		for _, row := range table.Rows {
			require.Len(t, row, len(table.Header), m.Key)
			for _, cell := range row {
				require.NotContains(t, cell, "NaN", "%s %v", m.Key, in)
			}
		}
	}
	for i, f := range c.Outputs() {
		require.Equal(t, before[i], f.Value, "%s: the table changed %s", m.Key, f.Key)
	}
}

func fields(names ...string) (some []bench.Method) {
	for _, m := range bench.Methods() {
		for _, name := range names {
			if m.Field == name {
				some = append(some, m)
			}
		}
	}
	return some
}

func TestAnythingTyped(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1871)) // the same every time
	for _, m := range fields("Limits and fits", "Rolling bearings", "Threads", "Feed screws", "Dials", "Materials and stock") {
		t.Run(m.Key, func(t *testing.T) {
			worked := 0
			for range 400 {
				in := map[string]string{}
				for key, v := range m.Example {
					in[key] = v
				}
				for range 1 + rng.IntN(3) {
					i := m.Inputs[rng.IntN(len(m.Inputs))]
					in[i.Key] = anything[rng.IntN(len(anything))]
					if n := len(i.Options); n > 0 && rng.IntN(3) > 0 {
						in[i.Key] = i.Options[rng.IntN(n)].Value
					}
				}
				sound(t, m, in)
				if _, err := m.Run(in); err == nil {
					worked++
				}
			}
			require.Greater(t, worked, 10, "the words are not all refused")
		})
	}
}

func FuzzRun(f *testing.F) {
	for i := range anything {
		f.Add(uint8(i), uint8(i), anything[i], anything[(i*7+3)%len(anything)])
	}
	mine := fields("Threads", "Feed screws", "Dials")
	f.Fuzz(func(t *testing.T, method, input uint8, a, b string) {
		m := mine[int(method)%len(mine)]
		in := map[string]string{}
		for key, v := range m.Example {
			in[key] = v
		}
		n := len(m.Inputs)
		in[m.Inputs[int(input)%n].Key] = a
		in[m.Inputs[(int(input)/n+1)%n].Key] = b
		sound(t, m, in)
	})
}
