package upgrade

import (
	"fettle/plan/bearing"
	"fettle/plan/part"
	"fettle/plan/sheet"
)

// Parts of a thrust set: the bracket with its recesses; bearings, washers.
func (k thrustSet) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if s.input("end_float", "") == "" {
		return Make{}
	}
	b, _ := s.Layout.WithRole("bracket")
	inner, outer := m.more(s.Layout.Find("thrust.recess_inner")), m.more(s.Layout.Find("thrust.recess_outer"))
	if inner || outer {
		p := bracket(m, b, true)
		p.Label += ", recessed for the thrust set"
		m.add(p)
		recessStep(m, b, fitted, "check_thrust")
	}
	for _, ask := range s.asks {
		ask(m)
	}
	k.buys(m)
	if x, ok := angularPair(m); ok {
		angularParts(m, b, x)
	}
	m.step(measured, "", part.Operation{Key: "readings_before", Do: "Take the readings: end float by push and pull, torque at the handle, lost motion at three places.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "readings, before"})
	m.step(stripped, "", part.Operation{Key: "take_off", Do: "Take handle, dial and bracket off, and the screw out where something is done to it.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{15, 30}, Record: "a photo of each thing before it comes off", Cautions: []string{isolate}})
	m.step(assembled, "", part.Operation{Key: "fit_thrust", Do: "Fit the set, greased, its washers on clean flat faces; set the end float with the nut, lock it, then fit dial and handle so that they squeeze nothing. Shield it from swarf. A pair is tightened until an even drag is just felt all round.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "end float, and the drag all round", Cautions: []string{isolate, "Press on the ring that has the tight fit, and never through the balls."},
		Asks: []string{"Are the washers under needles hard, 58 HRC and more, where a file slides off? Soft ones are rolled to grooves.", "Is there a shield or a ring of felt between it and the swarf?", "With the handle's nut tight: does the dial still turn? If not, the nut squeezes it."}})
	m.step(proved, "", part.Operation{Key: "readings_after", Do: "Take the same readings; wind for ten minutes and feel whether the bracket gets hot.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "readings, after, and how warm the bracket is every five minutes",
		Asks: []string{"After 20 minutes: is it no more than hand-warm? Hotter, and the preload is too high: slacken it before it seizes."}})
	return m.finish()
}

// buys are the bearings and their washers.
func (thrustSet) buys(m *making) {
	b := m.thrustBearing()
	n := 1
	if m.input("side", "both") == "both" || b.Kind == bearing.AngularContact {
		n = 2
	}
	size := sized(b)
	standard := map[bearing.Kind]string{bearing.NeedleThrust: "ISO 3031 ", bearing.ThrustBall: "ISO 104 ", bearing.AngularContact: "ISO 15 ", bearing.SmallThrust: ""}[b.Kind]
	label, named := string(b.Kind)+" bearing", standard+size
	switch {
	case b.Kind == plainWasher:
		label, named = "plain thrust washer "+size+", bronze; or turned from bar", ""
	case standard == "":
		label, named = label+" "+size, ""
	}
	m.buy(part.Bought{Key: "thrust_bearing", Label: label, Designation: named, Quantity: n, For: "fit_thrust", Confirm: "check_thrust", Source: thrustSource(b)})
	if b.Kind == bearing.NeedleThrust {
		m.buy(part.Bought{Key: "thrust_washers", Label: "hard thrust washers, " + bare(b.Washer) + " mm thick", Designation: "ISO 3031 " + bare(b.Bore) + " × " + bare(b.OD) + " × " + bare(b.Washer), Quantity: 2 * n, For: "fit_thrust", Source: "ISO 3031"})
	}
	m.step(atHand, "", part.Operation{Key: "check_thrust", Do: "Measure the thrust set in the hand, washers and all: heights of the trade differ by half a millimetre.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{5, 10}, Record: "height and outside",
		Asks: []string{"Is the set in the hand of the size that the recess is drawn for? Cut nothing before it is."}})
}
