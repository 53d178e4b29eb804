package part

// Sizes are all the sizes of a part in the order in which they are made:
// outside, bores, grooves and holes, then what a block has. Changing one
// changes the part.
func (p *Part) Sizes() []*Size {
	var all []*Size
	add := func(sizes ...*Size) { all = append(all, sizes...) }
	if r := p.Round; r != nil {
		r.sizes(add)
	}
	if f := p.Flat; f != nil {
		add(&f.Length, &f.Width, &f.Thickness)
		for i := range f.Features {
			c := &f.Features[i]
			add(&c.X, &c.Y, &c.Length, &c.Width, &c.Dia, &c.Depth, &c.Left)
		}
	}
	if d := p.Dial; d != nil {
		add(&d.Dia, &d.Width)
	}
	return all
}

func (r *Round) sizes(add func(...*Size)) {
	add(&r.Length)
	for _, steps := range [...][]Step{r.Outside, r.Left, r.Right} {
		for i := range steps {
			add(&steps[i].Length, &steps[i].Dia)
		}
	}
	for i := range r.Grooves {
		g := &r.Grooves[i]
		add(&g.At, &g.Width, &g.Dia)
	}
	for i := range r.Cross {
		add(&r.Cross[i].At, &r.Cross[i].Dia)
	}
	for i := range r.Flats {
		f := &r.Flats[i]
		add(&f.At, &f.Length, &f.Across)
	}
	if r.Flange == nil {
		return
	}
	add(&r.Flange.Width, &r.Flange.Height, &r.Flange.Corner)
	for i := range r.Flange.Holes {
		h := &r.Flange.Holes[i]
		add(&h.X, &h.Y, &h.Dia)
	}
}

// Measured are the sizes that can be entered as made, each once.
func (p *Part) Measured() []*Size {
	var named []*Size
	seen := map[string]bool{}
	for _, s := range p.Sizes() {
		if s.Name != "" && !seen[s.Name] {
			seen[s.Name] = true
			named = append(named, s)
		}
	}
	return named
}
