package web

import "fettle/web/ui"

// brief is the explanation for a page that shows the figure already: with how well it is known, and
// the way to all the rest.
func (v figureView) brief() ui.Explanation {
	e := v.Explain
	if v.PlusMinus != "" {
		say := "Known within " + v.PlusMinus + "."
		if len(v.Shares) > 0 {
			say += " Measure “" + lowered(v.Shares[0].Label) + "” better first: it makes " + v.Shares[0].Part + " of that."
		}
		e.Say = append(e.Say, say)
	}
	if len(v.Missing) > 0 {
		words := make([]string, len(v.Missing))
		for i, m := range v.Missing {
			words[i] = the(m.Label)
		}
		e.Say = append(e.Say, "To be measured: "+joined(words)+".")
	}
	return e
}
