package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// holdDowns: the strips under the bed that keep a carriage down, and its lock.
var holdDowns = &guided{
	about: About{
		Key: "hold_downs", Label: "Hold-down strips and a carriage lock",
		Words:   []string{"keep plates", "saddle strips", "retaining plates", "jib plates", "saddle lock", "carriage clamp", "carriage lock"},
		Purpose: "The carriage cannot lift off the bed under a heavy cut, and can be locked for facing.",
		Measure: []string{"The gap under the bed at three places along it, by feeler, front and rear.", "Lift of the carriage at both ends: lever it up gently, a dial gauge on it."},
		Cautions: []string{"Isolate the machine before the apron or the strips come off.", "Keep fingers out from under a carriage that hangs on one strip.", "A bed that is worn near the headstock is thinner there: set the strip at the thickest place, or it jams.",
			"A lock is no brake: unlock before any power feed is engaged."},
		Proof: "Lift of the carriage at most 0.02 mm at three places, no tight place from end to end; locked, it shifts at most 0.01 mm under a push of 200 N.",
		Hours: [2]float64{2, 6}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Milling, part.Scraping}, Own: true,
		Cures: []string{"rocks.gib", "rocks.unlocked"},
	},
	suits: carriage,
	lay: func(s *Site) {
		s.given(given{"gap_least", "Least gap under the bed", "g_1", unit.MM, "feelers, at three places or more", "", 0, 5},
			given{"gap_most", "Greatest gap under the bed", "g_2", unit.MM, "the same", "", 0, 5})
		l, sc := s.Layout, s.Scope
		l.Assume(sc, quiet("clear", "clearance of a hold-down strip", "c", unit.MM), 0.02, "common practice, no source: 0.01 to 0.03 mm")
		sc.Formula(shown("take_up", "strip to be brought up by", "t", unit.MM), "gap_least - clear", "geometry: where the gap is least the clearance is left")
		sc.Formula(shown("lift", "carriage can lift where the bed is thinnest, by", "", unit.MM), "clear + gap_most - gap_least", "geometry: the bed's unevenness is left")
		l.Assume(sc, quiet("lift_most", "most lift of a carriage", "", unit.MM), 0.05, "common practice, no source: 0.02 is wanted, 0.05 is lived with")
		sc.Check(sheet.Check{Key: "lift_check", Label: "Bed as thick all along", Figure: "lift", Limit: "lift_most", AtMost: true, Level: sheet.Rule,
			Sentence: "Where the bed is thinnest the carriage can lift {figure}, and {limit} is the most: no strip makes up for an uneven bed.", Source: "geometry"})
	},
	says: []says{{"Bring the strip up by ", "take_up", ": off its seat, or out of its shims."}, {"Where the bed is thinnest the carriage can still lift ", "lift", "."}},
	make: func(m *making) {
		m.buy(part.Bought{Key: "nuts", Label: "self-locking nuts and studs in place of set screws", Quantity: 4, For: "fit_strips", Confirm: "feel_bed", Source: "common practice, no source"})
		m.step(measured, "", part.Operation{Key: "feel_bed", Do: "Measure the gap under the bed at every 100 mm, front and rear, and how thick the bed's lip is with a micrometer.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "gap and thickness along the bed",
			Asks: []string{"Is the lip's underside machined, or as cast? As cast it must be dressed first."}})
		m.step(stripped, "", part.Operation{Key: "strips_off", Do: "Take the strips off from below; bag the shims front and rear apart.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 60}, Record: "shims and where they lay, with a photo", Cautions: []string{isolate, "The carriage may tip: keep fingers out from under it."}})
		m.step(fitted, "", part.Operation{Key: "fit_strips", Do: "Scrape or mill the strip's seat, or take shims out, until a feeler of the wanted clearance just goes in all along.", Needs: []part.Capability{part.Scraping}, Minutes: [2]float64{60, 180}, Record: "clearance at three places", Cautions: []string{ironDust}})
		m.step(assembled, "", part.Operation{Key: "strips_on", Do: "Tighten against shims, not against the bed; move the carriage by hand from end to end; fit the lock's pad of brass so that it draws straight down.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 90}, Record: "lift by gauge at three places",
			Asks: []string{"Does the lock shift the carriage when it is tightened? Then its pad does not draw straight."}})
	},
}
