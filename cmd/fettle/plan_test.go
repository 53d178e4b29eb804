package main

import (
	"cmp"
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fettle/plan/bench"
	"fettle/plan/demo"
	"fettle/plan/exchange"

	"github.com/stretchr/testify/require"
)

// lathe is the demo lathe as a file.
func lathe(t *testing.T) string {
	t.Helper()
	file, err := demo.File("lathe")
	require.NoError(t, err)
	name := filepath.Join(t.TempDir(), "lathe.json")
	require.NoError(t, os.WriteFile(name, file, 0o600))
	return name
}

// What the demo asks for and gets stands in the layout of the lathe: a slide
// with 1.5 to spare at the dial asks for 10.5 where 12 are wanted.
func TestPlanForReading(t *testing.T) {
	stdout, stderr, code := call(t, nil, "plan", "-set", "1.amount=12", lathe(t))
	require.Empty(t, stderr)
	require.Zero(t, code, "nothing fails")
	for _, line := range []string{"26 mm → 36.5 mm (+10.5)", "36 mm → 25.5 mm (−10.5)", "23 mm → 11 mm (−12)", "to 15 mm, at most"} {
		require.Contains(t, stdout, line)
	}
}

func TestPlanExitsByWhatItFinds(t *testing.T) {
	file := lathe(t)
	broken := filepath.Join(t.TempDir(), "broken.json")
	require.NoError(t, os.WriteFile(broken, []byte(`{"format":"fettle machine","version":1,"machine":{"name":"x",}}`), 0o600))
	for _, tc := range []struct {
		name string
		args []string
		code int
		say  string
	}{
		{"a failing check", []string{"-set", "1.amount=16", file}, 1, "1 check fails"},
		{"an amount that cannot be read", []string{"-set", "1.amount=twelve", file}, 2, "upgrade 1, amount: "},
		{"no such upgrade", []string{"-set", "9.amount=12", file}, 2, `no upgrade "9"`},
		{"a setting without a value", []string{"-set", "1.amount", file}, 2, "write ID.NAME=VALUE"},
		{"broken JSON", []string{broken}, 2, "1:62"},
		{"no file", nil, 2, "give one file"},
		{"a file that is not there", []string{file + ".not"}, 2, "no such file"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			_, stderr, code := call(t, nil, append([]string{"plan"}, tc.args...)...)
			require.Equal(t, tc.code, code, stderr)
			require.Contains(t, stderr, tc.say)
		})
	}
}

func TestPlanAsJSON(t *testing.T) {
	stdout, _, code := call(t, nil, "plan", "-json", "-set", "1.amount=12", lathe(t))
	require.Zero(t, code)
	var got report
	require.NoError(t, json.Unmarshal([]byte(stdout), &got))
	by := map[string]quantity{}
	for _, q := range got.Quantities {
		by[q.Key] = q
	}
	bracket := by["cross.bracket.length"]
	require.Equal(t, 26.0, *bracket.Now)
	require.Equal(t, 36.5, *bracket.Planned)
	require.Equal(t, "mm", bracket.Unit)
	require.NotEmpty(t, bracket.Label)
	require.NotEmpty(t, bracket.Causes)
	require.Greater(t, *bracket.Uncertainty, 0.0)
	travel := by["cross.travel"]
	require.Nil(t, travel.Planned, "a tray that is not measured may end it earlier")
	require.InDelta(t, 88, *travel.AtLeast, 1e-9)
	require.InDelta(t, 100, *travel.AtMost, 1e-9)
	require.Zero(t, got.Failing)
}

func TestPlanLeavesDraftsOut(t *testing.T) {
	stdout, _, code := call(t, nil, "plan", lathe(t))
	require.Zero(t, code)
	require.Contains(t, stdout, "Nothing is planned")
	require.NotContains(t, stdout, "Knock-ons")
}

// ISO 286-2:2010: 25 H7 is +21/0 µm, 25 g6 is −7/−20 µm; the rest is arithmetic.
func TestBenchFit(t *testing.T) {
	stdout, stderr, code := call(t, nil, "bench", "fit", "size=25", "hole=H7", "shaft=g6", "-json")
	require.Zero(t, code, stderr)
	var got exchange.Figures
	require.NoError(t, json.Unmarshal([]byte(stdout), &got))
	require.Equal(t, "fit", got.Method)
	for key, mm := range map[string]float64{"hole.upper": 0.021, "hole.lower": 0, "shaft.upper": -0.007, "shaft.lower": -0.020, "clearance.max": 0.041, "clearance.min": 0.007} {
		require.Contains(t, got.Outputs, key)
		require.InDelta(t, mm, *got.Outputs[key].Value, 1e-12, key)
		require.Equal(t, "mm", got.Outputs[key].Unit, key)
	}
	require.NotContains(t, stdout, "-0,", "nothing has no sign")
}

func TestBenchLists(t *testing.T) {
	stdout, _, code := call(t, nil, "bench")
	require.Zero(t, code)
	require.Contains(t, stdout, "side_force")
	stdout, _, code = call(t, nil, "bench", "side_force")
	require.Zero(t, code)
	require.Contains(t, stdout, "misalignment")
	require.Contains(t, stdout, "0.1 where nothing is given")
	require.Contains(t, stdout, "side force: N", "an output with its unit")
	_, stderr, code := call(t, nil, "bench", "side_force", "root=x", "distance=40")
	require.Equal(t, 2, code)
	require.True(t, strings.HasPrefix(stderr, "fettle: root: "), stderr)
	_, stderr, code = call(t, nil, "bench", "polish")
	require.Equal(t, 2, code)
	require.Contains(t, stderr, "no method")
}

// What work can hurt is told with the figures, and a method's list stands under them; neither is in the JSON.
func TestBenchTellsCautionsAndLists(t *testing.T) {
	stdout, _, code := call(t, nil, "bench", "tapping_drill", "thread=M6")
	require.Zero(t, code)
	m, ok := bench.Named("tapping_drill")
	require.True(t, ok)
	require.NotEmpty(t, m.Cautions)
	require.Greater(t, strings.Index(stdout, "\nCautions\n  "+m.Cautions[0]), strings.Index(stdout, "thread with it"), "after the outputs")
	require.Contains(t, stdout, "stock drills near it")
	require.Regexp(t, `(?m)^  5\.2 mm +5\.200 +0\.2047 +74 % +62 %$`, stdout)
	about, _, code := call(t, nil, "bench", "tapping_drill")
	require.Zero(t, code)
	require.Contains(t, about, m.Cautions[0])
	none, _, code := call(t, nil, "bench", "side_force", "root=9", "distance=40")
	require.Zero(t, code)
	require.NotContains(t, none, "Cautions")
	asJSON, _, code := call(t, nil, "bench", "tapping_drill", "-json")
	require.Zero(t, code)
	var keys map[string]json.RawMessage
	require.NoError(t, json.Unmarshal([]byte(asJSON), &keys))
	require.ElementsMatch(t, []string{"method", "inputs", "outputs", "checks"}, slices.Collect(maps.Keys(keys)))
}

// Whatever the method: it is described, worked out and told without a fault.
func TestBenchTellsEveryMethod(t *testing.T) {
	for _, m := range bench.Methods() {
		stdout, _, code := call(t, nil, "bench", m.Key)
		require.Zero(t, code, m.Key)
		require.Contains(t, stdout, m.Purpose)
		args := []string{"bench", m.Key, m.Inputs[0].Key + "=" + cmp.Or(m.Example[m.Inputs[0].Key], m.Inputs[0].Default)}
		for key, value := range m.Example {
			args = append(args, key+"="+value)
		}
		stdout, stderr, code := call(t, nil, args...)
		require.Zero(t, code, "%s: %s", m.Key, stderr)
		c, err := m.Run(m.Example)
		require.NoError(t, err)
		for _, f := range c.Outputs() {
			require.Contains(t, stdout, f.Label, m.Key)
		}
	}
}
