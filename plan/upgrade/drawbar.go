package upgrade

import (
	"fettle/plan/joint"
	"fettle/plan/part"
	"fettle/plan/screw"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// drawbar: a bar through the spindle, or a closer for collets. What is computed is
// its length, what it pulls with and what that does to its thread.
var drawbar = &guided{
	about: About{
		Key: "drawbar", Label: "Drawbar or collet closer", Whole: true,
		Words:   []string{"draw bar", "draw bolt", "collet closer", "collet chuck", "spindle taper", "power drawbar", "bar guard"},
		Purpose: "Tools and collets are drawn into the spindle's taper and let go again in one move.",
		Measure: []string{"Length of the spindle from the tool's thread to the bar's seat.", "Thread in the tools: diameter and pitch, and how deep.", "Bore of the spindle at its narrowest."},
		Cautions: []string{"Isolate the machine before a spanner goes on the bar: a spanner left on it flies off when the spindle starts.", "A bar that is tightened too hard splits a taper or strips the tool's thread.",
			"Stock through a lathe's spindle that stands out behind it bends and whips: a guard tube, supported, as long as it.", "A closer for a running spindle stands under a guard.", "Hold the tool when it is let go: it drops."},
		Proof: "Run-out in the taper and at a test bar, 100 mm out; the tool comes free by one knock of a soft hammer; threads in engagement counted.",
		Hours: [2]float64{2, 6}, Risk: LowRisk, Undo: Undone, Needs: []part.Capability{part.Turning, part.Threads}, Own: true,
		Cures: []string{"rocks.spindle"},
	},
	lay: func(s *Site) {
		l, sc := s.Layout, s.Scope
		s.given(given{"through", "Distance from the bar's seat to the tool's thread", "L", unit.MM, "tool in the taper, down through the spindle", "", 10, 1500}, given{"dia", "Thread of the tools", "d", unit.MM, "M10, M12, 3/8\"", "", 3, 30},
			given{"pitch", "Pitch of that thread", "P", unit.MM, "", "", 0.4, 4}, given{"torque", "Torque on the bar", "T", unit.NewtonMetre, "a hand on a spanner of 150 mm: 15 N·m", "15", 0.5, 200})
		l.Assume(sc, quiet("tension", "tension that a bar's thread takes", "σ", unit.MPa), joint.StubTension, joint.StubTensionSource)
		sc.Formula(shown("long", "bar under its head", "L", unit.MM), "through + 1.2 * dia", "common practice, no source: 1.2 diameters of thread in the tool, one to spare")
		sc.Method(shown("pull", "pull of the bar", "F", unit.Newton), joint.BoltForce, sheet.With{"bolt_torque": "torque", "bolt_dia": "dia"})
		sc.Method(quiet("root", "root of the bar's thread", "d_3", unit.MM), screw.Root)
		sc.Method(quiet("takes", "pull that its thread takes", "F_max", unit.Newton), joint.CoreThrust)
		sc.Check(sheet.Check{Key: "pull_check", Label: "Bar's thread takes its pull", Figure: "pull", Limit: "takes", AtMost: true, Level: sheet.Rule,
			Sentence: "At that torque the bar pulls {figure}, and its thread takes {limit}.", Source: joint.CoreThrust.Source})
	},
	says: []says{{"The bar is ", "long", " long under its head."}, {"It pulls ", "pull", "."}},
	make: func(m *making) {
		d, pitch := m.or(m.mine("dia"), 10), m.or(m.mine("pitch"), 1.5)
		long := m.general(want{part: "bar", name: "length", label: "under its head", key: m.mine("long"), nominal: 300})
		bar := &part.Round{Outside: []part.Step{{Label: "head", Length: drawn("", 12), Dia: drawn("", 2*d), Chamfer: 1}, {Label: "bar", Length: long, Dia: drawn("", d)},
			{Label: "thread", Length: drawn("", 2*d), Dia: drawn("", d), Chamfer: pitch}}}
		if t := metric(d) + "×" + bare(pitch) + "-6g"; parses(t) {
			bar.Outside[2].Thread = t
		}
		m.add(part.Part{Key: "bar", Label: "drawbar", Material: "c45", Round: bar, Notes: []string{"The length under the head takes in its thread, two diameters long: drawn here one after the other.", "A collar of brass or steel, close in the spindle's bore, keeps it in the middle.", "A shoulder that pushes the tool out again when it is unscrewed, if there is room."}})
		m.buy(part.Bought{Key: "washer", Label: "hard washer or a small thrust bearing under the bar's head", Quantity: 1, For: "bar", Confirm: "measure_spindle", Source: "common practice, no source"})
		m.step(measured, "", part.Operation{Key: "measure_spindle", Do: "Put a tool in the taper and measure down through the spindle to its thread, and the bore at its narrowest.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "length, bore, thread", Cautions: []string{isolate},
			Asks: []string{"Do all your tools have one thread? How deep is it in each?"}})
		m.step(made, "bar", part.Operation{Key: "turn_bar", Do: "Turn the bar and screwcut its thread to a tool; a head that only its own spanner fits.", Needs: []part.Capability{part.Turning, part.Threads}, After: []string{"measure_spindle"}, Envelope: [2]float64{long.Nominal, 2 * d}, Minutes: [2]float64{90, 200}, Record: "length under the head", Cautions: []string{eyes}})
		m.step(assembled, "", part.Operation{Key: "try_bar", Do: "Draw a tool in, count the turns, let it go again with a soft hammer; hang the spanner where its hook switches off, or where you see it.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 45}, Record: "turns of thread in the tool", Cautions: []string{isolate, "Never start with the spanner on the bar."}})
	},
}
