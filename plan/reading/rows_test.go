package reading_test

import (
	"errors"
	"strings"
	"testing"

	"fettle/plan"
	"fettle/plan/reading"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

func TestRows(t *testing.T) {
	for _, tc := range []struct {
		text string
		u    unit.Unit
		want [][]float64
	}{
		{"0.01 0.02; 0.03", unit.MM, [][]float64{{0.01, 0.02}, {0.03}}},
		{"0,01, -0,02", unit.MM, [][]float64{{0.01, -0.02}}},
		{"10 5", unit.Micrometre, [][]float64{{0.01, 0.005}}},
		{"1thou 0.5in", unit.MM, [][]float64{{0.0254, 12.7}}},
		{" 1\n2 ;\n; 3 ", unit.MM, [][]float64{{1}, {2}, {3}}},
	} {
		got, err := reading.Rows(tc.text, tc.u)
		require.NoError(t, err, tc.text)
		require.Equal(t, len(tc.want), len(got))
		for i := range got {
			require.InDeltaSlice(t, tc.want[i], got[i], 1e-12, tc.text)
		}
	}
	for _, text := range []string{"", " ; ", "a", "0.01,0.02", "1..2", "nan", "inf", "0x10", strings.Repeat("1 ", 41), strings.Repeat("1;", 41)} {
		_, err := reading.Rows(text, unit.MM)
		var p plan.Problem
		require.ErrorAs(t, err, &p, "%q", text)
		require.Contains(t, p.Say, "give", "a sentence that says what is accepted")
	}
	_, err := reading.Row("1 2; 3", unit.MM, 1)
	require.Error(t, err)
	_, err = reading.Row("1 2", unit.MM, 3)
	require.Error(t, err)
}

func FuzzRows(f *testing.F) {
	for _, s := range []string{"", "0.01 0.02; 3", "1-1/4\" 15thou", "−1 +2,5", "1e99"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		rows, err := reading.Rows(s, unit.MM)
		var p plan.Problem
		if err != nil {
			require.True(t, errors.As(err, &p))
			return
		}
		for _, row := range rows {
			require.NotEmpty(t, row)
			for _, x := range row {
				require.LessOrEqual(t, max(x, -x), unit.MaxLength)
			}
		}
	})
}
