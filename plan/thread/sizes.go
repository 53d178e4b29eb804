package thread

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
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
	for _, row := range table(sizesCSV) {
		s, ok := SeriesNamed(row["series"])
		if !ok {
			panic("sizes.csv: no series " + row["series"])
		}
		t := Thread{Series: s, Size: row["size"], Starts: 1, Listed: true, Tap: number(row["tap_mm"]),
			Dia: number(row["major_mm"]), Pitch: number(row["pitch_mm"]), TPI: number(row["tpi"])}
		if row["major_in"] != "" {
			t.Dia = number(row["major_in"]) * inch
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

// table reads an embedded table; a fault in one is a fault in the program.
func table(text string) []map[string]string {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("embedded table: %v", err))
	}
	var all []map[string]string
	for _, row := range rows[1:] {
		m := make(map[string]string, len(row))
		for i, name := range rows[0] {
			m[name] = row[i]
		}
		all = append(all, m)
	}
	return all
}

// number is a cell of an embedded table; an empty one is 0.
func number(cell string) float64 {
	if cell == "" {
		return 0
	}
	x, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		panic(fmt.Sprintf("embedded table: %v", err))
	}
	return x
}

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
