package web

import (
	"cmp"
	"net/http"
	"slices"

	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
	"fettle/web/ui"
)

// complaintsView leads from what bothers an owner to its causes, and from each to what cures it here.
type complaintsView struct {
	Machine    string          `json:"machine"`
	Units      string          `json:"units"`
	Complaints []complaintLine `json:"complaints"`
	URL        string          `json:"-"`
}

type complaintLine struct {
	Key    string      `json:"key"`
	Say    string      `json:"say"`
	Open   bool        `json:"-"`
	Causes []causeLine `json:"causes"`
}

type causeLine struct {
	Key     string     `json:"key"`
	Says    string     `json:"says"`
	Tells   string     `json:"tells"` // the measurement that tells it from the others
	Figures []ui.Input `json:"figures,omitempty"`
	Cures   []cureLine `json:"cures"`
}

type cureLine struct {
	offerLine
	Href string `json:"href"` // to its place in the list
}

// complaints shows what can be behind a complaint, and what cures it on this machine.
func (s *Server) complaints(w http.ResponseWriter, r *http.Request) error {
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	all, o, err := s.offersOf(m)
	if err != nil {
		return err
	}
	v := &complaintsView{Machine: m.Name, Units: unitWords(m.Units), URL: machineURL(m.ID)}
	asked := r.URL.Query().Get("about")
	for _, c := range upgrade.Complaints {
		line := complaintLine{Key: c.Key, Say: c.Say, Open: c.Key == asked}
		for _, cause := range c.Causes {
			if l := o.cause(c.Key, cause, all, v.URL); len(l.Cures) > 0 {
				line.Causes = append(line.Causes, l)
			}
		}
		if len(line.Causes) > 0 {
			v.Complaints = append(v.Complaints, line)
		}
	}
	return s.reply(w, r, http.StatusOK, v)
}

func (o opened) cause(complaint string, cause upgrade.Cause, all []machine.Offer, url string) causeLine {
	l := causeLine{Key: complaint + "." + cause.Key, Says: cause.Says, Tells: cause.Tells}
	var cures []machine.Offer
	for _, x := range all {
		if slices.Contains(x.About.Cures, l.Key) {
			cures = append(cures, x)
		}
	}
	slices.SortStableFunc(cures, func(a, b machine.Offer) int { return cmp.Compare(rank(b), rank(a)) })
	for _, x := range cures {
		l.Cures = append(l.Cures, cureLine{o.offerLine(x), url + "/upgrades#" + offerID(x)})
	}
	if cause.Figure == "" {
		return l
	}
	for _, layout := range o.Layouts {
		key := layout.Find(cause.Figure)
		f, ok := o.Result.Figure(key, sheet.Now)
		if !ok {
			continue
		}
		l.Figures = append(l.Figures, ui.Input{Label: layout.Label + ": " + lowered(f.Label), Value: figureText(o.Result, o.Units, f), Origin: originMark(f.Origin), Href: figureURL(o.stored.ID, key, sheet.Now, "")})
	}
	return l
}

// cures are those that gain something here, or may; or else the others.
func (l causeLine) cures(idle bool) []cureLine {
	return slices.DeleteFunc(slices.Clone(l.Cures), func(c cureLine) bool { return c.idle() != idle })
}
