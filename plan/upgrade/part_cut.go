package upgrade

import (
	"math"
	"slices"

	"fettle/plan/axis"
	"fettle/plan/part"
)

const ironDust = "Cast-iron dust: mask, extraction or a magnet, never an air line; cover the ways."

// cutWall is a wall of a casting that is cut back: its neighbourhood, seen from
// the face that is cut.
func cutWall(m *making, w *axis.Part, st axis.Stop) {
	thick, ok := m.figure(w.Key + ".length")
	found, okFound := m.r.Figure(m.Layout.Find(w.Key+".length"), 0)
	if !ok || !okFound || !found.Known() || found.Value < thick+shownLength {
		return
	}
	wasThick := found.Value
	wide := m.or(w.Key+".pocket", 0)
	b, okB := m.Layout.WithRole("bracket")
	offset, bolt, tapped := 0.0, 0.0, 0.0
	if okB {
		offset, bolt, tapped = m.or(b.Key+".bolt_offset", 0), m.or(b.Key+".bolt_dia", 0), m.or(b.Key+".tapped_depth", 0)
	}
	nutDia := 12.0
	if t, ok := m.Layout.WithRole("thread"); ok {
		nutDia = m.or(t.Key+".dia", nutDia)
	}
	long := max(2*(offset+1.5*bolt), wide+20, 4*nutDia)
	high := 3 * nutDia
	left := want{part: w.Key, name: "left", label: "metal left", key: w.Key + ".length", leaf: w.Key + ".from", formula: "to - made"}
	if face(w, st) == "to" {
		left.leaf, left.formula = w.Key+".to", "from + made"
	}
	pocket := part.Feature{Kind: part.Pocket, Label: "pocket", X: drawn("", (long-wide)/2), Y: drawn("", 0), Edge: true,
		Depth: m.general(want{part: w.Key, label: "depth of the cut", nominal: wasThick - thick, grows: true}), Left: m.general(left)}
	pocket.Width = drawn("", high)
	pocket.Width.Suits, pocket.Width.Limits = "the nut's height, and 1 mm of room", toSuit
	if wide > 0 {
		pocket.Length = m.general(want{part: w.Key, name: "pocket", label: "width of the pocket", key: w.Key + ".pocket", leaf: w.Key + ".pocket", formula: "made", grows: true})
	} else {
		pocket.X, pocket.Length = drawn("", 0), drawn("", long)
		pocket.Length.Suits, pocket.Length.Limits = "the nut's width, and 1 mm of room", toSuit
	}
	f := &part.Flat{Length: drawn("", long), Width: drawn("", high), Thickness: drawn("wall as it is", wasThick), Angle: 90, Outline: true, Features: []part.Feature{pocket}}
	if okB && offset > 0 && tapped > 0 {
		for _, at := range []float64{-1, 1} {
			h := part.Feature{Kind: part.Hole, Behind: true, Label: "tapped hole, as it is", X: drawn("", long/2+at*offset), Y: drawn("", high/2), Dia: drawn("", bolt), Depth: drawn("", tapped), Thread: metric(bolt)}
			f.Features = append(f.Features, h)
		}
	}
	m.add(part.Part{Key: w.Key, Label: w.Label + " of the casting, cut back", Altered: true, Replaces: w.Key, Material: casting(w.Material), Flat: f,
		Notes: []string{"Drill through with 2 mm first, and measure what the wall really is: a casting is cored no truer than that.", "Corners of the pocket rounded: radius 3 mm at the least."}})
	m.step(cut, w.Key, part.Operation{Key: "probe_" + w.Key, Do: "Probe the " + w.Label + " where it is to be cut: drill 2 mm through at two places and measure its thickness. Look for oil ways and tapped holes behind it.",
		Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "thickness at two places, with a photo", Cautions: []string{ironDust}})
	m.step(cut, w.Key, part.Operation{Key: "cut_" + w.Key, Do: "Cut the " + w.Label + " back in steps of 1 mm and measure what is left between them. Stop at the metal that is to stay. A die grinder and files do it too.",
		Needs: []part.Capability{part.Milling}, Envelope: [2]float64{long, wasThick - thick}, After: []string{"probe_" + w.Key}, Minutes: [2]float64{120, 240}, Record: "metal left at three places, with a photo", Cautions: []string{eyes, ironDust}})
}

// cutSlide is a slide that is cut shorter.
func cutSlide(m *making, sl *axis.Part, st axis.Stop) {
	long, ok := m.figure(sl.Key + ".length")
	found, okFound := m.r.Figure(m.Layout.Find(sl.Key+".length"), 0)
	if !ok || !okFound || !found.Known() || found.Value < long+shownLength {
		return
	}
	w := want{part: sl.Key, name: "length", label: "length left", key: sl.Key + ".length", leaf: sl.Key + ".to", formula: "from + made"}
	if face(sl, st) == "from" {
		w.leaf, w.formula = sl.Key+".from", "to - made"
	}
	m.add(part.Part{Key: sl.Key, Label: sl.Label + ", cut shorter", Altered: true, Replaces: sl.Key, Material: casting(sl.Material),
		Flat:  &part.Flat{Length: m.general(w), Width: drawn("", 0.6*found.Value), Thickness: drawn("", 0.2*found.Value), Angle: 90, Outline: true},
		Notes: []string{"Width and thickness as they are: only the end is cut.", "Look where gib screws, oil ways and T-slots end before the saw goes in.", m.Units.With(found.Value-long) + " comes off."}})
	m.step(cut, sl.Key, part.Operation{Key: "cut_" + sl.Key, Do: "Saw or mill the end of the " + sl.Label + " off, and break the edge.",
		Needs: []part.Capability{part.Milling}, Envelope: [2]float64{0.6 * found.Value, found.Value - long}, Minutes: [2]float64{60, 180}, Record: "length, with a photo", Cautions: []string{eyes, ironDust}})
}

// shorterNut is a nut that is shortened.
func shorterNut(m *making, nut *axis.Part) {
	long, ok := m.figure(nut.Key + ".length")
	found, okFound := m.r.Figure(m.Layout.Find(nut.Key+".length"), 0)
	if !ok || !okFound || !found.Known() || found.Value < long+shownLength {
		return
	}
	wide := 20.0
	if t, ok := m.Layout.WithRole("thread"); ok {
		wide = 2 * m.or(t.Key+".dia", 10)
	}
	m.add(part.Part{Key: nut.Key, Label: nut.Label + ", shortened", Altered: true, Replaces: nut.Key, Material: stock(nut.Material, "c93200"),
		Flat:  &part.Flat{Length: m.general(want{part: nut.Key, name: "length", label: "length left", key: nut.Key + ".length"}), Width: drawn("", wide), Thickness: drawn("", wide), Angle: 90, Outline: true},
		Notes: []string{"Cut at the end that comes up against the wall; keep clear of the hole of its fixing screw.", "Take the burr out of the thread with a tap or a triangular scraper."}})
	m.step(cut, nut.Key, part.Operation{Key: "shorten_" + nut.Key, Do: "Face the " + nut.Label + " shorter, square to its thread.", Needs: []part.Capability{part.Turning}, Envelope: [2]float64{long, 1.5 * wide}, Minutes: [2]float64{30, 60}, Record: "length", Cautions: []string{eyes}})
}

// movedNut: the nut is fixed anew.
func movedNut(m *making, nut *axis.Part, by string) {
	f, ok := m.r.Figure(by, m.stage())
	if !ok || !(f.Best(0) > shownLength) {
		return
	}
	m.step(fitted, "", part.Operation{Key: "move_" + nut.Key, Do: "Move the " + nut.Label + " by " + m.Units.With(f.Best(0)) + ": slot or drill its fixing anew. Pinch it up at the end nearest the bracket, wind out, then tighten.",
		Needs: []part.Capability{part.Milling}, Minutes: [2]float64{60, 150}, Record: "push on the handle at three places", Cautions: []string{eyes}})
}

// longer is a part that something runs along, made longer.
func longer(m *making, p *axis.Part, do string) {
	long, ok := m.figure(p.Key + ".length")
	found, okFound := m.r.Figure(m.Layout.Find(p.Key+".length"), 0)
	if !ok || !okFound || !found.Known() || long < found.Value+shownLength {
		return
	}
	length := m.general(want{part: p.Key, name: "length", label: "length", key: p.Key + ".length"})
	new := part.Part{Key: p.Key, Label: "longer " + p.Label, Replaces: p.Key, Material: stock(p.Material, "c45")}
	needs := []part.Capability{part.Milling}
	env := [2]float64{long, 20}
	switch p.Role {
	case "quill":
		new.Material = quillStock(p.Material)
		dia := m.class(want{part: p.Key, name: "dia", label: "outside", key: p.Key + ".dia", leaf: p.Key + ".dia", formula: "made"}, "g6")
		dia = m.suits(dia, "the bore that it slides in", p.Key+".dia", micrometer)
		new.Round = &part.Round{Length: length, Outside: []part.Step{{Label: "quill", Length: drawn("", long), Dia: dia, Chamfer: 1}}}
		new.Notes = []string{"Taper, nut's seat and keyway: copy the old one.", "Ground or lapped to the body's bore."}
		needs, env[1] = []part.Capability{part.Turning, part.Boring, part.Milling, part.Grinding}, dia.Nominal
	case "keyway":
		new.Altered, new.Label = true, p.Label+", cut further"
		new.Flat = &part.Flat{Length: drawn("", 1.5*long), Width: drawn("", 20), Thickness: drawn("", 20), Angle: 90, Outline: true, Features: []part.Feature{{Kind: part.Slot, Label: p.Label,
			X: drawn("", 0.25*long), Y: drawn("", 8), Length: length, Width: drawn("", 4), Depth: drawn("", 3)}}}
		new.Notes = []string{"Width and depth of the keyway as they are."}
	default:
		new.Flat = &part.Flat{Length: length, Width: drawn("", 15), Thickness: drawn("", 15), Angle: 90}
		if pin, ok := m.Layout.WithRole("pinion"); ok {
			if mod, ok := m.figure(pin.Key + ".module"); ok {
				new.Notes = append(new.Notes, "Rack teeth of module "+bare(mod)+", 20°, all along.")
			}
		}
		new.Notes = append(new.Notes, "Section and fixing holes: copy the old one.")
	}
	m.add(new)
	where := made
	if new.Altered {
		where = cut
	}
	m.step(where, p.Key, part.Operation{Key: "make_" + p.Key, Do: capital(do) + ", to " + m.Units.With(long) + ".", Needs: needs, Envelope: env, Minutes: [2]float64{120, 480}, Record: "length, with a photo", Cautions: []string{eyes}})
}

// newFeedScrew is a feed screw made anew, where an end of it must be longer than
// it was.
func newFeedScrew(m *making) {
	l := m.Layout
	t, ok := l.WithRole("thread")
	if !ok {
		return
	}
	thread, okL := m.figure(t.Key + ".length")
	found, okFound := m.r.Figure(l.Find(t.Key+".length"), 0)
	if okL && (m.or("extension.visible", 0) >= shownLength || !okFound || thread >= found.Value+shownLength) {
		feedScrew(m)
	}
}

// feedScrew is a feed screw, as long as is needed.
func feedScrew(m *making) {
	l := m.Layout
	t, okT := l.WithRole("thread")
	shank, okS := l.WithRole("shank")
	if !okT || !okS || slices.ContainsFunc(m.out.Parts, func(p part.Part) bool { return p.Key == "screw" }) {
		return
	}
	thread, more := m.or(t.Key+".length", 100), m.or("extension.visible", 0)-m.or("extension.sleeve", 0)
	dia := m.or(t.Key+".dia", 12)
	long := m.or(shank.Key+".length", 60) + more
	r := &part.Round{}
	length := m.general(want{part: "screw", name: "thread", label: "feed thread", key: t.Key + ".length"})
	r.Outside = append(r.Outside, part.Step{Label: "feed thread", Length: length, Dia: drawn("", dia), Chamfer: m.or(t.Key+".pitch", 1), Thread: feedThread(m, t)})
	end := m.or("extension.thread", m.or(shank.Key+".end_thread", 0))
	journal := m.class(want{part: "screw", name: "shank", label: "shank", key: shank.Key + ".dia", leaf: shank.Key + ".dia", formula: "made"}, "h6")
	r.Outside = append(r.Outside, part.Step{Label: "shank", Dia: journal, Length: m.general(want{part: "screw", label: "shank", nominal: long - end})})
	if nut, ok := l.WithRole("lock_nut"); ok && end > 0 {
		pitch, d := m.or(nut.Key+".pitch", 1), m.or(nut.Key+".thread_dia", journal.Nominal)
		r.Outside = append(r.Outside, part.Step{Label: "thread for the " + nut.Label, Dia: drawn("", d), Chamfer: pitch, Thread: metric(d) + "×" + bare(pitch) + "-6g",
			Length: m.general(want{part: "screw", label: "thread", nominal: end})})
		r.Grooves = append(r.Grooves, undercut(thread+long-end, d, pitch))
	}
	r.Length = m.general(want{part: "screw", label: "length over all", nominal: thread + long})
	m.add(part.Part{Key: "screw", Label: "new feed screw", Replaces: t.Key, Material: stock(t.Material, "c45"), Round: r,
		Notes: []string{"Run-out under 0.03 mm along its length.", m.tryThread(t), "Thrust collar, key or flat for the handle: copy the old screw."}})
	m.step(made, "screw", part.Operation{Key: "turn_screw", Do: "Turn the new screw with a steady: the shank first, then screwcut the feed thread. " + m.handAndLead(t),
		Needs: []part.Capability{part.Turning, part.Threads}, Envelope: [2]float64{thread + long, dia}, After: []string{"measure_screw"}, Minutes: [2]float64{360, 900}, Record: "run-out, and travel in ten turns", Cautions: []string{eyes}})
	m.buy(part.Bought{Key: "screw_bar", Label: "bar for the feed screw, straight to 0.1 mm, or threaded bar to be joined to the old shank", Quantity: 1, For: "screw", Source: "common practice, no source"})
}

// otherLead tells whether the screw gets another lead than it has.
func (m *making) otherLead(t *axis.Part) bool {
	was, okWas := m.earlier(t.Key + ".pitch")
	is, ok := m.figure(t.Key + ".pitch")
	return ok && okWas && math.Abs(is-was) > 1e-6
}

// handAndLead says what the new thread is cut by.
func (m *making) handAndLead(t *axis.Part) string {
	if m.otherLead(t) {
		return "Its lead is another than the old one's: measure ten turns of the first pass. Its hand is by which way the slide is to go."
	}
	return "The hand of the thread and its lead are those of the old one: lay the two side by side."
}

// tryThread says what the new thread is tried in.
func (m *making) tryThread(t *axis.Part) string {
	if m.otherLead(t) {
		return "The old nut does not fit its thread: try a gauge nut, or the new one, before the bar comes out of the lathe."
	}
	return "Try the thread in the old nut before the bar comes out of the lathe."
}

// moreOfThread: the thread of the old screw is cut further.
func moreOfThread(m *making, t *axis.Part, need string) {
	if !m.more(need) {
		return
	}
	by, _ := m.r.Figure(need, m.stage())
	m.step(fitted, "", part.Operation{Key: "more_thread", Do: "Pick up the old screw's thread and cut it " + m.Units.With(by.Best(0)) + " further.",
		Needs: []part.Capability{part.Turning, part.Threads}, Envelope: [2]float64{m.or(t.Key+".length", 0) + m.or(m.shank()+".length", 0), m.or(t.Key+".dia", 0)},
		Minutes: [2]float64{60, 120}, Record: "the nut runs over all of it", Cautions: []string{eyes}})
}

// shorterTip: the screw's free end is cut shorter.
func shorterTip(m *making, t *axis.Part, by string) {
	if !m.more(by) {
		return
	}
	f, _ := m.r.Figure(by, m.stage())
	m.step(fitted, "", part.Operation{Key: "shorten_tip", Do: "Cut " + m.Units.With(f.Best(0)) + " off the screw's tip and chamfer it, so that the nut starts on it.",
		Needs: []part.Capability{part.Turning}, Envelope: [2]float64{m.or(t.Key+".length", 0) + m.or(m.shank()+".length", 0), m.or(t.Key+".dia", 0)},
		Minutes: [2]float64{20, 45}, Record: "length of the thread left", Cautions: []string{eyes}})
}
