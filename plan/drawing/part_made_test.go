package drawing_test

import parts "fettle/plan/part"

// Parts by hand, of every form, with invented sizes.

func plus(label string, nominal, upper, lower float64, limits string) parts.Size {
	return parts.Size{Label: label, Nominal: nominal, Upper: upper, Lower: lower, Limits: limits}
}

// general is a size with the tolerance of the title block.
func general(label string, nominal float64) parts.Size {
	return plus(label, nominal, 0.2, -0.2, "ISO 2768-m")
}

// bracket: an oblong flange with two bolt holes, a bore, and a seat for a bearing in its outer end.
func bracketPart() parts.Part {
	return parts.Part{
		Key: "bracket", Label: "Bracket", Replaces: "bracket", Material: "gjl250", Quantity: 1,
		Round: &parts.Round{
			Outside: []parts.Step{
				{Label: "flange", Length: general("flange, thickness", 8), Dia: general("flange", 62)},
				{Label: "body", Length: parts.Size{Key: "cross.bracket.body", Label: "body, length", Nominal: 28.5, Suits: "the gap from the wall to the dial", Awaits: "cross.dial.from"}, Dia: general("body, diameter", 28), Chamfer: 1},
			},
			Left:  []parts.Step{{Label: "bore for the screw", Through: true, Dia: plus("bore for the screw", 10, 0.022, 0, "H8"), Chamfer: 0.5}},
			Right: []parts.Step{{Label: "seat for the bearing", Length: plus("seat for the bearing, depth", 5, 0.05, 0, ""), Dia: plus("seat for the bearing", 19, 0.021, 0, "H7"), Chamfer: 0.3}},
			Flange: &parts.Flange{Step: 0, Width: general("flange, across", 62), Height: general("flange, up", 30), Corner: general("flange, ends", 15), Holes: []parts.FlangeHole{
				{X: plus("bolt, from the axis", -22, 0.1, -0.1, ""), Dia: general("bolt hole", 6.6), Label: "for M6 screws"},
				{X: plus("bolt, from the axis", 22, 0.1, -0.1, ""), Dia: general("bolt hole", 6.6), Label: "for M6 screws"},
			}},
		},
		Notes: []string{"Bore and seat in one setting; run-out of the seat to the bore no more than 0.01."},
	}
}

// extension: a sleeve over the screw's old end, with a new thread for the lock nut.
func extensionPart() parts.Part {
	return parts.Part{
		Key: "extension", Label: "Extension", Material: "c45", Quantity: 1, Finish: "",
		Round: &parts.Round{
			Outside: []parts.Step{
				{Label: "sleeve", Length: general("sleeve, length", 24), Dia: plus("sleeve", 14, 0, -0.018, "h7"), Chamfer: 0.5},
				{Label: "thread", Length: general("thread, length", 9), Dia: parts.Size{Label: "thread", Nominal: 10, Limits: "6g"}, Thread: "M10×1", Chamfer: 0.8},
			},
			Left:    []parts.Step{{Label: "bore", Length: general("bore, depth", 14), Dia: parts.Size{Key: "cross.shank.dia", Label: "bore", Nominal: 10, Suits: "the screw's old end, sliding without shake", Awaits: "cross.shank.dia"}, Chamfer: 0.5}},
			Grooves: []parts.Groove{{At: parts.Size{Nominal: 24}, Width: general("undercut, width", 2), Dia: general("undercut", 8.4), Form: "undercut"}},
			Cross:   []parts.CrossHole{{At: general("pin, from the left face", 7), Dia: plus("pin hole", 3, 0.01, 0, "H7"), Through: true, Label: "for a pin"}},
		},
	}
}

// casting: the wall cut back where the nut must pass, beside two tapped holes.
func castingPart() parts.Part {
	return parts.Part{
		Key: "wall", Label: "Front wall, cut back", Altered: true, Replaces: "wall", Material: "gjl200", Quantity: 1,
		Flat: &parts.Flat{
			Length: general("", 80), Width: general("", 46), Thickness: plus("wall", 23, 0, 0, ""), Outline: true,
			Features: []parts.Feature{
				{Kind: parts.Pocket, Label: "recess for the nut", X: general("recess, from the left edge", 26), Y: parts.Size{}, Length: general("recess, width", 28), Width: general("recess, height", 30), Depth: plus("recess, depth", 12, 0.2, 0, ""), Left: plus("wall left", 11, 0, -0.5, ""), Edge: true},
				{Kind: parts.Hole, Label: "as they are", X: parts.Size{Nominal: 16, Label: "tapped hole"}, Y: parts.Size{Nominal: 15, Label: "tapped hole"}, Dia: parts.Size{Nominal: 5}, Thread: "M6", Depth: parts.Size{Nominal: 14}},
				{Kind: parts.Hole, Label: "as they are", X: parts.Size{Nominal: 64, Label: "tapped hole"}, Y: parts.Size{Nominal: 15, Label: "tapped hole"}, Dia: parts.Size{Nominal: 5}, Thread: "M6", Depth: parts.Size{Nominal: 14}},
			},
		},
		Notes: []string{"Measure from the machined front edge. Stop where the wall left is less than 10."},
	}
}

func dialPart() parts.Part {
	return parts.Part{
		Key: "dial", Label: "Dial, 75 divisions", Material: "6082", Quantity: 1, Finish: "black anodised",
		Round: &parts.Round{
			Outside: []parts.Step{
				{Label: "rim", Length: general("rim, width", 14), Dia: plus("rim", 34, 0, -0.025, "h7"), Chamfer: 0.5},
				{Label: "grip", Length: general("grip, width", 6), Dia: general("grip", 30), Chamfer: 1},
			},
			Left: []parts.Step{{Label: "bore", Through: true, Dia: plus("bore", 16, 0.018, 0, "H7"), Chamfer: 0.5}},
		},
		Dial: &parts.Dial{Divisions: 75, Value: "0.02 mm", Clockwise: true, Upright: true, Dia: plus("rim", 34, 0, -0.025, "h7"), Width: general("rim, width", 14),
			Every: []parts.Mark{{Divisions: 5, Length: 5, Width: 0.2, Numeral: 2.5, Step: 0.1}, {Divisions: 1, Length: 3, Width: 0.2}}},
	}
}

func gibPart() parts.Part {
	return parts.Part{
		Key: "gib", Label: "Gib strip", Material: "cuzn39pb3", Quantity: 1,
		Flat: &parts.Flat{
			Length: general("length", 140), Width: general("width", 14), Thickness: parts.Size{Label: "thickness", Nominal: 4.2, Suits: "the gap between slide and way", Awaits: "cross.gib.gap"}, Angle: 60,
			Features: []parts.Feature{
				{Kind: parts.Dimple, Label: "for the gib screws", X: general("first screw", 25), Y: general("screws, from the lower edge", 7), Dia: general("dimple", 4), Depth: general("dimple, depth", 1)},
				{Kind: parts.Dimple, Label: "for the gib screws", X: general("second screw", 70), Y: general("screws, from the lower edge", 7), Dia: general("dimple", 4), Depth: general("dimple, depth", 1)},
				{Kind: parts.Dimple, Label: "for the gib screws", X: general("third screw", 115), Y: general("screws, from the lower edge", 7), Dia: general("dimple", 4), Depth: general("dimple, depth", 1)},
			},
		},
		Finish: "scraped to the way",
	}
}

func spacerPart() parts.Part {
	return parts.Part{
		Key: "spacer", Label: "Thrust spacer", Material: "c45", Quantity: 2, Finish: "hardened and ground",
		Round: &parts.Round{
			Outside: []parts.Step{{Label: "spacer", Length: plus("length", 3.2, 0.01, 0, ""), Dia: general("outside", 24), Chamfer: 0.3}},
			Left:    []parts.Step{{Label: "bore", Through: true, Dia: plus("bore", 12, 0.018, 0, "H7"), Chamfer: 0.3}},
		},
		Notes: []string{"Faces parallel within 0.005."},
	}
}

// shaft: the screw's end turned down, with flats for a spanner.
func shaftPart() parts.Part {
	return parts.Part{
		Key: "screw", Label: "Screw's end, turned", Altered: true, Replaces: "shank", Material: "c45", Quantity: 1,
		Round: &parts.Round{
			Outside: []parts.Step{
				{Label: "shank", Length: parts.Size{Nominal: 30}, Dia: parts.Size{Nominal: 12}, Old: true},
				{Label: "journal", Length: general("journal, length", 18), Dia: plus("journal", 10, 0.004, -0.005, "js5"), Chamfer: 0.5},
				{Label: "thread", Length: general("thread, length", 12), Dia: parts.Size{Label: "thread", Nominal: 8, Limits: "6g"}, Thread: "M8", Chamfer: 1},
				{Label: "square", Length: general("flats, length", 10), Dia: general("end", 6.5), New: true, Chamfer: 0.5},
			},
			Flats: []parts.FlatOn{{At: parts.Size{Nominal: 60}, Length: parts.Size{Nominal: 10}, Across: plus("across the flats", 5, 0, -0.05, "")}},
			Was:   &parts.Round{Outside: []parts.Step{{Length: parts.Size{Nominal: 60}, Dia: parts.Size{Nominal: 12}}}},
		},
	}
}

// riser: a block with slots, holes right through and an oil groove.
func riserPart() parts.Part {
	return parts.Part{
		Key: "riser", Label: "Riser block", Material: "6082", Quantity: 2,
		Flat: &parts.Flat{
			Length: general("length", 120), Width: general("width", 60), Thickness: plus("height", 25, 0.02, -0.02, ""),
			Features: []parts.Feature{
				{Kind: parts.Slot, Label: "slot for the bolt", X: general("slot, from the left", 20), Y: general("slot, from the front", 25), Length: general("slot, length", 30), Width: general("slot, width", 11), Depth: parts.Size{}},
				{Kind: parts.Pocket, Label: "relief", X: general("relief, from the left", 70), Y: general("relief, from the front", 20), Length: general("relief, length", 30), Width: general("relief, width", 20), Depth: general("relief, depth", 6)},
				{Kind: parts.Hole, X: general("hole, from the left", 10), Y: general("hole, from the front", 10), Dia: general("hole", 6.6)},
				{Kind: parts.Hole, X: general("hole, from the left", 110), Y: general("hole, from the front", 10), Dia: general("hole", 6.6)},
				{Kind: parts.Hole, X: general("hole, from the left", 10), Y: general("hole, from the front", 50), Dia: plus("dowel", 6, 0.012, 0, "H7"), Label: "dowel"},
				{Kind: parts.Oil, X: general("oil groove, from the left", 108), Y: general("oil groove, from the front", 18), Length: general("oil groove, width", 2), Width: general("oil groove, length", 30), Depth: general("oil groove, depth", 1)},
			},
		},
	}
}

func madeParts() []parts.Part {
	return []parts.Part{bracketPart(), extensionPart(), castingPart(), dialPart(), gibPart(), spacerPart(), shaftPart(), riserPart()}
}
