package web

import (
	"fettle/plan"
	"fettle/plan/machine"
	"fettle/plan/part"
	"fettle/plan/unit"
	"fettle/web/ui"
)

// madeRow is a size to be entered as made. Its fields are called Name, Name.spread and Name.with.
type madeRow struct {
	Name     string      `json:"name"`
	Label    string      `json:"label"`
	Planned  string      `json:"planned"` // with its limits
	Value    string      `json:"value"`   // as typed
	Spread   string      `json:"plus_minus"`
	Within   string      `json:"plus_minus_otherwise,omitempty"` // as the instrument usually is
	With     []ui.Option `json:"-"`
	WithWord string      `json:"with"`
	Unit     string      `json:"unit"`
	On       string      `json:"on,omitempty"`
	Problem  string      `json:"problem,omitempty"`
	Verdict  madeVerdict `json:"verdict"`
}

// madeVerdict is what a size as made comes to: Word is "in limits", "over", "under", or none.
type madeVerdict struct {
	Word string `json:"word,omitempty"`
	By   string `json:"by,omitempty"`
	Say  string `json:"say,omitempty"`
}

func (w *partsWriter) made(p *part.Part, s *part.Size) madeRow {
	key := p.Key + "." + s.Name
	e, u := w.site.Made[key], w.Units
	if s.Angle {
		u = unit.Degree
	}
	row := madeRow{Name: "made." + key, Label: s.Label, Planned: w.planned(s), Value: e.Typed, Spread: e.Spread, Unit: u.Symbol, On: e.On}
	in, said := plan.InstrumentNamed(e.With)
	row.With = []ui.Option{{Value: "", Text: "not said", Chosen: !said}}
	for _, i := range plan.Instruments {
		if !s.Angle && i.Within > 0 {
			row.With = append(row.With, ui.Option{Value: i.Key, Text: i.Label, Chosen: i.Key == e.With})
		}
	}
	if said {
		row.WithWord = in.Label
		row.Within = w.Units.Text(in.Within, w.Units.Decimals+1)
	}
	for _, p := range w.site.Problems {
		switch p.Field {
		case row.Name:
			row.Problem = sentence(p.Say)
		case row.Name + ".spread":
			row.Problem = sentence("how far off it can be: " + p.Say)
		}
	}
	if s.AsMade != nil && row.Problem == "" {
		row.Verdict = w.verdict(s)
	}
	return row
}

// figure writes a size or what it is off by, to a thousandth of a millimetre.
func (w *partsWriter) figure(s *part.Size, v float64) string {
	if s.Angle {
		return unit.One.Text(v, 2) + "°"
	}
	return w.Units.Text(v, w.Units.Decimals+1) + " " + w.Units.Symbol
}

func (w *partsWriter) planned(s *part.Size) string {
	say := w.figure(s, s.Nominal)
	if s.Open() {
		return say + " expected, to suit " + s.Suits
	}
	if s.Largest() > s.Smallest() {
		say += ", limits " + w.figure(s, s.Smallest()) + " to " + w.figure(s, s.Largest())
	}
	return say
}

func (w *partsWriter) verdict(s *part.Size) (v madeVerdict) {
	j := s.Judge(s.AsMade.Value, s.AsMade.PlusMinus)
	switch j.Verdict {
	case part.Within:
		v.Word = "in limits"
	case part.Over, part.Under:
		v.Word, v.By = string(j.Verdict), "by "+w.figure(s, j.By)
		v.Say = "What is off cannot be put back; the checks say whether it works all the same."
		if j.Rework {
			v.Say = "More can come off."
		}
	default:
		v.Say = "There are no limits to judge it by."
		if s.Open() {
			v.Say = "It is open still: what it must suit is not measured."
		}
		return v
	}
	if !j.Sure {
		v.Say += " As far as this was measured: the limit lies within what the reading can be off."
	}
	return v
}

// follows says what came out otherwise, and what is made otherwise for it.
func (w *partsWriter) follows(f machine.Follows) {
	v := w.view
	for _, c := range f.Came {
		by, way := c.Off, "over"
		if by < 0 {
			by, way = -by, "under"
		}
		v.Came = append(v.Came, capital(c.Label)+": "+c.Size.Label+" came out "+w.figure(&c.Size, by)+" "+way+", at "+w.figure(&c.Size, c.Size.AsMade.Value)+
			" where "+w.figure(&c.Size, c.Nominal)+" was planned.")
	}
	for _, s := range f.Sizes {
		v.So = append(v.So, "Make the "+lowered(s.Label)+", "+s.Size.Label+", "+w.figure(&s.Size, s.Size.Nominal)+" instead of "+w.figure(&s.Size, s.Was)+".")
	}
	for _, s := range f.Figures {
		v.Follows = append(v.Follows, partsShift{Label: capital(s.Now.Label), Was: w.text(s.Was, 0), Now: w.text(s.Now, 0), Href: w.link(s.Now.Key)})
	}
}
