package exchange

import (
	"math"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Verdict is what a check came to, as JSON.
type Verdict struct {
	Key      string   `json:"key"`
	Label    string   `json:"label"`
	Verdict  string   `json:"verdict"`
	Was      string   `json:"was"`
	Level    string   `json:"level"`
	Margin   *float64 `json:"margin"` // in Unit; null where it is not known
	Unit     string   `json:"unit"`
	AsFound  bool     `json:"as_found"`
	Sentence string   `json:"sentence"`
	Source   string   `json:"source"`
}

// VerdictOf is the check as JSON.
func VerdictOf(c sheet.CheckResult) Verdict {
	return Verdict{c.Key, c.Label, string(c.Verdict), string(c.Was), string(c.Level),
		Number(c.Margin.Unit, c.Margin.Value), c.Margin.Unit.Symbol, c.AsFound, c.Sentence, c.Source}
}

// Number is x, an inside value, as a number of u; nil where JSON has no word for it.
func Number(u unit.Unit, x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	shown := u.In(x)
	if shown == 0 {
		shown = 0 // and not −0
	}
	return &shown
}
