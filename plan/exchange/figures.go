package exchange

import (
	"errors"

	"fettle/plan/bench"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Figures is one of the bench figures worked out, as JSON.
type Figures struct {
	Method   string            `json:"method"`
	Inputs   map[string]string `json:"inputs"`  // as typed, or the default
	Outputs  map[string]Figure `json:"outputs"` // none where there are problems
	Checks   []Verdict         `json:"checks"`
	Problems []Problem         `json:"problems,omitempty"`
}

// Figure is one figure in a unit.
type Figure struct {
	Value       *float64 `json:"value"` // null where it is not known
	Unit        string   `json:"unit"`
	Uncertainty *float64 `json:"uncertainty"` // standard uncertainty, in the same unit
}

// Problem is an input that cannot be taken, and what is accepted. The field is empty where no single
// input is to blame.
type Problem struct {
	Field string `json:"field"`
	Say   string `json:"say"`
}

// FiguresOf is the calculation as JSON, with what was wrong with it if err holds [bench.Problems].
func FiguresOf(c *bench.Calculation, err error) Figures {
	out := Figures{Method: c.Method.Key, Inputs: c.Typed, Outputs: map[string]Figure{}, Checks: []Verdict{}}
	var problems bench.Problems
	errors.As(err, &problems)
	for _, p := range problems {
		out.Problems = append(out.Problems, Problem{p.Field, p.Say})
	}
	if c.Result == nil {
		return out
	}
	for _, f := range c.Outputs() {
		u := c.Result.Uncertainty(f.Key, sheet.Planned)
		// A spread is a difference: it has no zero to count from.
		out.Outputs[f.Key] = Figure{Number(f.Unit, f.Value), f.Unit.Symbol, Number(unit.Unit{Scale: f.Unit.Scale}, u.Std)}
	}
	for _, k := range c.Result.Checks() {
		out.Checks = append(out.Checks, VerdictOf(k))
	}
	return out
}
