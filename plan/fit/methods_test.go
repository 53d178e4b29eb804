package fit_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"fettle/plan/fit"
	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

var perKelvin = unit.Unit{Symbol: "µm/(m·K)", Dim: unit.Number.Per(unit.TempD), Scale: 1e-6, Decimals: 1}

// compute lays methods on a sheet whose leaves are given in their units.
func compute(t *testing.T, leaves map[string]float64, units map[string]unit.Unit, methods ...any) *sheet.Result {
	t.Helper()
	s := sheet.New()
	sc := s.Root()
	for key, v := range leaves {
		u, ok := units[key]
		if !ok {
			u = unit.MM
		}
		sc.Measure(sheet.Q{Key: key, Label: key, Unit: u}, sheet.Leaf{Value: u.Inside(v), Origin: sheet.Chosen})
	}
	for i := 0; i < len(methods); i += 2 {
		key := methods[i].(string)
		u, ok := units[key]
		if !ok {
			u = unit.MM
		}
		m := methods[i+1].(sheet.Method)
		require.NotEmpty(t, m.Source)
		sc.Method(sheet.Q{Key: key, Label: key, Unit: u}, m)
	}
	r, err := s.Bind()
	require.NoError(t, err)
	return r
}

func value(t *testing.T, r *sheet.Result, key string) float64 {
	t.Helper()
	f, ok := r.Figure(key, sheet.Planned)
	require.True(t, ok, key)
	return f.Unit.In(f.Value)
}

var pressUnits = map[string]unit.Unit{
	"hub_modulus": unit.MPa, "shaft_modulus": unit.MPa, "hub_poisson": unit.One, "shaft_poisson": unit.One,
	"smoothing": unit.One, "friction": unit.One, "pressure": unit.MPa, "hoop": unit.MPa, "equivalent": unit.MPa, "shaft_stress": unit.MPa,
	"force": unit.Newton, "torque": unit.NewtonMetre, "hub_give": perMPa, "shaft_give": perMPa,
}

var perMPa = unit.Unit{Symbol: "1/MPa", Dim: unit.Number.Per(unit.MPa.Dim), Scale: 1}

type press struct{ d, outside, bore, delta, eHub, nuHub, eShaft, nuShaft, length, friction float64 }

func (p press) compute(t *testing.T) *sheet.Result {
	t.Helper()
	return compute(t, map[string]float64{
		"size": p.d, "outside": p.outside, "bore": p.bore, "interference": p.delta, "length": p.length, "friction": p.friction,
		"hub_modulus": p.eHub, "hub_poisson": p.nuHub, "shaft_modulus": p.eShaft, "shaft_poisson": p.nuShaft,
		"smoothing": 0, "hub_roughness": 0, "shaft_roughness": 0,
	}, pressUnits,
		"effective", fit.Effective, "hub_give", fit.HubGive, "shaft_give", fit.ShaftGive, "pressure", fit.Pressure,
		"hoop", fit.HubHoop, "equivalent", fit.HubEquivalent, "shaft_stress", fit.ShaftStress, "force", fit.AxialHold, "torque", fit.TorqueHold)
}

func TestPressFit(t *testing.T) {
	const source = "two thick cylinders (Lamé), computed independently and by solving the elastic equations (scipy solve_bvp)"
	for _, tc := range []struct {
		press
		pressure, hoop float64
	}{
		{press{d: 20, outside: 40, delta: 0.02, eHub: 206000, nuHub: 0.29, eShaft: 206000, nuShaft: 0.29}, 77.25, 128.75},
		{press{d: 25, outside: 45, delta: 0.03, eHub: 110000, nuHub: 0.26, eShaft: 206000, nuShaft: 0.29}, 52.13, 98.68},
		{press{d: 10, outside: 18, delta: 0.012, eHub: 97000, nuHub: 0.34, eShaft: 206000, nuShaft: 0.29}, 45.34, 85.83},
	} {
		r := tc.compute(t)
		require.InEpsilon(t, tc.pressure, value(t, r, "pressure"), 0.005, source)
		require.InEpsilon(t, tc.hoop, value(t, r, "hoop"), 0.005, source)
	}
	// One material: p = E δ / 2d × (1 − d²/D²), and the force and torque of it.
	r := press{d: 40, outside: 70, delta: 0.03, eHub: 206000, nuHub: 0.29, eShaft: 206000, nuShaft: 0.29, length: 30, friction: 0.12}.compute(t)
	require.InEpsilon(t, 52.03, value(t, r, "pressure"), 0.005, "textbook identity for one material")
	require.InEpsilon(t, 102.5, value(t, r, "hoop"), 0.005)
	require.InEpsilon(t, 23540, value(t, r, "force"), 0.005)
	require.InEpsilon(t, 471.0, value(t, r, "torque"), 0.005)
}

// stretch integrates the equilibrium of an elastic ring in plane stress,
// u″ + u′/r − u/r² = 0, from its free face to the joint by Runge and Kutta's
// method, and gives the radial growth at the joint for a pressure of 1 MPa.
func stretch(free, joint, e, nu float64) float64 {
	u, du, r := 1.0, -nu/free, free // no radial stress at the free face
	const n = 4000
	h := (joint - free) / n
	f := func(r, u, du float64) float64 { return u/(r*r) - du/r }
	for range n {
		a1, b1 := du, f(r, u, du)
		a2, b2 := du+h/2*b1, f(r+h/2, u+h/2*a1, du+h/2*b1)
		a3, b3 := du+h/2*b2, f(r+h/2, u+h/2*a2, du+h/2*b2)
		a4, b4 := du+h*b3, f(r+h, u+h*a3, du+h*b3)
		u, du, r = u+h/6*(a1+2*a2+2*a3+a4), du+h/6*(b1+2*b2+2*b3+b4), r+h
	}
	radial := e / (1 - nu*nu) * (du + nu*u/joint)
	return math.Abs(u / radial)
}

func TestPressureAgainstElasticEquations(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 286))
	for range 200 {
		p := press{d: 5 + 60*rng.Float64(), eHub: 60000 + 150000*rng.Float64(), nuHub: 0.2 + 0.15*rng.Float64(), eShaft: 60000 + 150000*rng.Float64(), nuShaft: 0.2 + 0.15*rng.Float64()}
		p.outside, p.bore, p.delta = p.d*(1.2+2*rng.Float64()), p.d*(0.1+0.7*rng.Float64()), p.d*0.001*rng.Float64()
		growth := stretch(p.outside/2, p.d/2, p.eHub, p.nuHub) + stretch(p.bore/2, p.d/2, p.eShaft, p.nuShaft)
		require.InEpsilon(t, p.delta/2/growth, value(t, p.compute(t), "pressure"), 1e-6)
	}
}

func TestPressLaws(t *testing.T) {
	base := press{d: 20, outside: 40, delta: 0.02, eHub: 206000, nuHub: 0.29, eShaft: 206000, nuShaft: 0.29, length: 20, friction: 0.1}
	at := func(change func(*press), key string) float64 {
		p := base
		change(&p)
		return value(t, p.compute(t), key)
	}
	p0 := at(func(*press) {}, "pressure")
	require.InEpsilon(t, 2*p0, at(func(p *press) { p.delta *= 2 }, "pressure"), 1e-9, "pressure grows with interference")
	require.Greater(t, at(func(p *press) { p.outside = 60 }, "pressure"), p0, "a thicker hub presses harder")
	require.Less(t, at(func(p *press) { p.bore = 10 }, "pressure"), p0, "a hollow shaft yields")
	require.InEpsilon(t, p0, at(func(p *press) { p.d, p.outside, p.delta = 40, 80, 0.04 }, "pressure"), 1e-9, "twice as large all over, the same pressure")
	require.Zero(t, at(func(p *press) { p.delta = -0.01 }, "pressure"), "clearance presses on nothing")
	require.InEpsilon(t, at(func(*press) {}, "equivalent"), at(func(*press) {}, "hoop")+p0, 1e-9, "Tresca: hoop and pressure together")
}

func TestEffectiveInterference(t *testing.T) {
	r := compute(t, map[string]float64{"interference": 0.03, "smoothing": fit.Smoothing, "hub_roughness": 0.006, "shaft_roughness": 0.004}, pressUnits, "effective", fit.Effective)
	require.InEpsilon(t, 0.022, value(t, r, "effective"), 0.005, "DIN 7190, 0.8 (Rz + Rz), edition of 2001 as quoted")
}

var heatUnits = map[string]unit.Unit{"hole_expansion": perKelvin, "shaft_expansion": perKelvin, "expansion": perKelvin, "temperature": unit.Celsius, "loose": unit.Celsius,
	"warming": kelvin, "cold": kelvin}

var kelvin = unit.Unit{Symbol: "K", Dim: unit.TempD, Scale: 1}

func TestHeat(t *testing.T) {
	const source = "computed independently: d (αh − αs) ΔT"
	for _, tc := range []struct{ d, hole, shaft, clearance, temperature, want float64 }{
		{22, 23.4, 11.5, -0.008, 60, 2.47}, {19, 110, 11.5, -0.030, 40, 7.43},
	} {
		leaves := map[string]float64{"size": tc.d, "hole_expansion": tc.hole, "shaft_expansion": tc.shaft, "clearance": tc.clearance, "temperature": tc.temperature}
		r := compute(t, leaves, heatUnits, "hot", fit.HotClearance, "loose", fit.LooseAt)
		require.InEpsilon(t, tc.want/1000, value(t, r, "hot"), 0.005, source)
		leaves["temperature"] = value(t, r, "loose")
		require.InDelta(t, 0, value(t, compute(t, leaves, heatUnits, "hot", fit.HotClearance), "hot"), 1e-12, "neither clearance nor interference at the temperature where it turns")
		leaves["temperature"] = 20
		require.Equal(t, tc.clearance, value(t, compute(t, leaves, heatUnits, "hot", fit.HotClearance), "hot"))
	}
	r := compute(t, map[string]float64{"size": 25, "interference": 0.03, "clearance": 0.01, "expansion": 12.5}, heatUnits, "warming", fit.Warming)
	require.InEpsilon(t, 148.0, 20+value(t, r, "warming"), 0.01, "computed independently: ΔT = (δ + c)/(α d)")
	r = compute(t, map[string]float64{"size": 24, "expansion": 11.5, "cold": 38}, heatUnits, "shrink", fit.Shrink)
	require.InEpsilon(t, 0.0105, value(t, r, "shrink"), 0.005, "elementary: 11.5 × 38 × 24 / 10⁶")
	// Warming by that much gives just that clearance.
	r = compute(t, map[string]float64{"size": 25, "interference": 0.03, "clearance": 0.01, "expansion": 12.5}, heatUnits, "warming", fit.Warming)
	hot := compute(t, map[string]float64{"size": 25, "hole_expansion": 12.5, "shaft_expansion": 0, "clearance": -0.03, "temperature": 20 + value(t, r, "warming")}, heatUnits, "hot", fit.HotClearance)
	require.InDelta(t, 0.01, value(t, hot, "hot"), 1e-12)
	for _, l := range fit.HeatLimits {
		require.Contains(t, l.Source, "common practice")
		require.Greater(t, l.Celsius, 20.0)
	}
}

func TestPlayLeft(t *testing.T) {
	// Worked by hand: 16 µm of interference, 2 smoothed, 0.8 of 14 taken, from 3 to 18 µm.
	r := compute(t, map[string]float64{"share": fit.PlayShare, "interference": 0.016, "smoothed": fit.PlaySmoothed, "play": 0.018, "outer_taken": 0},
		map[string]unit.Unit{"share": unit.One}, "inner_taken", fit.PlayTaken, "left", fit.PlayLeft)
	require.InDelta(t, 0.0112, value(t, r, "inner_taken"), 1e-12)
	require.InDelta(t, 0.0068, value(t, r, "left"), 1e-12)
	r = compute(t, map[string]float64{"share": 0.8, "interference": -0.005, "smoothed": 0.002}, map[string]unit.Unit{"share": unit.One}, "taken", fit.PlayTaken)
	require.Zero(t, value(t, r, "taken"), "clearance on the seat takes nothing")
}

func TestLikelyAndAim(t *testing.T) {
	// H7/g6 at 20: +21/0 and −7/−20, mean 24, half zones 10.5 and 6.5.
	leaves := map[string]float64{"size": 20, "share": 0.5}
	s := sheet.New()
	sc := s.Root()
	for key, v := range leaves {
		u := unit.MM
		if key == "share" {
			u = unit.One
		}
		sc.Measure(sheet.Q{Key: key, Label: key, Unit: u}, sheet.Leaf{Value: v, Origin: sheet.Chosen})
	}
	for key, v := range map[string]float64{"hole.upper": 0.021, "hole.lower": 0, "shaft.upper": -0.007, "shaft.lower": -0.020} {
		sc.Measure(sheet.Q{Key: key, Label: key, Unit: unit.MM}, sheet.Leaf{Value: v, Origin: sheet.Chosen})
	}
	sc.Method(sheet.Q{Key: "most", Label: "most", Unit: unit.MM}, fit.ClearanceMost)
	sc.Method(sheet.Q{Key: "least", Label: "least", Unit: unit.MM}, fit.ClearanceLeast)
	sc.Method(sheet.Q{Key: "likely_most", Label: "likely", Unit: unit.MM}, fit.LikelyMost)
	sc.Method(sheet.Q{Key: "likely_least", Label: "likely", Unit: unit.MM}, fit.LikelyLeast)
	sc.Method(sheet.Q{Key: "hole_aim", Label: "aim", Unit: unit.MM}, fit.HoleAim, sheet.With{"upper": "hole.upper", "lower": "hole.lower"})
	sc.Method(sheet.Q{Key: "shaft_aim", Label: "aim", Unit: unit.MM}, fit.ShaftAim, sheet.With{"upper": "shaft.upper", "lower": "shaft.lower"})
	sc.Method(sheet.Q{Key: "largest", Label: "largest", Unit: unit.MM}, fit.LimitOfSize, sheet.With{"deviation": "hole.upper"})
	r, err := s.Bind()
	require.NoError(t, err)
	half := math.Hypot(0.0105, 0.0065)
	for key, want := range map[string]float64{"most": 0.041, "least": 0.007, "likely_most": 0.024 + half, "likely_least": 0.024 - half,
		"hole_aim": 20.0105, "shaft_aim": 19.9865, "largest": 20.021} {
		require.InDelta(t, want, value(t, r, key), 1e-12, key)
	}
	require.True(t, r.Try("share", fit.AimFitted))
	require.InDelta(t, 20.007, value(t, r, "hole_aim"), 1e-12, "two thirds of the way to the most metal: the hole smaller")
	require.InDelta(t, 20-0.020+0.013*2/3, value(t, r, "shaft_aim"), 1e-12, "and the shaft larger")
}
