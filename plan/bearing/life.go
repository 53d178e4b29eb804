package bearing

import (
	"errors"
	"math"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Formulas of life. dynamic is the rating C; x and y from [LifeFactors].
var (
	// Equivalent is the load that wears a radial bearing out as fast.
	Equivalent = sheet.Method{
		Text:   "when(thrust > e * radial, max(radial, x * radial + y * thrust), radial)",
		Source: "ISO 281: P = X Fr + Y Fa where Fa / Fr > e, else Fr",
	}

	// EquivalentThrust is that of a thrust bearing.
	EquivalentThrust = sheet.Method{Text: "thrust", Source: "ISO 281: P = Fa of a thrust bearing of 90°"}

	// LifeBalls and LifeRollers are the turns that nine of ten bearings outlast.
	LifeBalls   = sheet.Method{Text: "1000000 * pow(dynamic / equivalent, 3)", Source: "ISO 281: L10 = (C/P)³ million turns, balls"}
	LifeRollers = sheet.Method{Text: "1000000 * pow(dynamic / equivalent, 3.3333333333333335)", Source: "ISO 281: L10 = (C/P)^(10/3) million turns, rollers"}

	// LifeTime is that in time, counted up to what is enough.
	LifeTime = sheet.Method{Text: "min(enough, 6.283185307179586 * life / speed)", Source: "ISO 281: L10 over the speed; above what is enough, life does not limit"}

	// Relative is the thrust by which a deep groove bearing's factors go.
	Relative = sheet.Method{Text: "geometry_factor * thrust / static", Source: "ISO 281 table 3: f0 Fa / C0"}

	// FactorE and FactorY call the table, [LifeFactors], by its name on a sheet.
	FactorE = sheet.Method{Text: "life_e(relative)", Source: LifeFactorSource}
	FactorY = sheet.Method{Text: "life_y(relative)", Source: LifeFactorSource}
)

// GeometryFactor is f0 where the bearing's own is not known.
const (
	GeometryFactor       = 14.0
	GeometryFactorSource = "ISO 281: 12 to 16 by the bearing's inside, 14 where it is not known"
)

// ErrThrust is returned for more thrust than ISO 281's table of factors holds.
var ErrThrust = errors.New("that is about half of the static rating, more than ISO 281 has factors for")

// rows of ISO 281 table 3 for deep groove bearings with normal clearance.
var rows = []struct{ relative, e, y float64 }{
	{0.172, 0.19, 2.30}, {0.345, 0.22, 1.99}, {0.689, 0.26, 1.71}, {1.03, 0.28, 1.55}, {1.38, 0.30, 1.45},
	{2.07, 0.34, 1.31}, {3.45, 0.38, 1.15}, {5.17, 0.42, 1.04}, {6.89, 0.44, 1.00},
}

// LifeFactorSource is where the factors come from.
const LifeFactorSource = "ISO 281 table 3, between its rows in proportion, below them as in the first"

// LifeFactors are e, X and Y. Of a deep groove bearing they depend on relative,
// which is f0 Fa / C0; below the table its first row is taken, which counts the
// thrust a little too low where it is next to nothing. Angular contact is of 30°.
// It returns [ErrThrust] above the table.
//
// Source: ISO 281 table 3.
func LifeFactors(k Kind, relative float64) (e, x, y float64, err error) {
	if k == AngularContact {
		return 0.80, 0.39, 0.76, nil
	}
	last := rows[len(rows)-1]
	switch {
	case !(relative <= last.relative):
		return 0, 0, 0, ErrThrust
	case relative <= rows[0].relative:
		return rows[0].e, 0.56, rows[0].y, nil
	}
	for i, b := range rows[1:] {
		if relative <= b.relative {
			a := rows[i]
			t := (relative - a.relative) / (b.relative - a.relative)
			return a.e + t*(b.e-a.e), 0.56, a.y + t*(b.y-a.y), nil
		}
	}
	return 0, 0, 0, ErrThrust
}

// RegisterLife makes life_e and life_y known to formulas: the factors of deep
// groove bearings. Above the table they are not numbers.
func RegisterLife(s *sheet.Sheet) {
	for name, pick := range map[string]func(e, y float64) float64{
		"life_e": func(e, _ float64) float64 { return e },
		"life_y": func(_, y float64) float64 { return y },
	} {
		at := func(relative float64) float64 {
			e, _, y, err := LifeFactors(DeepGroove, relative)
			if err != nil {
				return math.NaN()
			}
			return pick(e, y)
		}
		s.Register(&sheet.Func{
			Name: name, Args: []unit.Dim{unit.Number}, Result: unit.Number, Monotone: true, Source: LifeFactorSource,
			F: func(args []float64) float64 { return at(args[0]) },
			Slope: func(args []float64, _ int) float64 { // of the straight piece just below
				const h = 1e-6
				return (at(args[0]) - at(args[0]-h)) / h
			},
		})
	}
}
