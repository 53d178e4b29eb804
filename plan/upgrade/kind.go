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
	// Trials are the ways of making it for which its gain is told before
	// anybody asked for anything, the usual one first. It depends on what the
	// parts are, never on a computed value.
	Trials(*axis.Layout) []Trial
	// Apply lays the upgrade onto the sheet: changes, checks, and the fields
	// that the form shows.
	Apply(*Site)
	// Answer says what comes of it, in a sentence or a few.
	Answer(*Site, *sheet.Result) []Run
	// Parts lists what is to be made, altered and bought, and how, by the
	// figures of a result. What is not needed is not listed.
	Parts(*Site, *sheet.Result) Make
}

// Trial is one way of making an upgrade. Where the input behind [Site.Amount]
// is not among its inputs, it is taken as far as everything holds.
type Trial struct {
	Says   string // what tells it from the others: "both ends"; "" for the only one
	Inputs map[string]string
}

// asUsual is the trial of a kind whose proposals say all.
var asUsual = []Trial{{}}

// Kinds is the list of kinds.
var Kinds = []Kind{
	extendTravel{},
	newDial{},
	quillDial{},
	thrustSet{},
	bearingPair{},
	outerSupport{},
	floatAdjuster{},
	handwheel{},
	scales{},
	newNut{},
	bracketSpacer{},
	nutMoved{},
	adjustableNut{},
	newFeed{},
	newLead{},
	gibStrip{},
	taperGib{},
	gibScrews{},
	slideLock{},
	oilWays{},
	wayWipers{},
	counterbalance{},
	plinth{},
	quillPlay{},
	powerFeed{},
	riser{},
	quillTravel{},
	drillDepth{},
	headRiser{},
	spindleBearings,
	screwTurned,
	screwTail,
	screwCovers,
	carriageDial,
	stops,
	gaugeHolder,
	scraping,
	wayLiner,
	holdDowns,
	tableRepair,
	auxiliaryTable,
	longColumn,
	columnBrace,
	columnKey,
	kneeClearance,
	tailstockHeight,
	camLock,
	quillKey,
	drawbar,
	backPlates,
	largerToolpost,
	speedBelts,
	feedTrip,
	levelling,
	shaperFeed,
	smallGrinder,
	traysGuards,
	guards,
	ownMachine,
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
	Name     string       // what it is called among those of its axis: "More travel", "More travel (2)"
	Author   string       // what its figures and conflicts are signed with: "More travel, Cross slide"
	Fields   []Field
	Problems []plan.Problem  // Field is the input's name
	Amount   string          // key of the leaf that the wish is: what "how far could I go?" varies, and nothing is laid out by
	Goals    []sheet.Goal    // the figures that it is for, the chief one first
	Most     float64         // mm: as far as is looked for "how far could I go?"
	refused  []string        // remedies that were proposed and not taken
	anew     bool            // it makes the feed screw anew, from one bar
	newScrew bool            // a remedy asks for a new screw, which may then be as long as is needed
	asks     []func(*making) // what the remedies that are used ask the workshop for
	settled  map[string]settled
	joint    string  // how this upgrade fixes an extension to the screw; "" where it makes none
	again    string  // name of the scope of the extension that takes the place of one made before; "" for none
	beside   []*Site // the other upgrades that count on the same axis
	before   []*Site // those of them that are made first
}

// On is the site on a branch of its sheet, where l is its layout. It can be looked at there, and nothing be
// made of it: what it asks the workshop for stays with the other one.
func (s *Site) On(l *axis.Layout) *Site {
	c := *s
	c.Layout, c.Scope, c.asks = l, l.Scope.In("upgrade_"+s.ID), nil
	return &c
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
	Leaf    string   // key of the figure that is typed here; "" where it is a choice
	Unit    unit.Unit
	Least   float64 // inside, of a figure to type
	Most    float64
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
	if !offered(f.Options, f.Value) {
		s.Problems = append(s.Problems, plan.Problem{Field: f.Name, Say: "choose one of the list"})
		f.Value = proposal
	}
	s.Fields = append(s.Fields, f)
	return f.Value
}

// typed adds a field for a figure, and defines it as a leaf that was chosen.
// What cannot be read, and what lies outside least and most (mm, or in q's
// unit), is a problem, and the figure becomes what it is without the upgrade:
// fallback, NaN where that is not known.
func (s *Site) typed(sc *sheet.Scope, q sheet.Q, f Field, proposal string, least, most, fallback float64) {
	bare := q.Unit
	if bare.Dim == unit.LengthD && bare.Scale == 1 {
		bare = s.Units
	}
	f.Value, f.Leaf, f.Unit = s.input(f.Name, proposal), sc.Key(q.Key), bare
	f.Least, f.Most = q.Unit.Inside(least), q.Unit.Inside(most)
	s.Fields = append(s.Fields, f)
	e := plan.Entry{Typed: f.Value, Origin: sheet.Chosen}
	leaf, err := e.Leaf(bare)
	var p plan.Problem
	switch {
	case errors.As(err, &p):
		s.Problems = append(s.Problems, plan.Problem{Field: f.Name, Say: p.Say})
	case leaf.Origin == sheet.Unknown: // nothing was typed yet
	case leaf.Value < f.Least || leaf.Value > f.Most:
		s.Problems = append(s.Problems, plan.Problem{Field: f.Name, Say: within(q.Unit, least, most)})
	default:
		sc.Measure(q, leaf)
		return
	}
	if math.IsNaN(fallback) {
		sc.Measure(q, sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)})
		return
	}
	sc.Measure(q, sheet.Leaf{Value: q.Unit.Inside(fallback), Origin: sheet.Chosen, Note: "nothing that can be read was typed"})
}

// within says what a figure can be.
func within(u unit.Unit, least, most float64) string {
	what := "give from "
	if u.Dim == unit.LengthD && u.Scale == 1 {
		what, u = "give a length from ", unit.MM
	}
	return what + u.With(u.Inside(least)) + " to " + u.With(u.Inside(most))
}

// own defines a leaf of the upgrade's own that no field asks for.
func (s *Site) own(q sheet.Q, value float64, note string) {
	s.Scope.Measure(q, sheet.Leaf{Value: q.Unit.Inside(value), Origin: sheet.Chosen, Note: note})
}

// aim adds a figure that the upgrade is for. It is called before anything is
// changed: of the chief goal, it is checked that the upgrade makes it better
// than it stood.
func (s *Site) aim(name string, u unit.Unit, less bool) {
	key := s.Layout.Find(name)
	s.Goals = append(s.Goals, sheet.Goal{Key: key, Less: less})
	if len(s.Goals) > 1 {
		return
	}
	text := "goal - stood"
	if less {
		text = "stood - goal"
	}
	with, nothing := sheet.With{"goal": key}, s.Layout.Find("touching")
	if u.Dim != unit.LengthD {
		s.own(quiet("no_better", "nothing gained", "", u), 0, "an upgrade is to better what it is for")
		nothing = s.Scope.Key("no_better")
	}
	s.Scope.Fix(quiet("stood", "what it was before", "", u), "goal", "decided: as it stood before this upgrade", with)
	s.Scope.Formula(quiet("better", "better than before by", "", u), text, "geometry", with)
	s.Scope.Check(sheet.Check{Key: "better_check", Label: s.Name + ": better than it was", Figure: "better", Limit: nothing, Level: sheet.Rule,
		Sentence: "Gained of what it is for: {figure}. Below {limit} it comes out worse than it was.", Source: "an upgrade is to better what it is for"})
}

// GoalKeys are the keys of what it is for.
func (s *Site) GoalKeys() []string {
	keys := make([]string, len(s.Goals))
	for i, g := range s.Goals {
		keys[i] = g.Key
	}
	return keys
}

// Wish is the name of the input behind Amount; "" where there is none. It is
// called as its leaf is within the upgrade.
func (s *Site) Wish() string {
	for _, f := range s.Fields {
		if f.Leaf == s.Amount && f.Leaf != "" {
			return f.Name
		}
	}
	return ""
}

// claim takes what only one upgrade can have: a face, a seat, a length of
// shaft, the nut. Two that claim it conflict, and both are named. What a
// finished upgrade took may be taken anew.
func (s *Site) claim(key, label string) {
	if s.State == Finished {
		return
	}
	l := s.Layout
	if !l.Scope.Has("claimed." + key) {
		l.Scope.In("claimed").Measure(quiet(key, label, "", unit.One), sheet.Leaf{Origin: sheet.Chosen, Note: "no upgrade's as found"})
	}
	l.Scope.Change("claimed."+key, "1", "as chosen")
}

func quiet(key, label, symbol string, u unit.Unit) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: u, Quiet: true}
}

func shown(key, label, symbol string, u unit.Unit) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: u}
}
