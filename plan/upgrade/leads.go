package upgrade

import (
	"strings"

	"fettle/plan/unit"
)

// lead is one that bars and taps are made with.
type lead struct {
	mm   float64
	said string
}

// leads are those of bars and taps that can be bought. Common practice, no source.
func leads() []lead {
	var all []lead
	for _, mm := range []float64{0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6} {
		all = append(all, lead{mm, bare(mm) + " mm"})
	}
	for _, in := range []float64{0.025, 0.05, 0.0625, 0.1, 0.125, 0.2, 0.25} {
		all = append(all, lead{25.4 * in, bare(in) + " in"})
	}
	return all
}

// label says a lead in both units: taken for the other one, it is bored wrong.
func (x lead) label() string {
	if strings.HasSuffix(x.said, "in") {
		return x.said + ", which is " + unit.MM.Text(x.mm, 4) + " mm"
	}
	return x.said + ", which is " + unit.MM.Text(x.mm/25.4, 4) + " in"
}

// leadNamed is the lead that was said; none where it is no such one.
func leadNamed(said string) lead {
	for _, x := range leads() {
		if x.said == said {
			return x
		}
	}
	return lead{}
}
