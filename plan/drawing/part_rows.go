package drawing

import (
	"fettle/plan/part"
)

// Row is one size of a part as it stands in a table, written in the unit of the options.
type Row struct {
	Number                int
	Label                 string
	Nominal, Upper, Lower string // "M10×1" where it is a thread
	Limits, Source        string
	Suits, Awaits         string
	Name, Key             string // of the size within its part, and of the sheet's figure
	Size                  part.Size
}

// Rows are the sizes of a part, in the order in which they are made: what the
// drawing shows, to be read. Sizes that say the same stand once.
func Rows(p *part.Part, opt SheetOptions) []Row {
	opt = opt.usual()
	w := words{units: opt.Units, general: opt.General}
	says := sayings(p)
	var rows []Row
	seen := map[Row]bool{}
	for _, s := range p.Sizes() {
		say := says[s]
		if s.Nominal == 0 && say.thread == "" || !(named(*s) || say.always) {
			continue
		}
		r := Row{Label: s.Label, Nominal: w.nominal(*s), Limits: s.Limits, Source: s.Source, Suits: s.Suits, Awaits: s.Awaits, Name: s.Name, Key: s.Key}
		if r.Label == "" {
			r.Label = say.label
		}
		if s.Upper != 0 || s.Lower != 0 {
			r.Upper, r.Lower = w.deviation(*s, s.Upper), w.deviation(*s, s.Lower)
		}
		switch {
		case say.thread != "":
			r.Nominal = say.thread
		case say.dia:
			r.Nominal = diaSign + r.Nominal
		}
		if r.Limits == "" && s.Upper == 0 && s.Lower == 0 && say.thread == "" && s.Suits == "" {
			r.Limits = generalName + opt.General
		}
		if seen[r] {
			continue
		}
		seen[r] = true
		r.Number, r.Size = len(rows)+1, *s
		rows = append(rows, r)
	}
	return rows
}

const generalName = "ISO 2768-"

// saying is what a size of a part is, beside what it says itself.
type saying struct {
	label, thread string
	dia           bool
	always        bool // it is drawn even where it says nothing of itself
}

// of names a size of a feature, which may have no name.
func of(feature, what string) string {
	if feature == "" {
		return what
	}
	return feature + ", " + what
}

func sayings(p *part.Part) map[*part.Size]saying {
	all := map[*part.Size]saying{}
	if r := p.Round; r != nil {
		all[&r.Length] = saying{label: "length over all"}
		given := lengths(p)
		for n, steps := range [...][]part.Step{r.Outside, r.Left, r.Right} {
			for i := range steps {
				s := &steps[i]
				all[&s.Dia] = saying{s.Label, s.Thread, true, !s.Old}
				if n == 0 {
					all[&s.Length] = saying{label: of(s.Label, "length"), always: given[i]}
				} else {
					all[&s.Length] = saying{label: of(s.Label, "depth"), always: depth(p, *s)}
				}
			}
		}
		for i := range r.Grooves {
			g := &r.Grooves[i]
			all[&g.Width], all[&g.Dia] = saying{label: g.Form + ", width", always: true}, saying{label: g.Form, dia: true, always: true}
		}
		for i := range r.Cross {
			c := &r.Cross[i]
			all[&c.Dia] = saying{c.Label, c.Thread, true, true}
		}
		if f := r.Flange; f != nil {
			all[&f.Width], all[&f.Height] = saying{label: "flange, across", always: true}, saying{label: "flange, up", always: true}
			for i := range f.Holes {
				h := &f.Holes[i]
				all[&h.Dia] = saying{label: h.Label, dia: true, always: true}
				all[&h.X], all[&h.Y] = saying{label: h.Label + ", across", always: true}, saying{label: h.Label + ", up", always: true}
			}
		}
	}
	if f := p.Flat; f != nil {
		whole := !f.Outline
		all[&f.Length], all[&f.Width], all[&f.Thickness] = saying{label: "length", always: whole}, saying{label: "width", always: whole}, saying{label: "thickness", always: whole}
		for i := range f.Features {
			x := &f.Features[i]
			name := x.Label
			if name == "" {
				name = string(x.Kind)
			}
			say := func(what string) saying { return saying{label: name + ", " + what, always: true} }
			all[&x.X], all[&x.Y], all[&x.Length], all[&x.Width] = say("from the left"), say("from the front"), say("length"), say("width")
			all[&x.Depth], all[&x.Left] = say("depth"), say("left behind it")
			all[&x.Dia] = saying{name, x.Thread, true, true}
		}
	}
	if d := p.Dial; d != nil {
		all[&d.Dia] = saying{label: "dial", dia: true}
	}
	return all
}
