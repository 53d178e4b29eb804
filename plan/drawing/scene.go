package drawing

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Options of a view.
type Options struct {
	ID    string    // of the picture; its parts' ids begin with it. "" is the axis's key
	Units unit.Unit // of the figures written; the zero Unit is mm
	End   axis.End  // at which the moving side stands; "" is the one that is asked to go further
	At    *float64  // mm: where the moving side stands instead
	Scale float64   // mm of paper to a mm of the machine; 0: the drawing is as large as is usual
}

// body is a part where it lies at s = 0, at both stages.
type body struct {
	*axis.Part
	look
	now, plan span    // not known: see known
	outer     float64 // radius of a rod, a sleeve or a lump; 0 where it has none
	guessed   bool    // it is not measured where it lies
}

// scene is an axis at two stages, ready to be drawn.
type scene struct {
	l        *axis.Layout
	r        *sheet.Result
	id       string
	units    unit.Unit
	from, to sheet.Stage // what is compared
	u        float64     // a mm of paper, in drawing units
	scale    float64     // that is asked for; 0 for none
	parts    []body
	heights
	end     axis.End
	at, was float64   // where the moving side is drawn; as far as it goes now at that end
	sweep   span      // of the moving side, as asked
	rooms   [2]zone   // of what is written: see up and down
	inner   zone      // between slide and screw
	edges   []float64 // x of the upright lines of what was and of what is cut away
	out     picture
	said    []string // of what is to be seen, in sentences
}

// picture collects what is drawn, in the order in which it lies on the paper.
type picture struct {
	fixed, moving Shapes
	ghosts        Shapes
	movingLabels  Shapes
	fixedLabels   Shapes
	dims          Shapes
	marks         Shapes
}

// farthest is how far off, in mm, anything is still drawn.
const farthest = 1e5

// moved is the least difference, in mm, that is shown.
const moved = 0.005

func newScene(l *axis.Layout, r *sheet.Result, opt Options, from, to sheet.Stage) *scene {
	s := &scene{l: l, r: r, id: opt.ID, units: opt.Units, from: from, to: to, scale: opt.Scale}
	if s.units.Scale == 0 {
		s.units = unit.MM
	}
	if s.id == "" {
		s.id = l.Key
	}
	s.travel(opt)
	s.u = 1
	s.parts = make([]body, len(l.Parts))
	for i := range l.Parts {
		p := &l.Parts[i]
		s.parts[i] = body{Part: p, look: lookOf(p.Role), now: s.lies(p.Key, from), plan: s.lies(p.Key, to)}
	}
	return s
}

// value is a figure that is known, of a local name.
func (s *scene) value(name string, at sheet.Stage) (float64, bool) {
	v, ok := s.r.Number(s.l.Scope, name, at)
	if !ok || !(math.Abs(v) <= farthest) {
		return 0, false
	}
	return v, true
}

// size is a figure above nothing, or what is usual instead.
func (s *scene) size(name string, usual float64) float64 {
	if v, ok := s.value(name, s.to); ok && v > 0 {
		return v
	}
	return usual
}

// travel finds where the moving side stands and how far it goes.
func (s *scene) travel(opt Options) {
	plus, _ := s.value("asked_plus", s.to)
	minus, _ := s.value("asked_minus", s.to)
	plusNow, _ := s.value("asked_plus", s.from)
	minusNow, _ := s.value("asked_minus", s.from)
	s.sweep = span{min(plus, minus), max(plus, minus)}
	s.end = opt.End
	if s.end != axis.Plus && s.end != axis.Minus {
		s.end = axis.Plus
		if plus == plusNow && minus != minusNow {
			s.end = axis.Minus
		}
	}
	s.at, s.was = plus, plusNow
	if s.end == axis.Minus {
		s.at, s.was = minus, minusNow
	}
	if opt.At != nil && math.Abs(*opt.At) <= farthest {
		s.at = *opt.At
		s.sweep = span{min(s.sweep.from, s.at), max(s.sweep.to, s.at)}
	}
}

func (s *scene) lies(key string, at sheet.Stage) span {
	from, okF := s.value(key+".from", at)
	to, okT := s.value(key+".to", at)
	if !okF || !okT {
		return nowhere
	}
	return span{min(from, to), max(from, to)}
}

var nowhere = span{math.NaN(), math.NaN()}

func (a span) known() bool { return a.from <= a.to }

func (a span) shifted(by float64) span { return span{a.from + by, a.to + by} }

func (a span) mid() float64 { return (a.from + a.to) / 2 }

func (a span) long() float64 { return a.to - a.from }

// drawn tells whether the body can be drawn.
func (b *body) drawn() bool { return b.plan.known() && b.plan.long() > same }

// of is the first body of a role that is drawn; nil where there is none.
func (s *scene) of(role string) *body {
	for i := range s.parts {
		if b := &s.parts[i]; b.Role == role && b.drawn() {
			return b
		}
	}
	return nil
}

// slider is what slides on the ways, a slide or a table; nil where there is neither.
func (s *scene) slider() *body {
	if b := s.of("slide"); b != nil {
		return b
	}
	return s.of("table")
}

// named is the body of a part's key, where it is drawn.
func (s *scene) named(key string) *body {
	for i := range s.parts {
		if b := &s.parts[i]; b.Key == key && b.drawn() {
			return b
		}
	}
	return nil
}

// shift is how far a body is drawn from where it lies at s = 0.
func (s *scene) shift(b *body) float64 {
	if b.Side == axis.Moving {
		return s.at
	}
	return 0
}

// layer is where a body's shapes go.
func (s *scene) layer(b *body) *Shapes {
	if b.Side == axis.Moving {
		return &s.out.moving
	}
	return &s.out.fixed
}

// text writes a length in the machine's unit.
func (s *scene) text(mm float64) string { return s.units.Text(mm, s.units.Decimals) }

func (s *scene) say(sentence string) { s.said = append(s.said, sentence) }
