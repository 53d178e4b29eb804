package upgrade

import (
	"math"

	"fettle/plan/axis"
	"fettle/plan/bearing"
	"fettle/plan/fastener"
	"fettle/plan/fit"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// What differs between the kinds of thrust set: plain washers carry on their
// faces, a pair of angular contact bearings is seated, covered and preloaded.

// plainWasher is no rolling bearing: a bronze washer that turns against a hard face.
const plainWasher bearing.Kind = "plain thrust washer"

// plainFor is the plain washer for a shank.
func plainFor(shank float64) bearing.Bearing {
	return bearing.Bearing{Designation: "plain", Kind: plainWasher, Bore: shank, OD: math.Round(2.4 * shank), Width: 2}
}

// plainPressure is what plain faces and bushes take, in MPa.
const (
	plainPressure       = 5.0
	plainPressureSource = "common practice, no source: about 5 MPa in oiled bronze that turns slowly"
)

const (
	plainSource   = "common practice, no source: 2.4 diameters across, 2 mm thick"
	preloadShare  = 0.02
	preloadSource = "common practice, no source: 1 to 3 % of the dynamic rating"
	coverThick    = 3.0
)

// thrustSource is where a set's dimensions come from.
func thrustSource(b bearing.Bearing) string {
	if b.Kind == plainWasher {
		return plainSource
	}
	return b.DimensionSource()
}

// thrustShoulder is the shoulder that the inner washer wants behind it.
func thrustShoulder(b bearing.Bearing) (least float64, source string) {
	if b.Kind == plainWasher {
		return b.OD - 1, "common practice, no source: thin washers are backed all over"
	}
	return b.Shoulders().ShaftLeast, b.ShoulderSource()
}

// floats are the least and the most end float that a set runs with.
func floats(b bearing.Bearing) (least, most float64, why string) {
	if b.Kind == plainWasher {
		return 0.01, 0.05, "common practice, no source: plain faces 0.01 to 0.05 mm, for the oil"
	}
	return 0, 0.02, "common practice, no source: 0.02 mm at no drag"
}

// plainLoad compares a hand's thrust with what plain faces take.
func plainLoad(s *Site, b bearing.Bearing) {
	sc := s.Scope
	sc.Measure(quiet("bore", "washer's bore", "d", unit.MM), sheet.Leaf{Value: b.Bore, Origin: sheet.Chosen, Note: plainSource})
	sc.Formula(quiet("pressure", "pressure on the plain washer", "p", unit.MPa), "thrust / (pi / 4 * (pow(od, 2) - pow(bore, 2)))", "definition: thrust over the washer's face", sheet.With{"thrust": sc.Key("thrust"), "od": "thrust.od"})
	s.Layout.Assume(sc, quiet("pressure_most", "pressure that plain faces take", "p_max", unit.MPa), plainPressure, plainPressureSource)
	sc.Check(sheet.Check{Key: "pressure_check", Label: "Pressure on the plain washers", Figure: "pressure", Limit: "pressure_most", AtMost: true, Level: sheet.Rule, Advice: true,
		Sentence: "A hand's thrust presses {figure} on the washer, and {limit} is what wears slowly.", Source: plainPressureSource})
}

// angular asks what locks a pair of angular contact bearings, and gives what
// stands beyond it on the screw.
func angular(s *Site, b bearing.Bearing) (beyond string) {
	sc := s.Scope
	options := []Option{{"handle", "the handle's nut, through dial and handle"}}
	nut, ok := fastener.RingNutFor(b.Bore)
	if ok {
		options = append([]Option{{"ring", "a slotted ring nut " + metric(nut.Dia) + " × " + bare(nut.Pitch) + " with its lock washer"}}, options...)
	}
	long, why := coverThick, "the cover over the outer rings"
	if s.choose(Field{Name: "lock", Label: "Preload set by", Options: options}, options[0].Value) == "ring" {
		long, why = nut.Width+nut.Washer, "ISO 2982-2, from memory, unchecked: measure them"
	}
	sc.Measure(quiet("lock", "beyond the pair: nut and cover", "", unit.MM), sheet.Leaf{Value: long, Origin: sheet.Chosen, Note: why})
	s.Layout.Assume(sc, quiet("preload_share", "preload, share of the dynamic rating", "", unit.One), preloadShare, preloadSource)
	sc.Measure(quiet("dynamic", "dynamic rating", "C", unit.Newton), sheet.Leaf{Value: b.Dynamic, Origin: sheet.Chosen, Note: b.RatingSource()})
	sc.Formula(quiet("preload", "preload of the pair", "F_p", unit.Newton), "preload_share * dynamic", preloadSource)
	return sc.Key("lock")
}

// angularPair is the pair that a set is, where it is one.
func angularPair(m *making) (bearing.Bearing, bool) {
	for _, x := range thrustBearings(m.Layout) {
		if x.Kind == bearing.AngularContact && x.OD == m.or("thrust.od", 0) && 2*x.Width == m.or("thrust.thickness", 0) {
			return x, true
		}
	}
	return bearing.Bearing{}, false
}

// angularParts are the sleeve that holds the inner rings off the screw's
// shoulder, and the cover that holds the outer ones.
func angularParts(m *making, b *axis.Part, x bearing.Bearing) {
	a := x.Shoulders()
	shank, _ := m.Layout.WithRole("shank")
	long := drawn("length", m.or(b.Key+".to", 0)-m.or("thrust.recess_outer", 0)-m.or(shank.Key+".from", 0))
	long.Name, long.Suits, long.Awaits, long.Limits = "length", "from the screw's shoulder to the floor of the recess, as bored", b.Key+".recess_outer", toSuit
	mid := (a.ShaftLeast + a.ShaftMost) / 2
	m.add(part.Part{Key: "ring_sleeve", Label: "sleeve from the shoulder to the inner rings", Material: "11smn30", Notes: []string{"End faces parallel within 0.005 mm.", "The screw under the inner rings: h6, or js6 where they must not move (fit tables for rolling bearings)."},
		Round: &part.Round{Length: long, Outside: []part.Step{{Label: "sleeve", Length: drawn("", long.Nominal), Dia: m.limits(want{part: "ring_sleeve", name: "outside", label: "outside", nominal: mid}, a.ShaftMost-mid, a.ShaftLeast-mid, x.ShoulderSource())}},
			Left: []part.Step{{Label: "bore", Length: drawn("", long.Nominal), Dia: m.class(want{part: "ring_sleeve", name: "bore", label: "bore, on the screw", nominal: x.Bore, grows: true}, "H8"), Through: true, Chamfer: 0.2}}}})
	open := (a.HousingLeast + a.HousingMost) / 2
	m.add(part.Part{Key: "cover", Label: "cover over the outer rings", Material: stock(b.Material, "11smn30"), Notes: []string{"Leave 0.02 to 0.05 mm between it and the " + b.Label + ": it presses on the outer rings, and not on the face. Three screws M3."},
		Round: &part.Round{Outside: []part.Step{{Label: "cover", Length: m.general(want{part: "cover", name: "thickness", label: "thickness", nominal: coverThick}), Dia: m.general(want{part: "cover", name: "outside", label: "outside", nominal: max(m.or(b.Key+".dia", 0), x.OD+4)}), Chamfer: 0.5}},
			Left: []part.Step{{Label: "bore", Length: drawn("", coverThick), Dia: m.limits(want{part: "cover", name: "bore", label: "bore, clear of the inner rings", nominal: open, grows: true}, a.HousingMost-open, a.HousingLeast-open, x.ShoulderSource()), Through: true}}}})
	m.step(made, "cover", part.Operation{Key: "turn_cover", Do: "Turn the cover, and the sleeve but for its length.", Needs: []part.Capability{part.Turning}, Envelope: [2]float64{max(coverThick, long.Nominal), max(m.or(b.Key+".dia", 0), x.OD+4)}, Minutes: [2]float64{40, 80}, Record: "outside and bore of both", Cautions: []string{eyes}})
	if m.input("lock", "ring") == "ring" {
		if n, ok := fastener.RingNutFor(x.Bore); ok {
			m.buy(part.Bought{Key: "lock_ring", Label: "slotted ring nut with its lock washer", Designation: "ISO 2982-2 " + metric(n.Dia) + "×" + bare(n.Pitch), Quantity: 1, For: "fit_thrust", Confirm: "check_thrust", Source: "ISO 2982-2"})
		}
	}
}

// clearHole is the hole through the bracket where its journal carries nothing any
// more: it backs the outer rings, and clears inner rings and sleeve.
func clearHole(m *making, b *axis.Part) (part.Size, bool) {
	if hole, ok := pairHole(m, b); ok {
		return hole, true
	}
	x, ok := angularPair(m)
	if !ok || !m.more(m.Layout.Find("thrust.recess_outer")) {
		return part.Size{}, false
	}
	a := x.Shoulders()
	mid := (a.HousingLeast + a.HousingMost) / 2
	return m.limits(want{part: b.Key, name: "clear", label: "hole, clear of the sleeve", nominal: mid, grows: true}, a.HousingMost-mid, a.HousingLeast-mid, x.ShoulderSource()), true
}

// seatOf is the diameter of the recess for a thrust set: clear of its washers, or
// the seat of a pair's outer rings.
func seatOf(m *making, b *axis.Part, w want) part.Size {
	x, ok := angularPair(m)
	if !ok {
		w.nominal += recessOver
		return m.limits(w, 0.1, -0.1, "common practice, no source: 0.1 to 0.3 mm larger than the bearing")
	}
	w.label = "seat of the angular contact bearings"
	seat := m.class(w, fit.Seats(fit.Outer, fit.FeedScrew, x.OD, b.Material == "aluminium")[0].Class)
	seat.Suits = "the bearings, which are in hand before it is bored"
	return seat
}
