package upgrade

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/fastener"
	"fettle/plan/part"
)

// newBracket asks for a bracket that is as long as is planned.
func newBracket(m *making, b *axis.Part) {
	p := bracket(m, b, false)
	m.add(p)
	wide := p.Round.Outside[len(p.Round.Outside)-1].Dia.Nominal
	if f := p.Round.Flange; f != nil {
		wide = math.Hypot(f.Width.Nominal, f.Height.Nominal)
	}
	m.step(made, p.Key, part.Operation{
		Key: "turn_" + p.Key, Do: "Turn the new " + b.Label + ": face it, bore the journal and drill its bolt holes at one setting, so that all are true to the face that it is bolted by. Leave its length until last.",
		Needs: []part.Capability{part.Turning, part.Boring}, Envelope: [2]float64{p.Round.Length.Nominal, wide}, Minutes: [2]float64{180, 360},
		Record: "length, journal and outside, by micrometer", Cautions: []string{eyes},
	})
	supportSeat(m, b)
	if len(thrustRecess(m, b, "inner"))+len(thrustRecess(m, b, "outer")) > 0 {
		recessStep(m, b, made, "turn_"+b.Key)
	}
	if len(pairSeat(m, b, "inner"))+len(pairSeat(m, b, "outer")) > 0 {
		pairStep(m, b, made, "turn_"+b.Key)
	}
	if len(outerSeat(m, b)) > 0 {
		supportStep(m, b, made)
	}
	boltsOf(m, b, b.Key)
}

const eyes = "Eye protection; no gloves, rings or loose sleeves at a turning spindle."

// bracket is the bracket as it is to be, with the seat of a support bearing and
// the recesses of a thrust set where these are asked for. One that is altered
// keeps its length.
func bracket(m *making, b *axis.Part, altered bool) part.Part {
	size := func(name, label string, guess float64, formula string) want {
		if altered { // as it is: nothing of it is to be kept to limits
			return want{label: label, nominal: m.or(b.Key+"."+name, guess)}
		}
		w := want{part: b.Key, name: name, label: label, key: b.Key + "." + name, nominal: guess, leaf: b.Key + "." + name, formula: formula}
		if !m.Layout.Scope.Has(w.key) { // not asked: nothing is computed from it
			w.key, w.leaf = "", ""
		}
		return w
	}
	bore := m.or(m.shank()+".dia", 10)
	length := size("length", "length over all", 3*bore, "made")
	if b.Tie == nil && !altered {
		length.leaf, length.formula = b.Key+".to", "from + made"
	}
	general := m.general
	if altered {
		general = func(w want) part.Size { return drawn(w.label, w.nominal) }
		length.leaf = ""
	}
	r := &part.Round{Length: general(length)}
	outside := general(size("dia", "outside", 3*bore, "made"))
	body := part.Step{Label: "body", Length: drawn("", r.Length.Nominal), Dia: outside, Chamfer: 0.5, Old: altered}
	if t, ok := m.figure(b.Key + ".flange"); ok && t > 0 && t < r.Length.Nominal {
		r.Flange = flangeOf(m, b, outside.Nominal)
		flange := part.Step{Label: "flange", Length: general(size("flange", "flange", t, "made")), Dia: drawn("", r.Flange.Width.Nominal), Old: altered}
		body.Length.Nominal -= t
		r.Outside = append(r.Outside, flange)
	}
	r.Outside = append(r.Outside, body)
	journal := size("bore", "journal", bore, "made")
	journal.grows = true
	r.Left, r.Right = recesses(m, b)
	hole := drawn("journal", journal.nominal)
	if !altered {
		hole = m.suits(m.class(journal, "H7"), "the screw's shank, measured by micrometer", m.shank()+".dia", micrometer)
	}
	through := part.Step{Label: "journal", Length: drawn("", r.Length.Nominal), Through: true, Old: altered, Dia: hole}
	if between, ok := clearHole(m, b); ok {
		through.Label, through.Dia, through.Old, through.New = between.Label, between, false, altered
	}
	r.Right = append(r.Right, through)
	p := part.Part{Key: b.Key, Label: b.Label, Replaces: b.Key, Altered: altered, Material: stock(b.Material, "gjl250"), Round: r,
		Notes: []string{"Both end faces square to the journal within 0.01 mm."}}
	if !altered {
		p.Label = "new " + b.Label
		if r.Flange != nil {
			p.Notes = append(p.Notes, "Outline of the flange and places of its holes: copy the old one, whose casting is as it is.")
		}
	}
	return p
}

// shank is the key of the screw's shank.
func (m *making) shank() string {
	if p, ok := m.Layout.WithRole("shank"); ok {
		return p.Key
	}
	return "shank"
}

// flangeOf is the flange with its bolt holes, as wide as they ask for.
func flangeOf(m *making, b *axis.Part, outside float64) *part.Flange {
	dia, offset := m.or(b.Key+".bolt_dia", 0), m.or(b.Key+".bolt_offset", 0)
	f := &part.Flange{Width: drawn("", max(outside, 2*(offset+1.5*dia))), Height: drawn("", max(outside, 3*dia))}
	c, ok := fastener.ClearanceFor(metric(dia))
	if !ok || offset == 0 {
		return f
	}
	places := [][2]float64{{-1, 0}, {1, 0}}
	if m.or(b.Key+".bolts", 2) > 2 {
		places = [][2]float64{{-1, -1}, {1, -1}, {-1, 1}, {1, 1}}
		f.Height = f.Width
	}
	hole := m.general(want{part: b.Key, label: "bolt hole", nominal: c.Medium, grows: true})
	hole.Source = fastener.ClearanceSource
	for i, at := range places {
		far := offset
		if at[1] != 0 {
			far /= math.Sqrt2
		}
		h := part.FlangeHole{X: drawn("", far*at[0]), Y: drawn("", far*at[1]), Dia: hole, Label: metric(dia)}
		if i == len(places)-1 {
			h.X = m.general(want{part: b.Key, label: "bolts from the axis", key: b.Key + ".bolt_offset", nominal: far})
			h.X.Nominal = far
		}
		f.Holes = append(f.Holes, h)
	}
	return f
}

// recesses are what is bored into the bracket's two faces before its journal.
func recesses(m *making, b *axis.Part) (left, right []part.Step) {
	left = append(thrustRecess(m, b, "inner"), pairSeat(m, b, "inner")...)
	right = append(append(thrustRecess(m, b, "outer"), pairSeat(m, b, "outer")...), outerSeat(m, b)...)
	if !m.more(m.Layout.Find("support.seat")) {
		return left, right
	}
	seat := m.class(want{part: b.Key, name: "seat", label: "seat of the support bearing", key: "support.od", grows: true}, "H7")
	seat.Suits = "the bearing, which is in hand before it is bored"
	depth := m.limits(want{part: b.Key, name: "seat_depth", label: "depth of the seat", key: "support.width", grows: true}, 0.2, 0, "common practice, no source: the bearing 0 to 0.2 mm below the face")
	return left, append(right, part.Step{Label: "seat of the support bearing", Length: depth, Dia: seat, Chamfer: 0.5, New: true})
}

// supportSeat: the support bearing, bought before its seat is bored.
func supportSeat(m *making, b *axis.Part) {
	if !m.more(m.Layout.Find("support.seat")) {
		return
	}
	bore, od, width := m.or("support.bore", 0), m.or("support.od", 0), m.or("support.width", 0)
	m.buy(part.Bought{Key: "support_bearing", Label: "support bearing, deep groove", Designation: "ISO 15 " + bare(bore) + " × " + bare(od) + " × " + bare(width),
		Quantity: 1, For: b.Key, Source: "ISO 15 boundary dimensions"})
	m.step(atHand, "", part.Operation{Key: "check_bearing", Do: "Measure the support bearing in the hand: bore, outside and width. Open and shielded ones of one size differ in width.",
		Needs: []part.Capability{part.Bench}, Minutes: [2]float64{5, 10}, Record: "bore, outside and width"})
	m.step(made, b.Key, part.Operation{Key: "bore_seat", Do: "Bore the seat in the " + b.Label + "'s outer end at the same setting as the journal, and try the bearing in it before it comes off the chuck.",
		Needs: []part.Capability{part.Boring}, Envelope: [2]float64{m.or(b.Key+".length", 0), m.or(b.Key+".dia", 0)},
		After: []string{"check_bearing", "turn_" + b.Key}, Minutes: [2]float64{30, 60}, Record: "seat, by the bearing itself or an inside micrometer", Cautions: []string{eyes}})
}

// boltsOf: new bolts, where a spacer asks for longer ones.
func boltsOf(m *making, b *axis.Part, of string) {
	length, ok := m.figure(b.Key + ".bolt_length")
	dia, okDia := m.figure(b.Key + ".bolt_dia")
	if spacer := m.or(b.Key+".spacer", 0); !ok || !okDia || spacer < shownLength {
		return
	}
	buy := part.Bought{Key: b.Key + "_bolts", Label: "longer bolts for the " + b.Label, Designation: "ISO 4762 " + metric(dia) + " × " + bare(length),
		Quantity: int(m.or(b.Key+".bolts", 2)), For: of, Confirm: "turn_" + of, Source: "ISO 4762; the shortest standard length with grip and engagement"}
	if s, ok := fastener.ScrewNamed("ISO 4762", metric(dia)); ok {
		c, err := s.For(fastener.Hole{Grip: m.or(b.Key+".grip", 0), Engagement: m.or(b.Key+".bolt_least", 0), Depth: m.or(b.Key+".tapped_depth", math.Inf(1))})
		if err == nil {
			buy.Designation = s.Designation(c.Length)
		} else {
			buy.Designation, buy.Label = "", buy.Label+": "+err.Error()
		}
	}
	m.buy(buy)
}

// screwRoom is how much larger than the screw a spacer's bore is. Common practice, no source.
const screwRoom = 1

// spacerPlate: what goes between the bracket and its casting.
func spacerPlate(m *making, b *axis.Part) {
	if !m.more(m.Layout.Find(b.Key + ".spacer")) {
		return
	}
	thick := m.limits(want{part: "spacer", name: "thickness", label: "thickness", key: b.Key + ".spacer", leaf: b.Key + ".spacer", formula: "made", also: spaced(m.Layout, b)}, 0.02, -0.02, "common practice, no source: it shifts the screw by what it is off")
	f := flangeOf(m, b, m.or(b.Key+".dia", 30))
	screw := m.or(m.shank()+".dia", 10)
	if t, ok := m.Layout.WithRole("thread"); ok { // its end comes to lie within the spacer
		screw = max(screw, m.or(t.Key+".dia", 0))
	}
	hole := m.general(want{part: "spacer", name: "bore", label: "clear of the screw", nominal: screw + screwRoom, grows: true})
	p := part.Part{Key: "spacer", Label: "spacer under the " + b.Label, Material: stock("steel", ""), Notes: []string{"Faces parallel within 0.01 mm.", "Outline of the " + b.Label + "'s foot."},
		Flat: &part.Flat{Length: f.Width, Width: f.Height, Thickness: thick, Angle: 90}}
	p.Flat.Length = m.suits(m.general(want{part: "spacer", name: "long", label: "as the " + b.Label + "'s foot", nominal: f.Width.Nominal}), "the "+b.Label+"'s foot", b.Key+".bolt_offset", 0.1)
	x0, y0 := f.Width.Nominal/2, f.Height.Nominal/2
	p.Flat.Features = append(p.Flat.Features, part.Feature{Kind: part.Hole, Label: "for the screw", X: drawn("", x0), Y: drawn("", y0), Dia: hole})
	for _, h := range f.Holes {
		p.Flat.Features = append(p.Flat.Features, part.Feature{Kind: part.Hole, Label: "bolt", X: drawn("", x0+h.X.Nominal), Y: drawn("", y0+h.Y.Nominal), Dia: h.Dia})
	}
	m.add(p)
	m.step(made, p.Key, part.Operation{Key: "turn_spacer", Do: "Make the spacer: face both sides parallel, bore it clear of the screw, drill it through the " + b.Label + "'s holes.",
		Needs: []part.Capability{part.Turning}, Envelope: [2]float64{thick.Nominal, math.Hypot(f.Width.Nominal, f.Height.Nominal)}, Minutes: [2]float64{60, 120},
		Record: "thickness at three places, by micrometer", Cautions: []string{eyes}})
	boltsOf(m, b, "spacer")
}

// spaced are the leaves that are shifted by what a spacer under the bracket
// came out thicker.
func spaced(l *axis.Layout, b *axis.Part) []part.Made {
	var all []part.Made
	formula := map[string]string{"+": "was + made - planned", "-": "was - made + planned"}[handleSign(l)]
	add := func(leaf string) { all = append(all, part.Made{Leaf: leaf, Formula: formula}) }
	for _, p := range carried(l, b) {
		if p.Tie != nil {
			add(p.Key + ".gap")
			continue
		}
		add(p.Key + ".from")
		add(p.Key + ".to")
	}
	return all
}

// carried are the bracket and what of the screw it carries with it.
func carried(l *axis.Layout, b *axis.Part) []*axis.Part {
	all := []*axis.Part{b}
	for _, role := range []string{"thread", "shank"} {
		if p, ok := l.WithRole(role); ok && !hangsOn(l, p, "bracket") {
			all = append(all, p)
		}
	}
	return all
}
