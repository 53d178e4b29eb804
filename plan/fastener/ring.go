package fastener

import (
	_ "embed"
	"fmt"
	"math"
	"slices"

	"fettle/plan/table"
)

// Ring is a size of O-ring.
type Ring struct {
	Code    string  // "110"
	Inside  float64 // diameter
	Section float64
}

//go:embed rings.csv
var ringTable string

// Rings are those of the three thinner sections of ISO 3601-1 for general use:
// 1.78, 2.62 and 3.53 mm, up to about 73 mm inside.
var Rings = func() (all []Ring) {
	for _, r := range table.Rows(ringTable) {
		all = append(all, Ring{r["code"], r.Number("inside"), r.Number("section")})
	}
	return all
}()

// Sections are the sections of [Rings].
var Sections = []float64{1.78, 2.62, 3.53}

// How much a ring is stretched over the floor of its groove.
const (
	StretchLeast  = 0.02
	StretchMost   = 0.05
	StretchSource = "common practice, from memory: 2 to 5 % on the inside diameter"
)

// RingNamed is the ring with the code.
func RingNamed(code string) (Ring, bool) {
	i := slices.IndexFunc(Rings, func(r Ring) bool { return r.Code == code })
	if i < 0 {
		return Ring{}, false
	}
	return Rings[i], true
}

// Designation names the ring with its size: "ISO 3601-1 110 9.19 × 2.62".
func (r Ring) Designation() string {
	return "ISO 3601-1 " + r.Code + " " + bare(r.Inside) + " × " + bare(r.Section)
}

// Stretch is how much the ring is stretched over a groove of the diameter, as a
// share of its inside diameter.
func (r Ring) Stretch(groove float64) float64 { return groove/r.Inside - 1 }

// NoRing says that no ring of a section suits a groove, and which grooves the
// nearest would suit.
type NoRing struct {
	Groove, Section float64
	Near            []Ring // the next smaller and the next larger, where there are such
}

func (n *NoRing) Error() string {
	s := fmt.Sprintf("no O-ring of %s section is stretched by 2 to 5 %% over %s", mm(n.Section), mm(n.Groove))
	for _, r := range n.Near {
		s += fmt.Sprintf("; %s suits a groove of %s to %s", r.Code, mm(r.Inside*(1+StretchLeast)), mm(r.Inside*(1+StretchMost)))
	}
	return s
}

// RingFor is the largest ring of the section that is stretched from
// [StretchLeast] to [StretchMost] over a groove's floor of the diameter. It
// returns [ErrAsked] or a [*NoRing], so that the groove can be turned to suit.
func RingFor(groove, section float64) (Ring, error) {
	if !(groove > 0) || math.IsInf(groove, 1) || !slices.Contains(Sections, section) {
		return Ring{}, ErrAsked
	}
	none := &NoRing{Groove: groove, Section: section}
	var smaller, larger, best Ring
	for _, r := range Rings {
		if r.Section != section {
			continue
		}
		switch s := r.Stretch(groove); {
		case s > StretchMost+forgiven:
			smaller = r
		case s >= StretchLeast-forgiven:
			best = r
		case larger.Code == "":
			larger = r
		}
	}
	if best.Code != "" {
		return best, nil
	}
	for _, r := range []Ring{smaller, larger} {
		if r.Code != "" {
			none.Near = append(none.Near, r)
		}
	}
	return Ring{}, none
}
