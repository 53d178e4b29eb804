package bearing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/plan/unit"
)

// Place is where a bearing has to go. Lengths in mm; 0 where it is not known.
type Place struct {
	Shaft           float64 // the journal's diameter
	Width           float64 // length for it along the shaft
	Space           float64 // the largest seat that there is room for
	Body            float64 // diameter of the bracket around the seat
	Material        string  // of the bracket: "aluminium", or anything else
	ShaftShoulder   float64 // diameter, where it stands already
	HousingShoulder float64
	Shielded        bool // closed bearings
}

// Demand is what a bearing has to carry, in N.
type Demand struct {
	Thrust, Radial float64
	BothWays       bool    // thrust in both directions, as of a feed screw
	Safety         float64 // static safety wanted
}

// Candidate is a bearing weighed against a place and a demand.
type Candidate struct {
	Bearing
	Pieces  int      // how many are needed
	Needs   float64  // mm of shaft, for all of them
	Wall    float64  // mm around the seat; +Inf where the body is not known
	Allowed float64  // N of thrust that it may carry beside the radial load, rating at the low end
	Safety  float64  // static, rating at the low end
	Against []string // why not; empty where it suits
}

// Suits tells whether nothing is against it.
func (c Candidate) Suits() bool { return len(c.Against) == 0 }

// Used is the share of the thrust allowed that is asked for.
func (c Candidate) Used(d Demand) float64 { return d.Thrust / c.Allowed }

// comfortable is the share of the thrust allowed up to which a bearing is taken
// before a larger one.
const comfortable = 0.7

// Choose weighs every bearing whose bore is the journal's diameter. Those that
// suit come first: of these the ones that use up to 70 % of the thrust they may
// carry, then the smallest outside, then the narrowest. Those that do not suit
// follow, the fewest objections first, each with all of them.
//
// It returns [ErrUnknown] where no bearing has that bore.
func Choose(p Place, d Demand) ([]Candidate, error) {
	var list []Candidate
	for _, b := range Catalogue {
		if math.Abs(b.Bore-p.Shaft) < 1e-9 {
			list = append(list, weigh(b, p, d))
		}
	}
	if len(list) == 0 {
		return nil, fmt.Errorf("%w: none has a bore of %s; %s", ErrUnknown, mm(p.Shaft), nearest(p.Shaft))
	}
	slices.SortStableFunc(list, func(a, b Candidate) int {
		strained := func(c Candidate) int {
			if c.Used(d) > comfortable {
				return 1
			}
			return 0
		}
		if n := cmp.Compare(len(a.Against), len(b.Against)); n != 0 {
			return n
		}
		return cmp.Or(cmp.Compare(strained(a), strained(b)), cmp.Compare(a.OD, b.OD), cmp.Compare(a.Needs, b.Needs))
	})
	return list, nil
}

func weigh(b Bearing, p Place, d Demand) Candidate {
	if p.Shielded && b.Shield > 0 {
		b.Width = b.Shield
	}
	c := Candidate{Bearing: b, Pieces: 1, Wall: math.Inf(1)}
	if d.BothWays && !b.BothWays() {
		c.Pieces = 2
	}
	c.Needs = float64(c.Pieces) * b.Height()
	c.carry(d)
	if p.Body > 0 {
		c.Wall = (p.Body - b.OD) / 2
	}
	against := func(format string, args ...any) { c.Against = append(c.Against, fmt.Sprintf(format, args...)) }
	if p.Space > 0 && b.OD > p.Space {
		against("%s outside, and there is room for %s", mm(b.OD), mm(p.Space))
	}
	if least := wallLeast(b.OD, p.Material); c.Wall < least {
		against("leaves a wall of %s, and %s is wanted", mm(c.Wall), mm(least))
	}
	if p.Width > 0 && c.Needs > p.Width {
		against("takes %s of the shaft, and there is %s", mm(c.Needs), mm(p.Width))
	}
	s := b.Shoulders()
	shoulder := func(what string, is, least, most float64) {
		switch {
		case is == 0:
		case is < least-1e-9:
			against("wants a %s shoulder of %s at least, and it has %s", what, mm(least), mm(is))
		case is > most+1e-9:
			against("wants a %s shoulder of %s at most, and it has %s", what, mm(most), mm(is))
		}
	}
	shoulder("shaft", p.ShaftShoulder, s.ShaftLeast, s.ShaftMost)
	shoulder("housing", p.HousingShoulder, s.HousingLeast, s.HousingMost)
	switch {
	case b.Thrust() && d.Radial > 0:
		against("carries no radial load")
	case d.Thrust > c.Allowed:
		against("may carry %s of thrust, and %s is asked for", unit.Newton.With(c.Allowed), unit.Newton.With(d.Thrust))
	case c.Safety < d.Safety:
		against("has a static safety of %s, and %s is wanted", unit.One.Text(c.Safety, 1), unit.One.Text(d.Safety, 1))
	}
	return c
}

// carry works out what the bearing carries, with its rating at the low end. They
// are the formulas of [StaticEquivalent], [StaticSafety] and [AxialMost], turned
// round for the thrust.
func (c *Candidate) carry(d Demand) {
	static := Spread * c.Static
	share, _ := c.AxialShare()
	c.Allowed = share * static
	if c.Thrust() {
		c.Allowed = static / d.Safety
		c.Safety = static / d.Thrust
		return
	}
	x0, y0 := StaticFactors(c.Kind)
	c.Allowed = max(0, min(c.Allowed, (static/d.Safety-x0*d.Radial)/y0))
	c.Safety = static / max(d.Radial, x0*d.Radial+y0*d.Thrust)
}

func nearest(bore float64) string {
	below, above := 0.0, math.Inf(1)
	for _, b := range Catalogue {
		if b.Bore < bore {
			below = max(below, b.Bore)
		} else {
			above = min(above, b.Bore)
		}
	}
	var say []string
	if below > 0 {
		say = append(say, "the next smaller is "+mm(below)+", for which the journal would be turned down")
	}
	if !math.IsInf(above, 1) {
		say = append(say, "the next larger "+mm(above))
	}
	return strings.Join(say, ", ")
}

func mm(x float64) string { return unit.MM.With(x) }
