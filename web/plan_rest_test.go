package web_test

import (
	"encoding/json"
	"net/http"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/upgrade"
)

// follows is what a planning page says, as JSON.
type follows struct {
	Axis    string
	Guided  bool
	Measure []string
	Reach   struct{ Say []string }
	Own     []struct{ Key string } `json:"knock_ons"`
	Rest    []struct{ Key string } `json:"rest_of_the_plan"`
}

// beside is a draft beside the demo lathe's project, in which the cross slide's
// screw gets thrust bearings.
func beside(t *testing.T, kind, axis string, inputs map[string]string) (page string, says follows) {
	t.Helper()
	m := demo.LatheProject()
	m.Upgrades = append(m.Upgrades, upgrade.Upgrade{ID: "99", Kind: kind, Axis: axis, State: upgrade.Draft, Inputs: inputs})
	k := keep(t, m)
	r := request(http.MethodGet, k.url+"/upgrades/99", nil)
	r.Header.Set("Accept", "application/json")
	require.NoError(t, json.Unmarshal(send(k, r).Body.Bytes(), &says))
	return k.get(t, "/upgrades/99"), says
}

// What other upgrades change stands apart; spindle bearings do not move a slide's screw.
func TestPlanTellsItsOwnKnockOns(t *testing.T) {
	page, got := beside(t, "spindle_bearings", "cross", map[string]string{})
	float := struct{ Key string }{"cross.end_float"}
	require.NotContains(t, got.Own, float)
	require.Contains(t, got.Rest, float)
	require.Contains(t, page, "changed by what else is planned")

	_, got = beside(t, "power_feed", "top_slide", map[string]string{"fastest": "150"})
	require.Contains(t, got.Own, struct{ Key string }{"top_slide.upgrade_99.fastest"})
	require.NotContains(t, got.Own, float)
	require.Contains(t, got.Rest, float)
}

// A guided kind says so, and what to measure first; of the whole machine, it is on no axis.
func TestPlanOfAGuidedKind(t *testing.T) {
	page, got := beside(t, "spindle_bearings", "cross", map[string]string{})
	require.True(t, got.Guided)
	require.Empty(t, got.Axis)
	says(t, words(page), "Guided, for the whole machine", "Measure first Run-out in the spindle", "How you will know that it is better.")
	require.NotContains(t, page, `id="side"`, "no side view of a slide that is not meant")
}

// A screw of 1.25 mm lead turned at 160 rpm goes 200 mm in a minute: how far a
// feed could go is told as a feed.
func TestPlanReachHasItsUnit(t *testing.T) {
	_, got := beside(t, "power_feed", "top_slide", map[string]string{"fastest": "150", "speed": "160"})
	require.Contains(t, got.Reach.Say[0], "You could have 200 mm/min")
}
