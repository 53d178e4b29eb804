package upgrade

import (
	"fmt"
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/dial"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

const newDialKey = "new_dial"

// newDial: a larger dial that can be read, with lines of a round value.
type newDial struct{}

func (newDial) About() About {
	return About{
		Key: newDialKey, Label: "New dial",
		Purpose: "A dial whose lines are far enough apart to be read, each worth a round figure.",
		Cautions: []string{
			"Isolate the machine before the handle comes off, and before its spindle is used to divide: it is turned by hand.",
			"Dials that read the radius and dials that read the diameter, side by side in one shop, make scrap: mark the diameter sign large.",
			"Paint and its solvent: fresh air, no flame.",
		},
		Proof: "The last space is as wide as the others; ten turns against a gauge; two test cuts where it reads the diameter.",
		Words: []string{"graduated collar", "larger dial", "micrometer collar", "index", "zeroing dial", "friction ring", "direct reading", "diameter reading", "graduations"},
		Hours: [2]float64{4, 8}, Risk: LowRisk, Undo: Undone, Own: true,
		Needs: []part.Capability{part.Turning, part.Dividing},
		Cures: []string{"reading.value", "reading.small", "reading.radius", "setting.friction"},
	}
}

// Trials of a dial: as large as there is room for, with the radius or with the diameter on it.
func (newDial) Trials(l *axis.Layout) []Trial {
	if l.Capacity.Key != "lathe_cross_slide" {
		return asUsual
	}
	return []Trial{{"reads the radius", map[string]string{"reads": "radius"}}, {"reads the diameter", map[string]string{"reads": "diameter"}}}
}

func (newDial) Suits(l *axis.Layout) bool {
	d, okD := l.WithRole("dial")
	t, okT := l.WithRole("thread")
	return okD && okT && l.Scope.Has(d.Key+".length") && l.Scope.Has(t.Key+".pitch")
}

// worth is a value that a line can have.
type worth struct {
	dial.Value
	lines int // whole: the nearest where the value does not divide the turn
	dia   bool
}

// key names a worth in the form: "0.02 mm".
func (w worth) label() string {
	s := w.Said
	if w.dia {
		s += " on the diameter"
	}
	s += fmt.Sprintf(": %d lines", w.lines)
	if off := w.Off(w.lines); off != 0 {
		s += fmt.Sprintf(", which read %s %% %s", unit.One.Text(100*math.Abs(off), 2), map[bool]string{true: "too much", false: "too little"}[off > 0])
	}
	return s
}

// nearWhole is how far from a whole number of lines a value is still offered.
const nearWhole = 0.01

// worths are the values that a line can have with a lead, those that divide it first.
func worths(lead float64, dia bool) []worth {
	if dia {
		lead *= 2
	}
	var whole, near []worth
	for _, v := range dial.Counts(lead) {
		n := int(math.Round(v.Lines))
		w := worth{v, n, dia}
		switch {
		case v.Whole():
			whole = append(whole, w)
		case math.Abs(v.Off(n)) <= nearWhole:
			near = append(near, w)
		}
	}
	return append(whole, near...)
}

func (k newDial) Apply(s *Site) {
	l := s.Layout
	d, _ := l.WithRole("dial")
	t, _ := l.WithRole("thread")
	onDia := s.choose(Field{Name: "reads", Label: "Reads", Options: []Option{{"radius", "what the slide moves"}, {"diameter", "what the work's diameter changes by"}}}, "radius") == "diameter"
	s.askDial(d, t, onDia)
	s.Goals = []sheet.Goal{{Key: l.Find(d.Key + ".spacing")}, {Key: l.Find(d.Key + ".per_line"), Less: true}}
}

// askDial asks for a dial that reads the screw, and lays it onto the sheet as d.
func (s *Site) askDial(d, t *axis.Part, onDia bool) {
	l, sc := s.Layout, s.Scope
	w := s.worth(t, onDia)
	was := nan
	old, okOld := l.Scope.Leaf(d.Key + ".dia")
	if okOld && old.Origin != sheet.Unknown {
		was = old.Value
	}
	s.typed(sc, quiet("dia", "dial's diameter asked for", "D", unit.MM), Field{Name: "dia", Label: "Diameter", Hint: `48, 2 in, 1-7/8"`}, "", 1, 300, was)
	s.Amount, s.Most = sc.Key("dia"), 120
	if !l.Scope.Has(d.Key+".room") && was > 0 { // nothing says how large it may be
		s.Most = min(s.Most, 2*was)
	}
	wide := ""
	if leaf, ok := l.Scope.Leaf(d.Key + ".length"); ok && leaf.Origin != sheet.Unknown {
		wide = s.proposed(leaf.Value)
	}
	s.typed(sc, quiet("width", "dial's width asked for", "b", unit.MM), Field{Name: "width", Label: "Width, along the screw", Hint: "the old one is as wide"}, wide, 1, 100, nan)

	if !okOld {
		l.Scope.In(d.Key).Measure(sheet.Q{Key: "dia", Label: d.Label + " outside diameter", Symbol: "D", Unit: unit.MM, Quiet: true}, sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)})
	}
	s.dialMadeAnew(d)
	l.Scope.Change(d.Key+".dia", "asked", "as asked", sheet.With{"asked": s.Amount})
	if d.Tie != nil {
		l.Scope.Change(d.Key+".length", "asked", "as asked", sheet.With{"asked": sc.Key("width")})
	} else { // both its faces were measured
		l.Scope.Change(d.Key+".to", "face + asked", "as asked", sheet.With{"face": d.Key + ".from", "asked": sc.Key("width")})
	}
	s.lines(d, t, w)
	s.read(d, t, w)
	s.room(d)
	s.turning(t)
	s.ring(d)
	s.film()
}

// dialsMade counts the dials that are made anew, one after the other: what watches
// a dial watches it no longer once another takes its place.
func dialsMade(l *axis.Layout, d *axis.Part) {
	if !l.Scope.Has(d.Key + ".replaced") {
		l.Scope.In(d.Key).Measure(quiet("replaced", "dials made anew", "", unit.One), sheet.Leaf{Origin: sheet.Chosen, Note: "none as found"})
	}
}

// dialMadeAnew counts another one.
func (s *Site) dialMadeAnew(d *axis.Part) {
	dialsMade(s.Layout, d)
	s.Layout.Scope.Change(d.Key+".replaced", "was + 1", "as chosen: a new dial")
}

// usualLines is as many as a dial of usual size shows well.
const usualLines = 100

// worth asks what a line is to stand for.
func (s *Site) worth(t *axis.Part, onDia bool) worth {
	all := worths(leadOf(s.Layout, t), onDia)
	var options []Option
	proposal := ""
	for _, w := range all {
		options = append(options, Option{w.Said, w.label()})
		if proposal == "" && w.Whole() && w.lines <= usualLines && w.Inch == (s.Units == unit.Inch) {
			proposal = w.Said
		}
	}
	if len(all) == 0 {
		return worth{}
	}
	if proposal == "" {
		proposal = all[0].Said
	}
	chosen := s.choose(Field{Name: "value", Label: "A line is worth", Options: options}, proposal)
	for _, w := range all {
		if w.Said == chosen {
			return w
		}
	}
	return worth{}
}

// lines gives the dial its new count of lines.
func (s *Site) lines(d, t *axis.Part, w worth) {
	l := s.Layout
	leaf := sheet.Leaf{Value: float64(w.lines), Origin: sheet.Chosen, Note: w.label()}
	if w.lines == 0 {
		leaf = sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)}
	}
	s.Scope.Measure(sheet.Q{Key: "lines", Label: "lines of the new dial", Symbol: "N", Unit: unit.Count, Quiet: true, Whole: true}, leaf)
	if !l.Scope.Has(d.Key + ".divisions") {
		l.Scope.In(d.Key).Measure(sheet.Q{Key: "divisions", Label: d.Label + " lines all round", Symbol: "N", Unit: unit.Count, Whole: true}, sheet.Leaf{Origin: sheet.Unknown, Max: math.Inf(1)})
	}
	l.Scope.Change(d.Key+".divisions", "lines", "as asked", sheet.With{"lines": s.Scope.Key("lines")})
	if !l.Scope.Has(d.Key + ".spacing") {
		l.DialMarks(d, t)
	}
}

// read checks that the lines can be read, and show what the slide moves.
func (s *Site) read(d, t *axis.Part, w worth) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("spacing_least", "least spacing of a dial's lines", "s_min", unit.MM), dial.SpacingLeast, dial.SpacingSource)
	l.Assume(sc, quiet("spacing_near", "spacing above that within which a dial is hard to read", "", unit.MM), dial.SpacingGood-dial.SpacingLeast, dial.SpacingSource)
	spacing := sheet.With{"spacing": d.Key + ".spacing", "divisions": d.Key + ".divisions"}
	sc.Check(sheet.Check{Key: "spacing_check", Label: "Lines of the dial apart", Figure: d.Key + ".spacing", Limit: "spacing_least", Tight: "spacing_near", Level: sheet.Rule,
		Sentence: "The lines are {figure} apart, and {limit} is the least that is read.", Source: dial.SpacingSource})
	sc.Formula(quiet("dia_least", "diameter that the lines need at the least", "D_min", unit.MM), "divisions * spacing_least / 3.141592653589793", dial.DiaFor.Source, spacing)
	sc.Formula(quiet("dia_good", "diameter at which they read well", "D_g", unit.MM), "divisions * (spacing_least + spacing_near) / 3.141592653589793", dial.DiaFor.Source, spacing)

	// What a turn shows against what it moves.
	value := w.MM
	if w.dia {
		value /= 2
	}
	sc.Measure(sheet.Q{Key: "label", Label: "slide's way that a line is marked as", Symbol: "m", Unit: unit.MM, Decimals: 4, Quiet: true}, sheet.Leaf{Value: value, Origin: sheet.Chosen, Note: w.Said})
	sc.Formula(quiet("indicated", "what a turn shows", "m N", unit.MM), dial.Indicated.Text, dial.Indicated.Source, spacing)
	off := quiet("off", "what the dial shows wrong, as a share", "e", unit.Percent)
	off.Decimals = 2
	names := sheet.With{"lead": t.Key + ".pitch", "replaced": d.Key + ".replaced"}
	sc.Fix(quiet("made", "dials made anew, with this one", "", unit.One), "replaced", "decided: as it stood", names)
	sc.Formula(off, "when(replaced > made, 0, abs(indicated / lead - 1))", dial.Ratio.Source+"; nothing once another dial takes its place", names)
	l.Assume(sc, quiet("off_most", "most that a dial may show wrong", "", unit.Percent), 1, "common practice, no source: tight above 0.2 %, fails above 1 %")
	l.Assume(sc, quiet("off_near", "error of a dial below that within which it is tight", "", unit.Percent), 0.8, "common practice, no source: tight above 0.2 %, fails above 1 %")
	sc.Check(sheet.Check{Key: "off_check", Label: "Dial suits the lead", Figure: "off", Limit: "off_most", AtMost: true, Tight: "off_near", Level: sheet.Rule,
		Sentence: "What the dial shows is {figure} off what the slide moves, and {limit} is the most.", Source: "common practice, no source"})

	// Lines and figures across its width.
	l.Assume(sc, quiet("sight", "distance of the eye", "a", unit.MM), 400, "common practice, no source: arm's length")
	sc.Method(quiet("minor", "short lines", "l_1", unit.MM), dial.Minor, spacing)
	sc.Method(quiet("middle", "middle lines", "l_2", unit.MM), dial.Middle)
	sc.Method(quiet("major", "long lines", "l_3", unit.MM), dial.Major)
	sc.Method(quiet("numeral", "height of the figures", "h", unit.MM), dial.Numeral)
	sc.Formula(quiet("marks_wide", "width that lines and figures take", "b_m", unit.MM), "major + numeral + mm(2)", "common practice, no source: 0.5 mm between them, 1.5 mm to the edge")
	sc.Check(sheet.Check{Key: "width_check", Label: "Lines and figures on the dial's width", Figure: "width", Limit: "marks_wide", Level: sheet.Rule,
		Sentence: "The dial is {figure} wide, and its lines and figures take {limit}.", Source: "common practice, no source"})
}

// room keeps the dial clear of what it passes.
func (s *Site) room(d *axis.Part) {
	l, sc := s.Layout, s.Scope
	room := d.Key + ".room"
	if !l.Scope.Has(room) {
		s.typed(sc, quiet("room", "room beside the dial, from the screw's axis", "r_o", unit.MM),
			Field{Name: "room", Label: "Room beside it, from the screw's axis", Hint: "to the nearest thing that it passes, slide at both ends"}, "", 1, 1000, nan)
		room = sc.Key("room")
	}
	sc.Formula(quiet("radius", "dial's radius", "r", unit.MM), "dial_dia / 2", "geometry", sheet.With{"dial_dia": d.Key + ".dia"})
	sc.Formula(quiet("clear", "dial clear of what is beside it", "c", unit.MM), "room - radius", "geometry", sheet.With{"room": room})
	l.Assume(sc, quiet("clear_least", "clearance wanted beside a dial", "", unit.MM), 1, "common practice, no source: 1 mm")
	sc.Check(sheet.Check{Key: "room_check", Label: "Dial clear of what is beside it", Figure: "clear", Limit: "clear_least", Level: sheet.Stop,
		Sentence: "{figure} is left between the dial and what it passes, and {limit} is wanted.", Source: "geometry"})
}

// turning asks which way the slide goes, and which way the figures are to rise.
func (s *Site) turning(t *axis.Part) {
	l := s.Layout
	ends := []Option{{string(axis.Minus), capital(l.EndName(axis.Minus))}, {string(axis.Plus), capital(l.EndName(axis.Plus))}}
	by, known := clockwiseGoes(l, t)
	proposal := opposite(handleAt(l))
	if known {
		proposal = by
	}
	chosen := s.choose(Field{Name: "clockwise", Label: "Turned clockwise, the slide goes", Options: ends}, string(proposal))
	s.choose(Field{Name: "rises", Label: "The figures rise when it goes", Options: ends}, chosen)
}

// handleAt is the end of the screw at which the handle is.
func handleAt(l *axis.Layout) axis.End {
	b, okB := l.WithRole("bracket")
	t, okT := l.WithRole("thread")
	if okB && okT {
		at, okA := l.Scope.Leaf(b.Key + ".from")
		end, okE := l.Scope.Leaf(t.Key + ".from")
		if okA && okE && at.Origin != sheet.Unknown && end.Origin != sheet.Unknown && at.Value < end.Value {
			return axis.Minus
		}
	}
	return axis.Plus
}

// clockwiseGoes is where the slide goes when the handle is turned clockwise, by
// the hand of the thread. A nut on a right-hand screw that is held comes towards
// the handle; a right-hand screw in a nut that is held goes away from it.
func clockwiseGoes(l *axis.Layout, t *axis.Part) (axis.End, bool) {
	return goesBy(l, t.Entries["hand"].Typed)
}

// goesBy is the same of a thread of the hand.
func goesBy(l *axis.Layout, hand string) (axis.End, bool) {
	nut, ok := l.WithRole("nut")
	if !ok || hand != "right" && hand != "left" {
		return "", false
	}
	towards := (nut.Side == axis.Moving) == (hand == "right")
	if towards {
		return handleAt(l), true
	}
	return opposite(handleAt(l)), true
}

func (k newDial) Answer(s *Site, r *sheet.Result) []Run {
	l := s.Layout
	d, _ := l.WithRole("dial")
	t, _ := l.WithRole("thread")
	onDia := s.input("reads", "radius") == "diameter"
	figure := func(key string) (float64, bool) {
		f, ok := r.Figure(key, sheet.Planned)
		return f.Value, ok && f.Known() && !math.IsNaN(f.Value)
	}
	var say teller
	lines, okL := figure(s.Scope.Key("lines"))
	least, okM := figure(s.Scope.Key("dia_least"))
	good, okG := figure(s.Scope.Key("dia_good"))
	if !okL || !okM || !okG {
		say.text("Measure the lead of the " + t.Label + " first: the lines follow from it.")
		return say.runs
	}
	value := ""
	for _, w := range worths(leadOf(l, t), onDia) {
		if w.lines == int(lines) && (value == "" || s.input("value", "") == w.Said) {
			value = w.Said
		}
	}
	if onDia {
		value += " on the diameter"
	}
	if s.input("dia", "") == "" {
		say.text("Say how large the dial should be. ").strong(unit.Count.Text(lines, 0)).text(" lines of " + value + " read well from ").strong(show(s, good)).text(" on, and want ").strong(show(s, least)).text(" at the least.")
		return say.runs
	}
	dia, _ := figure(l.Find(d.Key + ".dia"))
	spacing, _ := figure(l.Find(d.Key + ".spacing"))
	say.text("A dial of ").strong(show(s, dia)).text(" with ").strong(unit.Count.Text(lines, 0)).text(" lines, each worth " + value + ", has them ").strong(show(s, spacing)).text(" apart")
	if now, ok := r.Figure(l.Find(d.Key+".spacing"), sheet.Now); ok && now.Known() {
		say.text(", where they are " + show(s, now.Value) + " apart now")
	}
	say.text(".")
	if spacing < dial.SpacingGood {
		say.text(" From ").strong(show(s, good)).text(" on they would read well.")
	}
	if by, ok := clockwiseGoes(l, t); ok && s.input("clockwise", string(by)) != string(by) {
		say.text(" A " + t.Entries["hand"].Typed + "-hand thread that is held so takes the slide " + l.EndName(by) + " when it is turned clockwise: wind it, and see which of the two is wrong, before the figures are stamped.")
	}
	if clockwise, rises := s.rises(t); clockwise != rises {
		say.text(" Its figures fall when it is turned clockwise: is that meant?")
	}
	if visible, more := planned(s, r, "extension.visible"); more > shownLength {
		say.text(" The screw needs an extension of ").strong(show(s, visible)).text(".")
	}
	return say.runs
}

// leadOf is the lead that was chosen for a new screw, or the one that was measured;
// 0 where it is not known.
func leadOf(l *axis.Layout, t *axis.Part) float64 {
	if leaf, ok := l.Scope.Leaf(t.Key + ".lead_chosen"); ok {
		return leaf.Value
	}
	leaf, ok := l.Scope.Leaf(t.Key + ".pitch")
	if !ok || leaf.Origin == sheet.Unknown {
		return 0
	}
	return leaf.Value
}

// planned is a figure of the axis as planned, and how much more it is than now.
func planned(s *Site, r *sheet.Result, name string) (plan, more float64) {
	p, ok := r.Figure(s.Layout.Find(name), sheet.Planned)
	if !ok || !p.Known() {
		return 0, 0
	}
	n, ok := r.Figure(s.Layout.Find(name), sheet.Now)
	if !ok {
		return p.Value, p.Value
	}
	return p.Value, p.Value - n.Value
}

// Parts of a new dial: the ring with its lines, and the sleeve that it turns on.
func (k newDial) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	d, _ := s.Layout.WithRole("dial")
	t, _ := s.Layout.WithRole("thread")
	return m.dialMade(d, t)
}

// dialMade is a dial with its lines, the sleeve that it turns on, and its index.
func (m *making) dialMade(d, t *axis.Part) Make {
	s := m.Site
	lines, ok := m.figure(d.Key + ".divisions")
	if !ok || s.input("dia", "") == "" || lines < 2 {
		return Make{}
	}
	up := sheet.Local(s.Scope.Key(""), s.Layout.Key) // "upgrade_1."
	ring := m.more(s.Layout.Find(up + "ring.sleeve"))
	outside := m.limits(want{part: d.Key, name: "dia", label: "outside", key: d.Key + ".dia", leaf: d.Key + ".dia", formula: "made"}, 0, -0.05, "common practice, no source: the lines are scaled to it")
	width := want{part: d.Key, name: "length", label: "width", key: d.Key + ".length", leaf: d.Key + ".length", formula: "made"}
	bore := want{part: d.Key, name: "bore", label: "bore", key: d.Key + ".bore", leaf: d.Key + ".bore", formula: "made", grows: true}
	shoulder := 0.0
	if ring {
		shoulder = 2.5
		sleeveKey := up + "ring.sleeve"
		width = want{part: d.Key, name: "width", label: "width", nominal: m.or(d.Key+".length", 0) - shoulder - 0.1}
		bore = want{part: d.Key, name: "bore", label: "bore, on the sleeve", key: sleeveKey, grows: true}
	}
	p := part.Part{Key: d.Key, Label: "new " + d.Label, Replaces: m.replaced(d), Material: stock(d.Material, "6082"), Finish: "lines and figures filled with paint, the face rubbed down"}
	wide := m.general(width)
	p.Round = &part.Round{Outside: []part.Step{{Label: "dial", Length: wide, Dia: outside, Chamfer: 0.5}},
		Left: []part.Step{{Label: "bore", Length: drawn("", wide.Nominal), Dia: m.class(bore, "H7"), Through: true, Chamfer: 0.3}}}
	if ring {
		p.Round.Left[0].Dia = m.suitsMade(p.Round.Left[0].Dia, "the sleeve as made", "dial_sleeve.outside")
		m.add(dialSleeve(m, d, up, shoulder))
	}
	p.Dial = marks(m, d, t, up, int(lines))
	p.Dial.Dia, p.Dial.Width = drawn("", outside.Nominal), drawn("", wide.Nominal)
	if k := p.Dial.Every; len(k) > 0 && int(lines)%k[0].Divisions != 0 {
		p.Notes = append(p.Notes, fmt.Sprintf("%d lines are no multiple of %d: the last space between figures is shorter.", int(lines), k[0].Divisions))
	}
	if strings.Contains(p.Dial.Value, "⌀") {
		p.Notes = append(p.Notes, "Mark it ⌀, as high as the figures: it reads the work's diameter.")
	}
	p.Notes = append(p.Notes, m.bothWays(d), m.filmNote(&p))
	m.indexPlate(d)
	m.add(p)
	m.dialSteps(d, ring, wide.Nominal, outside.Nominal, int(lines))
	return m.finish()
}
