package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/sheet"
)

// Parts: a block under the headstock, one under the tailstock at the same
// setting, one under the tool post; longer bolts, another belt.
func (k headRiser) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if !m.more(s.Amount) {
		return Make{}
	}
	own := "upgrade_" + s.ID + "."
	head := m.headBlock(own)
	m.add(part.Part{Key: "head_block", Label: "block under the headstock", Material: "gjl250", Flat: head,
		Notes: []string{"Top as the bed's ways, underside as the headstock's foot: copy flat and vee from each other, or keep to flat faces and dowel the headstock to its line.", "Top and bottom parallel within 0.02 mm in 300.", "A full section, or ribs under at least 60 % of the foot."}})
	tail := *head
	tail.Length, tail.Width = drawn("as the tailstock's base", 0.6*head.Length.Nominal), drawn("as the tailstock's base", head.Width.Nominal)
	tail.Thickness = m.suitsMade(m.limits(want{part: "tail_block", name: "height", label: "height", key: sheet.Local(s.Amount, s.Layout.Key)}, 0.03, 0, "common practice, no source: the tailstock 0 to 0.04 mm high"), "the headstock's block as made", "head_block.height")
	m.add(part.Part{Key: "tail_block", Label: "block under the tailstock", Material: "gjl250", Flat: &tail, Notes: []string{"Milled or ground at one setting with the headstock's, and 0 to 0.03 mm higher.", "Its tongue or vee as the tailstock's base."}})
	if m.more(s.Scope.Key("tool_block")) {
		m.add(part.Part{Key: "tool_block", Label: "block under the tool post", Material: "11smn30", Notes: []string{"As large as the tool post's foot; its stud or bolts as much longer."},
			Flat: &part.Flat{Length: drawn("as the tool post", 65), Width: drawn("as the tool post", 65), Thickness: m.general(want{part: "tool_block", name: "height", label: "height", key: own + "tool_block"}), Angle: 90}})
	}
	m.headBuys(own)
	m.headSteps(head)
	m.proofOf(k.About())
	return m.finish()
}

func (m *making) headBlock(own string) *part.Flat {
	amount := sheet.Local(m.Amount, m.Layout.Key)
	swings := func(leaf string) part.Made { return part.Made{Leaf: leaf, Formula: "was + 2 * (made - planned)"} }
	high := m.limits(want{part: "head_block", name: "height", label: "height", key: amount, leaf: "swing_bed", formula: swings("").Formula, also: []part.Made{swings("swing_slide")}}, 0.1, -0.1,
		"common practice, no source: the height itself matters little, that its faces are parallel does")
	return &part.Flat{Thickness: high, Angle: 90,
		Length: m.general(want{part: "head_block", name: "length", label: "along the bed", key: own + "foot_length", nominal: 160}),
		Width:  m.general(want{part: "head_block", name: "width", label: "across the bed", key: own + "foot_width", nominal: 110})}
}

func (m *making) headBuys(own string) {
	bolts := "longer bolts for the headstock: as much longer as the block is high"
	if length, ok := m.figure(own + "bolts"); ok {
		bolts = "bolts for the headstock, " + bare(length) + " long, of the old ones' thread"
	}
	m.buy(part.Bought{Key: "head_bolts", Label: bolts, Quantity: 4, For: "head_block", Confirm: "lift_head", Source: "ISO 888: preferred lengths of bolts"})
	m.buy(part.Bought{Key: "dowels", Label: "dowels, so that the headstock comes back to its line", Designation: "ISO 8734 8 × 30", Quantity: 2, For: "head_block", Confirm: "line_up", Source: "ISO 8734"})
	if belt, ok := m.figure(own + "belt"); ok && m.more(m.Layout.Find(own+"belt_more")) {
		m.buy(part.Bought{Key: "belt", Label: "belt of the old one's section, " + m.Units.With(belt) + " along its pitch line", Quantity: 1, For: "line_up", Confirm: "lift_head", Source: "ISO 4184: classical and narrow vee belts, lengths in datum system"})
	}
}

func (m *making) headSteps(block *part.Flat) {
	bench := []part.Capability{part.Bench}
	const heavy = "A headstock weighs 20 to 80 kg: a hoist or a second pair of hands, never a lift alone."
	m.step(measured, "", part.Operation{Key: "follow_up", Do: "List what follows the headstock up: tailstock, tool post, fixed and travelling steady, belt and its guard, change wheels and their cover, splash back, lamp, chuck guard. Measure each.", Needs: bench, Minutes: [2]float64{60, 120}, Record: "the list, with a photo of each",
		Asks: []string{"Does the headstock stand on vee and flat, or on a plain face?", "Is the motor on the headstock, or behind the bed?"}})
	m.step(made, "head_block", part.Operation{Key: "mill_blocks", Do: "Mill both blocks' tops and bottoms at one setting while the lathe still stands, then grind or scrape them parallel.", Needs: []part.Capability{part.Milling, part.Grinding}, Envelope: [2]float64{block.Length.Nominal, block.Width.Nominal}, Minutes: [2]float64{240, 600}, Record: "height at the four corners of each, by micrometer", Cautions: []string{eyes, ironDust}})
	m.step(stripped, "", part.Operation{Key: "lift_head", Do: "Take belt, change wheels and guards off, and lift the headstock from the bed.", Needs: bench, Minutes: [2]float64{60, 120}, Record: "shims and where they lay, with a photo", Cautions: []string{isolate, heavy}})
	m.step(fitted, "head_block", part.Operation{Key: "scrape_blocks", Do: "Scrape the block to the bed and to the headstock until neither rocks.", Needs: []part.Capability{part.Scraping}, After: []string{"mill_blocks"}, Minutes: [2]float64{120, 480}, Record: "blue on both joints, with a photo"})
	m.step(assembled, "", part.Operation{Key: "line_up", Do: "Set the headstock on, true its spindle to the bed with a test bar in both planes, tighten, ream for the dowels; then tailstock, tool post, belt, wheels and guards.", Needs: bench, Minutes: [2]float64{180, 480}, Record: "test bar, both planes, at the nose and 300 mm out", Cautions: []string{heavy, "All guards are on, and reach as far as before, before it runs."}})
}
