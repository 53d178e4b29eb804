package material_test

import (
	"math"
	"strings"
	"testing"

	"fettle/plan/material"
	"fettle/plan/sheet"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

func TestMaterialsArePhysical(t *testing.T) {
	keys := map[string]bool{}
	for _, m := range material.All {
		require.False(t, keys[m.Key], m.Key)
		keys[m.Key] = true
		require.NotEmpty(t, m.Source, m.Key)
		require.NotEmpty(t, m.Name, m.Key)
		density := unit.Density.In(m.Density)
		require.True(t, density > 900 && density < 9500, m.Key)
		require.True(t, m.Poisson > 0.2 && m.Poisson < 0.5, m.Key)
		require.LessOrEqual(t, m.Yield, m.Strength, m.Key)
		require.Less(t, m.Shear, m.Bending, m.Key)
		require.Less(t, m.Bending, m.Yield, m.Key)
		// Within a class of metals the modulus and the expansion hardly differ.
		limits := map[string][4]float64{ // GPa, µm/(m·K)
			"steel": {195, 212, 11, 12.5}, "hardened": {195, 212, 11, 12.5}, "stainless": {190, 205, 15.5, 18}, "aluminium": {68, 74, 22.5, 24},
			"brass": {95, 105, 19.5, 21.5}, "bronze": {95, 122, 17, 19}, "grey iron": {66, 120, 10, 12}, "ductile iron": {165, 175, 11, 13},
			"plastic": {0.5, 4, 80, 130}, "laminate": {6, 9, 15, 30},
		}[m.Class]
		require.NotZero(t, limits[1], "class %q", m.Class)
		e, a := unit.GPa.In(m.Modulus), material.Expansion.In(m.Expansion)
		require.True(t, e >= limits[0] && e <= limits[1], "%s: %g GPa", m.Key, e)
		require.True(t, a >= limits[2]-1e-9 && a <= limits[3]+1e-9, "%s: %g", m.Key, a)
		if m.Class == "grey iron" {
			require.True(t, m.Brittle())
			require.LessOrEqual(t, m.Bending, m.Strength/4.9, "%s: a fifth of the strength", m.Key)
		} else {
			require.Less(t, m.Bending, 0.61*m.Yield, "%s: about half of the yield", m.Key)
		}
	}
	require.Len(t, material.All, 23)
}

func TestPublishedProperties(t *testing.T) {
	for _, tc := range []struct {
		key                         string
		density, gpa, yield, uts, a float64
		within                      float64
		source                      string
	}{
		{"c45", 7800, 210, 340, 580, 11, 0.07, "an open CAD package's material card"},
		{"gjl200", 7200, 105, 130, 200, 10, 0.11, "an open CAD package's material card; EN 1561 has E 88 to 113"},
		{"gjl250", 7200, 115, 165, 250, 11, 0.05, "EN 1561 annex A and an open CAD package's material card"},
		{"old_iron", 7100, 80, 98, 150, 10.5, 1e-9, "EN 1561 GJL-150, lower ends"},
		{"6061", 2700, 69, 240, 260, 23.6, 1e-9, "EN 755-2, from memory"},
		{"42crmo4", 7850, 206, 680, 850, 11.5, 1e-9, "BS 970 condition T"},
	} {
		m, ok := material.Named(tc.key)
		require.True(t, ok)
		require.InEpsilon(t, tc.density, unit.Density.In(m.Density), tc.within, tc.source)
		require.InEpsilon(t, tc.gpa, unit.GPa.In(m.Modulus), tc.within, tc.source)
		require.InEpsilon(t, tc.yield, m.Yield, tc.within, tc.source)
		require.InEpsilon(t, tc.uts, m.Strength, tc.within, tc.source)
		require.InEpsilon(t, tc.a, material.Expansion.In(m.Expansion), tc.within, tc.source)
	}
	_, ok := material.Named("unobtainium")
	require.False(t, ok)
}

func TestIronInAWall(t *testing.T) {
	const source = "EN 1561, strength by wall, as quoted by a foundry"
	for _, tc := range []struct {
		key        string
		wall, want float64
	}{{"gjl200", 5, 205}, {"gjl200", 10, 180}, {"gjl200", 20, 155}, {"gjl200", 40, 130}, {"gjl200", 80, 115}, {"gjl250", 5, 250}, {"gjl250", 10, 225}, {"gjl250", 20, 195}, {"gjl250", 40, 170}, {"gjl250", 80, 155}, {"gjl250", 15, 210}} {
		m, _ := material.Named(tc.key)
		got, ok := m.StrengthInWall(tc.wall)
		require.True(t, ok)
		require.InDelta(t, tc.want, got, 1e-9, source)
	}
	m, _ := material.Named("gjl200")
	for _, wall := range []float64{4.9, 80.1, 0, math.NaN()} {
		_, ok := m.StrengthInWall(wall)
		require.False(t, ok, "never beyond the table")
	}
	steel, _ := material.Named("c45")
	_, ok := steel.StrengthInWall(10)
	require.False(t, ok)
}

func TestWeight(t *testing.T) {
	for _, tc := range []struct {
		form                   string
		across, second, length float64
		density                float64
		kg                     float64
		source                 string
	}{
		{"round", 25, 0, 1000, 7850, 3.853, "trade tables: 25 mm round steel bar, 3.85 kg/m"},
		{"square", 20, 0, 1000, 7850, 3.14, "trade tables: 20 mm square steel bar, 3.14 kg/m"},
		{"hexagon", 24, 0, 1000, 7850, 3.916, "trade tables: 24 mm hexagon steel bar, 3.92 kg/m"},
		{"flat", 50, 10, 1000, 7850, 3.925, "trade tables: 50 × 10 flat steel bar, 3.93 kg/m"},
		{"tube", 25, 2.5, 1000, 7850, 1.387, "trade tables: tube 25 × 2.5, 1.39 kg/m"},
		{"round", 50, 0, 100, 2700, 0.5301, "geometry"},
	} {
		for _, form := range material.Forms {
			if form.Key != tc.form {
				continue
			}
			s := sheet.New()
			sc := s.Root()
			leaf := func(key string, u unit.Unit, v float64) {
				sc.Measure(sheet.Q{Key: key, Label: key, Unit: u}, sheet.Leaf{Value: u.Inside(v), Origin: sheet.Chosen})
			}
			leaf("across", unit.MM, tc.across)
			leaf("length", unit.MM, tc.length)
			leaf("density", unit.Density, tc.density)
			if form.Second != "" {
				leaf(form.Second, unit.MM, tc.second)
			}
			sc.Method(sheet.Q{Key: "area", Label: "area", Unit: unit.MM2}, form.Area)
			sc.Method(sheet.Q{Key: "volume", Label: "volume", Unit: unit.Unit{Symbol: "mm³", Dim: unit.MM2.Dim.Times(unit.LengthD), Scale: 1}}, material.Volume)
			sc.Method(sheet.Q{Key: "weight", Label: "weight", Unit: unit.Kilogram}, material.Weight)
			r, err := s.Bind()
			require.NoError(t, err)
			require.InEpsilon(t, tc.kg, unit.Kilogram.In(r.Value("weight", sheet.Planned)), 0.001, tc.source)
		}
	}
}

func TestStock(t *testing.T) {
	for _, tc := range []struct {
		sizes       []float64
		least, want float64
	}{{material.MetricRounds, 20.5, 22}, {material.MetricRounds, 20, 20}, {material.MetricRounds, 0.1, 3}, {material.MetricRounds, 80, 80},
		{material.InchRounds, 25.4, 25.4}, {material.InchRounds, 25.5, 28.575}, {material.InchRounds, 12.6, 12.7}, {material.InchRounds, 76.2, 76.2}} {
		got, err := material.Next(tc.sizes, tc.least)
		require.NoError(t, err)
		require.InDelta(t, tc.want, got, 1e-9)
	}
	_, err := material.Next(material.MetricRounds, 80.1)
	require.ErrorIs(t, err, material.ErrStock)
	_, err = material.Next(material.InchRounds, math.NaN())
	require.ErrorIs(t, err, material.ErrStock)
	require.Len(t, material.InchRounds, 15+16, "1/8 to 1 by sixteenths, to 3 by eighths")
	for _, list := range [][]float64{material.MetricRounds, material.MetricFlats, material.InchRounds} {
		for i := 1; i < len(list); i++ {
			require.Greater(t, list[i], list[i-1])
		}
	}
	for _, s := range material.Skins {
		require.NotEmpty(t, s.Source)
	}
}

func TestSourcesSayWhatIsUnchecked(t *testing.T) {
	for _, m := range material.All {
		marked := strings.Contains(m.Source, "from memory, unchecked") || strings.Contains(m.Source, "EN 1561")
		require.True(t, marked, m.Key)
	}
}

func TestCuttingSpeeds(t *testing.T) {
	const source = "trade tables of speeds for high-speed steel, as read, m/min"
	for _, tc := range []struct {
		metal, work string
		least, most float64
	}{
		{"mild_steel", "turning", 25, 45}, {"brass", "turning", 45, 120}, {"aluminium", "turning", 60, 150}, {"iron", "turning", 22, 30}, {"stainless", "turning", 9, 18},
		{"mild_steel", "milling", 25, 35}, {"brass", "milling", 60, 150}, {"aluminium", "milling", 60, 150}, {"iron", "milling", 15, 30},
		{"mild_steel", "drilling", 30, 36}, {"brass", "drilling", 60, 75}, {"iron", "drilling", 25, 35},
	} {
		s, ok := material.SpeedOf(tc.metal, tc.work)
		require.True(t, ok)
		require.Equal(t, [2]float64{tc.least, tc.most}, [2]float64{s.Least, s.Most}, "%s %s: %s", tc.work, tc.metal, source)
	}
	for _, work := range []string{"milling", "drilling"} {
		_, ok := material.SpeedOf("stainless", work)
		require.False(t, ok, "not in those tables")
	}
}
