package web

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fettle/plan/material"
	"fettle/plan/order"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web/ui"
)

// buyLine is one thing to get.
type buyLine struct {
	Key         string      `json:"key"`
	Quantity    int         `json:"quantity"`
	What        string      `json:"what"`
	Designation string      `json:"designation,omitempty"`
	Uses        []string    `json:"uses"`
	Confirm     []string    `json:"confirm_after,omitempty"` // what has to be done before its size is sure
	Source      string      `json:"source,omitempty"`
	Notes       []string    `json:"notes,omitempty"`
	Problem     string      `json:"problem,omitempty"` // of the designation
	Dropped     bool        `json:"dropped,omitempty"` // noted, and not needed now
	State       order.State `json:"state"`
	States      []ui.Option `json:"-"`
	Got         string      `json:"got"`
	GotProblem  string      `json:"got_problem,omitempty"`
	Price       string      `json:"price"`
	PriceIs     string      `json:"price_read,omitempty"`
	PriceFault  string      `json:"price_problem,omitempty"`
	Note        string      `json:"note"`
	Left        string      `json:"left,omitempty"` // how many are still to get, or to spare
	called      string
}

// buySum is what one currency comes to.
type buySum struct {
	Spent string `json:"spent"`
	ToPay string `json:"to_pay"`
}

// cutLine is what a part is sawn from.
type cutLine struct {
	Part     string    `json:"part"`
	Material string    `json:"material,omitempty"`
	Section  string    `json:"section,omitempty"`
	Length   string    `json:"length,omitempty"`
	Terms    []cutTerm `json:"terms,omitempty"`
	Count    string    `json:"count"`
	Mass     string    `json:"mass,omitempty"`
	Waits    []string  `json:"waits,omitempty"`
	Notes    []string  `json:"notes,omitempty"`
	Problem  string    `json:"problem,omitempty"`
	id       string
}

// cutTerm is one thing that adds to the length.
type cutTerm struct {
	Label  string `json:"label"`
	Value  string `json:"value"`
	Source string `json:"source,omitempty"`
}

// barGroup is one kind of bar, and what comes out of which.
type barGroup struct {
	Label string    `json:"label"`
	Say   string    `json:"say"`
	Bound string    `json:"bound,omitempty"`
	Mass  string    `json:"mass,omitempty"`
	Cuts  []barCuts `json:"cuts"`
	Notes []string  `json:"notes,omitempty"`
}

// barCuts is one bar.
type barCuts struct {
	From   string   `json:"from"`
	Owned  bool     `json:"owned,omitempty"`
	Pieces []string `json:"pieces"`
	Left   string   `json:"left"`
}

// offcutRow is a piece of bar in the rack, or the blank row for a new one.
type offcutRow struct {
	Name      string            `json:"name"`
	Label     string            `json:"label"`
	Across    string            `json:"across"`
	Second    string            `json:"second"`
	Length    string            `json:"length"`
	Materials []ui.Option       `json:"-"`
	Forms     []ui.Option       `json:"-"`
	Problems  map[string]string `json:"problems,omitempty"`
	Used      string            `json:"used,omitempty"` // what is cut from it
	Number    int               `json:"number"`
	Blank     bool              `json:"blank,omitempty"`
}

// buyOf works out what has to be got, and arranges it.
func buyOf(m store.Stored, sh store.Shopping, drafts bool) (*buyView, error) {
	b, err := buyingOf(m, sh, drafts)
	if err != nil {
		return nil, err
	}
	u := m.LengthUnit()
	v := &buyView{Title: "What to get", Machine: m.Name, Units: "millimetres", Drafts: drafts, Findings: b.findings,
		path: machineURL(m.ID) + "/buy", machineURL: machineURL(m.ID), unreadable: len(b.problems) > 0}
	if u == unit.Inch {
		v.Units = "inches"
	}
	v.Currency = ui.Field{Name: "currency", Label: "Prices without a sign are in", Value: sh.Currency, Hint: "three letters or a sign: EUR, £, SEK"}
	if strings.TrimSpace(sh.Currency) != "" && currencyOf(sh.Currency) == "" {
		v.Currency.Problem, v.unreadable = sentence(order.ErrCurrency.Error()), true
	}
	for _, n := range b.needs {
		v.Upgrades = append(v.Upgrades, ui.Link{Text: n.Label, Href: planPath(m.ID, n.Upgrade) + "/parts"})
	}
	if len(b.needs) == 0 {
		v.Empty = emptyWords(m, drafts)
	}
	for _, l := range b.list.Lines {
		v.Lines = append(v.Lines, b.line(l, typedMark(sh, l.Key)))
	}
	for _, s := range b.list.Sums {
		v.Sums = append(v.Sums, buySum{Spent: s.Spent.String(), ToPay: s.ToPay.String()})
	}
	if n := b.list.Unpriced; n > 0 {
		v.Unpriced = "Without " + count(n, "line that has no price yet", "lines that have no price yet") + "."
	}
	b.cuts(v, u)
	b.rack(v, sh)
	return v, nil
}

// emptyWords say why there is nothing to get, and what to do.
func emptyWords(m store.Stored, drafts bool) string {
	planned, draft := 0, 0
	for _, u := range m.Upgrades {
		switch u.State {
		case upgrade.Planned:
			planned++
		case upgrade.Draft:
			draft++
		}
	}
	switch {
	case planned > 0:
		return "What is planned asks for nothing that has to be got."
	case draft > 0 && !drafts:
		return "Nothing is planned yet; there are drafts. Add one to the plan, or count the drafts as well."
	case draft > 0:
		return "The drafts ask for nothing yet. Say in one how much, and see what it needs."
	}
	return "Nothing is planned yet. Plan an upgrade first; what it needs is listed here."
}

func typedMark(sh store.Shopping, key string) store.Mark {
	for _, m := range sh.Marks {
		if m.Key == key {
			return m
		}
	}
	return store.Mark{Key: key}
}

func (b *buying) line(l order.Line, typed store.Mark) buyLine {
	line := buyLine{Key: l.Key, Quantity: l.Quantity, What: capital(l.Label), Designation: l.Designation, Confirm: l.Confirm(), Source: l.Source, Notes: l.Notes,
		Problem: l.Problem, Dropped: l.Dropped, State: l.Mark.State, Got: typed.Quantity, GotProblem: b.problems["got."+l.Key],
		Price: typed.Price, PriceFault: b.problems["price."+l.Key], Note: typed.Note, called: l.Mark.Called}
	for _, u := range l.Uses {
		use := fmt.Sprintf("%d for %s", u.Quantity, u.For)
		if step, is := strings.CutSuffix(u.For, "."); is { // a sentence is a step, and no part
			use = fmt.Sprintf("%d for the step “%s”", u.Quantity, step)
		}
		if u.Upgrade != "" {
			use += " (" + u.Upgrade + ")"
		}
		line.Uses = append(line.Uses, use)
	}
	for _, s := range order.States {
		line.States = append(line.States, ui.Option{Value: string(s), Text: string(s), Chosen: s == l.Mark.State})
	}
	if is := l.Mark.Price.String(); is != "" && is != strings.TrimSpace(typed.Price) {
		line.PriceIs = is
	}
	switch {
	case l.Dropped:
		line.Left = "not needed by what is counted here; kept, because you noted it"
	case l.Mark.State == order.ToGet:
		if sure := l.Sure(); sure < l.Quantity {
			line.Left = fmt.Sprintf("%d of them sure now", sure)
		}
	case l.Short() > 0:
		line.Left = strconv.Itoa(l.Short()) + " still to get"
	case l.Spare() > 0:
		line.Left = strconv.Itoa(l.Spare()) + " to spare"
	}
	return line
}

func (b *buying) cuts(v *buyView, u unit.Unit) {
	for _, x := range b.blanks {
		line := cutLine{Part: capital(x.Label), Material: x.Material.Name, Count: strconv.Itoa(x.Count), Waits: x.Waits, Notes: x.Notes, id: strings.ReplaceAll(x.Key, "/", "-")}
		if x.Pieces > 1 {
			line.Count = fmt.Sprintf("%d, %d parts out of each", x.Count, x.Pieces)
		}
		if x.Problem != "" {
			line.Problem = sentence(x.Problem)
		} else {
			line.Section, line.Length, line.Mass = x.Section.String(), u.With(x.Length), kilograms(x.Mass)
			for _, t := range x.Terms {
				line.Terms = append(line.Terms, cutTerm{Label: t.Label, Value: u.With(t.MM), Source: t.Source})
			}
		}
		v.Cuts = append(v.Cuts, line)
	}
	for _, g := range b.groups {
		group := barGroup{Label: g.Material.Name + ", " + g.Section.String(), Say: sentence(g.Nest.Say()), Notes: g.Notes}
		if g.Mass > 0 {
			group.Mass = kilograms(g.Mass)
		}
		if !g.Nest.ByCost && g.Nest.Bound > 0 && !math.IsInf(g.Nest.Bound, 0) {
			group.Bound = "No way of cutting them buys less than " + u.With(g.Nest.Bound) + "; this buys " + u.With(g.Nest.Bought) + "."
		}
		for _, c := range g.Nest.Cuts {
			cut := barCuts{From: u.With(c.Length), Owned: c.Offcut != "", Left: u.With(c.Left)}
			if o := b.ownedAs(c.Offcut); o != "" {
				cut.From += ", " + o
			}
			for _, p := range c.Pieces {
				cut.Pieces = append(cut.Pieces, capital(p.Label)+" "+u.With(p.Length))
			}
			group.Cuts = append(group.Cuts, cut)
		}
		v.Bars = append(v.Bars, group)
	}
}

func kilograms(mass float64) string { return unit.Kilogram.With(mass) }

// ownedAs is what the owner calls a piece in the rack.
func (b *buying) ownedAs(key string) string {
	for _, o := range b.own {
		if o.Key == key {
			if o.Label == "" {
				return "in the rack"
			}
			return o.Label
		}
	}
	return ""
}

// usedFor is what is cut from a piece in the rack.
func (b *buying) usedFor(key string) string {
	for _, g := range b.groups {
		for _, c := range g.Nest.Cuts {
			if c.Offcut != key {
				continue
			}
			var labels []string
			for _, p := range c.Pieces {
				labels = append(labels, lowered(p.Label))
			}
			return "used for " + joined(labels)
		}
	}
	return ""
}

// forms in which bar is kept here.
var rackForms = []string{"round", "square", "flat"}

func (b *buying) rack(v *buyView, sh store.Shopping) {
	for i, o := range append(sh.Offcuts[:len(sh.Offcuts):len(sh.Offcuts)], store.Offcut{Form: "round"}) {
		row := offcutRow{Name: fmt.Sprintf("own.%d", i), Number: i + 1, Label: o.Label, Across: o.Across, Second: o.Second, Length: o.Length,
			Problems: map[string]string{}, Blank: i == len(sh.Offcuts), Materials: []ui.Option{{Value: "", Text: "not said", Chosen: o.Material == ""}}}
		for _, m := range material.All {
			row.Materials = append(row.Materials, ui.Option{Value: m.Key, Text: m.Name, Chosen: m.Key == o.Material})
		}
		for _, f := range rackForms {
			row.Forms = append(row.Forms, ui.Option{Value: f, Text: f, Chosen: f == o.Form})
		}
		for _, word := range []string{"across", "second", "length"} {
			if p := b.problems[row.Name+"."+word]; p != "" {
				row.Problems[word] = p
			}
		}
		if !row.Blank {
			row.Used = b.usedFor(row.Name)
			if row.Used == "" && len(row.Problems) == 0 {
				row.Used = "not used by what is counted here"
			}
		}
		v.Offcuts = append(v.Offcuts, row)
	}
}
