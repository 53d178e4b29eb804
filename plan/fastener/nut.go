package fastener

import (
	_ "embed"
	"slices"

	"fettle/plan/table"
)

// Nut is a size of hexagon nut.
type Nut struct {
	Standard string
	Size     string // "M6"
	Dia      float64
	Key      float64 // across the flats
	Height   float64 // at the most
}

// Washer is a size of plain washer.
type Washer struct {
	Size      string // "6", for M6
	Dia       float64
	Bore      float64 // at the least
	Outside   float64 // at the most
	Thickness float64 // nominal
}

var (
	//go:embed nuts.csv
	nutTable string
	//go:embed washers.csv
	washerTable string
)

// Nuts are those of ISO 4032, then the thin ones of ISO 4035.
var Nuts = func() (all []Nut) {
	for _, r := range table.Rows(nutTable) {
		all = append(all, Nut{r["standard"], r["size"], r.Number("dia"), r.Number("key"), r.Number("height")})
	}
	return all
}()

// Washers are those of ISO 7089.
var Washers = func() (all []Washer) {
	for _, r := range table.Rows(washerTable) {
		all = append(all, Washer{r["size"], r.Number("dia"), r.Number("bore"), r.Number("outside"), r.Number("thickness")})
	}
	return all
}()

// NutNamed is the nut of a standard and a size.
func NutNamed(standard, size string) (Nut, bool) {
	i := slices.IndexFunc(Nuts, func(n Nut) bool { return n.Standard == standard && n.Size == size })
	if i < 0 {
		return Nut{}, false
	}
	return Nuts[i], true
}

// WasherFor is the washer of a thread's diameter.
func WasherFor(dia float64) (Washer, bool) {
	i := slices.IndexFunc(Washers, func(w Washer) bool { return w.Dia == dia })
	if i < 0 {
		return Washer{}, false
	}
	return Washers[i], true
}

// Designation names the nut: "ISO 4032 M6".
func (n Nut) Designation() string { return n.Standard + " " + n.Size }

// Designation names the washer: "ISO 7089 6".
func (w Washer) Designation() string { return "ISO 7089 " + w.Size }
