package web_test

import (
	"encoding/json"
	"net/http"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/upgrade"
)

// A third of the slide's 150 may hang over: 50. Tight within 0.03 of it: 4.5. Both are thresholds, and can be changed.
func TestCheckOpensToItsLimitToo(t *testing.T) {
	k := keep(t, demo.Lathe())
	figure := "/figures/cross.slide_on_saddle_ways.hangs_minus"
	check := "check=cross.slide_on_saddle_ways.overhang_minus"
	page := k.get(t, figure+"?"+check)
	says(t, page, "Limit: at most 50 mm", "0.33 × 150", "Tight within 4.5 mm of it.", "Source: common practice, no source: two thirds of a slide stay supported when cutting",
		`<a href="`+k.url+`/axes/cross#slide_on_saddle_ways.overhang_most">Change: slide: share of it that may hang over, 0.33</a>`,
		`#slide_on_saddle_ways.overhang_near"`)
	saysNot(t, page, "#slide.from", "#slide.to") // what was measured is as it is
	saysNot(t, k.get(t, figure), "Limit: at most", "Tight within")

	// Where only touching is tight, and nothing can be changed.
	page = k.get(t, "/figures/cross.dial_slide.gap?check=cross.dial_slide.check")
	says(t, page, "Limit: at least 0 mm", "Tight only where it just touches.")
	saysNot(t, page, "Change:")
}

// The lists lead there, and the sheet has the field, that of a draft's limit too.
func TestLimitOfADraftCanBeChanged(t *testing.T) {
	m := demo.Lathe()
	m.Upgrades[0].Inputs["amount"] = "12"
	b := benchOf(t, m)
	page := b.get(b.path).Body.String()
	says(t, page, "cross.front_wall.length?draft=1&amp;check=cross.front_wall.left_check")
	held := b.get("/machines/1/figures/cross.front_wall.length?draft=1&check=cross.front_wall.left_check")
	require.Equal(t, http.StatusOK, held.Code)
	says(t, held.Body.String(), "Limit: at least 8 mm", "max(front wall wall to stay, 5 mm)", "/axes/cross#front_wall.left_least", "/axes/cross#front_wall.keep", "#front_wall.left_near")
	sheet := b.get("/machines/1/axes/cross").Body.String()
	says(t, sheet, `id="front_wall.left_least"`, `id="front_wall.left_near"`, `id="front_wall.keep"`)

	// Open on the planning page, both are explained at once.
	open := b.post(b.path, b.form("amount", "12", "open", "cross.front_wall.length"))
	says(t, said(open), "Limit: at least 8 mm", "Tight within 0.5 mm of it.")
}

// A limit that follows from other figures shows what it comes to: 1.5 × 12 of engagement, in inches too.
func TestComputedLimitsShowTheirValue(t *testing.T) {
	says(t, keep(t, demo.Lathe()).get(t, "/axes/cross"), `placeholder="18, as worked out"`)
	says(t, keep(t, demo.Lathe().In("in")).get(t, "/axes/cross"), `placeholder="0.709, as worked out"`)
}

// A figure that is not known is no limit: a pin that nobody has chosen does not hold 0 N·m at the most.
func TestUnknownLimitIsNone(t *testing.T) {
	m := demo.Lathe()
	m.Upgrades = []upgrade.Upgrade{{ID: "1", Kind: "feed_trip", Axis: "cross", State: upgrade.Draft, Inputs: map[string]string{}}}
	b := benchOf(t, m)
	r := request(http.MethodGet, b.path, nil)
	r.Header.Set("Accept", "application/json")
	var got struct {
		Checks struct {
			Touched []struct{ Name, Limit string }
		}
	}
	require.NoError(t, json.Unmarshal(send(b.server.Handler(), r).Body.Bytes(), &got))
	limits := map[string]string{}
	for _, c := range got.Checks.Touched {
		limits[c.Name] = c.Limit
	}
	require.Equal(t, "–", limits["Pin goes before anything else"])
}
