package order

import (
	"fmt"
	"slices"

	"fettle/plan/material"
	"fettle/plan/part"
	"fettle/plan/unit"
)

// Workshop is what the owner cuts from and with. The zero Workshop is one with
// metric bar in the usual lengths and nothing in the rack.
type Workshop struct {
	System System            // of preferred sizes; metric unless told
	Kerf   float64           // mm; 0 for [Kerf]
	Bars   []Bar             // that can be bought; none for [BarLengths]
	Sold   map[string][]Bar  // for one kind of bar, by [Group.Key], where it differs
	Skins  map[string]string // key of a skin in room material by [Blank.Key], where it differs
	Owned  []Owned
	Effort int // of [MakeNest]
}

// Owned is bar that the owner has.
type Owned struct {
	Key      string
	Label    string
	Material string // key in room material
	Form     string // key of a form in room material
	Across   float64
	Second   float64
	Length   float64 // mm, as are the other two
}

// BarLengths are the lengths of bar in which small orders are sold, in mm.
var BarLengths = map[System][]float64{
	Metric: {250, 500, 1000},
	Inch:   {304.8, 609.6, 914.4},
}

// BarLengthsSource is where they come from.
const BarLengthsSource = "common practice, no source: lengths that bar is cut to for small orders"

// StickOut is how far bar may stand out of a chuck without a centre.
const (
	StickOut       = 3.0
	StickOutSource = "common practice, no source: three diameters out of the chuck"
)

func (w Workshop) system() System {
	if w.System == Inch {
		return Inch
	}
	return Metric
}

func (w Workshop) bars(group string) []Bar {
	if b := w.Sold[group]; len(b) > 0 {
		return b
	}
	if len(w.Bars) > 0 {
		return w.Bars
	}
	var all []Bar
	for _, l := range BarLengths[w.system()] {
		all = append(all, Bar{Length: l})
	}
	return all
}

// Term is one thing that adds to the length of a blank.
type Term struct {
	Label  string
	MM     float64
	Source string
}

// Blank is what a part is cut from, or some of them together.
type Blank struct {
	Key      string // upgrade, part, and which of its blanks
	Upgrade  string
	Part     string // key
	Label    string
	Material material.Material // the zero Material where it is not known
	Section  Section
	Length   float64 // mm off the saw, each
	Terms    []Term  // what it adds up from
	Pieces   int     // parts out of each
	Count    int     // how many such blanks
	Mass     float64 // of all of them, inside; unit.Kilogram shows it
	Waits    []string
	Notes    []string
	Problem  string // why it cannot be said; then there is no section
	least    least
}

// CutList is what each part to make is cut from. Parts that are altered need no
// stock and are left out.
func CutList(needs []Need, w Workshop) (blanks []Blank) {
	for _, n := range needs {
		for _, p := range n.Parts {
			if !p.Altered && (p.Round != nil || p.Flat != nil) {
				blanks = append(blanks, w.blanks(n, p)...)
			}
		}
	}
	return blanks
}

func (w Workshop) blanks(n Need, p part.Part) []Blank {
	b := Blank{Key: n.Upgrade + "/" + p.Key, Upgrade: n.Upgrade, Part: p.Key, Label: p.Label, Pieces: 1, Count: max(1, p.Quantity)}
	var known bool
	if b.Material, known = material.Named(p.Material); !known {
		b.Problem = "its material is not chosen yet"
		return []Blank{b}
	}
	skin := skinOf(b.Material)
	if s, ok := skins[w.Skins[b.Key]]; ok {
		skin = s
	}
	var length part.Size
	b.least, length, b.Notes = leastOf(p, w.system(), skin)
	if !possible(b.least.across) || !possible(length.Nominal) || b.least.form == "flat" && !possible(b.least.second) {
		b.Problem = "its size is not known yet"
		return []Blank{b}
	}
	b.Waits = waits(p)
	var note string
	if b.Section, note = b.least.fit(w.system()); note != "" {
		b.Notes = append(b.Notes, note)
	}
	if b.least.form == "round" {
		return chucked(b, length.Largest())
	}
	b.Terms = []Term{{"length", length.Largest(), ""}, facing(1)}
	b.Length = lengthFigure(sawnLength, map[string]float64{"ends": 2}, map[string]float64{"length": length.Largest(), "facing": material.Facing})
	return []Blank{weighed(b)}
}

func possible(v float64) bool { return v > 0 && v <= unit.MaxLength }

func facing(pieces int) Term {
	label := "facing of both ends"
	if pieces > 1 {
		label = fmt.Sprintf("facing of %d ends", 2*pieces)
	}
	return Term{label, 2 * float64(pieces) * material.Facing, material.FacingSource}
}

// chucked parts round pieces into blanks: as many to a blank as can be turned
// from it where it is held once.
func chucked(b Blank, length float64) (blanks []Blank) {
	each := length + 2*material.Facing + material.Parting
	most := max(1, int(StickOut*b.Section.Across/each))
	if each-material.Parting > StickOut*b.Section.Across {
		b.Notes = append(b.Notes, fmt.Sprintf("stands %s out of the chuck: carry its end on a centre or in a steady (%s)", unit.MM.With(length), StickOutSource))
	}
	total := b.Count
	for _, run := range [...]struct{ pieces, count int }{{most, total / most}, {total % most, 1}} {
		if run.pieces == 0 || run.count == 0 {
			continue
		}
		x, n := b, float64(run.pieces)
		x.Pieces, x.Count = run.pieces, run.count
		x.Notes, x.Waits = slices.Clone(b.Notes), slices.Clone(b.Waits)
		if len(blanks) > 0 {
			x.Key += "/rest"
		}
		label := "length"
		if run.pieces > 1 {
			label = fmt.Sprintf("%d × %s", run.pieces, unit.MM.With(length))
		}
		x.Terms = []Term{{label, n * length, ""}, facing(run.pieces), {"parting off", n * material.Parting, material.PartingSource},
			{"held in the chuck, which comes back", material.Holding, material.HoldingSource}}
		x.Length = lengthFigure(material.LengthWanted, map[string]float64{"pieces": n, "ends": 2}, map[string]float64{
			"length": length, "facing": material.Facing, "parting": material.Parting, "holding": material.Holding})
		blanks = append(blanks, weighed(x))
	}
	return blanks
}

// waits are the sizes that are still open and on which the stock depends.
func waits(p part.Part) (all []string) {
	add := func(sizes ...part.Size) {
		for _, s := range sizes {
			if !s.Open() {
				continue
			}
			suits := s.Suits
			if suits == "" {
				suits = "a measurement"
			}
			if say := s.Label + " waits for " + suits; !slices.Contains(all, say) {
				all = append(all, say)
			}
		}
	}
	if r := p.Round; r != nil {
		add(r.Length)
		for _, s := range r.Outside {
			add(s.Length, s.Dia)
		}
		if r.Flange != nil {
			add(r.Flange.Width, r.Flange.Height)
		}
	} else {
		add(p.Flat.Length, p.Flat.Width, p.Flat.Thickness)
	}
	return all
}

// weighed gives a blank its mass, of all that are alike.
func weighed(b Blank) Blank {
	b.Mass = mass(b.Material, b.Section, b.Length) * float64(b.Count)
	return b
}
