package upgrade

import "fettle/plan/part"

// ownMachine: parts for the machine that has to make them.
var ownMachine = &guided{
	about: About{
		Key: "own_machine", Label: "Making parts for the machine that makes them", Whole: true,
		Words:    []string{"only one lathe", "bootstrapping", "no second machine", "order of work", "temporary parts", "strip down", "chicken and egg"},
		Purpose:  "The machine is stripped only when every part that it has to make for itself lies there, finished or to suit.",
		Measure:  []string{"All that is hidden until the machine is apart: take the slide off for an hour, measure, and put it back."},
		Cautions: []string{"Isolate the machine before it is stripped, even for an hour.", "A machine that runs with a makeshift part runs slowly, with light cuts, and with its guards on.", "Keep every old part until the new one is proved: it is the way back."},
		Proof:    "The list of parts ticked before the first screw is undone; afterwards, days for which the machine stood.",
		Hours:    [2]float64{1, 4}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Bench}, Own: true,
	},
	make: func(m *making) {
		m.step(measured, "", part.Operation{Key: "look_inside", Do: "Take apart for an hour only what hides a size; measure it, and put it back. Most parts that fail were drawn without that look.", Needs: []part.Capability{part.Bench}, Out: m.Layout.Key, Minutes: [2]float64{60, 120}, Record: "what is hidden, with photos", Cautions: []string{isolate}})
		m.step(atHand, "", part.Operation{Key: "buy_first", Do: "Buy bearings and screws first and measure them: seats are turned to what lies there, not to a list.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 90}, Record: "sizes as they came", Asks: []string{"Is every size that depends on something hidden marked “to suit”?"}})
		m.step(made, "", part.Operation{Key: "make_all", Do: "Make all that this machine has to make. A slide that is to come apart can be done without: feed by the other slide, its gib locked; a plug or a bolt and a spanner stand in for a handle.", Needs: []part.Capability{part.Bench}, After: []string{"buy_first"}, Minutes: [2]float64{60, 240}, Record: "the list of parts, ticked",
			Asks: []string{"Which part would stop you half way? Make that twice, or find who has a machine to lend.", "What takes days by itself: adhesive, post, anodising, paint? Begin with it."}})
		m.step(proved, "", part.Operation{Key: "keep_old", Do: "Keep the old parts, in a box with the plan's name and date, until the new ones have worked for ten hours.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{10, 20}, Record: "where the box is"})
	},
}
