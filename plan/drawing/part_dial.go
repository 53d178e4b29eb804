package drawing

import "fettle/plan/part"

func dialPages(p *part.Part, n int, opt SheetOptions) []*page { return nil }

func (v *view) dialLines(d *part.Dial, t *turning) {}
