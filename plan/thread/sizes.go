package thread

import (
	_ "embed"
	"slices"
	"sync"

	"fettle/plan/table"
)

// Series is a family of sizes.
type Series struct {
	Key    string // as in designations: "M", "MF" (fine, said as M too), "UNC", "BA"
	Label  string
	Form   *Form
	Inch   bool // sizes are said in inches, pitches as threads to the inch
	Source string
}

// AllSeries lists every series, the more usual ones first.
var AllSeries = []*Series{
	{"M", "ISO metric coarse", Metric, false, "ISO 261 and ISO 262"},
	{"MF", "ISO metric fine", Metric, false, "ISO 261"},
	{"UNC", "Unified coarse", Unified, true, "ASME B1.1"},
	{"UNF", "Unified fine", Unified, true, "ASME B1.1"},
	{"UNEF", "Unified extra fine", Unified, true, "ASME B1.1"},
	{"UN", "Unified form, any pitch", Unified, true, "ASME B1.1"},
	{"BSW", "British Standard Whitworth", Whitworth, true, "BS 84"},
	{"BSF", "British Standard Fine", Whitworth, true, "BS 84"},
	{"Whit", "Whitworth form, any pitch", Whitworth, true, "BS 84"},
	{"BA", "British Association", BritishAssociation, false, "BS 93: p = 0.9ⁿ mm, D = 6 p^1.2, each to two significant figures"},
	{"ME", "Model Engineer", Whitworth, true, "common practice among model engineers, Whitworth form"},
	{"BSB", "brass thread, 26 to the inch", Whitworth, true, "common practice: 26 threads to the inch in every size, Whitworth form"},
	{"G", "parallel pipe", Whitworth, true, "ISO 228-1"},
	{"Tr", "ISO metric trapezoidal", Trapezoidal, false, "ISO 2902 and ISO 2904"},
	{"Acme", "Acme, general purpose", Acme, true, "ASME B1.5"},
	{"Sq", "square", Square, false, "common practice: square threads have no standard"},
}

// SeriesNamed is the series with the key.
func SeriesNamed(key string) (*Series, bool) {
	i := slices.IndexFunc(AllSeries, func(s *Series) bool { return s.Key == key })
	if i < 0 {
		return nil, false
	}
	return AllSeries[i], true
}

//go:embed sizes.csv
var sizesCSV string

// Sizes lists every thread of every table, single-start and right-handed, in
// the order of the series, then of the table.
func Sizes() []Thread { return slices.Clone(sizes()) }

var sizes = sync.OnceValue(func() []Thread {
	var all []Thread
	for _, row := range table.Rows(sizesCSV) {
		s, ok := SeriesNamed(row["series"])
		if !ok {
			panic("sizes.csv: no series " + row["series"])
		}
		t := Thread{Series: s, Size: row["size"], Starts: 1, Listed: true, Tap: row.Number("tap_mm"),
			Dia: row.Number("major_mm"), Pitch: row.Number("pitch_mm"), TPI: row.Number("tpi")}
		if row["major_in"] != "" {
			t.Dia = row.Number("major_in") * inch
		}
		if t.TPI != 0 {
			t.Pitch = inch / t.TPI
		}
		all = append(all, t)
	}
	return all
})

// inch in mm, exactly (ISO 80000-3).
const inch = 25.4

// basics are the basic profiles of sizes, in the same order.
var basics = sync.OnceValue(func() []Basic {
	all := make([]Basic, len(sizes()))
	for i, t := range sizes() {
		b, err := t.Basic()
		if err != nil {
			panic(err) // a formula of a form that does not bind
		}
		all[i] = b
	}
	return all
})
