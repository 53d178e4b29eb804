// Package bench gives the engineering of the other rooms as calculations that
// stand alone: the "bench figures". A [Method] names its inputs and outputs and
// lays the rooms' formulas on a small sheet; nothing is computed here.
//
//	run, err := bench.Run("screw_torque", map[string]string{"thread": "Tr12x3", "force": "300 N"})
//	run.Outputs()   // figures, each with its formula, source and uncertainty
//
// Each field has a file that lists its methods; [Methods] is the list of them all.
package bench

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/plan"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Method is one calculation.
type Method struct {
	Key     string // as on the command line: "fit"
	Label   string // "Limits and fit of a hole and a shaft"
	Field   string // one of [Fields]
	Purpose string // in a sentence
	Inputs  []Input
	Outputs []string // keys of the figures that it gives, in the order in which they are shown
	// Example is what to type to see it work, where the defaults alone give no answer.
	Example map[string]string
	// Cautions are shown with the answer where the work itself can hurt someone.
	Cautions []string
	// Define lays the formulas on the sheet, whose leaves are the inputs that
	// are figures. What no table has is a plan.Problem, its Field the input's key.
	Define func(sc *sheet.Scope, words Words) error
	// Table, where there is one, gives what is a list: candidates, plates, angles.
	Table func(words Words, r *sheet.Result) Table
}

// Table is a list beside the figures: finished cells, as they are shown.
type Table struct {
	Caption string
	Header  []string
	Rows    [][]string // each as long as Header; none where there is nothing to list
	Source  string
}

// Input is a figure to type, or a word.
type Input struct {
	Key, Label, Symbol string
	Unit               unit.Unit // of a figure
	Default            string    // as it would be typed; "" where it must be given, unless Optional
	Source             string    // of the default
	Word               bool      // a word, such as H7; its options where there are few
	Options            []Option
	Whole              bool
	Optional           bool // where it is not given there is no leaf
	Positive           bool // a figure that must be above nothing
}

// Option is one of the words that an input can be.
type Option struct{ Value, Label string }

// Words are the inputs that are words, by key.
type Words map[string]string

// Fields are the headings under which methods are listed.
var Fields = []string{"Limits and fits", "Rolling bearings", "Threads", "Feed screws", "Dials", "Slides", "Joints", "Materials and stock", "Readings", "Tolerance chains"}

// Methods lists every method, by field.
func Methods() []Method {
	return slices.Concat(
		fitMethods,
		bearingMethods,
		threadMethods,
		feedScrews,
		dialMethods,
		slideMethods,
		jointMethods,
		materialMethods,
		readingMethods,
		chainMethods,
	)
}

// Named is the method with the key.
func Named(key string) (Method, bool) {
	for _, m := range Methods() {
		if m.Key == key {
			return m, true
		}
	}
	return Method{}, false
}

// Calculation is a method with its inputs, worked out.
type Calculation struct {
	Method Method
	Typed  map[string]string // as given, or the default
	Result *sheet.Result     // nil where there are Problems
}

// ErrNoMethod is returned for a key that no method has.
var ErrNoMethod = errors.New("there is no such method")

// Problems are inputs that cannot be taken, each with a sentence. The field is
// empty where no single input is to blame.
type Problems []plan.Problem

func (p Problems) Error() string {
	say := make([]string, len(p))
	for i := range p {
		say[i] = p[i].Error()
	}
	return strings.Join(say, "; ")
}

// Run works a method out from what was typed; what was not takes its default.
// A bare number is in the input's own unit. It returns [ErrNoMethod], or
// [Problems] beside a Calculation that keeps what was typed.
func Run(key string, typed map[string]string) (*Calculation, error) {
	m, ok := Named(key)
	if !ok {
		return nil, fmt.Errorf("%w: %q", ErrNoMethod, key)
	}
	return m.Run(typed)
}

// Run works the method out; see [Run].
func (m Method) Run(typed map[string]string) (*Calculation, error) {
	c := &Calculation{Method: m, Typed: map[string]string{}}
	var problems Problems
	for name := range typed {
		if !slices.ContainsFunc(m.Inputs, func(i Input) bool { return i.Key == name }) {
			problems = append(problems, plan.Problem{Field: name, Say: m.Key + " has no such input"})
		}
	}
	s := sheet.New()
	sc := s.Root()
	words := Words{}
	for _, in := range m.Inputs {
		c.Typed[in.Key] = in.Default
		given := strings.TrimSpace(typed[in.Key]) != ""
		if given {
			c.Typed[in.Key] = typed[in.Key]
		}
		if err := in.define(sc, words, c.Typed[in.Key], given); err != nil {
			problems = append(problems, *err)
		}
	}
	if len(problems) == 0 {
		var p plan.Problem
		if err := m.Define(sc, words); errors.As(err, &p) {
			problems = append(problems, p)
		} else if err != nil {
			return c, fmt.Errorf("%s: %w", m.Key, err)
		}
	}
	if len(problems) > 0 {
		slices.SortStableFunc(problems, func(a, b plan.Problem) int { return strings.Compare(a.Field, b.Field) })
		return c, problems
	}
	r, err := s.Bind()
	if err != nil {
		return c, fmt.Errorf("%s: %w", m.Key, err)
	}
	for _, key := range m.Outputs {
		if f, ok := r.Figure(key, sheet.Planned); ok && (math.IsNaN(f.Value) || math.IsInf(f.Value, 0)) {
			problems = append(problems, plan.Problem{Say: f.Label + " cannot be worked out from these figures"})
		}
	}
	if len(problems) > 0 {
		return c, problems[:1]
	}
	c.Result = r
	return c, nil
}

func (in Input) define(sc *sheet.Scope, words Words, typed string, given bool) *plan.Problem {
	if in.Word {
		if len(in.Options) > 0 && !slices.ContainsFunc(in.Options, func(o Option) bool { return o.Value == typed }) {
			values := make([]string, len(in.Options))
			for i, o := range in.Options {
				values[i] = o.Value
			}
			return &plan.Problem{Field: in.Key, Say: "choose one of " + strings.Join(values, ", ")}
		}
		words[in.Key] = strings.TrimSpace(typed)
		return nil
	}
	if typed == "" && in.Optional {
		return nil
	}
	e := plan.Entry{Typed: typed, Origin: sheet.Chosen, Note: "as given"}
	if !given {
		e.Origin, e.Note = sheet.Assumed, in.Source
	}
	leaf, err := e.Leaf(in.Unit)
	var p plan.Problem
	switch {
	case errors.As(err, &p):
	case leaf.Origin == sheet.Unknown:
		p.Say = "give the " + in.Label
	case in.Positive && leaf.Value <= 0:
		p.Say = "give a figure above 0"
	case in.Whole && leaf.Value != float64(int64(leaf.Value)):
		p.Say = "give a whole number"
	default:
		sc.Measure(sheet.Q{Key: in.Key, Label: in.Label, Symbol: in.Symbol, Unit: in.Unit, Whole: in.Whole}, leaf)
		return nil
	}
	p.Field = in.Key
	return &p
}

// Outputs are the figures that the method gives, in order; those that do not
// exist for these inputs are left out.
func (c *Calculation) Outputs() []sheet.Figure {
	var all []sheet.Figure
	for _, key := range c.Method.Outputs {
		if f, ok := c.Result.Figure(key, sheet.Planned); ok {
			all = append(all, f)
		}
	}
	return all
}

// Table is the method's list, and whether it has one.
func (c *Calculation) Table() (Table, bool) {
	if c.Method.Table == nil || c.Result == nil {
		return Table{}, false
	}
	words := Words{}
	for _, in := range c.Method.Inputs {
		if in.Word {
			words[in.Key] = strings.TrimSpace(c.Typed[in.Key])
		}
	}
	return c.Method.Table(words, c.Result), true
}
