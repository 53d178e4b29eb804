package unit_test

import (
	"math"
	"strings"
	"testing"

	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

// The inch is 25.4 mm by definition (international yard and pound agreement,
// 1959; ISO 80000-3); every row follows from it by arithmetic.
func TestParseLength(t *testing.T) {
	for _, tc := range []struct {
		text string
		mm   float64
	}{
		{"12", 12}, {" 12.5 mm", 12.5}, {"12,5", 12.5}, {"9,5mm", 9.5}, {".5", 0.5}, {"1e2", 100},
		{"0.5 in", 12.7}, {"0.375\"", 9.525}, {"0.5in.", 12.7}, {"2 inches", 50.8},
		{"15 thou", 0.381}, {"40 µm", 0.04}, {"1.2 cm", 12},
		{"3/8", 9.525}, {"3/8\"", 9.525}, {"1/2\"", 12.7}, {"1-1/4\"", 31.75}, {"1 1/4 in", 31.75}, {"1½\"", 38.1},
		{"-72", -72}, {"−72", -72}, {"-1-1/4\"", -31.75}, {"3/4 mm", 0.75},
	} {
		t.Run(tc.text, func(t *testing.T) {
			got, err := unit.Parse(tc.text, unit.MM)
			require.NoError(t, err)
			require.InDelta(t, tc.mm, got, 1e-12)
		})
	}
	inches, err := unit.Parse("0.5", unit.Inch)
	require.NoError(t, err)
	require.InDelta(t, 12.7, inches, 1e-12, "a bare number is in the unit that the machine is shown in")
}

func TestParseRefuses(t *testing.T) {
	for _, tc := range []struct {
		text string
		unit unit.Unit
		want error
	}{
		{"", unit.MM, unit.ErrEmpty}, {"   ", unit.MM, unit.ErrEmpty},
		{"twelve", unit.MM, unit.ErrLength}, {"12 bananas", unit.MM, unit.ErrLength}, {"1/0", unit.MM, unit.ErrLength},
		{"1,234.5", unit.MM, unit.ErrLength}, {"--3", unit.MM, unit.ErrLength}, {"0x10", unit.MM, unit.ErrLength},
		{"inf", unit.MM, unit.ErrLength}, {"nan", unit.MM, unit.ErrLength}, {"1_000", unit.MM, unit.ErrLength},
		{"3 N", unit.MM, unit.ErrLength}, {"1e9", unit.MM, unit.ErrRange},
		{"3 mm", unit.NewtonMetre, unit.ErrNumber}, {"x", unit.One, unit.ErrNumber},
	} {
		t.Run(tc.text, func(t *testing.T) {
			_, err := unit.Parse(tc.text, tc.unit)
			require.ErrorIs(t, err, tc.want)
		})
	}
}

// Scales by the SI brochure, 9th edition.
func TestOtherUnits(t *testing.T) {
	for _, tc := range []struct {
		text   string
		unit   unit.Unit
		inside float64
	}{
		{"3", unit.NewtonMetre, 3000}, {"3 Nm", unit.NewtonMetre, 3000}, {"3 N·m", unit.NewtonMetre, 3000},
		{"206 GPa", unit.MPa, 206000}, {"25 °C", unit.Celsius, 5}, {"20", unit.Celsius, 0},
		{"180°", unit.Degree, math.Pi}, {"33 %", unit.One, 0.33}, {"7850", unit.Density, 7.85e-9}, {"1 kg", unit.Kilogram, 0.001},
		{"1.2 kN", unit.Newton, 1200}, {"100 lbf", unit.Newton, 444.82216152605}, {"20 lb", unit.Newton, 88.96443230521}, {"1 lb", unit.Kilogram, 0.45359237e-3},
		{"36 lbf·in", unit.NewtonMetre, 36 * 4.4482216152605 * 25.4}, {"36 lbf in", unit.NewtonMetre, 36 * 4.4482216152605 * 25.4}, {"10 ft-lbf", unit.NewtonMetre, 10 * 4.4482216152605 * 304.8},
		{"500 N·mm", unit.NewtonMetre, 500}, {"250 N/mm2", unit.MPa, 250}, {"70000 psi", unit.MPa, 482.633}, {"30 N/um", unit.NewtonPerMicrometre, 30000},
		{"68 °F", unit.Celsius, 0}, {"212 °F", unit.Celsius, 80}, {"1500 r/min", unit.RPM, 50 * math.Pi}, {"200 g", unit.Kilogram, 0.0002},
		{"7.85 g/cm3", unit.Density, 7.85e-9}, {"30 deg", unit.Degree, math.Pi / 6}, {"0.5 rad", unit.Degree, 0.5},
		{"11.5 um/(m·K)", perKelvin, 11.5e-6}, {"11.5 ppm/K", perKelvin, 11.5e-6}, {"2 h", hours, 7200}, {"90 min", hours, 5400},
		{"3 furlongs", unit.Unit{Symbol: "furlongs", Dim: unit.ForceD, Scale: 7}, 21},
	} {
		got, err := unit.Parse(tc.text, tc.unit)
		require.NoError(t, err, tc.text)
		within := 1e-12 * math.Max(1, math.Abs(tc.inside))
		if strings.HasSuffix(tc.text, "psi") {
			within = 0.0005 // as a table of conversions gives it
		}
		require.InDelta(t, tc.inside, got, within, tc.text)
	}
	_, err := unit.Parse("30 kg", unit.Newton)
	require.ErrorIs(t, err, unit.ErrNumber)
	require.ErrorContains(t, err, "in N, kN, lbf or lb", "a mass is no force, and it is told what is one")
	_, err = unit.Parse("3 bananas", unit.One)
	require.Equal(t, unit.ErrNumber, err)
}

var (
	perKelvin = unit.Unit{Symbol: "µm/(m·K)", Dim: unit.Number.Per(unit.TempD), Scale: 1e-6}
	hours     = unit.Unit{Symbol: "h", Dim: unit.TimeD, Scale: 3600}
)

func TestText(t *testing.T) {
	require.Equal(t, "36.5 mm", unit.MM.With(36.5))
	require.Equal(t, "−12", unit.MM.Text(-12, 2))
	require.Equal(t, "0", unit.MM.Text(-0.0004, 2), "what rounds to nothing has no sign")
	require.Equal(t, "11.0", unit.MM.Fixed(11, 1))
	require.Equal(t, "0.413 in", unit.Inch.With(10.5))
	// Small ones are no less told in inches: 0.12 / 25.4 = 0.00472, 0.01 / 25.4 = 0.000394, 0.001 / 25.4 = 0.0000394.
	require.Equal(t, "0.0047 in", unit.Inch.With(0.12))
	require.Equal(t, "0.0004 in", unit.Inch.With(0.01))
	require.Equal(t, "0.00004 in", unit.Inch.With(0.001))
	require.Equal(t, "0 in", unit.Inch.With(0))
	require.Equal(t, "22 °C", unit.Celsius.With(2))
	require.Equal(t, "–", unit.MM.Text(math.NaN(), 2))
}

func TestDim(t *testing.T) {
	area := unit.LengthD.Times(unit.LengthD)
	side, ok := area.Power(0.5)
	require.True(t, ok)
	require.Equal(t, unit.LengthD, side)
	cube, ok := unit.LengthD.Power(1.0 / 3)
	require.True(t, ok)
	require.Equal(t, unit.LengthD, cube.Times(cube).Times(cube))
	_, ok = unit.LengthD.Power(0.4)
	require.False(t, ok)
	require.Equal(t, unit.MPa.Dim, unit.ForceD.Per(area))
	require.Equal(t, "N·mm^-2", unit.MPa.Dim.String())
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"12", "12.5 mm", "1-1/4\"", "3/8", "15 thou", "9,5", "−72", "1e5", "½", "1e", "0.5e in", "-"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		v, err := unit.Parse(s, unit.MM)
		if err != nil {
			return
		}
		again, err := unit.Parse(unit.MM.Exact(v), unit.MM)
		require.NoError(t, err, "printed %q", unit.MM.Exact(v))
		require.Equal(t, v, again)
	})
}
