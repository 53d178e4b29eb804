package upgrade

import (
	"math"
	"strings"

	"fettle/plan/fastener"
	"fettle/plan/part"
	"fettle/plan/sheet"
)

// Parts of a plinth: the block, its bolts, a stud for the toolpost.
func (k plinth) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if strings.TrimSpace(s.input("height", "")) == "" {
		return Make{}
	}
	own := "upgrade_" + s.ID + "."
	height := m.limits(want{part: "plinth", name: "height", label: "height", key: own + "height", nominal: 50, leaf: own + "height", formula: "made"}, 0.1, -0.1, "common practice, no source: the holder takes up more, that its faces are parallel matters")
	for _, leaf := range []string{"centre_above_cross", own + "centre"} {
		if m.Layout.Scope.Has(leaf) {
			height = m.suits(height, "the centre height, with your toolpost", leaf, 1)
			break
		}
	}
	size := s.input("bolt", "M8")
	head, _ := fastener.ScrewNamed("ISO 4762", size)
	hole, _ := fastener.ClearanceFor(size)
	long, wide := m.or(own+"base_long", 80), m.or(own+"base_wide", 70)
	across := m.or("swivel_circle", m.or(own+"across", long/2))
	f := &part.Flat{Length: m.general(want{part: "plinth", name: "length", label: "length", key: own + "base_long", nominal: 80}), Width: m.general(want{part: "plinth", name: "width", label: "width", key: own + "base_wide", nominal: 70}), Thickness: height, Angle: 90}
	sunk := m.general(want{part: "plinth", label: "counterbore, depth", nominal: head.Height + 0.5, grows: true})
	rows := []float64{wide / 2}
	if few(s.input("bolts", "2")) == 4 {
		rows = []float64{wide / 4, 3 * wide / 4}
	}
	for _, y := range rows {
		for _, x := range []float64{(long - across) / 2, (long + across) / 2} {
			place := drawn("", math.Max(1, x))
			place.Suits, place.Limits = "the holes in the cross slide, spotted through", toSuit
			f.Features = append(f.Features,
				part.Feature{Kind: part.Hole, Label: "bolt, " + size, X: place, Y: drawn("", y), Dia: m.general(want{part: "plinth", label: "bolt hole", nominal: hole.Medium, grows: true})},
				part.Feature{Kind: part.Hole, Label: "counterbore for its head", X: drawn("", place.Nominal), Y: drawn("", y), Dia: m.general(want{part: "plinth", label: "counterbore", nominal: math.Ceil(head.HeadMost) + 1, grows: true}), Depth: sunk})
		}
	}
	stud := "M10"
	if d, ok := m.figure("post_bolt"); ok {
		stud = metric(d)
	}
	f.Features = append(f.Features, part.Feature{Kind: part.Hole, Label: "stud of the toolpost", X: drawn("", long/2), Y: drawn("", wide/2), Dia: drawn("", 8.5), Thread: stud, Depth: m.general(want{part: "plinth", label: "thread for the stud, depth", nominal: 20, grows: true})})
	m.add(part.Part{Key: "plinth", Label: "plinth", Material: s.input("material", "gjl250"), Flat: f, Notes: []string{
		"Top and bottom parallel within 0.02 mm in 100 mm, the edges of the foot broken, its middle relieved by 0.2 mm so that it bears outside.",
		"A spigot or two dowels that bring it back to its place, square to the spindle, save setting it by a gauge."}})
	b := part.Bought{Key: "plinth_bolts", Label: "bolts of the plinth", Quantity: few(s.input("bolts", "2")), For: "plinth", Confirm: "measure_plinth", Source: "ISO 4762"}
	tapped, okT := m.figure(own + "tapped")
	if h, ok := m.figure(own + "height"); ok && okT {
		if c, err := head.For(fastener.Hole{Grip: h - sunk.Nominal, Engagement: 1.5 * head.Dia, Depth: tapped}); err == nil {
			b.Designation = head.Designation(c.Length)
		} else {
			b.Label += ": " + err.Error()
		}
	}
	m.buy(b)
	m.step(measured, "", part.Operation{Key: "measure_plinth", Do: "Take the top slide off, measure the holes or the T-slot in the cross slide, their depth, and from its top up to a centre in the spindle. Put it back: it is needed.", Needs: []part.Capability{part.Bench}, Out: m.Layout.Key, Minutes: [2]float64{30, 60}, After: []string{"readings_before"}, Record: "the holes' places and depth, the centre height", Cautions: []string{isolate},
		Asks: []string{"Do you turn tapers, or cut threads with the top slide set over? Then it goes back for those.", "Is it the tool that wants to be stiff, or does the travel want to be longer? A plinth gives no travel."}})
	m.step(made, "plinth", part.Operation{Key: "mill_plinth", Do: "Mill the block square, its height last, top and bottom in one setting or turned over on a clean table; drill, counterbore and tap.", Needs: []part.Capability{part.Milling}, Envelope: [2]float64{long, wide}, After: []string{"measure_plinth"}, Minutes: [2]float64{120, 300}, Record: "height at the four corners, by micrometer", Cautions: []string{eyes, ironDust}})
	m.step(stripped, "", part.Operation{Key: "top_slide_off", Do: "Take toolpost and top slide off, oil it and keep it with its bolts.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{10, 25}, Record: "bolts and washers, with a photo", Cautions: []string{isolate, "Hold it while its last bolt comes out."}})
	m.step(assembled, "", part.Operation{Key: "fit_plinth", Do: "Wipe both faces clean, bolt the plinth down crosswise, set it square by a gauge along its side, and dowel it. Set the tool to the centre.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "a feeler that does not enter its joint, with a photo"})
	m.proofOf(k.About())
	return m.finish()
}
