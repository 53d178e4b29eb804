package upgrade

import (
	"strings"

	"fettle/plan/part"
	"fettle/plan/sheet"
)

// Parts of a power feed: its bracket and coupling; motor, supply, switches.
func (k powerFeed) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if strings.TrimSpace(s.input("fastest", "")) == "" {
		return Make{}
	}
	l := s.Layout
	b, _ := l.WithRole("bracket")
	body := m.or(b.Key+".dia", 40)
	shaft := 12.0
	if sh, ok := l.WithRole("shank"); ok {
		shaft = m.or(sh.Key+".dia", shaft)
	}
	bore := m.class(want{part: "feed_coupling", name: "bore", label: "bore, on the screw's end", nominal: shaft, grows: true}, "H7")
	if sh, ok := l.WithRole("shank"); ok {
		bore = m.suits(bore, "the screw's end, by micrometer", sh.Key+".dia", micrometer)
	}
	long := m.general(want{part: "feed_coupling", name: "length", label: "length", nominal: 30})
	m.add(part.Part{Key: "feed_coupling", Label: "coupling hub with its clutch's dogs", Material: "c45", Round: &part.Round{Length: long,
		Outside: []part.Step{{Label: "hub", Length: drawn("", long.Nominal), Dia: m.general(want{part: "feed_coupling", name: "dia", label: "outside", nominal: 2.2 * shaft}), Chamfer: 0.5}},
		Left:    []part.Step{{Label: "bore", Length: drawn("", long.Nominal), Dia: bore, Through: true}}},
		Notes: []string{"Keyed or pinned to the screw; the other half slides out of mesh, so that the handle turns without the motor.", "Where a pin is to shear, it is the weakest thing in the drive: make three."}})
	wide := m.general(want{part: "feed_plate", name: "width", label: "width", nominal: max(80, 2*body)})
	m.add(part.Part{Key: "feed_plate", Label: "plate that carries the motor", Material: "6082", Flat: &part.Flat{Length: m.general(want{part: "feed_plate", name: "length", label: "length", nominal: max(100, 2.5*body)}), Width: wide, Thickness: m.general(want{part: "feed_plate", name: "thickness", label: "thickness", nominal: 10}), Angle: 90,
		Features: []part.Feature{{Kind: part.Hole, Label: "clear of the screw", X: drawn("", max(50, 1.25*body)), Y: drawn("", wide.Nominal/2), Dia: m.general(want{part: "feed_plate", label: "hole for the screw", nominal: shaft + 2, grows: true})}}},
		Notes: []string{"Bolt holes: spotted through onto the bracket or the table's end.", "The motor's holes from the motor in the hand, slotted where a belt is to be stretched."}})
	motor := "geared motor"
	if t, ok := s.figured(r, s.Scope.Key("torque")); ok {
		motor += ", " + t
		if n, ok := s.figured(r, s.Scope.Key("speed")); ok {
			motor += " at " + n
		}
	}
	m.buy(part.Bought{Key: "feed_motor", Label: motor, Quantity: 1, For: "fit_feed", Confirm: "measure_feed", Source: "common practice, no source"})
	m.buy(part.Bought{Key: "feed_supply", Label: "supply and regulator for the motor, enclosed, with a start button that must be pressed again after a power failure", Quantity: 1, For: "wire_feed", Source: "IEC 60204-1: no start by itself after a failure of the supply"})
	m.buy(part.Bought{Key: "feed_stop", Label: "emergency stop, mushroom head, that stays in", Quantity: 1, For: "wire_feed", Source: "ISO 13850, IEC 60947-5-5"})
	m.buy(part.Bought{Key: "feed_switches", Label: "limit switches that open by force, sealed against coolant", Quantity: 2, For: "fit_switches", Source: "IEC 60947-5-1: positive opening"})
	k.steps(m)
	for _, ask := range s.asks {
		ask(m)
	}
	m.proofOf(k.About())
	return m.finish()
}

func (powerFeed) steps(m *making) {
	const live = "Isolate the machine and the feed, unplugged and the plugs locked away."
	m.step(measured, "", part.Operation{Key: "measure_feed", Do: "Take the torque that the handle needs under a cut, by a spring balance at its rim; measure the screw's end and the room there with the slide at both ends.", Needs: []part.Capability{part.Bench}, After: []string{"readings_before"}, Minutes: [2]float64{30, 60}, Record: "torque at three places, and the room", Cautions: []string{isolate},
		Asks: []string{"Is there a hard stop at both ends, or would the slide run off its thread?", "Who does the wiring? Is that person competent for it where you live?"}})
	m.step(made, "feed_coupling", part.Operation{Key: "turn_feed_coupling", Do: "Turn and bore the hub, cut its keyway and its dogs.", Needs: []part.Capability{part.Turning, part.Milling}, Envelope: [2]float64{30, 40}, After: []string{"measure_feed"}, Minutes: [2]float64{120, 240}, Record: "its bore, by the screw's end", Cautions: []string{eyes}})
	m.step(made, "feed_plate", part.Operation{Key: "mill_feed_plate", Do: "Mill and drill the plate.", Needs: []part.Capability{part.Milling}, Envelope: [2]float64{100, 80}, After: []string{"measure_feed"}, Minutes: [2]float64{90, 180}, Record: "the plate on the machine, with a photo", Cautions: []string{eyes}})
	m.step(stripped, "", part.Operation{Key: "end_off", Do: "Take off what stands on the screw at that end.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{15, 30}, Record: "a photo of each thing before it comes off", Cautions: []string{live}})
	m.step(assembled, "", part.Operation{Key: "fit_feed", Do: "Fit plate, motor and coupling in line with the screw; guard whatever turns. Set the clutch with a lever and a spring balance on the screw.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{120, 240}, Record: "torque at which the clutch slips", Cautions: []string{live, "Guards on before it turns."},
		Asks: []string{"With the motor in mesh, does the handle stand still or free-wheel?"}})
	m.step(assembled, "", part.Operation{Key: "fit_switches", Do: "Fit the switches and their dogs so that each trips well before the hard stop, also when the dog is set carelessly.", Needs: []part.Capability{part.Bench}, After: []string{"fit_feed"}, Minutes: [2]float64{60, 120}, Record: "from each switch to the hard stop", Cautions: []string{live}})
	m.step(assembled, "", part.Operation{Key: "wire_feed", Do: "Have supply, emergency stop and switches wired and tested by a competent electrician, by your local codes; cables clipped clear of the slide over all its travel.", Needs: []part.Capability{part.Bench}, After: []string{"fit_switches"}, Minutes: [2]float64{120, 300}, Record: "the electrician's test sheet, with a photo", Cautions: []string{live, "Earth the motor's frame. Nothing is tried with a cover off."},
		Asks: []string{"Does it stay stopped when the power comes back?", "Does the emergency stop stop the spindle as well, within reach of where you stand?"}})
	m.step(proved, "", part.Operation{Key: "try_feed", Do: "With no work and no tool: run it at its slowest to each end ten times, then at its fastest; hold the slide and see the clutch slip; pull the plug and put it back.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "how far it ran on past each switch", Cautions: []string{"Stand clear of the handle and of both ends of the slide; a hand on the emergency stop."}})
}
