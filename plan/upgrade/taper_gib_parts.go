package upgrade

import (
	"math"

	"fettle/plan/fastener"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Parts of a taper gib: the gib, its two screws, and the slide's side.
func (k taperGib) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if s.input("oil", "") == "" {
		return Make{}
	}
	l := s.Layout
	sl, _ := l.OnWays()
	own := "upgrade_" + s.ID + "."
	taper := math.Abs(m.or(own+"taper", 60))
	degrees := 60.0
	for _, name := range []string{sl.Key + ".gib_angle", own + "angle"} {
		if a, ok := m.figure(name); ok {
			degrees = unit.Degree.In(a)
			break
		}
	}
	size := s.input("screw", "M5")
	head, _ := fastener.ScrewNamed("ISO 4762", size)
	thick := m.limits(want{part: "gib", name: "thickness", label: "thick end", key: own + "thick", nominal: 7}, 0.01, -0.01, "common practice, no source: finished by scraping, and set by how far it is driven")
	if gap := sl.Key + ".gib_gap"; l.Scope.Has(gap) {
		thick = m.suits(thick, "the gap, measured at both ends", gap, micrometer)
	}
	f := &part.Flat{Thickness: thick, Angle: degrees, Taper: taper,
		Length: m.general(want{part: "gib", name: "length", label: "length, shorter than the slide by the room to drive it", key: own + "long", nominal: 140}),
		Width:  m.limits(want{part: "gib", name: "width", label: "width along the flank", key: own + "blank", nominal: 12}, -0.2, -0.5, "common practice, no source: clear of both flats")}
	for _, x := range []float64{6, f.Length.Nominal - 6 - head.Height} {
		slot := m.general(want{part: "gib", label: "slot for the screw's head", nominal: head.Height + 0.2, grows: true})
		f.Features = append(f.Features, part.Feature{Kind: part.Pocket, Label: "slot for a screw's head", X: drawn("", x), Y: drawn("", 0), Length: slot,
			Width: drawn("", f.Width.Nominal), Depth: drawn("", m.or(own+"thin", 4)/2), Edge: true})
	}
	m.add(part.Part{Key: "gib", Label: "taper gib", Material: gibMaterials[0], Flat: f, Notes: []string{
		"First milled with 0.3 mm on both sides; the rest comes off when it has lain for a day.",
		"Both long edges bevelled to the dovetail's angle, edges broken.",
		"Left 20 mm long at the thick end and cut to length when it is scraped to its place.",
		"The face that runs on the way scraped to 10 to 15 spots in 25 mm square."}})
	m.buy(part.Bought{Key: "gib_adjusters", Label: "screws that drive the gib, one at either end, with a thin nut to lock each", Designation: head.Designation(16), Quantity: 2, For: "fit_gib", Source: "ISO 4762"})
	m.buy(part.Bought{Key: "gib_lock_nuts", Label: "thin nuts for them", Designation: "ISO 4035 " + size, Quantity: 2, For: "fit_gib", Source: "ISO 4035"})
	k.steps(m, f)
	m.proofOf(k.About())
	return m.finish()
}

func (taperGib) steps(m *making, f *part.Flat) {
	env := [2]float64{f.Length.Nominal, f.Width.Nominal}
	m.step(measured, "", part.Operation{Key: "measure_gap", Do: "Take the slide off its screw and the old gib out; measure the gap at both ends and in the middle, square to the flank, with slips or feelers. Put the old gib back.", Needs: []part.Capability{part.Bench}, Out: m.Layout.Key, After: []string{"readings_before"}, Minutes: [2]float64{45, 90}, Record: "gap at three places", Cautions: []string{isolate}})
	m.step(made, "gib", part.Operation{Key: "rough_gib", Do: "Mill the blank to its taper on a sine bar or packing, with 0.3 mm left on both sides. Turn it over after each cut; let it lie for a day, best on its edge.", Needs: []part.Capability{part.Milling}, Envelope: env, After: []string{"measure_gap"}, Minutes: [2]float64{120, 240}, Record: "thickness at five places, and how far it bowed", Cautions: []string{eyes, ironDust},
		Asks: []string{"How far did the blank bow when it was let go? If by more than 0.2 mm, anneal it or take another piece.", "Is it held by its edges in soft jaws, so that the vice does not bend it?"}})
	m.step(made, "gib", part.Operation{Key: "finish_gib", Do: "Take the last 0.3 mm off both sides in light cuts, turning it over between them. Bevel both long edges.", Needs: []part.Capability{part.Milling}, Envelope: env, After: []string{"rough_gib"}, Minutes: [2]float64{60, 120}, Record: "thickness at both ends", Cautions: []string{eyes}})
	m.step(stripped, "", part.Operation{Key: "slide_off", Do: "Take the slide off and clean both flanks.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "how the old gib and its screws sat, with a photo", Cautions: []string{isolate}})
	if m.input("gap_is", "parallel") == "parallel" {
		m.step(cut, "", part.Operation{Key: "mill_side", Do: "Mill the slide's side to the taper, its guided flank set true and the taper set by a sine bar; plug the old gib screws' holes, and tap a hole at either end for the screws that drive the gib.", Needs: []part.Capability{part.Milling}, Envelope: [2]float64{f.Length.Nominal, 0}, Minutes: [2]float64{120, 300}, Record: "gap at both ends", Cautions: []string{eyes, ironDust},
			Asks: []string{"Is there another machine to mill it on, if the slide is the mill's own?"}})
	}
	m.step(fitted, "gib", part.Operation{Key: "scrape_gib", Do: "Blue the gib in its place and scrape it until it bears all along, driven in lightly by the thick end. Cut it to length, and cut the slots for the screws' heads.", Needs: []part.Capability{part.Scraping}, Minutes: [2]float64{120, 360}, Record: "the last blue, with a photo", Cautions: []string{"Scrapers are sharp: cut away from the hand that holds the work."}})
	m.step(assembled, "", part.Operation{Key: "fit_gib", Do: "Oil and assemble. Drive the gib with the screw at its thick end until the slide drags evenly, back it off by the clearance, then nip the screw at the thin end and lock both.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "push at three places, and how far the gib stands in"})
}
