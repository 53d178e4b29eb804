package upgrade

import (
	"strings"

	"fettle/plan/axis"
	"fettle/plan/joint"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/slide"
	"fettle/plan/unit"
)

// quillTravel: more of a tailstock quill's travel that is of use. Whatever the
// screw, that is no more than the quill's length less what the nut must engage
// and less what the tool's shank stands in.
type quillTravel struct{}

func (quillTravel) About() About {
	return About{
		Key: "quill_travel", Label: "More use of the quill",
		Words:   []string{"tailstock travel", "barrel", "poppet", "ram", "ejects the drill", "tang", "tangless", "ejection", "longer quill", "tailstock spindle"},
		Purpose: "The quill holds its tool over more of its travel: it lets go later, or comes further out.",
		Cautions: []string{
			"Isolate the machine before the tailstock is taken apart.",
			"A drill that turns in its taper scores the quill and your hand: leave the tang on large drills.",
			"Cut shanks are hot and sharp: eye protection, and a stone round the edge.",
		},
		Proof: "Travel from where the tool is held to the quill full out, by rule; quill parallel to the bed, in and out, 0.02 mm in 100 upwards and 0.015 sideways.",
		Hours: [2]float64{1, 30}, Risk: MediumRisk, Undo: UndonePart, Own: true,
		Needs: []part.Capability{part.Boring, part.Threads, part.Milling, part.Reaming},
		Cures: []string{"height.ejects", "height.quill"},
	}
}

// Suits a barrel that a screw pushes out, and that holds tools.
func (quillTravel) Suits(l *axis.Layout) bool {
	has := func(role string) bool { _, ok := l.WithRole(role); return ok }
	return l.Arr.Key == "barrel_screw" && l.Capacity.Key == "depth" && has("quill") && has("nut") && has("thread")
}

// Trials: each way, as far as it goes.
func (quillTravel) Trials(*axis.Layout) []Trial {
	var all []Trial
	for _, w := range quillWays {
		all = append(all, Trial{w.Label, map[string]string{"way": w.Value}})
	}
	return all
}

var quillWays = []Option{
	{"shank", "tools with a shorter shank"}, {"longer", "a longer quill on the same screw"},
	{"nut_back", "a nut further back in the old quill"}, {"tip", "a shorter screw"},
}

func (k quillTravel) Apply(s *Site) {
	sc := s.Scope
	s.aim("usable", unit.MM, false)
	way := s.choose(Field{Name: "way", Label: "By", Options: quillWays}, quillWays[0].Value)
	taper := k.taper(s)
	f, proposal := Field{Name: "amount", Label: "Longer by", Hint: "10, 1/2\""}, ""
	switch way {
	case "shank":
		f.Label, f.Hint = "Shanks shorter by", "what a shank without its tang is shorter by is proposed"
		proposal = s.proposed(taper.Shorter())
	case "nut_back":
		f.Label = "Nut further back by"
	case "tip":
		f.Label = "Screw shorter by"
	}
	s.typed(sc, quiet("amount", lower(f.Label), "x", unit.MM), f, proposal, 0, 300, 0)
	s.Amount, s.Most = sc.Key("amount"), 60

	quill, _ := s.Layout.WithRole("quill")
	guide, okG := s.Layout.WithRole("guide")
	if okG {
		k.standsOut(s, "before", quill, guide, sc.Fix)
	}
	switch way {
	case "shank":
		s.Layout.Scope.Change("tang_depth", "max(0, was - amount)", "decided: the tools' shanks are that much shorter", sheet.With{"amount": s.Amount})
	case "tip":
		s.claim("screw", "the screw")
		t, _ := s.Layout.WithRole("thread")
		shift(s, t, "to", "-", s.Amount)
	default:
		k.back(s, quill, way == "longer")
	}
	if okG {
		k.bends(s, quill, guide)
	}
	k.pad(s)
}

// taper asks for the taper that the tools have.
func (quillTravel) taper(s *Site) joint.Taper {
	var options []Option
	for _, t := range joint.Tapers {
		options = append(options, Option{t.Size, "Morse taper " + t.Size})
	}
	s.choose(Field{Name: "taper", Label: "Taper in the quill", Options: options}, usualTaper)
	return s.quillTaper()
}

// usualTaper is the taper of most small tailstocks.
const usualTaper = "2"

// quillTaper is the taper that was chosen.
func (s *Site) quillTaper() joint.Taper {
	chosen := s.input("taper", usualTaper)
	for _, t := range joint.Tapers {
		if t.Size == chosen {
			return t
		}
	}
	return joint.Tapers[2]
}

// back sets the nut further back: the quill comes out that much further, and
// stands out as much where its rear meets the collar.
func (quillTravel) back(s *Site, quill *axis.Part, longer bool) {
	l, sc := s.Layout, s.Scope
	s.claim("quill", "the "+quill.Label)
	nut, _ := l.WithRole("nut")
	move(s, nut, "-", s.Amount)
	if longer {
		shift(s, quill, "from", "-", s.Amount)
	}
	if keyway, ok := l.WithRole("keyway"); ok && keyway.Side == axis.Moving {
		shift(s, keyway, "from", "-", s.Amount)
	}
	l.Scope.Change("extra_plus", "was + amount", "as asked", sheet.With{"amount": s.Amount})
	if collar, ok := l.WithRole("collar"); ok && collar.Side != axis.Moving {
		rear := sheet.With{"collar": collar.Key + ".to", "quill": quill.Key + ".from", "nut": nut.Key + ".from"}
		// The nut's rear can come before the quill's, which the axis knows nothing of.
		sc.Formula(quiet("rear", "rear of quill or nut meets the "+collar.Label+", "+l.Moves()+" at", "s_r", unit.MM), "collar - min(quill, nut)", "geometry: where the faces meet", rear)
		l.Scope.Family("stops_minus", "", unit.MM, sc.Key("rear"))
		sc.Fix(quiet("lost", "what is lost where the rear meets the "+collar.Label, "", unit.MM), "max(0, rear - asked_minus)", "decided: as much as it meets it earlier")
		l.Scope.Change("extra_minus", "was - lost", "decided", sheet.With{"lost": sc.Key("lost")})
	}
}

// standsOut is how far the quill stands out of its guide, full out.
func (quillTravel) standsOut(s *Site, key string, quill, guide *axis.Part, define func(sheet.Q, string, string, ...sheet.With)) {
	define(quiet(key, lower(quill.Label)+" out of its guide, full out, "+key, "L", unit.MM), "max(mm(1), nose + asked_plus - mouth)", "geometry",
		sheet.With{"nose": quill.Key + ".to", "mouth": guide.Key + ".to"})
}

// bends: the further it stands out, the more it bends.
func (k quillTravel) bends(s *Site, quill, guide *axis.Part) {
	l, sc := s.Layout, s.Scope
	k.standsOut(s, "after", quill, guide, sc.Formula)
	sc.Method(shown("softer", quill.Label+"'s bending at full out, against before", "k", unit.One), slide.BendRatio)
	l.Assume(sc, quiet("softer_most", "most that the "+quill.Label+" may bend, against before", "k_max", unit.One), slide.BendRatioMost, slide.BendRatioSource)
	l.Assume(sc, quiet("softer_near", "softening below that within which it is tight", "", unit.One), slide.BendRatioMost-slide.BendRatioGood, slide.BendRatioSource)
	sc.Check(sheet.Check{Key: "softer_check", Label: "Stiffness at full out", Figure: "softer", Limit: "softer_most", AtMost: true, Tight: "softer_near", Level: sheet.Rule,
		Sentence: "Full out the " + quill.Label + " bends {figure} times as much as it did, and {limit} times is the most that is sensible.", Source: slide.BendRatio.Source})
}

// pad: a shank that the screw does not reach is not pushed out. A pad on the
// screw's tip reaches it, and comes off for long tools.
func (quillTravel) pad(s *Site) {
	l, sc := s.Layout, s.Scope
	l.Assume(sc, quiet("push_least", "least push that loosens a taper", "", unit.MM), 1, "common practice, no source: 1 mm")
	sc.Formula(quiet("push", "screw's tip into the shank, quill right in", "p", unit.MM), "ejects_at - reach_minus", "geometry")
	sc.Formula(shown("pad", "pad on the screw's tip", "l_p", unit.MM), "max(0, push_least - push)", "geometry: as much as the tip does not reach")
	sc.Check(sheet.Check{Key: "push_check", Label: "Tool is pushed out by the screw", Figure: "push", Limit: "push_least", Level: sheet.Note, Advice: true,
		Sentence: "With the quill right in, the screw's tip comes {figure} past the shank's end; it takes {limit} to push it out. A pad on the tip does it, and is taken off for the longer shanks.", Source: "common practice, no source"})
}

func (quillTravel) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	amount, _ := r.Figure(s.Amount, sheet.Planned)
	if !(amount.Value > 0) {
		say.text("Say by how much, and what becomes of the quill's use is shown here.")
		return say.runs
	}
	say.failures(s, r)
	if f, ok := r.Figure(s.Layout.Find("usable"), sheet.Planned); ok && f.Known() {
		say.goals(s, r)
	} else {
		say.became("", "", s, r, s.Goals[0].Key)
	}
	if lost, ok := r.Figure(s.Scope.Key("lost"), sheet.Planned); ok && lost.Known() && lost.Value > shownLength {
		say.text(" Right in it stands out ").strong(show(s, lost.Value)).text(" further than it did.")
	}
	if f, ok := r.Figure(s.Scope.Key("pad"), sheet.Planned); ok && f.Known() && f.Value > shownLength {
		say.text(" The screw no longer pushes the tool out: a pad of ").strong(show(s, f.Value)).text(" on its tip does, or a drift.")
	}
	if f, ok := r.Figure(s.Scope.Key("softer"), sheet.Planned); ok && f.Known() && f.Value > 1.005 {
		say.text(" Full out it bends ").strong(unit.One.Text(f.Value, 2)).text(" times as much.")
	}
	say.runs[0].Text = strings.TrimLeft(say.runs[0].Text, " ")
	return say.runs
}
