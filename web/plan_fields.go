package web

import (
	"maps"
	"slices"
	"strings"
	"unicode"

	"fettle/plan/sheet"
	"fettle/plan/upgrade"
	"fettle/web/ui"
)

// planRow is one input: a figure to type or a list to choose from.
type planRow struct {
	Field  *ui.Field  `json:"field,omitempty"`
	Choice *ui.Choice `json:"choice,omitempty"`
}

// planGroup is the inputs of one matter, such as one stop that is met.
type planGroup struct {
	Heading string    `json:"heading,omitempty"`
	Rows    []planRow `json:"fields"`
	More    []planRow `json:"more,omitempty"` // seldom needed, and folded away
	Open    bool      `json:"-"`              // but one of them is used
}

// planKept is an input that is not shown and must not be lost.
type planKept struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// fields arranges the inputs: the wish on top; below it those that matter at the present amount, by
// the stop that asks for them; the others are kept unseen.
func (w *planWriter) fields(v *planView) {
	problems := map[string]string{}
	for _, p := range w.site.Problems {
		problems[p.Field] = p.Say
	}
	kept := maps.Clone(w.inputs)
	headings := map[string]int{} // group of what makes it needed
	for _, f := range w.site.Fields {
		row := w.row(f, problems[f.Name])
		if row.Field != nil && w.site.Scope.Key(f.Name) == w.site.Amount {
			row.Field.Big = true
			v.wish = row.Field
			if strings.TrimSpace(w.inputs[f.Name]) == "" { // not yet said is no mistake
				v.blank, row.Field.Problem = true, ""
				delete(problems, f.Name)
			}
		}
		if f.Need == "" {
			v.Top = append(v.Top, row)
			delete(kept, f.Name)
			continue
		}
		if !w.needed(f.Need) && problems[f.Name] == "" {
			continue
		}
		delete(kept, f.Name)
		at, ok := headings[f.Need]
		if !ok {
			at = len(v.Groups)
			headings[f.Need] = at
			v.Groups = append(v.Groups, w.group(f, &row))
		}
		g := &v.Groups[at]
		if shared(f) {
			g.More = append(g.More, row)
			g.Open = g.Open || w.inputs[f.Name] != "" && w.inputs[f.Name] != "none"
		} else {
			g.Rows = append(g.Rows, row)
		}
	}
	v.keepTopShort()
	for _, name := range slices.Sorted(maps.Keys(kept)) {
		v.Kept = append(v.Kept, planKept{name, kept[name]})
	}
	v.Unreadable = len(problems) > 0
}

// mostOnTop is how many fields stand beside the answer and the picture: as many as are as high as those.
const mostOnTop = 4

// keepTopShort leaves the wish and the first of the other fields on top, so that what follows from them is not below all
// of a long form.
func (v *planView) keepTopShort() {
	if len(v.Top) <= mostOnTop {
		return
	}
	var top []planRow
	for i, row := range v.Top {
		wish := row.Field != nil && row.Field.Big
		if wish || len(top) < mostOnTop-1 || len(top) < mostOnTop && !v.wishIn(v.Top[i:]) {
			top = append(top, row)
		} else {
			v.Sizes = append(v.Sizes, row)
		}
	}
	v.Top = top
}

func (v *planView) wishIn(rows []planRow) bool {
	return slices.ContainsFunc(rows, func(row planRow) bool { return row.Field != nil && row.Field.Big })
}

// needed tells whether a field matters: the figure that says so is more than nothing, or may be.
func (w *planWriter) needed(key string) bool {
	f, ok := w.Result.Figure(key, sheet.Planned)
	return ok && !(f.Known() && f.Value < f.Unit.Step()/2)
}

// shared tells a field that parts one stop between two remedies; see [upgrade.Field].
func shared(f upgrade.Field) bool {
	return strings.HasPrefix(f.Name, "part.") || strings.HasPrefix(f.Name, "rest.")
}

// group heads the inputs that a figure makes needed. Where that is a stop, it says at which position
// of the slide it is met now, and how much must give; a list that only repeats the heading is headed
// by it.
func (w *planWriter) group(f upgrade.Field, row *planRow) planGroup {
	heading, hint := capital(f.Group), ""
	if at, ok := w.Result.Figure(f.Where, sheet.Now); ok {
		heading = strings.Replace(the(f.Group), " meets ", " meets the ", 1)
		if at.Known() && !endless(at) {
			heading = "At " + w.text(at, 0) + ", " + heading
		}
		heading = capital(heading)
		if need, ok := w.Result.Figure(f.Need, sheet.Planned); ok {
			hint = w.text(need, 0) + " must give here"
		}
	}
	if row.Choice == nil || f.Label != capital(f.Group) {
		return planGroup{Heading: heading}
	}
	row.Choice.Label, row.Choice.Hint = heading, hint
	return planGroup{}
}

// row is one input as it was typed. Where nothing was, it is what the program proposes; where a
// proposal was rubbed out, it stays blank and the hint says what counts.
func (w *planWriter) row(f upgrade.Field, problem string) planRow {
	if problem != "" {
		problem = sentence(problem)
	}
	if f.Options != nil {
		c := &ui.Choice{Name: f.Name, Label: f.Label, Hint: f.Hint, Problem: problem, Options: make([]ui.Option, 0, len(f.Options))}
		for _, o := range f.Options {
			c.Options = append(c.Options, ui.Option{Value: o.Value, Text: o.Label, Chosen: o.Value == f.Value})
		}
		return planRow{Choice: c}
	}
	value, hint := f.Value, f.Hint
	if typed, ok := w.inputs[f.Name]; ok {
		if value = typed; strings.TrimSpace(typed) == "" && f.Value != typed {
			hint = "blank: " + f.Value
		}
	}
	field := &ui.Field{Name: f.Name, Label: f.Label, Value: value, Hint: hint, Problem: problem}
	if bareNumber(value) {
		field.Unit = w.Units.Symbol // a length that has no figure of its own
		if f.Leaf != "" {
			field.Unit = f.Unit.Symbol
		}
	}
	return planRow{Field: field}
}

// bareNumber tells a figure that is typed without a unit, or not yet.
func bareNumber(text string) bool {
	return !strings.ContainsFunc(text, func(r rune) bool {
		return unicode.IsLetter(r) || strings.ContainsRune(`"'`+"”″′", r)
	})
}

// rows goes through every input that the page shows.
func (v *planView) rows(yield func(planRow) bool) {
	for _, row := range v.Top {
		if !yield(row) {
			return
		}
	}
	for _, row := range v.Sizes {
		if !yield(row) {
			return
		}
	}
	for _, g := range v.Groups {
		for _, row := range append(slices.Clone(g.Rows), g.More...) {
			if !yield(row) {
				return
			}
		}
	}
}

func (r planRow) name() string {
	if r.Choice != nil {
		return r.Choice.Name
	}
	return r.Field.Name
}

// label is what an input is called on the page; its own name where it is not shown.
func (v *planView) label(name string) string {
	for row := range v.rows {
		switch {
		case row.name() != name:
		case row.Choice != nil:
			return row.Choice.Label
		default:
			return row.Field.Label
		}
	}
	return name
}

// option is a value as the page says it: a line of a list by its text.
func (v *planView) option(name, value string) string {
	for row := range v.rows {
		if row.Choice == nil || row.name() != name {
			continue
		}
		for _, o := range row.Choice.Options {
			if o.Value == value {
				return o.Text
			}
		}
	}
	return value
}

// order sorts names as they follow on the page, those not shown last.
func (v *planView) order(names map[string]bool) []string {
	var sorted []string
	for row := range v.rows {
		if names[row.name()] {
			sorted = append(sorted, row.name())
			delete(names, row.name())
		}
	}
	return append(sorted, slices.Sorted(maps.Keys(names))...)
}
