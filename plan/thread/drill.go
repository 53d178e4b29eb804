package thread

import (
	_ "embed"
	"fmt"
	"math"
	"slices"
	"sync"

	"fettle/plan/sheet"
	"fettle/plan/table"
)

// Two things are called 100 per cent of thread: the depth of the nut's basic
// profile, 5/8 H a side, which is what the standards mean; and 3/4 H a side, the
// depth of the screw's old flat-rooted profile, which many trade charts mean.
// The same drill has 92 % by the first and 77 % by the second.
var (
	// FullDepth is 100 % of thread on the diameter, by the standards: d − D1.
	FullDepth = sheet.Method{Text: "dia - bore", Source: "100 % is the basic profile: 5/8 H a side on 60° threads (ISO 68-1, ASME B1.1), the whole depth on others"}

	// ChartDepth is what many trade charts call 100 % on 60° threads: 3/4 H a side.
	ChartDepth = sheet.Method{Text: "1.299038 * pitch", Source: "100 % is 3/4 H a side: many trade charts, on 60° threads", Valid: "on 60° threads"}

	// TappingDrill leaves a share of a full thread.
	TappingDrill = sheet.Method{Text: "dia - full_depth * percent", Source: "geometry: d − share × full depth on the diameter"}

	// ThreadShare is what a drill leaves of a full thread.
	ThreadShare = sheet.Method{Text: "(dia - drill) / full_depth", Source: "geometry"}
)

// Drill is a stock drill; Dia in mm.
type Drill struct {
	Name string // "5.2 mm", "13/64 in", "No. 7", "letter F"
	Dia  float64
	Inch bool
}

//go:embed drills.csv
var drillsCSV string

// DrillSource says where the list of stock drills comes from.
const DrillSource = "common practice: metric by 0.05 to 3 mm, by 0.1 and quarters to 14 mm, by 0.25 to 32 mm, by 0.5 to 60 mm; inch fractions by 1/64, numbers 1 to 80 and letters A to Z (ANSI B94.11M)"

// Drills lists the drills that are sold, by diameter.
func Drills() []Drill { return slices.Clone(drills()) }

var drills = sync.OnceValue(func() []Drill {
	seen := map[int]bool{}
	var all []Drill
	metric := func(hundredths int) {
		if !seen[hundredths] {
			seen[hundredths] = true
			d := float64(hundredths) / 100
			all = append(all, Drill{short(d) + " mm", d, false})
		}
	}
	for _, run := range []struct{ from, to, by int }{{30, 300, 5}, {300, 1400, 10}, {300, 3200, 25}, {3200, 6000, 50}} {
		for h := run.from; h <= run.to; h += run.by {
			metric(h)
		}
	}
	for n := 1; n <= 96; n++ {
		all = append(all, Drill{fraction(n, 64) + " in", float64(n) / 64 * inch, true})
	}
	for _, row := range table.Rows(drillsCSV) {
		all = append(all, Drill{row["name"], row.Number("inch") * inch, true})
	}
	slices.SortStableFunc(all, func(a, b Drill) int {
		switch {
		case a.Dia < b.Dia:
			return -1
		case a.Dia > b.Dia:
			return 1
		}
		return 0
	})
	return all
})

// fraction writes n/of in lowest terms, whole inches first: "1-1/8".
func fraction(n, of int) string {
	whole, n := n/of, n%of
	if n == 0 {
		return fmt.Sprint(whole)
	}
	for n%2 == 0 {
		n, of = n/2, of/2
	}
	if whole > 0 {
		return fmt.Sprintf("%d-%d/%d", whole, n, of)
	}
	return fmt.Sprintf("%d/%d", n, of)
}

// NearestDrills lists the stock drills that are nearest to a diameter in mm, by
// diameter: up to each of metric and inch ones, on either side.
func NearestDrills(dia float64, each int) []Drill {
	var near []Drill
	for _, inches := range []bool{false, true} {
		var kind []Drill
		for _, d := range drills() {
			if d.Inch == inches && math.Abs(d.Dia-dia) < 0.15*dia {
				kind = append(kind, d)
			}
		}
		slices.SortStableFunc(kind, func(a, b Drill) int {
			if math.Abs(a.Dia-dia) < math.Abs(b.Dia-dia) {
				return -1
			}
			return 1
		})
		near = append(near, kind[:min(each, len(kind))]...)
	}
	slices.SortStableFunc(near, func(a, b Drill) int {
		if a.Dia < b.Dia {
			return -1
		}
		return 1
	})
	return near
}
