package order

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fettle/plan/fastener"
	"fettle/plan/material"
	"fettle/plan/unit"
)

// State is how far a line of the buy list has got.
type State string

// The states of a line.
const (
	ToGet   State = "to get"
	Ordered State = "ordered"
	Bought  State = "bought"
	Had     State = "had already"
)

// States lists them in the order in which they come.
var States = []State{ToGet, Ordered, Bought, Had}

// Mark is what the owner noted of a line. It is kept by the line's key, so that
// it survives a change of the plan.
type Mark struct {
	Key      string
	Called   string // what the line was when it was marked
	State    State
	Quantity int   // how many that state is true of
	Price    Price // of one
	Note     string
}

// Use is one place where a thing is used.
type Use struct {
	Upgrade  string // its label
	For      string // part or operation, in words
	Quantity int
	Confirm  []string // what has to be done before its size is sure; none where it is
}

// Line is one thing to buy.
type Line struct {
	Key         string
	Label       string
	Designation string
	Quantity    int
	Uses        []Use
	Source      string
	Notes       []string
	Problem     string // of the designation: no such length is made
	Mark        Mark
	Dropped     bool // marked, and no longer needed
}

// Sure is how many can be bought now, whatever is still to be measured.
func (l Line) Sure() (n int) {
	for _, u := range l.Uses {
		if len(u.Confirm) == 0 {
			n += u.Quantity
		}
	}
	return n
}

// Confirm is what has to be done before the sizes of all of them are sure.
func (l Line) Confirm() (all []string) {
	for _, u := range l.Uses {
		for _, c := range u.Confirm {
			if !slices.Contains(all, c) {
				all = append(all, c)
			}
		}
	}
	return all
}

// Short is how many are still to get.
func (l Line) Short() int {
	if l.Mark.State == ToGet {
		return l.Quantity
	}
	return max(0, l.Quantity-l.Mark.Quantity)
}

// Spare is how many were got and are not needed.
func (l Line) Spare() int {
	if l.Mark.State == ToGet {
		return 0
	}
	return max(0, l.Mark.Quantity-l.Quantity)
}

// Sum is what the lines of one currency come to.
type Sum struct {
	Spent Price // of what is ordered or bought
	ToPay Price // of what is still to get
}

// List is the buy list.
type List struct {
	Lines    []Line
	Sums     []Sum // one for each currency, by its code
	Unpriced int   // lines with something to get and no price
}

// BuyList merges what upgrades ask for with the bars to cut from, and gives each
// line what the owner noted of it. Things of one designation are one line. A
// mark whose line is gone is kept, as a dropped line: what was typed is not lost.
func BuyList(needs []Need, groups []Group, marks []Mark) List {
	var list List
	for _, n := range needs {
		for _, b := range n.Bought {
			u := Use{Upgrade: n.Label, For: n.called(b.For), Quantity: max(1, b.Quantity)}
			if b.Confirm != "" {
				u.Confirm = []string{n.step(b.Confirm)}
			}
			list.add(Line{Label: b.Label, Designation: designation(b.Designation), Source: b.Source}, u)
		}
	}
	list.order()
	for _, g := range groups {
		list.addBars(g, needs)
	}
	for i := range list.Lines {
		l := &list.Lines[i]
		l.Problem = wrong(l.Designation)
		l.Mark = Mark{Key: l.Key, Called: l.called(), State: ToGet}
	}
	for _, m := range marks {
		list.mark(m)
	}
	list.sum()
	return list
}

// add puts a use on the line with the same key, or on a new one.
func (list *List) add(l Line, u Use) {
	l.Key = key(cmp.Or(l.Designation, l.Label))
	i := slices.IndexFunc(list.Lines, func(x Line) bool { return x.Key == l.Key })
	if i < 0 {
		i = len(list.Lines)
		list.Lines = append(list.Lines, l)
	}
	at := &list.Lines[i]
	at.Quantity += u.Quantity
	at.Uses = append(at.Uses, u)
	for _, n := range l.Notes {
		if !slices.Contains(at.Notes, n) {
			at.Notes = append(at.Notes, n)
		}
	}
}

// addBars adds the bars of a group, a line for each length.
func (list *List) addBars(g Group, needs []Need) {
	line := func(length float64) Line {
		form := g.Section.Form
		if i := slices.IndexFunc(material.Forms, func(f material.Form) bool { return f.Key == form }); i >= 0 {
			form = material.Forms[i].Label
		}
		return Line{
			Label:       form + ", " + g.Material.Name,
			Designation: fmt.Sprintf("%s %s, %s long", g.Material.Key, g.Section, unit.MM.With(length)),
			Source:      material.StockSource,
		}
	}
	use := func(pieces []Piece) (u Use) {
		var labels, upgrades []string
		for _, p := range pieces {
			b := g.blank(p.Key)
			upgrade := b.Upgrade
			if i := slices.IndexFunc(needs, func(n Need) bool { return n.Upgrade == b.Upgrade }); i >= 0 {
				upgrade = needs[i].Label
			}
			labels, upgrades = appendNew(labels, p.Label), appendNew(upgrades, upgrade)
			for _, w := range b.Waits {
				u.Confirm = appendNew(u.Confirm, b.Label+": "+w)
			}
		}
		u.Upgrade, u.For, u.Quantity = strings.Join(upgrades, "; "), strings.Join(labels, "; "), 1
		return u
	}
	for _, c := range g.Nest.Cuts {
		if c.Offcut == "" {
			list.add(line(c.Length), use(c.Pieces))
		}
	}
	for _, p := range g.Nest.Unplaced {
		l := line(p.Length)
		l.Notes = []string{"longer than any bar here: ask for this length"}
		list.add(l, use([]Piece{p}))
	}
}

func (g Group) blank(key string) Blank {
	if i := slices.IndexFunc(g.Blanks, func(b Blank) bool { return b.Key == key }); i >= 0 {
		return g.Blanks[i]
	}
	return Blank{}
}

func appendNew(all []string, s string) []string {
	if s == "" || slices.Contains(all, s) {
		return all
	}
	return append(all, s)
}

// mark gives a line what was noted of it.
func (list *List) mark(m Mark) {
	if !slices.Contains(States, m.State) {
		m.State = ToGet
	}
	i := slices.IndexFunc(list.Lines, func(l Line) bool { return l.Key == m.Key })
	if i >= 0 {
		m.Called = list.Lines[i].called()
		list.Lines[i].Mark = m
		return
	}
	list.Lines = append(list.Lines, Line{Key: m.Key, Label: cmp.Or(m.Called, m.Key), Mark: m, Dropped: true})
}

// called is what a line is named by where it stands alone.
func (l Line) called() string {
	if l.Designation == "" {
		return l.Label
	}
	return l.Label + ", " + l.Designation
}

func (list *List) sum() {
	sum := func(p Price) *Sum {
		i := slices.IndexFunc(list.Sums, func(s Sum) bool { return s.Spent.Currency == p.Currency })
		if i < 0 {
			i = len(list.Sums)
			none := Price{Currency: p.Currency}
			list.Sums = append(list.Sums, Sum{none, none})
		}
		return &list.Sums[i]
	}
	for _, l := range list.Lines {
		short, p := l.Short(), l.Mark.Price
		if !p.Known() {
			if short > 0 {
				list.Unpriced++
			}
			continue
		}
		s := sum(p)
		s.ToPay.Minor += p.Times(short).Minor
		if l.Mark.State == Ordered || l.Mark.State == Bought {
			s.Spent.Minor += p.Times(l.Mark.Quantity).Minor
		}
	}
	slices.SortFunc(list.Sums, func(a, b Sum) int { return cmp.Compare(a.Spent.Currency, b.Spent.Currency) })
}

// order sorts by what things are called, numbers by their size.
func (list *List) order() {
	slices.SortStableFunc(list.Lines, func(a, b Line) int {
		return cmp.Or(natural(a.Label, b.Label), natural(a.Designation, b.Designation))
	})
}

// natural compares texts with the numbers in them by their size, so that M6
// comes before M10.
func natural(a, b string) int {
	for a != "" && b != "" {
		x, y := run(a), run(b)
		if c := cmp.Or(cmp.Compare(x.number, y.number), cmp.Compare(x.text, y.text)); c != 0 {
			return c
		}
		a, b = a[x.length:], b[y.length:]
	}
	return cmp.Compare(len(a), len(b))
}

type chunk struct {
	length int
	text   string
	number int
}

// run is the number or the other text that s begins with.
func run(s string) chunk {
	digit := func(r rune) bool { return r >= '0' && r <= '9' }
	if !digit(rune(s[0])) {
		if i := strings.IndexFunc(s, digit); i > 0 {
			s = s[:i]
		}
		return chunk{length: len(s), text: strings.ToLower(s), number: -1}
	}
	c := chunk{}
	for c.length < len(s) && digit(rune(s[c.length])) && c.number < 1e9 {
		c.number = 10*c.number + int(s[c.length]-'0')
		c.length++
	}
	return c
}

// designation writes designations of the tables in one way, and others with
// single blanks.
func designation(text string) string {
	if d, err := fastener.Parse(text); err == nil {
		return d.String()
	}
	return strings.Join(strings.Fields(text), " ")
}

// wrong is what is amiss with a designation of the tables; "" for one that is
// right or is of no standard here.
func wrong(designation string) string {
	if _, err := fastener.Parse(designation); err != nil {
		return ""
	}
	if err := fastener.Check(designation); err != nil {
		return err.Error()
	}
	return ""
}

// key is a designation or a label as a key: lower case, with what is not a
// letter or a figure as one stroke.
func key(text string) string {
	text = strings.NewReplacer("×", "x", "/", "_").Replace(strings.ToLower(text))
	var b strings.Builder
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == '-' || r == ';' || r == ':' }) {
		if b.Len() > 0 {
			b.WriteByte('-')
		}
		b.WriteString(word)
	}
	return b.String()
}
