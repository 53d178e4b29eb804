package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// levelling: a lathe's bed without twist, on a stand that keeps it so. What is
// computed is the shim under a foot that two collars ask for.
var levelling = &guided{
	about: About{
		Key: "levelling", Label: "Levelling and stand", Whole: true,
		Words:   []string{"level the lathe", "bed twist", "two collar test", "stand", "feet", "machine mounts", "bolting down", "bench"},
		Purpose: "The bed stands without twist, so that a cut between chuck and nothing is as thick at one end as at the other.",
		Measure: []string{"A bar in the chuck, no tailstock: turn two collars as far apart as it is stiff for, one fine cut over both, and measure both.", "Centre height above the ways; feet apart along the bed and across it."},
		Cautions: []string{"Isolate the machine before it is lifted or shimmed.", "A lathe is top-heavy, and heavier at its head: lift it by the bed with a hoist, slings where the handbook says; nobody under it.", "Feet bolted down hard onto uneven ground twist the bed: shim first, then tighten, then test again.",
			"Floor bolts: find out what is in the floor before it is drilled."},
		Proof: "Two collars 150 mm apart: within 0.01 mm; again after a week.",
		Hours: [2]float64{2, 6}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Bench},
		Cures: []string{"untrue.level", "danger.tips"},
	},
	suits: latheSlide,
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.given(given{"far", "Diameter of the collar at the tailstock's end", "D_2", unit.MM, "micrometer", "", 3, 200}, given{"near", "Diameter of the collar at the chuck", "D_1", unit.MM, "micrometer", "", 3, 200}, given{"apart", "Distance of the collars", "L", unit.MM, "middle to middle", "", 20, 1000},
			given{"height", "Height of the spindle's axis above the ways", "H", unit.MM, "", "", 30, 500}, given{"feet_long", "Distance of the feet along the bed", "", unit.MM, "", "", 50, 4000}, given{"feet_wide", "Distance of the feet across the bed", "", unit.MM, "", "", 30, 1500})
		sc.Formula(shown("taper", "collar at the tailstock's end is larger by", "", unit.Micrometre), "far - near", "geometry")
		sc.Formula(quiet("twist", "twist of the bed over the collars, if that is all", "θ", milliradian), "taper / 2 / height", "geometry: the tool moves by the twist times the axis's height above the ways")
		sc.Formula(shown("shim", "shim under the front foot at the tailstock's end", "t", unit.MM), "twist * feet_long / apart * feet_wide", "geometry: the twist carried on to the feet's length, at their width")
		sc.Formula(quiet("taper_size", "collars differ by", "", unit.Micrometre), "abs(taper)", "geometry")
		l.Assume(sc, quiet("taper_most", "most that two collars may differ", "", unit.Micrometre), 10, "common practice, no source: 0.01 mm over 150 mm on a bench lathe")
		sc.Check(sheet.Check{Key: "taper_check", Label: "Collars as found", Figure: "taper_size", Limit: "taper_most", AtMost: true, Level: sheet.Note, Advice: true,
			Sentence: "The collars differ by {figure}, and {limit} is good for a bench lathe.", Source: "common practice, no source"})
	},
	says: []says{{"The collar at the tailstock's end is larger by ", "taper", "."}, {"If that is the bed's twist, a shim of ", "shim", " under the front foot at that end takes it out (under the rear foot where it is less than nothing): begin with half of it, and test again."}},
	make: func(m *making) {
		m.buy(part.Bought{Key: "shims", Label: "steel shims as large as the feet, or feet that can be set and locked", Quantity: 4, For: "shim_feet", Confirm: "two_collars", Source: "common practice, no source"})
		m.step(measured, "", part.Operation{Key: "two_collars", Do: "Turn the two collars with a sharp tool and a cut of 0.1 mm, spindle warm, tailstock away; measure both. Do it twice.", Needs: []part.Capability{part.Turning}, Minutes: [2]float64{30, 60}, Record: "both diameters, twice", Cautions: []string{eyes},
			Asks: []string{"Is the bar stiff enough? It should stand out no more than six times its diameter.", "Is the bed worn near the chuck, or the head out of line? Then the feet are not its cure: a test bar in the taper tells."}})
		m.step(assembled, "", part.Operation{Key: "shim_feet", Do: "Slacken all feet, shim the one, tighten crosswise, and turn the collars again; halve what is left.", Needs: []part.Capability{part.Turning}, Minutes: [2]float64{60, 180}, Record: "shims under each foot, both diameters", Cautions: []string{isolate, "A corner at a time, by a lever and a block: no hand under the foot."}})
	},
}
