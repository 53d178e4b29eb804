package web

import (
	"bytes"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"time"

	"fettle/plan/drawing"
	"fettle/plan/machine"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web/ui"
)

// partsChoice is how the drawings of a set are to be: chosen in the address, so that a link keeps it.
type partsChoice struct {
	third   bool
	letter  bool
	at      string // where the slide stands in the assembly, as typed; "" is the end that is asked to go further
	problem string // of at
}

// partsChoiceOf reads the address. Unless it says otherwise a machine in inches has third-angle
// drawings on Letter, any other first-angle ones on A4.
func partsChoiceOf(r *http.Request, u unit.Unit) partsChoice {
	query, inch := r.URL.Query(), u == unit.Inch
	c := partsChoice{third: inch, letter: inch, at: strings.TrimSpace(query.Get("at"))}
	switch query.Get("angle") {
	case "first":
		c.third = false
	case "third":
		c.third = true
	}
	switch query.Get("paper") {
	case "a4":
		c.letter = false
	case "letter":
		c.letter = true
	}
	return c
}

// query says the choice in an address.
func (c partsChoice) query() string {
	q := url.Values{"angle": {"first"}, "paper": {"a4"}}
	if c.third {
		q.Set("angle", "third")
	}
	if c.letter {
		q.Set("paper", "letter")
	}
	if c.at != "" {
		q.Set("at", c.at)
	}
	return "?" + q.Encode()
}

func (c partsChoice) angle() ui.Choice {
	return ui.Choice{Name: "angle", Label: "Views", Hint: "by ISO 5456-2", Options: []ui.Option{
		{Value: "first", Text: "first angle", Chosen: !c.third}, {Value: "third", Text: "third angle", Chosen: c.third}}}
}

func (c partsChoice) paper() ui.Choice {
	return ui.Choice{Name: "paper", Label: "Paper", Options: []ui.Option{
		{Value: "a4", Text: "A4", Chosen: !c.letter}, {Value: "letter", Text: "Letter", Chosen: c.letter}}}
}

// partsSet is all that is drawn of an upgrade.
type partsSet struct {
	stored store.Stored
	plan   *machine.Plan
	site   *upgrade.Site
	make   upgrade.Make
	choice partsChoice
	today  time.Time
}

// sheets draws the set, the assembly first.
func (s *partsSet) sheets() []*drawing.Drawing {
	if len(s.make.Parts) == 0 {
		return nil
	}
	opt := drawing.SheetOptions{
		ID: "sheet", Units: s.plan.Units, ThirdAngle: s.choice.third, Owner: s.stored.Name,
		Machine: s.site.Kind.About().Label + ", " + lowered(s.site.Layout.Label), Number: s.site.ID, Date: s.today.Format(time.DateOnly),
	}
	if s.choice.letter {
		opt.Format = drawing.Letter
	}
	return drawing.Sheets(drawing.Set{Layout: s.site.Layout, Result: s.plan.Result, View: s.view("assembly"), Parts: s.make.Parts}, opt)
}

// view is where the slide stands in the assembly. A position that cannot be read, or that it does not
// reach, is a problem of the choice.
func (s *partsSet) view(id string) drawing.Options {
	opt := drawing.Options{ID: id, Units: s.plan.Units}
	if s.choice.at == "" {
		return opt
	}
	ends := drawing.SideView(s.site.Layout, s.plan.Result, opt).Slide
	at, err := unit.Parse(s.choice.at, s.plan.Units)
	const reached = 1e-6 // mm, of a position that was written in inches
	if err != nil || !(at >= ends.From-reached && at <= ends.To+reached) {
		s.choice.problem = fmt.Sprintf("Give a position from %s to %s.", s.plan.Units.With(ends.From), s.plan.Units.With(ends.To))
		return opt
	}
	opt.At = &at
	return opt
}

// partSheet is a sheet on the page.
type partSheet struct {
	Label   string `json:"label"`
	Caption string `json:"caption"`
	Large   string `json:"large,omitempty"` // address of the sheet alone, which a browser zooms
	across  bool
	svg     []byte // nil where it cannot be drawn
}

func sheetOf(d *drawing.Drawing, large string) partSheet {
	s := partSheet{Label: d.Title, Large: large, across: d.Width > d.Height}
	var svg bytes.Buffer
	if err := d.SVG(&svg); err != nil {
		s.Caption, s.Large = "It cannot be drawn from these figures.", ""
		return s
	}
	s.svg = svg.Bytes()
	s.Caption = fmt.Sprintf("Sheet %d of %d.", d.Paper.Number, d.Paper.Of)
	return s
}

// sheetsOf are the sheets of one part, and of the whole where key is "".
func sheetsOf(all []*drawing.Drawing, key string) []*drawing.Drawing {
	var some []*drawing.Drawing
	for _, d := range all {
		if d.Paper != nil && d.Paper.Part == key {
			some = append(some, d)
		}
	}
	return some
}
