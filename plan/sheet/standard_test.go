package sheet_test

import (
	"fmt"
	"math"
	"testing"

	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

// The end gauge of JCGM 100:2008, annex H.1: a gauge of nominally 50 mm is
// compared with a standard. Inputs are those of table H.1, the split of u(d) in
// H.1.3.2 and of u(θ) in H.1.3.4.
func endGauge(t *testing.T) *sheet.Result {
	const nm = 1e-6 // mm
	perKelvin := unit.Unit{Symbol: "1/K", Dim: unit.Number.Per(unit.TempD), Scale: 1, Decimals: 7}
	kelvin := unit.Unit{Symbol: "K", Dim: unit.TempD, Scale: 1, Decimals: 3}
	return bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		m.Measure(mm("l_s"), normal(50.000623, 25*nm))
		m.Measure(mm("d_mean"), normal(215*nm, 5.8*nm))
		m.Measure(mm("d_random"), normal(0, 3.9*nm))
		m.Measure(mm("d_systematic"), normal(0, 6.7*nm))
		m.Formula(mm("d"), "d_mean + d_random + d_systematic", "JCGM 100:2008, H.1.3.2")
		m.Measure(sheet.Q{Key: "alpha_s", Unit: perKelvin}, within(11.5e-6, 2e-6))
		m.Measure(sheet.Q{Key: "theta_mean", Unit: kelvin}, normal(-0.1, 0.2))
		m.Measure(sheet.Q{Key: "theta_cycle", Unit: kelvin}, normal(0, 0.5/math.Sqrt2))
		m.Formula(sheet.Q{Key: "theta", Unit: kelvin}, "theta_mean + theta_cycle", "JCGM 100:2008, H.1.3.4")
		m.Measure(sheet.Q{Key: "delta_alpha", Unit: perKelvin}, within(0, 1e-6))
		m.Measure(sheet.Q{Key: "delta_theta", Unit: kelvin}, within(0, 0.05))
		m.Formula(mm("l"), "l_s + d - l_s * (delta_alpha * theta + alpha_s * delta_theta)", "JCGM 100:2008, equation H.3")
	})
}

func TestEndGauge(t *testing.T) {
	const nm = 1e-6
	r := endGauge(t)
	require.InDelta(t, 50.000838, figure(t, r, "l", sheet.Planned).Value, 0.5*nm, "H.1.5: l = 50.000 838 mm")

	u := r.Uncertainty("l", sheet.Planned)
	require.InDelta(t, 32, u.Linear/nm, 0.5, "H.1.5: u_c(l) = 32 nm, without the terms of second order")
	require.InDelta(t, 9.7, r.Uncertainty("d", sheet.Planned).Std/nm, 0.05, "H.1.3.2: u(d) = 9.7 nm")
	require.InDelta(t, 0.41, r.Uncertainty("theta", sheet.Planned).Std, 0.005, "H.1.3.4: u(θ) = 0.41 °C")
	require.True(t, u.Bent, "products of which both factors are hardly known")

	parts := map[string]float64{} // nm
	for _, s := range u.Shares {
		parts[s.Key] = math.Sqrt(s.Part) * u.Linear / nm
	}
	for key, want := range map[string]float64{"l_s": 25, "delta_theta": 16.6, "delta_alpha": 2.9} {
		require.InDelta(t, want, parts[key], 0.05, "table H.1: %s", key)
	}
	require.Equal(t, "l_s", u.Shares[0].Key, "table H.1: the largest, so the one to know better first")
	require.NotContains(t, parts, "alpha_s", "its slope is nothing where δθ is nothing")

	// H.1.7: with the second order 34 nm. Its two terms are 11.7 nm and 1.7 nm
	// (these two from memory).
	second := math.Sqrt(u.Linear*u.Linear + math.Pow(11.7*nm, 2) + math.Pow(1.7*nm, 2))
	const trials = 200_000
	d, ok := r.Trials("l", sheet.Planned, trials, 1)
	require.True(t, ok)
	// Five standard errors of a standard deviation, σ/√(2n); the products make the
	// tails a little heavier than normal, for which a half is added.
	require.InEpsilon(t, second, d.Std, 1.5*5/math.Sqrt(2*trials))
	require.InDelta(t, 34, d.Std/nm, 0.5, "H.1.7: u_c(l) = 34 nm")
	require.InDelta(t, 34, u.Std/nm, 5*34/math.Sqrt(2*2000), "by itself, of 2000 trials")
	require.InDelta(t, 50.000838, d.Mean, 0.5*nm)
}

// The readings of JCGM 100:2008, table H.2: five of voltage (V), current (A)
// and phase (rad), each set taken together, so that their errors hang together.
var readings = [3][5]float64{
	{5.007, 4.994, 5.005, 4.990, 4.999},
	{19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3},
	{1.0456, 1.0438, 1.0468, 1.0428, 1.0433},
}

// means gives the mean of each row and the covariances of the means
// (JCGM 100:2008, 4.2 and equation 17).
func means(rows [3][5]float64) (mean [3]float64, cov [3][3]float64) {
	for i, row := range rows {
		for _, x := range row {
			mean[i] += x / 5
		}
	}
	for i := range rows {
		for j := range rows {
			for k := range rows[i] {
				cov[i][j] += (rows[i][k] - mean[i]) * (rows[j][k] - mean[j]) / (5 * 4)
			}
		}
	}
	return mean, cov
}

// cholesky is the lower triangle of which c is the square.
func cholesky(c [3][3]float64) (l [3][3]float64) {
	for i := range l {
		for j := range i + 1 {
			s := c[i][j]
			for k := range j {
				s -= l[i][k] * l[j][k]
			}
			if i == j {
				l[i][i] = math.Sqrt(s)
			} else {
				l[i][j] = s / l[j][j]
			}
		}
	}
	return l
}

// impedance writes the correlated inputs as sums of independent leaves: the
// errors e1, e2 and e3, each of standard uncertainty 1, times the triangle.
func impedance(t *testing.T, mean [3]float64, triangle [3][3]float64) *sheet.Result {
	return bind(t, func(_ *sheet.Sheet, m *sheet.Scope) {
		for i := range 3 {
			m.Measure(one(fmt.Sprintf("e%d", i+1)), normal(0, 1))
		}
		for i, name := range []string{"v", "i", "phi"} {
			m.Measure(one(name+"_mean"), exactly(mean[i]))
			for j := range 3 {
				m.Measure(one(fmt.Sprintf("%s_%d", name, j+1)), exactly(triangle[i][j]))
			}
			with := sheet.With{"mean": name + "_mean", "c1": name + "_1", "c2": name + "_2", "c3": name + "_3"}
			m.Formula(one(name), "mean + c1 * e1 + c2 * e2 + c3 * e3", "Cholesky factor of the covariance", with)
		}
		m.Formula(one("r"), "v / i * cos(phi)", "JCGM 100:2008, equation H.7")
		m.Formula(one("x"), "v / i * sin(phi)", "JCGM 100:2008, equation H.7")
		m.Formula(one("z"), "v / i", "JCGM 100:2008, equation H.7")
	})
}

// slopes are the contributions of e1, e2 and e3, whose uncertainties are 1.
func slopes(r *sheet.Result, key string) (g [3]float64) {
	for i := range g {
		g[i] = r.Derivative(key, fmt.Sprintf("e%d", i+1), sheet.Planned)
	}
	return g
}

func TestResistanceAndReactance(t *testing.T) {
	mean, cov := means(readings)
	r := impedance(t, mean, cholesky(cov))
	for _, tc := range []struct {
		key      string
		value, u float64
		source   string
	}{
		{"v", 4.9990, 0.0032, "table H.2"},
		{"i", 19.6610e-3, 0.0095e-3, "table H.2"},
		{"phi", 1.04446, 0.00075, "table H.2"},
		{"r", 127.732, 0.071, "tables H.3 and H.4"},
		{"x", 219.847, 0.295, "tables H.3 and H.4"},
		{"z", 254.260, 0.236, "tables H.3 and H.4"},
	} {
		f, u := figure(t, r, tc.key, sheet.Planned), r.Uncertainty(tc.key, sheet.Planned)
		require.InEpsilon(t, tc.value, f.Value, 1e-5, tc.source)
		require.InEpsilon(t, tc.u, u.Std, 0.015, "%s: %s is printed with two or three figures", tc.source, tc.key)
		require.False(t, u.Bent, tc.key)
	}

	correlation := func(a, b string) float64 {
		ga, gb := slopes(r, a), slopes(r, b)
		sum := 0.0
		for i := range ga {
			sum += ga[i] * gb[i]
		}
		return sum / r.Uncertainty(a, sheet.Planned).Std / r.Uncertainty(b, sheet.Planned).Std
	}
	for _, tc := range []struct {
		a, b string
		want float64
	}{
		{"v", "i", -0.36}, {"v", "phi", 0.86}, {"i", "phi", -0.65}, // table H.2
		{"r", "x", -0.588}, {"r", "z", -0.485}, {"x", "z", 0.993}, // table H.4
	} {
		require.InDelta(t, tc.want, correlation(tc.a, tc.b), 0.006, "r(%s, %s)", tc.a, tc.b)
	}

	// The same uncertainties taken as independent: u(R) is nearly three times as large.
	var apart [3][3]float64
	for i := range 3 {
		apart[i][i] = math.Sqrt(cov[i][i])
	}
	alone := impedance(t, mean, apart).Uncertainty("r", sheet.Planned).Std
	require.Greater(t, alone, 2.5*r.Uncertainty("r", sheet.Planned).Std)
}
