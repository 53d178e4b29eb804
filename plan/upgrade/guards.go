package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// reachThrough is how far a guard has to stand off what is behind its openings, for
// square and round openings and the wider case of slots up to 20 mm.
var reachThrough = sheet.Method{
	Text:   "when(opening <= mm(4), mm(2), when(opening <= mm(6), mm(10), when(opening <= mm(8), mm(20), when(opening <= mm(10), mm(80), when(opening <= mm(12), mm(100), when(opening <= mm(20), mm(120), mm(850)))))))",
	Source: "ISO 13857, reach through slots, persons of 14 years and above; from memory, unchecked: look it up before you rely on it",
}

// guards: covers, stops and switches. What is computed is how far an opening in a
// guard has to stand off.
var guards = &guided{
	about: About{
		Key: "guards", Label: "Guards, interlocks and emergency stop", Whole: true,
		Words:   []string{"chuck guard", "e-stop", "emergency stop", "gear cover switch", "interlock", "foot brake", "no-volt release", "safety", "belt guard", "kill switch"},
		Purpose: "Nothing that turns can be reached, nothing starts by itself, and it stops from where you stand.",
		Measure: []string{"What can be reached while it runs: by you, and by somebody beside you.", "How long it takes to stand still from its fastest speed.", "Openings of the guards that there are, and how far behind them something turns."},
		Cautions: []string{"Isolate the machine before a cover is opened.", "Wiring of switches is for a competent electrician: they open the circuit of a contactor that does not close again by itself; two wires twisted together are no interlock.", "A guard that is in the way is taken off and stays off: make it so that work is easier with it.",
			"An emergency stop is within reach of the hand that is not in danger, and tried every week.", "Braking a spindle with a threaded nose unscrews its chuck."},
		Proof: "A list of functions, each tried: every cover opened stops it, none starts it; stop pressed at the fastest speed; supply off and on again, and it stays off.",
		Hours: [2]float64{2, 8}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Bench},
		Cures: []string{"danger.guards", "danger.runaway"},
	},
	lay: func(s *Site) {
		sc := s.Scope
		s.given(given{"opening", "Widest opening in the guard", "e", unit.MM, "slots: across their narrow side", "", 0, 500}, given{"behind", "Distance from the opening to what moves behind it", "s", unit.MM, "", "", 0, 2000})
		sc.Method(shown("behind_least", "least distance behind such an opening", "s_min", unit.MM), reachThrough)
		sc.Check(sheet.Check{Key: "reach_check", Label: "Fingers do not reach what moves", Figure: "behind", Limit: "behind_least", Level: sheet.Rule,
			Sentence: "Behind the opening it is {figure} to what moves, and {limit} is the least.", Source: reachThrough.Source})
	},
	says: []says{{"Behind such an opening nothing may move within ", "behind_least", "."}},
	make: func(m *making) {
		m.buy(part.Bought{Key: "switches", Label: "emergency stop that latches, cover switches that are forced open, a starter with no-volt release: as your electrician says", Quantity: 1, For: "wire", Confirm: "walk_round", Source: "IEC 60204-1: electrical equipment of machines"})
		m.step(measured, "", part.Operation{Key: "walk_round", Do: "Machine isolated: go round it, reach for everything that turns, and write down what you reach.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "what can be reached, with photos", Cautions: []string{isolate}, Asks: []string{"Who else uses the machine, or stands beside it?"}})
		m.step(made, "", part.Operation{Key: "make_guards", Do: "Make covers with openings that fingers do not go through, hinged or held by screws that stay in them.", Needs: []part.Capability{part.Bench}, After: []string{"walk_round"}, Minutes: [2]float64{90, 300}, Record: "openings, and distance behind them"})
		m.step(assembled, "", part.Operation{Key: "wire", Do: "Have the switches wired and tested by a competent electrician, to the local code.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 180}, Record: "who wired it, and when it was tested", Cautions: []string{isolate, "Electrical work is for a competent electrician; local codes decide."}})
		m.step(proved, "", part.Operation{Key: "functions", Do: "Try every function of the list with nothing in chuck or spindle; write the date on the machine.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "the list, ticked"})
	},
}
