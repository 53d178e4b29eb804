package web

import (
	"slices"
	"strings"

	"fettle/plan/bench"
	"fettle/web/form"
	"fettle/web/ui"
)

// benchRow is one input of a method: a field, or a list where Options is set.
type benchRow struct {
	ID, Name, Label, Symbol string
	Value                   string // as typed
	Unit                    string // behind the field
	Otherwise               string // what counts while nothing is typed
	Assumed                 bool   // that counts, and nobody said so
	Source                  string // of that
	Hint                    string
	Asked                   string // what to give, where nothing is typed yet
	Problem                 string
	Options                 []ui.Option
}

// fields arranges the inputs as they were typed, each with what is wrong with it. A field in which
// nothing stands is asked for; that is no mistake. A word that the form did not send at all stands in
// its field, to be changed; a figure is assumed, and marked.
func (v *benchView) fields(m bench.Method, f *form.Form, typed map[string]string) {
	problems := map[string]string{}
	for _, p := range v.Problems {
		if _, ok := problems[p.Field]; !ok {
			problems[p.Field] = p.Say
		}
	}
	for _, in := range m.Inputs {
		row := benchRowOf(in, typed[in.Key])
		if say, ok := problems[in.Key]; ok {
			delete(problems, in.Key)
			if row.Value == "" && in.Default == "" {
				row.Asked = sentence(say)
				v.needed = append(v.needed, strings.TrimPrefix(say, "give "))
			} else {
				row.Problem = sentence(say)
				v.bad = true
			}
		}
		if in.Word && !f.Has(in.Key) {
			row.Value = in.Default
		}
		v.rows = append(v.rows, row)
	}
	for _, p := range v.Problems {
		if say, ok := problems[p.Field]; ok && say == p.Say {
			if p.Field != "" {
				say = "“" + p.Field + "”: " + say
			}
			v.wrong = append(v.wrong, sentence(say))
			v.bad = true
		}
	}
}

func benchRowOf(in bench.Input, typed string) benchRow {
	row := benchRow{ID: "in-" + in.Key, Name: in.Key, Symbol: in.Symbol, Value: typed, Otherwise: in.Default}
	name, hint := nameAndHint(in.Label)
	row.Label = capital(name)
	if hint != "as "+in.Default { // which the field itself shows
		row.Hint = hint
	}
	if len(in.Options) > 0 {
		for _, o := range in.Options {
			chosen := o.Value == typed || typed == "" && o.Value == in.Default
			row.Options = append(row.Options, ui.Option{Value: o.Value, Text: o.Label, Chosen: chosen})
		}
		if !slices.ContainsFunc(row.Options, func(o ui.Option) bool { return o.Chosen }) {
			row.Options = append(row.Options, ui.Option{Value: typed, Text: typed, Chosen: true}) // what was sent is kept
		}
		return row
	}
	if !in.Word && bareNumber(typed) {
		row.Unit = in.Unit.Symbol
	}
	source := strings.TrimLeft(strings.TrimPrefix(in.Source, "assumed"), ":; ")
	switch {
	case in.Word || in.Source == "":
	case typed == "":
		row.Assumed, row.Source = true, source
	case source != "":
		row.Hint = strings.TrimPrefix(row.Hint+"; usual: "+in.Default+", "+source, "; ")
	}
	if in.Optional && in.Default == "" && row.Hint == "" {
		row.Hint = "can be left out"
	}
	return row
}

// nameAndHint parts what is said of a figure into its name and what to know about it.
func nameAndHint(label string) (name, hint string) {
	for _, at := range []string{"; ", ", as "} {
		if before, after, ok := strings.Cut(label, at); ok {
			return before, strings.TrimLeft(at, ",; ") + after
		}
	}
	return label, ""
}

// noted reports whether something is said under the field.
func (r benchRow) noted() bool {
	return r.Problem != "" || r.Asked != "" || r.Assumed || r.Hint != ""
}
