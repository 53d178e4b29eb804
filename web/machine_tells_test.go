package web_test

import (
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
)

var missingLink = regexp.MustCompile(`<li><a href="([^"]*)">([^<]*)</a>`)

// A blank top slide: each measurement that is asked for has a name and a way to its field, and each is there.
func TestMissingLeadsToItsField(t *testing.T) {
	k := keep(t, machine.Machine{Name: "Lathe", Kind: "lathe", Units: "mm"})
	k.post(t, "/axes", http.StatusSeeOther, "label", "Top slide", "arrangement", "travelling_screw")
	page := k.get(t, "")
	_, page, _ = strings.Cut(page, "What to measure next")
	page, _, _ = strings.Cut(page, "</section>")
	links := missingLink.FindAllStringSubmatch(page, -1)
	require.NotEmpty(t, links)
	sheet := k.get(t, "/axes/top_slide")
	for _, link := range links {
		name := strings.TrimSpace(strings.TrimPrefix(link[2], "Top slide:"))
		require.NotEmpty(t, name, link[1])
		field, ok := strings.CutPrefix(link[1], k.url+"/axes/top_slide#")
		require.True(t, ok, link[1])
		says(t, sheet, `id="`+field+`"`)
	}
	says(t, page, "Top slide: travel as found", "#travel_found")
	saysNot(t, page, "what stops it", "maybe")
}

// A check of an inch machine is told in inches wherever it is told: 72 mm hang over as found, and 50 is the most.
func TestAsFoundIsToldInItsUnits(t *testing.T) {
	k := keep(t, demo.Lathe().In("in"))
	_, told, _ := strings.Cut(k.get(t, ""), "As found, before any change")
	told, _, _ = strings.Cut(told, "</section>")
	says(t, told, "2.835 in of the slide hangs over, and 1.969 in is the most.")
	saysNot(t, told, " mm")
}

// Every problem is called by the name of its field.
func TestProblemsAreCalledByTheirField(t *testing.T) {
	m := demo.Lathe()
	a := &m.Axes[0]
	slide, _ := a.Part("slide")
	slide.Entries["gib_screws"] = plan.Entry{Typed: "3; none; 9"}
	bracket, _ := a.Part("bracket")
	bracket.Entries["bolts"] = plan.Entry{Typed: "2.5"}
	thread, _ := a.Part("thread")
	thread.Entries["form"] = plan.Entry{Typed: "square"}
	a.Entries["slide_on_saddle_ways.overhang_most"] = plan.Entry{Typed: "a fifth"}
	a.Entries["swing_bed"] = plan.Entry{Typed: "210", Spread: "?"}
	k := keep(t, m)
	page := k.get(t, "")
	says(t, page, "Slide gib screws at: cannot be read", k.url+"/axes/cross#slide.gib_screws", "Bracket bolts: give a whole number.", "Screw thread form: choose one of the list.",
		"Slide: share of it that may hang over: cannot be read", "Swing over the bed, plus or minus: cannot be read")
	saysNot(t, page, "cross.slide.", "Cross.slide", "is a count, and")
}

// What ends the travel touches it, as it always did: that is no tight check of the plan.
func TestTallyCountsWhatIsSaid(t *testing.T) {
	m := demo.Lathe()
	m.Upgrades = nil
	page := keep(t, m).get(t, "")
	says(t, page, `id="checks-holds"`)
	saysNot(t, page, `id="checks-tight"`, `id="checks-fails"`)

	// Asked for 17, of a wall of 23 that is to stay 8, is 2 too much: the list has it.
	m = demo.Lathe()
	m.Upgrades[0].State, m.Upgrades[0].Inputs["amount"] = upgrade.Planned, "17"
	page = keep(t, m).get(t, "")
	_, fails, _ := strings.Cut(page, `id="checks-fails"`)
	fails, _, _ = strings.Cut(fails, "</details>")
	says(t, fails, "fails, 1 check", "Wall left: front wall")
}

// What another axis breaks as found is no matter of this one's plan.
func TestPlanChecksAreOfItsAxis(t *testing.T) {
	m := demo.Mill()
	cross := demo.Lathe().Axes[0]
	m.Axes = append(m.Axes, cross)
	b := benchOf(t, m)
	w := b.post(b.path, b.form("amount", "12", "end", "minus"))
	require.Equal(t, http.StatusOK, w.Code)
	saysNot(t, said(w), "Broken as found", "Cross slide:", "splash tray")

	page := said(b.get("/machines/1"))
	says(t, page, "Cross slide: slide overhang, inward. 72 mm of the slide hangs over")
}
