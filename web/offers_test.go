package web_test

import (
	"encoding/json"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
)

// words is what a page says, without its marks.
func words(page string) string {
	return strings.Join(strings.Fields(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(page, " ")), " ")
}

// The lathe's page of upgrades: outward the tool can come to stand outside of
// 2 (88 + 15 − 4) = 198, inward the rear wall of 6 has nothing to give.
func TestOffersPage(t *testing.T) {
	k := keep(t, demo.Lathe())
	page := k.get(t, "/upgrades")
	says(t, page, "What it could become", "More travel", "168 mm → at best 198 mm: 30 mm more", "the gap to the splash tray", "8 to 25 h",
		"Not possible here: wall left: rear wall", "0.12 mm → 0.01 mm: 0.11 mm less", "New feed nut", "To be measured", "lost motion, middle of the travel", "Guided")
	// Where it can be measured, the page leads there.
	require.Contains(t, page, k.url+"/axes/cross#")
}

// A nut is planned on the project's cross slide: another one is not told as a gain, and the page leads to what has its place.
func TestOffersThatAreTaken(t *testing.T) {
	k := keep(t, demo.LatheProject())
	page := k.get(t, "/upgrades?q=feed+nut&axis=cross")
	says(t, words(page), "Taken: “New feed nut, Cross slide” has the nut; of the two, one can be planned", "Drop or change first: New feed nut, Cross slide")
	require.Contains(t, page, `href="`+k.url+`/upgrades/4"`)
}

// Of a machine that has no axis yet, the page says what is missing.
func TestOffersOfNothing(t *testing.T) {
	k := keep(t, machine.Machine{Name: "Bare", Kind: "lathe", Units: "mm"})
	page := k.get(t, "/upgrades")
	says(t, words(page), "No axis is there yet")
	saysNot(t, page, "Take a word or a condition away")
}

// Words, British and American, and conditions narrow the list; what does not fit is not shown.
func TestOffersAreNarrowed(t *testing.T) {
	k := keep(t, demo.Lathe())
	says(t, k.get(t, "/upgrades?q=backlash"), "New feed nut")
	saysNot(t, k.get(t, "/upgrades?q=backlash"), "New gib strip")
	says(t, k.get(t, "/upgrades?q=end+play"), "Thrust bearings on the screw")
	says(t, k.get(t, "/upgrades?q=zzzz"), "Nothing is left")
	saysNot(t, k.get(t, "/upgrades?undo=fully"), "Thrust bearings on the screw", "More travel ·")
	saysNot(t, k.get(t, "/upgrades?hours=8"), "More travel ·")
	saysNot(t, k.get(t, "/upgrades?gains=yes"), "Not possible here", "Not known yet")
	saysNot(t, k.get(t, "/upgrades?without.dividing=yes"), "New dial ·")
	// A condition that does not exist narrows nothing.
	says(t, k.get(t, "/upgrades?hours=many&undo=never&axis=moon"), "More travel")
}

// The same as JSON, with what a draft would begin with.
func TestOffersAsJSON(t *testing.T) {
	k := keep(t, demo.Lathe())
	r := request(http.MethodGet, k.url+"/upgrades?q=travel", nil)
	r.Header.Set("Accept", "application/json")
	w := send(k, r)
	require.Equal(t, http.StatusOK, w.Code)
	var got struct {
		Groups []struct {
			Offers []struct {
				Kind, Way, Told string
				Inputs          []struct{ Name, Value string }
			}
		}
	}
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &got))
	for _, g := range got.Groups {
		for _, o := range g.Offers {
			if o.Kind == "extend_travel" && o.Way == "further outward" {
				require.Equal(t, "gains", o.Told)
				require.Contains(t, o.Inputs, struct{ Name, Value string }{"amount", "15 mm"})
				return
			}
		}
	}
	require.Fail(t, "more travel is not among them")
}

// What is tried begins with what its gain was told for.
func TestOfferIsBegun(t *testing.T) {
	m := demo.Lathe()
	m.Upgrades = nil
	k := keep(t, m)
	at := k.post(t, "/upgrades", http.StatusSeeOther, "axis", "cross", "kind", "extend_travel", "in.end", "plus", "in.amount", "15 mm")
	require.Equal(t, k.url+"/upgrades/1", at)
	u := k.now(t).Upgrades[0]
	require.Equal(t, upgrade.Draft, u.State)
	require.Equal(t, map[string]string{"end": "plus", "amount": "15 mm"}, u.Inputs)
	says(t, words(k.get(t, "/upgrades/1")), "goes 15 mm further outward, at most")
	says(t, k.get(t, "/upgrades"), "there already", "draft 1")
}

// From a complaint to its causes, how to tell them apart, and what cures each here.
func TestComplaints(t *testing.T) {
	k := keep(t, demo.Lathe())
	page := k.get(t, "/complaints?about=lost_motion")
	says(t, words(page), "The handle turns before the slide moves", "The nut is worn, or the screw is", "How to tell", "New feed nut", "The screw moves endways in its bearing",
		"Cross slide: end float of the screw 0.12 mm", "Thrust bearings on the screw")
	require.Contains(t, page, `<details id="lost_motion" open>`)
	require.Contains(t, page, k.url+"/upgrades#thrust_set-cross")
}

func looseLathe() machine.Machine {
	m := demo.Lathe()
	m.Upgrades = nil
	m.Axes[0].Entries["lost_motion"] = plan.Entry{Typed: "0.25", With: "dial_gauge"}
	return m
}

// Lost motion below 0.1 takes bearings (0.12 to 0.01) and a nut (0.13 to 0.05)
// together; taking the way makes a draft of each.
func TestWaysPage(t *testing.T) {
	k := keep(t, looseLathe())
	ask := "figure=cross.lost_motion_all&to=0.1"
	page := k.get(t, "/ways?"+ask)
	says(t, words(page), "It is to be at most", "As planned it is 0.25 mm", "New feed nut", "Thrust bearings on the screw", "0.06 mm", "as long as the old one, 0.05 mm")
	saysNot(t, words(page), ", none") // what an option is called inside is nobody's word

	r := request(http.MethodGet, k.url+"/ways?"+ask, nil)
	r.Header.Set("Accept", "application/json")
	var got struct {
		Ways []struct {
			Number   int
			Upgrades []struct{ Label string }
		}
	}
	require.NoError(t, json.Unmarshal(send(k, r).Body.Bytes(), &got))
	number := ""
	for _, w := range got.Ways {
		var labels []string
		for _, u := range w.Upgrades {
			labels = append(labels, u.Label)
		}
		if all := strings.Join(labels, "+"); len(labels) == 2 && strings.Contains(all, "New feed nut") && strings.Contains(all, "Thrust bearings") {
			number = string(rune('0' + w.Number))
		}
	}
	require.NotEmpty(t, number)
	k.post(t, "/ways", http.StatusSeeOther, "figure", "cross.lost_motion_all", "to", "0.1", "way", number)
	require.Len(t, k.now(t).Upgrades, 2)
	for _, u := range k.now(t).Upgrades {
		require.Equal(t, upgrade.Draft, u.State)
	}
	k.post(t, "/ways", http.StatusConflict, "figure", "cross.lost_motion_all", "to", "0.1", "way", "99")
}

// What cannot be read is said at its field, and stays.
func TestWaysRefuseNonsense(t *testing.T) {
	k := keep(t, looseLathe())
	w := send(k, request(http.MethodGet, k.url+"/ways?"+url.Values{"figure": {"cross.start_disc"}, "to": {"big"}}.Encode(), nil))
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	says(t, w.Body.String(), "cannot be read")
	require.Contains(t, w.Body.String(), `value="big"`)
	says(t, words(k.get(t, "/ways?figure=cross.start_disc&to=160")), "It is there already")
	says(t, words(k.get(t, "/ways?figure=cross.start_disc&to=400")), "reaches that here. This comes nearest.", "More travel")
	w = send(k, request(http.MethodGet, k.url+"/ways?figure=moon&to=1", nil))
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	says(t, w.Body.String(), "choose one of the list", `value="1"`)
	require.NotContains(t, w.Body.String(), "As planned it is")
	w = send(k, request(http.MethodGet, k.url+"/ways?figure=cross.start_disc&to=+", nil))
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	says(t, w.Body.String(), "give what it is to come to")
	require.NotContains(t, words(k.get(t, "/ways?figure=cross.start_disc")), "give what it is to come to", "nothing was asked yet")
}

// The range of every figure: 15 of travel until the wall is 8; a lap of 11 at the least.
func TestRangePage(t *testing.T) {
	m := demo.Lathe()
	m.Upgrades[0].Inputs["amount"] = "12"
	k := keep(t, m)
	page := k.get(t, "/upgrades/1/range")
	says(t, words(page), "everything holds from 0 mm to 15 mm", "up to 15 mm: wall left: front wall", "from 11 mm on: lap of the joint", "What it costs: largest diameter to start on, disc work", "least 8")
	says(t, k.get(t, "/upgrades/1"), "The range of every figure, and what it costs")
}

// BenchmarkOffersPage is the page of upgrades of the demo lathe, with every gain worked out.
func BenchmarkOffersPage(b *testing.B) {
	handler, kept, path := benchPage(b)
	at := path[:strings.LastIndex(path, "/")]
	b.ReportAllocs()
	for b.Loop() {
		w := send(handler, request(http.MethodGet, at, nil))
		if w.Code != http.StatusOK {
			b.Fatal(w.Code, w.Body.String())
		}
	}
	require.NoError(b, kept.Close())
}
