package upgrade

import (
	"math"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// scales: a scale along the axis, with a reader that rides on it.
type scales struct{}

func (scales) About() About {
	return About{
		Key: "scales", Label: "Scale along the axis",
		Words:   []string{"digital readout", "DRO", "glass scale", "linear encoder", "magnetic scale", "digital scale", "reader head"},
		Purpose: "A scale reads where the slide itself stands: lost motion and the screw's lead no longer falsify it.",
		Cautions: []string{
			"Isolate the machine before anything is drilled or tapped.",
			"A reader that runs off its scale, or against its end, is knocked out of line or breaks.",
			"Swarf and oil: the open side down or away from the cut, and a cover; the cable out of the way of every slide.",
			"Drilling into a casting: look what is behind the wall first.",
		},
		Proof: "Against blocks at five places over the travel, both ways; parallel to the travel within 0.1 mm; 5 mm of scale left beyond both stops.",
		Hours: [2]float64{3, 12}, Risk: LowRisk, Undo: UndonePart, Own: false,
		Needs: []part.Capability{part.Bench, part.Milling},
		Cures: []string{"reading.value", "reading.small", "reading.none", "setting.knocked", "untrue.lead"},
	}
}

// Suits an axis that travels.
func (scales) Suits(l *axis.Layout) bool {
	return l.Arr.Key != "" && travels(l)
}

func travels(l *axis.Layout) bool { return asFound(l, "travel_found") > 0 }

// overrunLeast is what a scale goes beyond either stop, in mm.
const overrunLeast = 5.0

// Trials of a scale: the next 50 mm above the travel with its overrun.
func (scales) Trials(l *axis.Layout) []Trial {
	return []Trial{{"", map[string]string{"length": unit.MM.With(scaleFor(asFound(l, "travel_found")))}}}
}

// scaleFor is a usual measuring length for a travel: scales are sold by 50 mm.
func scaleFor(travel float64) float64 { return 50 * math.Ceil((travel+2*overrunLeast)/50) }

// steps are the smallest steps that scales show, in mm.
var scaleSteps = []Option{{"0.01", "0.01 mm"}, {"0.005", "0.005 mm"}, {"0.001", "0.001 mm"}}

func (k scales) Apply(s *Site) {
	l, sc := s.Layout, s.Scope
	if !l.Scope.Has("reads_to") {
		found := s.measuredOr("reading.now", quiet("read_now", "what is read to now", "q_0", unit.MM), Field{Name: "read_now", Label: "Now read to", Hint: "a rule 0.5; a dial: what a line is worth"}, "", 0.0005, 100)
		l.DefineReading(found)
	}
	s.aim("reads_to", unit.MM, true)
	step := s.choose(Field{Name: "step", Label: "Shows steps of", Options: scaleSteps}, scaleSteps[0].Value)
	value := map[string]float64{"0.01": 0.01, "0.005": 0.005, "0.001": 0.001}[step]
	sc.Measure(quiet("step", "step of the scale", "q", unit.MM), sheet.Leaf{Value: value, Origin: sheet.Chosen, Note: "as chosen"})
	l.Scope.Change("reading.added", "step", "as chosen", sheet.With{"step": sc.Key("step")})
	s.typed(sc, quiet("length", "measuring length of the scale", "L_m", unit.MM), Field{Name: "length", Label: "Measuring length", Hint: "the travel, and 5 mm beyond both stops"}, "", 1, 3000, nan)
	s.Amount, s.Most = sc.Key("length"), 1500
	k.costs(s)
	k.overrun(s)
	k.place(s)
}

// costs: a scale or reader that stands in the way ends the travel earlier.
func (scales) costs(s *Site) {
	l, sc := s.Layout, s.Scope
	at := s.choose(Field{Name: "stands", Label: "It stands", Options: []Option{{"beside", "beside the slide, in nobody's way"}, {"plus", "in the way " + l.EndName(axis.Plus)}, {"minus", "in the way " + l.EndName(axis.Minus)}}}, "beside")
	if at == "beside" {
		return
	}
	s.typed(sc, quiet("costs", "travel that the scale costs", "c", unit.MM), Field{Name: "costs", Label: "Takes off the travel there", Hint: "from where it ends as found to where the scale is met"}, "", 0, 500, 0)
	e, bound, gap := axis.Plus, "travel_found - costs", "bound - asked_plus"
	if at == "minus" {
		e, bound, gap = axis.Minus, "0 + costs", "asked_minus - bound"
	}
	in := sc.In("scale_stop")
	in.Formula(quiet("bound", "scale met, "+l.EndName(e), "scale", unit.MM), bound, "geometry: from the travel as found", sheet.With{"costs": sc.Key("costs")})
	in.Formula(quiet("gap", "scale met: gap, "+l.EndName(e), "gap", unit.MM), gap, "geometry: from where the travel is asked to go")
	l.Scope.Family("stops_"+string(e), "", unit.MM, in.Key("bound"))
	l.Stops = append(l.Stops, axis.Stop{Key: strings.TrimSuffix(sheet.Local(in.Key(""), l.Key), "."), Label: "scale", Says: "the scale is met", End: e, Found: math.NaN(), Kind: axis.Meets})
}

// overrun: the reader stays on its scale, whatever the travel becomes.
func (scales) overrun(s *Site) {
	l, sc := s.Layout, s.Scope
	sc.Formula(quiet("beyond", "scale beyond each stop", "", unit.MM), "(length - travel) / 2", "geometry: the scale set in the middle of the travel, as it is planned in all")
	sc.Check(sheet.Check{Key: "on_check", Label: "Reader stays on its scale", Figure: "length", Limit: l.Find("travel"), Level: sheet.Stop,
		Sentence: "The scale measures over {figure}, and the slide travels {limit}: beyond it the reader is knocked.", Source: "geometry"})
	l.Assume(sc, quiet("beyond_least", "scale wanted beyond each stop", "", unit.MM), overrunLeast, "common practice, no source: 5 mm beyond both stops of the machine")
	sc.Check(sheet.Check{Key: "beyond_check", Label: "Scale beyond both stops", Figure: "beyond", Limit: "beyond_least", Level: sheet.Rule,
		Sentence: "{figure} of scale is left beyond each stop, and {limit} is wanted.", Source: "common practice, no source"})
}

// place compares the body with the room for it.
func (scales) place(s *Site) {
	sc := s.Scope
	const group = "Room for it"
	s.typed(sc, quiet("more", "body longer than it measures by", "", unit.MM), Field{Name: "more", Label: "Body longer than it measures by", Hint: "end caps and half the reader at each end; sealed glass scales about 110", Group: group}, s.proposed(110), 0, 400, nan)
	sc.Formula(quiet("body", "body of the scale, over all", "L_b", unit.MM), "length + more", "geometry")
	for _, x := range []struct{ name, label, room, least, hint string }{
		{"long", "along the axis", "body", "", "between the places where its ends can be screwed on"},
		{"deep", "away from the machine", "", "25", "open bars about 15, sealed glass scales about 25, the reader included"},
		{"high", "across the axis", "", "35", "open bars about 25, sealed glass scales about 35"},
	} {
		size := x.room
		if size == "" {
			size = x.name
			s.typed(sc, quiet(x.name, "scale and reader, "+x.label, "", unit.MM), Field{Name: x.name, Label: "Scale and reader, " + x.label, Hint: x.hint, Group: group}, s.proposed(map[string]float64{"25": 25, "35": 35}[x.least]), 1, 400, nan)
		}
		room := quiet("room_"+x.name, "room for the scale, "+x.label, "", unit.MM)
		s.typed(sc, room, Field{Name: room.Key, Label: "Room there, " + x.label, Group: group}, "", 1, 5000, nan)
		sc.Check(sheet.Check{Key: x.name + "_check", Label: "Room for the scale, " + x.label, Figure: room.Key, Limit: size, Level: sheet.Stop,
			Sentence: "There is room for {figure}, and it takes {limit}.", Source: "geometry"})
	}
}

func (k scales) Answer(s *Site, r *sheet.Result) []Run {
	var say teller
	least, ok := r.Figure(s.Layout.Find("travel"), sheet.Planned)
	if strings.TrimSpace(s.input("length", "")) == "" {
		say.text("Say how long the scale measures.")
		if ok && least.Known() {
			say.text(" The travel of " + show(s, least.Value) + " wants ").strong(show(s, least.Value+2*overrunLeast)).text(" at the least.")
		}
		return say.runs
	}
	say.failures(s, r)
	say.became("The position is read to ", "", s, r, s.Goals[0].Key)
	if beyond, ok := s.figured(r, s.Scope.Key("beyond")); ok {
		say.text(" ").strong(beyond).text(" of scale is left beyond each stop.")
	}
	lost := false
	for _, e := range []axis.End{axis.Plus, axis.Minus} {
		if more, known := gained(r, s.Layout, []axis.End{e}); known && more < -shownLength && s.input("stands", "beside") == string(e) {
			say.lost(s, r, e)
			lost = true
		}
	}
	if !lost {
		say.text(" Nothing else follows: it stands in nobody's way.")
	}
	return say.runs
}

// Parts of a scale: the reader's bracket, and the scale to buy.
func (k scales) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	up := sheet.Local(s.Scope.Key(""), s.Layout.Key)
	long, ok := m.figure(up + "length")
	if !ok {
		return Make{}
	}
	plate := func(label string, mm float64) part.Size {
		size := drawn(label, mm)
		size.Suits, size.Limits = "the scale in the hand, and the faces that it bridges", toSuit
		return size
	}
	m.add(part.Part{Key: "reader_bracket", Label: "bracket of the reader", Material: "6082", Notes: []string{"Slots both ways: 2 mm of adjustment for height and distance.", "Stiff enough that a finger does not move the reading."},
		Flat: &part.Flat{Length: plate("length", 60), Width: plate("width", 40), Thickness: plate("thickness", 8), Angle: 90, Features: []part.Feature{
			{Kind: part.Slot, Label: "to the slide", X: drawn("", 10), Y: drawn("", 8), Length: drawn("", 9), Width: drawn("", 5.5)},
			{Kind: part.Slot, Label: "to the slide", X: drawn("", 41), Y: drawn("", 8), Length: drawn("", 9), Width: drawn("", 5.5)},
			{Kind: part.Hole, Label: "to the reader", X: drawn("", 20), Y: drawn("", 30), Dia: drawn("", 4.5)},
			{Kind: part.Hole, Label: "to the reader", X: drawn("", 40), Y: drawn("", 30), Dia: drawn("", 4.5)},
		}}})
	m.buy(part.Bought{Key: "scale", Label: "scale that measures over " + show(s, long) + ", with reader and display", Quantity: 1, For: "mount_scale", Confirm: "scale_room", Source: "trade sizes, no standard"})
	m.step(measured, "", part.Operation{Key: "scale_room", Do: "Wind to both stops and measure the travel. Hold a strip of wood as large as the scale where it is to go, and wind to both stops again: nothing may come near it.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "travel, and room along, across and away",
		Asks: []string{"Is more travel planned on this axis? Then buy the scale for that.", "What is behind the walls that are to be drilled?"}})
	m.step(made, "reader_bracket", part.Operation{Key: "mill_reader_bracket", Do: "Make the reader's bracket to the scale in the hand.", Needs: []part.Capability{part.Milling}, Envelope: [2]float64{60, 40}, After: []string{"scale_room"}, Minutes: [2]float64{60, 150}, Record: "a photo", Cautions: []string{eyes}})
	m.step(fitted, "", part.Operation{Key: "mount_scale", Do: "Screw the scale on, set it parallel to the travel within 0.1 mm both ways with a dial gauge on the slide, then the reader, at the distance that its maker gives.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 180}, Record: "parallel, both ways", Cautions: []string{isolate},
		Asks: []string{"Wound against both stops: are 5 mm left between reader and scale's end at each?", "Does the cable follow to both ends without pulling or rubbing?"}})
	m.proofOf(k.About())
	return m.finish()
}
