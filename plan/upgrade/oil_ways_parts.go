package upgrade

import (
	"fmt"
	"math"
	"strings"

	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Parts of oil ways: the slide's underside with its grooves, oilers, a pump with
// its tube; the nut's drilled screw and its cap.
func (k oilWays) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if strings.TrimSpace(s.input("groove", "")) == "" {
		return Make{}
	}
	l := s.Layout
	sl, _ := l.OnWays()
	own := "upgrade_" + s.ID + "."
	points := few(s.input("points", "2"))
	rows := few(s.input("rows", "2"))
	long, wide := m.or(sl.Key+".length", 150), m.or(own+"way_width", 20)
	f := &part.Flat{Length: drawn("", long), Width: drawn("", wide), Thickness: drawn("", m.or(own+"metal", 15)), Angle: 90, Outline: true}
	groove := m.general(want{part: "oil_way", name: "groove", label: "groove's length", key: own + "groove", nominal: 40, grows: true})
	deep := m.limits(want{part: "oil_way", name: "depth", label: "groove's depth", key: own + "groove_depth", nominal: 1.2, leaf: own + "groove_depth", formula: "made", grows: true}, 0.3, -0.2, "common practice, no source: 1 to 1.5 mm")
	across := m.general(want{part: "oil_way", name: "width", label: "groove's width", key: own + "groove_width", nominal: 2.5, leaf: own + "groove_width", formula: "made", grows: true})
	for i := range points {
		middle := long * (float64(i) + 0.5) / float64(points)
		f.Features = append(f.Features,
			part.Feature{Kind: part.Oil, Label: "oil groove", X: drawn("", math.Max(0, middle-groove.Nominal/2)), Y: drawn("", (wide-across.Nominal)/2), Length: groove, Width: across, Depth: deep},
			part.Feature{Kind: part.Hole, Label: "oil hole, through to the oiler", X: m.general(want{part: "oil_way", label: fmt.Sprintf("oil hole %d from the slide's end", i+1), nominal: middle}), Y: drawn("", wide/2), Dia: drawn("", 3)})
		groove.Name, across.Name, deep.Name = "", "", "" // the others are alike
	}
	m.add(part.Part{Key: "oil_way", Label: "one way of the " + sl.Label + ", with oil grooves", Altered: true, Replaces: sl.Key, Material: casting(sl.Material), Flat: f,
		Notes: []string{fmt.Sprintf("Alike on %d ways.", rows), "Drawn straight; a zigzag between the same ends, " + spanSays(m, own) + " across, carries oil further.", "Clear of the gib screws' seats; edges of the grooves broken with a scraper, no burr."}})
	vg := unit.Count.Text(m.or(own+"vg", 68), 0)
	m.buy(part.Bought{Key: "way_oil", Label: "slideway oil, 1 litre", Designation: "ISO 3448 VG " + vg, Quantity: 1, For: "fill_oil", Source: "ISO 3448: viscosity in mm²/s at 40 °C, ± 10 %"})
	if s.input("fed", "hand") == "pump" {
		tube := part.Bought{Key: "oil_tube", Label: "nylon tube, 4 mm outside", Quantity: 1, For: "fit_pump", Source: "common practice, no source"}
		if hose, ok := m.figure(own + "hose"); ok {
			tube.Label += ", " + s.Units.With(hose) + " and the run along the machine"
		}
		m.buy(part.Bought{Key: "oil_pump", Label: "hand pump for oil, 1 to 3 cm³ a stroke", Quantity: 1, For: "fit_pump", Source: "common practice, no source"})
		m.buy(part.Bought{Key: "oil_meters", Label: "metering units, one for each oil point, with a check valve", Quantity: points * rows, For: "fit_pump", Confirm: "mill_grooves", Source: "common practice, no source: without them all the oil takes the easiest way"})
		m.buy(tube)
	} else {
		m.buy(part.Bought{Key: "oilers", Label: "ball oilers, pressed in, 6 mm", Quantity: points * rows, For: "fit_oilers", Confirm: "mill_grooves", Source: "common practice, no source"})
	}
	k.steps(m, f)
	oilScrewParts(m)
	m.proofOf(k.About())
	return m.finish()
}

func spanSays(m *making, own string) string {
	if v, ok := m.figure(own + "span"); ok {
		return m.Units.With(v)
	}
	return "as wide as the way allows"
}

func (oilWays) steps(m *making, f *part.Flat) {
	m.step(stripped, "", part.Operation{Key: "slide_off", Do: "Take the slide off, clean it, and mark on its ways how far each comes at either end of the travel.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "the ways and the marks, with a photo", Cautions: []string{isolate}})
	m.step(cut, "oil_way", part.Operation{Key: "mill_grooves", Do: "Drill the oil holes from the ways upwards, then cut the grooves with a small ball-nosed cutter, or with a chisel and a die grinder.", Needs: []part.Capability{part.Milling}, Envelope: [2]float64{f.Length.Nominal, 0}, Minutes: [2]float64{90, 240}, Record: "depth of each groove, and a photo", Cautions: []string{eyes, ironDust},
		Asks: []string{"Does each groove lie under its way wherever the slide stands? One that comes off the ways feeds the floor.", "Does an oil point feed into a groove that is shut at both ends? Oil cannot push air out there: a small notch, or a second hole.", "Where do the gib screws bear? No groove crosses them."}})
	m.step(fitted, "", part.Operation{Key: "clean_slide", Do: "Scrape the burrs off, wash all holes through with paraffin, and dry them.", Needs: []part.Capability{part.Scraping}, Minutes: [2]float64{30, 60}, Record: "the clean ways, with a photo", Cautions: []string{"Paraffin: no flame, open the window, gloves."}})
	if m.input("fed", "hand") == "pump" {
		m.step(assembled, "", part.Operation{Key: "fit_pump", Do: "Fit pump, meters and tube; clip the tube where the travel is half done, so that its loop rolls and rubs nowhere.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 180}, Record: "the loop with the slide at both ends, with photos",
			Asks: []string{"Does the tube clear chuck, work and swarf at both ends of the travel?"}})
	} else {
		m.step(assembled, "", part.Operation{Key: "fit_oilers", Do: "Press the ball oilers in, flush, where swarf does not lie on them.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{20, 40}, Record: "where they are, with a photo"})
	}
	m.step(assembled, "", part.Operation{Key: "fill_oil", Do: "Fill each point until oil comes out at the way's edge; wind the slide over all its travel and fill again. Wipe up what ran down.", Needs: []part.Capability{part.Bench}, Minutes: [2]float64{15, 30}, Record: "where oil came out, with a photo",
		Asks: []string{"Did oil come out at every way?"}})
}
