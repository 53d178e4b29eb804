package upgrade

import (
	"errors"
	"math"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Kind is one sort of upgrade. Each is a file of its own with its test, and a
// line in [Kinds]; nothing else names it.
type Kind interface {
	About() About
	// Suits tells whether the kind makes sense on an axis.
	Suits(*axis.Layout) bool
	// Apply lays the upgrade onto the sheet: changes, checks, and the fields
	// that the form shows.
	Apply(*Site)
	// Answer says what comes of it, in a sentence or a few.
	Answer(*Site, *sheet.Result) []Run
	// Parts lists what is to be made, altered and bought, and how, by the
	// figures of a result. What is not needed is not listed.
	Parts(*Site, *sheet.Result) Make
}

// About describes a kind.
type About struct {
	Key, Label string
	Purpose    string
	Cautions   []string
	Proof      string // how to see afterwards that it is better
}

// Kinds is the list of kinds.
var Kinds = []Kind{
	extendTravel{},
	newDial{},
	thrustSet{},
	gibStrip{},
	riser{},
}

// KindNamed is the kind with the key.
func KindNamed(key string) (Kind, bool) {
	for _, k := range Kinds {
		if k.About().Key == key {
			return k, true
		}
	}
	return nil, false
}

// Site is one upgrade at the place where it is made: its axis, its scope, its
// inputs, and what it adds.
type Site struct {
	Upgrade
	Kind     Kind
	Layout   *axis.Layout
	Scope    *sheet.Scope // the upgrade's own, within the axis
	Units    unit.Unit    // of a bare number
	Fields   []Field
	Problems []plan.Problem  // Field is the input's name
	Amount   string          // key of the leaf that the wish is: what "how far could I go?" varies, and nothing is laid out by
	Goals    []string        // keys of the figures that it is for, the chief one first
	Most     float64         // mm: as far as is looked for "how far could I go?"
	refused  []string        // remedies that were proposed and not taken
	newScrew bool            // a remedy asks for a new screw, which may then be as long as is needed
	asks     []func(*making) // what the remedies that are used ask the workshop for
	settled  map[string]settled
	joint    string  // how this upgrade fixes an extension to the screw; "" where it makes none
	again    string  // name of the scope of the extension that takes the place of one made before; "" for none
	beside   []*Site // the other upgrades that count on the same axis
	before   []*Site // those of them that are made first
}

// Field is one input of an upgrade, for a form.
type Field struct {
	Name    string
	Label   string
	Value   string // as typed or chosen; the proposal where nothing was
	Hint    string
	Options []Option // nil for a figure to type
	Need    string   // key of the figure that says whether it matters; "" means always
	Group   string   // heading in the form
	Where   string   // key of the position at which the thing is met; "" where nothing is

	least, most float64 // of a length
}

// Option is one of the choices of a field.
type Option struct{ Value, Label string }

// Run is a piece of a sentence; a figure in it is strong.
type Run struct {
	Text   string
	Strong bool
}

// Text is a sentence without its emphasis.
func Text(runs []Run) string {
	s := ""
	for _, r := range runs {
		s += r.Text
	}
	return s
}

// input is what was typed for a name, or the proposal.
func (s *Site) input(name, proposal string) string {
	if v, ok := s.Inputs[name]; ok && v != "" {
		return v
	}
	return proposal
}

// choose adds a field with choices and gives what was chosen. Anything that is
// not among them is a problem, and the proposal stands.
func (s *Site) choose(f Field, proposal string) string {
	f.Value = s.input(f.Name, proposal)
	found := false
	for _, o := range f.Options {
		found = found || o.Value == f.Value
	}
	if !found {
		s.Problems = append(s.Problems, plan.Problem{Field: f.Name, Say: "choose one of the list"})
		f.Value = proposal
	}
	s.Fields = append(s.Fields, f)
	return f.Value
}

// length adds a field for a length, and defines it as a leaf that was chosen.
// What cannot be read, and what lies outside least and most (mm), is a problem,
// and the figure becomes what it is without the upgrade: fallback.
func (s *Site) length(sc *sheet.Scope, q sheet.Q, f Field, proposal string, least, most, fallback float64) {
	f.Value, f.least, f.most = s.input(f.Name, proposal), least, most
	s.Fields = append(s.Fields, f)
	e := plan.Entry{Typed: f.Value, Origin: sheet.Chosen}
	leaf, err := e.Leaf(s.Units)
	var p plan.Problem
	switch {
	case errors.As(err, &p):
		s.Problems = append(s.Problems, plan.Problem{Field: f.Name, Say: p.Say})
	case leaf.Origin == sheet.Unknown: // nothing was typed yet
	case leaf.Value < least || leaf.Value > most:
		s.Problems = append(s.Problems, plan.Problem{Field: f.Name, Say: "give a length from " + unit.MM.With(least) + " to " + unit.MM.With(most)})
	default:
		sc.Measure(q, leaf)
		return
	}
	if math.IsNaN(fallback) {
		sc.Measure(q, sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)})
		return
	}
	sc.Measure(q, sheet.Leaf{Value: fallback, Origin: sheet.Chosen, Note: "nothing that can be read was typed"})
}

func quiet(key, label, symbol string, u unit.Unit) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: u, Quiet: true}
}

func shown(key, label, symbol string, u unit.Unit) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: u}
}
