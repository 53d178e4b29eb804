package thread

import (
	_ "embed"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"sync"

	"fettle/plan/sheet"
	"fettle/plan/table"
	"fettle/plan/unit"
)

// ErrClass is what an error is where a thread has no such class of tolerance;
// the error itself is a sentence that says which there are.
var ErrClass = errors.New("no such class")

type classError string

func (e classError) Error() string        { return string(e) }
func (e classError) Is(target error) bool { return target == ErrClass }

func noClass(format string, args ...any) error { return classError(fmt.Sprintf(format, args...)) }

// UsualClass is the class that is meant where none is said: of the screw and of
// the nut; "" where the form has no limits here.
func (f *Form) UsualClass() (screw, nut string) {
	switch f {
	case Metric:
		return "6g", "6H"
	case Unified:
		return "2A", "2B"
	case Trapezoidal:
		return "7e", "7H"
	case Acme:
		return "2G", "2G nut"
	}
	return "", ""
}

// LayLimits puts the limits of a class on a sheet that [Thread.Lay] was called
// on: major_max, major_min, pitch_max, pitch_min, minor_max and minor_min, of
// which a nut has no major_max. Classes: ISO 965-1 as 6g, 4g6g, 6H, 4H5H;
// ASME B1.1 as 1A, 2A, 3A, 1B, 2B, 3B; ISO 2903 as 7e, 7H; ASME B1.5 as 2G (screw)
// and "2G nut". The error is an [ErrClass].
func (t Thread) LayLimits(sc *sheet.Scope, class string) error {
	class = strings.TrimSpace(class)
	switch t.Series.Form {
	case Metric:
		return t.layMetric(sc, class)
	case Unified:
		return t.layUnified(sc, class)
	case Trapezoidal:
		return t.layTrapezoidal(sc, class)
	case Acme:
		return t.layAcme(sc, class)
	}
	return noClass("there are no limits here for %s threads: only the basic sizes", t.Series.Label)
}

// Limits are sizes in mm. MajorMax of a nut is NaN: its roots are only kept from being too small.
type Limits struct{ MajorMax, MajorMin, PitchMax, PitchMin, MinorMax, MinorMin float64 }

// Limits works [Thread.LayLimits] out.
func (t Thread) Limits(class string) (Limits, error) {
	s := sheet.New()
	sc := s.Root()
	t.Lay(sc)
	if err := t.LayLimits(sc, class); err != nil {
		return Limits{}, err
	}
	r, err := s.Bind()
	if err != nil {
		return Limits{}, fmt.Errorf("%s %s: %w", t, class, err)
	}
	v := func(key string) float64 { return r.Value(key, sheet.Planned) }
	return Limits{v("major_max"), v("major_min"), v("pitch_max"), v("pitch_min"), v("minor_max"), v("minor_min")}, nil
}

// deviation puts a figure of a tolerance table on the sheet, from micrometres.
func deviation(sc *sheet.Scope, key, label, symbol string, um float64, source string) {
	sc.Measure(sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.Micrometre, Decimals: 0},
		sheet.Leaf{Value: unit.Micrometre.Inside(um), Origin: sheet.Chosen, Note: source})
}

func limit(sc *sheet.Scope, key, label, text, source string) {
	sc.Formula(sheet.Q{Key: key, Label: label, Unit: unit.MM, Decimals: 3}, text, source)
}

//go:embed iso965-position.csv
var iso965Position string

//go:embed iso965-crest.csv
var iso965Crest string

//go:embed iso965-pitch.csv
var iso965Pitch string

var (
	positions  = sync.OnceValue(func() []table.Row { return table.Rows(iso965Position) })
	crests     = sync.OnceValue(func() []table.Row { return table.Rows(iso965Crest) })
	pitches965 = sync.OnceValue(func() []table.Row { return table.Rows(iso965Pitch) })
)

const (
	iso965      = "ISO 965-1"
	iso965Check = " (from memory; every value agrees with the standard's own rule, and grade 6 of the coarse series with published limits)"
)

var metricClass = regexp.MustCompile(`^([3-9])([efghGH])(?:([3-9])([efghGH]))?$`)

// layMetric lays ISO 965-1. The table's size steps are by diameter, over and up to.
func (t Thread) layMetric(sc *sheet.Scope, class string) error {
	m := metricClass.FindStringSubmatch(class)
	if m == nil || m[4] != "" && m[4] != m[2] {
		return noClass("give a class such as 6g or 4g6g for the screw, 6H or 4H5H for the nut")
	}
	grade, letter, crestGrade := m[1], m[2], m[1]
	if m[3] != "" {
		crestGrade = m[3]
	}
	part := "d" // the columns of screws; those of nuts are D
	nut := letter == "G" || letter == "H"
	if nut {
		part = "D"
	}
	at := func(rows []table.Row, column string) (float64, bool) {
		for _, r := range rows {
			if same(r.Number("pitch_mm"), t.Pitch) && (r["to_mm"] == "" || t.Dia > r.Number("over_mm") && t.Dia <= r.Number("to_mm")) && r[column] != "" {
				return r.Number(column), true
			}
		}
		return 0, false
	}
	position, ok := 0.0, true
	if letter != "h" && letter != "H" {
		position, ok = at(positions(), strings.ToLower(letter))
	}
	crest, okCrest := at(crests(), part+crestGrade)
	pitch, okPitch := at(pitches965(), part+grade)
	if !ok || !okCrest || !okPitch {
		return noClass("ISO 965-1 has no class %s for a pitch of %s mm on %s mm: its tables go from 0.99 to 90 mm, by steps, with the pitches that are used there", class, short(t.Pitch), short(t.Dia))
	}
	if nut {
		deviation(sc, "position", "position "+letter, "EI", position, iso965+", fundamental deviations"+iso965Check)
		deviation(sc, "crest_tolerance", "tolerance of the minor diameter", "T_D1", crest, iso965+", tolerances T_D1"+iso965Check)
		deviation(sc, "pitch_tolerance", "tolerance of the pitch diameter", "T_D2", pitch, iso965+", tolerances T_D2"+iso965Check)
		t.layNut(sc, iso965)
		return nil
	}
	deviation(sc, "position", "position "+letter, "es", -position, iso965+", fundamental deviations"+iso965Check)
	deviation(sc, "crest_tolerance", "tolerance of the major diameter", "T_d", crest, iso965+", tolerances T_d"+iso965Check)
	deviation(sc, "pitch_tolerance", "tolerance of the pitch diameter", "T_d2", pitch, iso965+", tolerances T_d2"+iso965Check)
	t.layScrew(sc, iso965)
	limit(sc, "minor_max", "minor diameter, most", "bore + position", iso965+": flat form, D1 + es")
	limit(sc, "minor_min", "minor diameter, least", "pitch_min - 0.616025 * pitch", "ASME B1.13M: root rounded with the least radius, 0.125 P")
	return nil
}

// layScrew lays what all screws share: the position takes from both diameters.
func (t Thread) layScrew(sc *sheet.Scope, source string) {
	limit(sc, "major_max", "major diameter, most", "dia + position", source)
	limit(sc, "major_min", "major diameter, least", "dia + position - crest_tolerance", source)
	limit(sc, "pitch_max", "pitch diameter, most", "pitch_dia + position", source)
	limit(sc, "pitch_min", "pitch diameter, least", "pitch_dia + position - pitch_tolerance", source)
}

func (t Thread) layNut(sc *sheet.Scope, source string) {
	limit(sc, "major_min", "major diameter, least", "nut_major + position", source)
	limit(sc, "pitch_max", "pitch diameter, most", "pitch_dia + position + pitch_tolerance", source)
	limit(sc, "pitch_min", "pitch diameter, least", "pitch_dia + position", source)
	limit(sc, "minor_max", "minor diameter, most", "bore + position + crest_tolerance", source)
	limit(sc, "minor_min", "minor diameter, least", "bore + position", source)
}

// ToleranceUnified is the pitch diameter tolerance of class 2A, by which all
// others go, in inches: 0.0015 ∛D + 0.0015 √L + 0.015 ∛P².
var ToleranceUnified = sheet.Method{
	Text:   "mm(25.4) * (0.0015 * pow(dia / mm(25.4), 0.3333333333333333) + 0.0015 * sqrt(engaged / mm(25.4)) + 0.015 * pow(pitch / mm(25.4), 0.6666666666666666))",
	Source: "ASME B1.1: 0.0015 ∛D + 0.0015 √L + 0.015 ∛P² inch (from memory; agrees with published limits of sizes from 0-80 to 5/8-24)",
}

var unifiedFactor = map[string]float64{"1A": 1.5, "2A": 1, "3A": 0.75, "1B": 1.95, "2B": 1.3, "3B": 0.975}

// Tolerances of a nut's minor diameter, by pitch and diameter.
var (
	unifiedBore = sheet.Method{
		Text: "when(dia < mm(6.34), min(0.394 * pitch, max(" + boreByPitch + ", " + boreByBoth + ")), when(pitch <= mm(6.35), " + boreByPitch + ", 0.15 * pitch))",

		Source: "ASME B1.1: 0.25 P − 0.4 P² from 1/4 inch; below it by pitch and diameter, at most 0.394 P (from memory; agrees with published limits)",
	}
	unifiedBoreClose = sheet.Method{
		Text:   "min(0.394 * pitch, max(when(pitch < mm(2.1), pitch * (0.23 - 1.5 * pitch / mm(25.4)), 0.12 * pitch), " + boreByBoth + "))",
		Source: "ASME B1.1, class 3B: 0.05 ∛P² + 0.03 P/D − 0.002 inch, at least 0.23 P − 1.5 P² to 13 threads to the inch and 0.12 P from 12 on, at most 0.394 P (rule and table both from memory; they agree from 0-80 to 1-8)",
	}
)

const (
	boreByPitch = "pitch * (0.25 - 0.4 * pitch / mm(25.4))"
	boreByBoth  = "mm(25.4) * (0.05 * pow(pitch / mm(25.4), 0.6666666666666666) + 0.03 * pitch / dia - 0.002)"
)

func (t Thread) layUnified(sc *sheet.Scope, class string) error {
	class = strings.ToUpper(class)
	factor, ok := unifiedFactor[class]
	if !ok {
		return noClass("give 1A, 2A or 3A for the screw, 1B, 2B or 3B for the nut")
	}
	q := func(key, label string) sheet.Q { return sheet.Q{Key: key, Label: label, Unit: unit.MM, Decimals: 4} }
	engaged := "dia"
	if t.Series.Key != "UNC" && t.Series.Key != "UNF" {
		engaged = "9 * pitch"
	}
	sc.Formula(q("engaged", "length of engagement that the tolerance is for"), engaged, "ASME B1.1: the diameter for UNC and UNF, nine pitches for the others")
	sc.Method(q("tolerance_2a", "pitch diameter tolerance of class 2A"), ToleranceUnified)
	sc.Measure(sheet.Q{Key: "class_factor", Label: "factor of class " + class, Unit: unit.One, Decimals: 3},
		sheet.Leaf{Value: factor, Origin: sheet.Chosen, Note: "ASME B1.1: 1A 1.5, 2A 1, 3A 0.75, 1B 1.95, 2B 1.3, 3B 0.975"})
	sc.Formula(q("pitch_tolerance", "tolerance of the pitch diameter"), "class_factor * tolerance_2a", "ASME B1.1")
	if strings.HasSuffix(class, "B") {
		sc.Measure(q("position", "allowance"), sheet.Leaf{Origin: sheet.Chosen, Note: "ASME B1.1: none on nuts"})
		crest := unifiedBore
		if class == "3B" {
			crest = unifiedBoreClose
		}
		sc.Method(q("crest_tolerance", "tolerance of the minor diameter"), crest)
		t.layNut(sc, "ASME B1.1")
		return nil
	}
	allowance, crest := "-0.3 * tolerance_2a", "mm(25.4) * 0.06 * pow(pitch / mm(25.4), 0.6666666666666666)"
	if class == "3A" {
		allowance = "0 * tolerance_2a"
	}
	if class == "1A" {
		crest = "1.5 * " + crest
	}
	sc.Formula(q("position", "allowance"), allowance, "ASME B1.1: 0.3 of the 2A tolerance on 1A and 2A, none on 3A")
	sc.Formula(q("crest_tolerance", "tolerance of the major diameter"), crest, "ASME B1.1: 0.06 ∛P² inch; half as much again on 1A")
	t.layScrew(sc, "ASME B1.1")
	limit(sc, "minor_max", "minor diameter, most", "root + position", "ASME B1.1: UNR reference minor diameter; it has no least")
	return nil
}

//go:embed iso2903.csv
var iso2903CSV string

var rows2903 = sync.OnceValue(func() []table.Row { return table.Rows(iso2903CSV) })

func (t Thread) layTrapezoidal(sc *sheet.Scope, class string) error {
	if class != "7e" && class != "7H" {
		return noClass("give 7e for the screw or 7H for the nut")
	}
	source := "ISO 2903"
	if t.Pitch > 5 || class == "7H" {
		source += " (from memory; agrees with the standard's own rule)"
	}
	for _, r := range rows2903() {
		if !same(r.Number("pitch_mm"), t.Pitch) || t.Dia <= r.Number("over_mm") || t.Dia > r.Number("to_mm") {
			continue
		}
		if class == "7H" {
			deviation(sc, "position", "position H", "EI", 0, source)
			deviation(sc, "crest_tolerance", "tolerance of the minor diameter", "T_D1", r.Number("crest_D1"), source)
			deviation(sc, "pitch_tolerance", "tolerance of the pitch diameter", "T_D2", r.Number("pitch_D7"), source)
			t.layNut(sc, source)
			return nil
		}
		deviation(sc, "position", "position e, of the pitch diameter alone", "es", -r.Number("e"), source)
		deviation(sc, "crest_tolerance", "tolerance of the major diameter", "T_d", r.Number("crest_d"), source)
		deviation(sc, "pitch_tolerance", "tolerance of the pitch diameter", "T_d2", r.Number("pitch_d7"), source)
		limit(sc, "major_max", "major diameter, most", "dia", source+": position h")
		limit(sc, "major_min", "major diameter, least", "dia - crest_tolerance", source)
		limit(sc, "pitch_max", "pitch diameter, most", "pitch_dia + position", source)
		limit(sc, "pitch_min", "pitch diameter, least", "pitch_dia + position - pitch_tolerance", source)
		limit(sc, "minor_max", "minor diameter, most", "root", source+": position h")
		limit(sc, "minor_min", "minor diameter, least", "root + position - 1.25 * pitch_tolerance", source+": T_d3 = 1.25 T_d2 + |es|")
		return nil
	}
	return noClass("ISO 2903 has no limits here for a pitch of %s mm on %s mm", short(t.Pitch), short(t.Dia))
}

// layAcme lays class 2G of ASME B1.5. The tolerances are in inches.
func (t Thread) layAcme(sc *sheet.Scope, class string) error {
	nut := strings.EqualFold(class, "2G nut")
	if !nut && !strings.EqualFold(class, "2G") {
		return noClass(`give 2G for the screw or "2G nut" for the nut`)
	}
	const source = "ASME B1.5, class 2G"
	q := func(key, label string) sheet.Q { return sheet.Q{Key: key, Label: label, Unit: unit.MM, Decimals: 4} }
	sc.Formula(q("pitch_tolerance", "tolerance of the pitch diameter"), "mm(25.4) * (0.03 * sqrt(pitch / mm(25.4)) + 0.006 * sqrt(dia / mm(25.4)))",
		source+": 0.030 √P + 0.006 √D inch (from memory; agrees with published limits)")
	sc.Formula(q("crest_tolerance", "tolerance at the crest"), "max(mm(0.127), 0.05 * pitch)", source+": 0.05 P, at least 0.005 in")
	if nut {
		sc.Measure(q("position", "allowance"), sheet.Leaf{Origin: sheet.Chosen, Note: source + ": none on nuts"})
		t.layNut(sc, source)
		return nil
	}
	sc.Formula(q("position", "allowance of the pitch diameter"), "-mm(25.4) * 0.008 * sqrt(dia / mm(25.4))", source+": 0.008 √D inch")
	limit(sc, "major_max", "major diameter, most", "dia", source)
	limit(sc, "major_min", "major diameter, least", "dia - crest_tolerance", source)
	limit(sc, "pitch_max", "pitch diameter, most", "pitch_dia + position", source)
	limit(sc, "pitch_min", "pitch diameter, least", "pitch_dia + position - pitch_tolerance", source)
	limit(sc, "minor_max", "minor diameter, most", "root", source)
	limit(sc, "minor_min", "minor diameter, least", "root - 1.5 * pitch_tolerance", source+": 1.5 times the pitch diameter's tolerance")
	return nil
}

// Nut tells whether a class is of a nut: "6H", "2B", "2G nut".
func Nut(class string) bool {
	return strings.HasSuffix(class, "nut") || strings.ContainsAny(class, "BGH") && !strings.EqualFold(class, "2G")
}
