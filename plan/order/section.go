package order

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/plan/material"
	"fettle/plan/part"
	"fettle/plan/unit"
)

// System is which preferred sizes bar is bought in.
type System string

// The systems.
const (
	Metric System = "metric"
	Inch   System = "inch"
)

// Section is a size of bar.
type Section struct {
	Form   string  // key of a form in room material: "round", "flat", "square"
	Across float64 // mm: the diameter, or the width
	Second float64 // mm: the thickness of a flat; else 0
	System System  // in which it is a preferred size
	Beyond bool    // larger than the tables: the next 5 mm up
}

// String writes the section: "round 22", "flat 40 × 8", "round 7/8 in".
func (s Section) String() string {
	if s.Second == 0 {
		return s.Form + " " + s.size(s.Across)
	}
	return s.Form + " " + s.size(s.Across) + " × " + s.size(s.Second)
}

func (s Section) size(v float64) string {
	if s.System != Inch || s.Beyond {
		return unit.MM.Text(v, 1)
	}
	return inches(v)
}

// inches writes a size of inch stock as it is said: "7/8 in", "1 1/4 in".
func inches(v float64) string {
	const parts = 16
	n := int(math.Round(unit.Inch.In(v) * parts))
	whole, rest, below := n/parts, n%parts, parts
	for rest > 0 && rest%2 == 0 {
		rest, below = rest/2, below/2
	}
	switch {
	case rest == 0:
		return fmt.Sprintf("%d in", whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d in", rest, below)
	}
	return fmt.Sprintf("%d %d/%d in", whole, rest, below)
}

// flats are the thicknesses and widths of flat bar in mm: up to 25 as room
// material has them, above as they are sawn from plate and block.
var flats = map[System]struct{ thick, wide []float64 }{
	Metric: {
		append(slices.Clone(material.MetricFlats), 30, 35, 40, 50, 60, 80, 100, 120, 150),
		[]float64{10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 120, 150, 200, 250, 300},
	},
	Inch: {
		inch(1./8, 3./16, 1./4, 5./16, 3./8, 1./2, 5./8, 3./4, 1, 1.25, 1.5, 2, 3, 4, 5, 6),
		inch(3./8, 1./2, 5./8, 3./4, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12),
	},
}

// rounds are the diameters of round bar in mm: those of room material, above
// them as discs are sawn from for wheels and plates (EN 10060 has the metric ones).
var rounds = map[System][]float64{
	Metric: append(slices.Clone(material.MetricRounds), 90, 100, 110, 120, 130, 140, 150, 160, 180, 200),
	Inch:   append(slices.Clone(material.InchRounds), inch(3.5, 4, 4.5, 5, 5.5, 6, 7, 8)...),
}

func inch(sizes ...float64) (all []float64) {
	for _, s := range sizes {
		all = append(all, unit.Inch.Inside(s))
	}
	return all
}

// least is what a section has to be at the least, in mm.
type least struct {
	form           string
	across, second float64
}

// fit is the next preferred section, with a note where there is something to say.
func (l least) fit(sys System) (Section, string) {
	s := Section{Form: l.form, System: sys}
	across, second := rounds[sys], []float64(nil)
	if l.form != "round" {
		across, second = flats[sys].wide, flats[sys].thick
	}
	var err error
	if s.Across, err = material.Next(across, l.across); err != nil {
		s.Across, s.Beyond = math.Ceil(l.across/5)*5, true
	}
	if second != nil {
		if s.Second, err = material.Next(second, l.second); err != nil {
			s.Second, s.Beyond = math.Ceil(l.second/5)*5, true
		}
	}
	if s.Form == "flat" && s.Across == s.Second {
		s.Form, s.Second = "square", 0
	}
	if s.Beyond {
		return s, "larger than the stock sizes in the table: ask what is kept above " + unit.MM.With(max(l.across, l.second))
	}
	return s, ""
}

// takes tells whether a section is large enough, and not so large that it would
// be a waste.
func (l least) takes(form string, across, second float64) bool {
	const slack = 1e-6 // mm
	if form == "square" && l.form == "flat" {
		form, second = "flat", across
	}
	return form == l.form && across >= l.across-slack && across <= WasteMost*l.across+slack &&
		(form != "flat" || second >= l.second-slack && second <= WasteMost*l.second+slack)
}

// WasteMost is how much larger than needed an offcut may be to be used up.
const (
	WasteMost       = 1.5
	WasteMostSource = "common practice, no source: no more than half as large again is turned away"
)

// leastOf is the smallest section that a part comes out of, and how long the
// part is along it.
func leastOf(p part.Part, sys System, skin material.Skin) (l least, length part.Size, notes []string) {
	if r := p.Round; r != nil && r.Flange == nil {
		size := largest(r)
		l, length = least{form: "round"}, lengthOf(r)
		l.across, notes = over(size, rounds[sys], skin)
		return l, length, notes
	}
	var box [3]part.Size
	if r := p.Round; r != nil {
		box = [3]part.Size{lengthOf(r), wider(r.Flange.Width, largest(r)), wider(r.Flange.Height, largest(r))}
	} else {
		box = [3]part.Size{p.Flat.Length, p.Flat.Width, p.Flat.Thickness}
		if a := p.Flat.Angle; a > 0 && a < 90 {
			// The slanting edges stick out by the thickness times the cotangent.
			box[1].Nominal += p.Flat.Thickness.Nominal / math.Tan(a*math.Pi/180)
			box[1].Limits = ""
		}
	}
	// Sawn across its longest way, on the flat.
	slices.SortStableFunc(box[:], func(a, b part.Size) int { return cmp.Compare(b.Largest(), a.Largest()) })
	l.form = "flat"
	var more []string
	l.across, notes = over(box[1], flats[sys].wide, skin)
	l.second, more = over(box[2], flats[sys].thick, skin)
	return l, box[0], slices.Compact(append(notes, more...))
}

// over is a size with what is machined off it. A size to a general tolerance
// that is a preferred size of bright bar is left as the bar is.
func over(s part.Size, sizes []float64, skin material.Skin) (mm float64, notes []string) {
	isStock := slices.ContainsFunc(sizes, func(v float64) bool { return math.Abs(v-s.Nominal) < 1e-6 })
	if isStock && skin.Key == "bright" && strings.HasPrefix(s.Limits, "ISO 2768") || skin.Key == "as_is" {
		return s.Nominal, []string{"left outside as the bar is: " + skins["as_is"].Source}
	}
	return s.Largest() + skin.Over, []string{skin.Label + ": " + skin.Source}
}

var skins = func() map[string]material.Skin {
	all := map[string]material.Skin{}
	for _, s := range material.Skins {
		all[s.Key] = s
	}
	return all
}()

// skinOf is how bar of a material usually comes.
func skinOf(m material.Material) material.Skin {
	if m.Class == "grey iron" || m.Class == "ductile iron" {
		return skins["cast"]
	}
	return skins["bright"]
}

// largest is the largest outside diameter that is made.
func largest(r *part.Round) (size part.Size) {
	for i, s := range r.Outside {
		if r.Flange != nil && r.Flange.Step == i {
			continue
		}
		size = wider(size, s.Dia)
	}
	return size
}

func wider(a, b part.Size) part.Size {
	if b.Largest() > a.Largest() || math.IsNaN(b.Nominal) {
		return b
	}
	return a
}

// lengthOf is the length over all.
func lengthOf(r *part.Round) part.Size {
	if r.Length != (part.Size{}) {
		return r.Length
	}
	sum := part.Size{Label: "length"}
	for _, s := range r.Outside {
		sum.Nominal += s.Length.Nominal
		sum.Upper += s.Length.Upper
		if s.Length.Open() && !sum.Open() {
			sum.Awaits, sum.Suits, sum.Label = s.Length.Awaits, s.Length.Suits, s.Length.Label
		}
	}
	return sum
}
