package drawing

import (
	"fettle/plan/part"
	"fettle/plan/unit"
)

// Format is a size of paper, in mm, the short side first.
type Format struct {
	Name        string
	Short, Long float64
}

// The sizes of paper: ISO 216 and ASME Y14.1.
var (
	A4     = Format{"A4", 210, 297}
	Letter = Format{"Letter", 215.9, 279.4}
)

// SheetOptions say what stands in the title block of a set of sheets and how
// they are laid out. What is not said is left blank.
type SheetOptions struct {
	ID         string // of the first picture; the others' follow it
	Units      unit.Unit
	Format     Format // the zero Format is A4
	ThirdAngle bool   // ISO 5456-2; else first angle
	General    string // class of ISO 2768-1 in the title block; "" is m
	Owner      string
	Machine    string // what the parts are for
	Number     string // of the set; a part's own number follows it
	Date       string // as it is to be written
	Creator    string
}

// Sheet is what is known of a drawing that is a sheet of paper.
type Sheet struct {
	Format     Format
	Scale      float64 // mm of paper to a mm of the part
	Part       string  // key of the part; "" where it is of several
	Label      string  // what the sheet shows
	Frame      [4]float64
	Dimensions []Dimension
	Number, Of int
}

// Dimension is one size on a sheet: between two points of paper, of which the
// distance along it is the size in the sheet's scale. Half is set where only
// one end is on the part, and the other lies as far beyond the axis.
type Dimension struct {
	Size    part.Size
	A, B    Point
	Upright bool // it is measured up the paper, else across
	Half    bool
	Dia     bool
}

// PartSheets draws parts to make, one sheet for each and more where a dial's
// strip is longer than the paper, numbered as one set.
func PartSheets(parts []part.Part, opt SheetOptions) []*Drawing {
	opt = opt.usual()
	var all []*page
	for i := range parts {
		all = append(all, partPages(&parts[i], i+1, opt)...)
	}
	return bound(all, opt)
}

// bound numbers pages as one set and gives each its title block.
func bound(all []*page, opt SheetOptions) []*Drawing {
	sheets := make([]*Drawing, len(all))
	for i, g := range all {
		sheets[i] = g.finish(i+1, len(all), opt)
	}
	return sheets
}

func (o SheetOptions) usual() SheetOptions {
	if o.Units.Scale == 0 {
		o.Units = unit.MM
	}
	if !(o.Format.Short > 100 && o.Format.Long >= o.Format.Short && o.Format.Long <= 5000) {
		o.Format = A4
	}
	if o.General == "" {
		o.General = "m"
	}
	if o.ID == "" {
		o.ID = "sheet"
	}
	return o
}

func partPages(p *part.Part, n int, opt SheetOptions) []*page {
	w := words{units: opt.Units, general: opt.General}
	var pages []*page
	switch {
	case p.Round != nil:
		pages = append(pages, fitted(p, n, opt, func(k float64) ([]placedView, *words) {
			w := w
			return roundViews(p, k, &w, opt.ThirdAngle), &w
		}))
	case p.Flat != nil:
		pages = append(pages, fitted(p, n, opt, func(k float64) ([]placedView, *words) {
			w := w
			return flatViews(p, k, &w, opt.ThirdAngle), &w
		}))
	}
	if p.Dial != nil {
		pages = append(pages, dialPages(p, n, opt)...)
	}
	return pages
}

// Scales of ISO 5455, in the order in which they are tried.
var scales = []float64{10, 5, 2, 1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001}

// enlarged is the largest scale at which a part of a size is drawn: larger says no more.
func enlarged(reach float64) float64 {
	switch {
	case reach <= 6:
		return 10
	case reach <= 16:
		return 5
	case reach <= 80:
		return 2
	}
	return 1
}

// placedView is a view with where it goes: its middle line on a grid of views.
type placedView struct {
	*view
	column, row int // 0 is the main view; left of it and above it are negative
}

// fitted draws a part at the largest scale of ISO 5455 at which it goes on the
// paper, upright before across.
func fitted(p *part.Part, n int, opt SheetOptions, views func(k float64) ([]placedView, *words)) *page {
	var g *page
	for _, k := range scales {
		if k > enlarged(reach(p)) {
			continue
		}
		vs, w := views(k)
		for _, across := range [...]bool{false, true} {
			g = newPage(p, n, k, across, opt)
			g.write(notes(p, w, opt))
			if g.arrange(vs) {
				return g
			}
		}
		if written(vs) > mostWritten {
			break // smaller, it would be no less
		}
	}
	// Too much for one sheet: the smallest scale, and the table says the rest.
	vs, w := views(1)
	g = newPage(p, n, 1, true, opt)
	g.write(notes(p, w, opt))
	g.crowded(vs)
	return g
}

// mostWritten is how many texts go on a sheet at all.
const mostWritten = 70

func written(vs []placedView) int {
	n := 0
	for _, v := range vs {
		n += len(v.taken.texts)
	}
	return n
}

// reach is the largest size of a part.
func reach(p *part.Part) float64 {
	most := 0.0
	if r := p.Round; r != nil {
		long := 0.0
		for _, s := range r.Outside {
			long += s.Length.Nominal
			most = max(most, s.Dia.Nominal)
		}
		most = max(most, long)
		if r.Flange != nil {
			most = max(most, r.Flange.Width.Nominal, r.Flange.Height.Nominal)
		}
	}
	if f := p.Flat; f != nil {
		most = max(most, f.Length.Nominal, f.Width.Nominal, f.Thickness.Nominal)
	}
	return most
}
