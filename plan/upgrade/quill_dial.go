package upgrade

import (
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/dial"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// quillDial: how far a quill stands out is read, by a dial on its screw or by
// lines along it.
type quillDial struct{}

func (quillDial) About() About {
	return About{
		Key: "quill_dial", Label: "Dial or scale for the quill",
		Words:   []string{"tailstock dial", "graduated quill", "graduated barrel", "depth scale", "tailstock handwheel dial", "zeroing ring"},
		Purpose: "The depth that a tool in the tailstock goes in is read, and not guessed.",
		Cautions: []string{
			"Isolate the machine before the handwheel comes off, and before its spindle is used to divide: it is turned by hand.",
			"A ring that shifts by itself reads wrong: hold it when it is set, and look again after the first hole.",
			"Paint and its solvent: fresh air, no flame.",
		},
		Proof: "The depth of a blind hole within 0.1 mm of what was read; ten turns against a gauge.",
		Hours: [2]float64{2, 6}, Risk: LowRisk, Undo: UndonePart, Own: true,
		Needs: []part.Capability{part.Turning, part.Dividing},
		Cures: []string{"reading.none"},
	}
}

// Suits a screw in a barrel whose lead is on the sheet.
func (quillDial) Suits(l *axis.Layout) bool {
	t, ok := l.WithRole("thread")
	_, okQ := l.WithRole("quill")
	return ok && okQ && l.Arr.Key == "barrel_screw" && l.Scope.Has(t.Key+".pitch")
}

// Trials: a dial of 60 mm where there is none, and a scale.
func (quillDial) Trials(l *axis.Layout) []Trial {
	scale := Trial{"lines along the quill", map[string]string{"by": "scale", "line": "1 mm"}}
	if _, ok := l.WithRole("dial"); ok {
		return []Trial{scale}
	}
	return []Trial{{"a dial", map[string]string{"by": "dial", "dia": "60 mm"}}, scale}
}

// quillRing is the dial as a part of the axis, which has none.
var quillRing = &axis.Part{Key: "quill_dial", Label: "dial", Role: "dial", Tie: &axis.Tie{}}

// byDial tells whether a dial is asked for.
func (quillDial) byDial(s *Site) bool {
	_, there := s.Layout.WithRole("dial")
	return !there && s.input("by", "dial") == "dial"
}

func (k quillDial) Apply(s *Site) {
	l := s.Layout
	t, _ := l.WithRole("thread")
	options := []Option{{"scale", "lines along the quill"}}
	if _, there := l.WithRole("dial"); !there {
		options = append([]Option{{"dial", "a dial on the screw"}}, options...)
	}
	s.choose(Field{Name: "by", Label: "Read by", Options: options}, options[0].Value)
	if !l.Scope.Has("reads_to") {
		s.typed(l.Scope.In("reading"), quiet("now", "what is read to now", "q_0", unit.MM), Field{Name: "read_now", Label: "Now read to", Hint: "a rule held beside it 0.5; nothing: 1"}, "", 0.001, 100, nan)
		l.DefineReading("reading.now")
	}
	s.aim("reads_to", unit.MM, true)
	if k.byDial(s) {
		k.dial(s, t)
		return
	}
	k.scale(s)
}

// dial lays a dial onto the sheet that the axis has no part for.
func (quillDial) dial(s *Site, t *axis.Part) {
	l, d := s.Layout, quillRing
	in := l.Scope.In(d.Key)
	if !l.Scope.Has(d.Key + ".bore") {
		s.typed(in, quiet("bore", "what the dial sits on", "d", unit.MM), Field{Name: "on", Label: "What it sits on, diameter", Hint: "the screw's end or the handwheel's hub"}, "", 1, 100, nan)
		in.Measure(quiet("dia", "dial's outside diameter", "D", unit.MM), sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)})
		in.Measure(quiet("length", "dial's width", "b", unit.MM), sheet.Leaf{Value: 14, Origin: sheet.Chosen, Note: "common practice, no source: 14 mm takes lines, figures and a shoulder"})
	}
	s.askDial(d, t)
	l.Scope.Change("reading.added", "line", "as chosen", sheet.With{"line": d.Key + ".per_line"})
}

// scale: lines along the quill, read at the body's face to half a line.
func (quillDial) scale(s *Site) {
	l, sc := s.Layout, s.Scope
	s.typed(sc, quiet("line", "lines apart", "s", unit.MM), Field{Name: "line", Label: "Lines apart", Hint: "1; 1/16 in"}, "", 0.1, 20, nan)
	s.Amount, s.Most = sc.Key("line"), 10
	l.Assume(sc, quiet("eye", "share of a line that the eye tells", "", unit.One), 0.5, "common practice, no source: half a line")
	l.Scope.Change("reading.added", "line * eye", "as asked", sheet.With{"line": s.Amount, "eye": sc.Key("eye")})
	l.Assume(sc, quiet("line_least", "least spacing of lines", "s_min", unit.MM), dial.SpacingLeast, dial.SpacingSource)
	sc.Check(sheet.Check{Key: "line_check", Label: "Lines along the quill apart", Figure: "line", Limit: "line_least", Level: sheet.Rule,
		Sentence: "The lines are {figure} apart, and {limit} is the least that is read.", Source: dial.SpacingSource})
	sc.Formula(quiet("long", "length that is graduated", "L", unit.MM), "travel + mm(5)", "common practice, no source: the travel, and 5 mm")
	sc.Formula(quiet("off", "lines all along", "", unit.One), "long / line", "geometry")
}

func (k quillDial) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	if k.byDial(s) && strings.TrimSpace(s.input("dia", "")) == "" || !k.byDial(s) && strings.TrimSpace(s.input("line", "")) == "" {
		say.text("Say ").strong(map[bool]string{true: "how large the dial should be", false: "how far the lines are apart"}[k.byDial(s)]).text(", and to what the depth is read then is shown here.")
		return say.runs
	}
	say.failures(s, r)
	say.became("The depth is read to ", "", s, r, s.Goals[0].Key)
	if spacing, ok := s.figured(r, s.Layout.Find(quillRing.Key+".spacing")); ok && k.byDial(s) {
		say.text(" The dial's lines are ").strong(spacing).text(" apart.")
	}
	say.text(" Nothing else follows: the screw's own lost motion stays, so wind it one way.")
	return say.runs
}

// Parts of it: the dial and its sleeve, or the scale.
func (k quillDial) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	t, _ := s.Layout.WithRole("thread")
	if k.byDial(s) {
		return m.dialMade(quillRing, t)
	}
	up := sheet.Local(s.Scope.Key(""), s.Layout.Key)
	long, ok := m.figure(up + "long")
	line, okL := m.figure(up + "line")
	if !ok || !okL {
		return Make{}
	}
	m.add(part.Part{Key: "quill_scale", Label: "scale along the quill", Material: "cuzn39pb3", Notes: []string{"A line every " + show(s, line) + ", a longer one every fifth, a figure at every tenth, nought at the body's face with the quill right in.", "Or cut the lines into the quill itself, at one side, where its key does not run."},
		Flat: &part.Flat{Length: m.general(want{part: "quill_scale", name: "length", label: "length", key: up + "long"}), Width: m.general(want{part: "quill_scale", label: "width", nominal: 8}), Thickness: drawn("thickness", 0.5), Angle: 90}})
	m.step(made, "quill_scale", part.Operation{Key: "divide_scale", Do: "Cut the lines with a pointed tool held still, the work moved by a dial or a gauge block for each line; all lines from one end, so that no error adds up.", Needs: []part.Capability{part.Milling}, Envelope: [2]float64{long, 8}, Minutes: [2]float64{60, 150}, Record: "a photo against a rule", Cautions: []string{eyes}})
	m.step(fitted, "", part.Operation{Key: "fix_scale", Do: "Wind the quill right in and fix the scale along it, its nought at the body's face, clear of the body's bore.", Needs: []part.Capability{part.Bench}, After: []string{"divide_scale"}, Minutes: [2]float64{20, 40}, Record: "nought, with the quill right in", Cautions: []string{isolate}, Asks: []string{"Does the scale still clear the body when the quill is wound right in, and the clamp?"}})
	m.proofOf(k.About())
	return m.finish()
}
