package browsertest_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web/browsertest"
)

// project serves a machine with a whole project on it, at /machines/1.
func project(t *testing.T, m machine.Machine) (url string, kept *store.Store) {
	t.Helper()
	kept = newStore(t)
	_, err := kept.AddMachine(t.Context(), m)
	require.NoError(t, err)
	return serveStore(t, kept), kept
}

// looseLathe has lost motion of 0.27 in its cross slide, 0.12 of it end float,
// and nothing planned.
func looseLathe() machine.Machine {
	m := demo.LatheProject()
	m.Upgrades = nil
	return m
}

// fromComplaint goes from the machine's page by a complaint to its cure, tries it, and adds it to the plan.
func fromComplaint(t *testing.T, screen browsertest.Screen) {
	url, kept := project(t, looseLathe())
	tab := browsertest.Open(t, url+"/machines/1", screen)
	tab.Click(`a[href="/machines/1/complaints"]`)
	tab.WaitText("h1", "What bothers you")
	tab.Wait(`document.readyState === "complete"`)
	tab.Click("#lost_motion > summary")
	tab.WaitText("#lost_motion", "How to tell")
	tab.Click(`#lost_motion a[href="/machines/1/upgrades#thrust_set-cross"]`)
	tab.WaitVisible("#thrust_set-cross")
	require.Contains(t, tab.Text("#thrust_set-cross"), "less")
	tab.Click("#thrust_set-cross .offer-begin button")
	tab.WaitText("h1", "Thrust bearings on the screw")
	tab.WaitText("#answer", "End float comes to 0.01 mm")
	require.Equal(t, "0.01 mm", tab.Value(".field-big input"), "the input that its gain was told for")
	tab.Click("#plan-actions .main-action")
	tab.WaitText("#plan-actions + p", "in the plan")
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	require.Equal(t, upgrade.Planned, m.Upgrades[0].State)
}

func TestFromAComplaint(t *testing.T) { fromComplaint(t, browsertest.Screen{}) }

func TestFromAComplaintWithoutScripts(t *testing.T) {
	fromComplaint(t, browsertest.Screen{Width: 360, Height: 740, NoScript: true})
}

// orderOf is the IDs of the upgrades, as they are kept.
func orderOf(t *testing.T, kept *store.Store) string {
	t.Helper()
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	var ids []string
	for _, u := range m.Upgrades {
		ids = append(ids, u.ID)
	}
	return strings.Join(ids, " ")
}

// Moved up, dropped, and brought back: the figure is the one before, each time.
func TestReorderAndDrop(t *testing.T) {
	url, kept := project(t, demo.LatheProject())
	before := orderOf(t, kept)
	tab := browsertest.Open(t, url+"/machines/1", browsertest.Screen{})
	planned := func() (line string) {
		t.Helper()
		const at = `[...document.querySelectorAll(".stage-line")].find(e => e.innerText.includes("disc work"))`
		tab.Wait(at + " !== undefined")
		tab.Eval(at+".innerText", &line)
		return line
	}
	was := planned()
	tab.Click(`form[action="/machines/1/upgrades/2/move"] button[value="up"]`)
	tab.Wait(`document.querySelector('form[action="/machines/1/upgrades/2/move"] button[value="up"]')?.disabled`)
	require.NotEqual(t, before, orderOf(t, kept))
	require.Equal(t, was, planned(), "a dial does not move the travel, wherever it stands")
	tab.Go(url + "/machines/1/upgrades/1")
	tab.Click(`#plan-actions button[formaction$="/drop"]`)
	tab.WaitText("h1", "Dropped")
	tab.Click(`main a[href="/machines/1"]`)
	tab.WaitText("h1", "Lathe")
	require.NotEqual(t, was, planned())
	tab.Go(url + "/machines/1/upgrades/1/dropped")
	tab.Click("main form button")
	tab.WaitText("h1", "More travel")
	tab.Go(url + "/machines/1")
	require.Equal(t, was, planned())
}

// On a phone: words of both countries, an axis, more about one, and begun with a thumb.
func TestBrowseOnAPhone(t *testing.T) {
	url, _ := project(t, looseLathe())
	tab := browsertest.Open(t, url+"/machines/1/upgrades", browsertest.Screen{Width: 360, Height: 740, Touch: true})
	tab.FitsWidth()
	for _, c := range []struct{ words, finds string }{
		{"backlash", "New feed nut"}, {"end play", "Thrust bearings on the screw"}, {"end float", "Thrust bearings on the screw"}, {"compound", "Plinth in place of the top slide"},
	} {
		tab.Fill("#q", c.words)
		tab.Wait(fmt.Sprintf(`new URLSearchParams(location.search).get("q") === %q && !document.querySelector(".htmx-request")`, c.words))
		tab.WaitText("#offers", c.finds)
		require.False(t, tab.Has(".offers-idle"), "what is searched for is not folded away")
	}
	tab.Fill("#q", "end play")
	tab.Wait(`new URLSearchParams(location.search).get("q") === "end play"`)
	tab.Choose("#axis", "cross")
	tab.Wait(`new URLSearchParams(location.search).get("axis") === "cross" && !document.querySelector(".htmx-request")`)
	tab.Wait(`!document.querySelector("#offers").innerText.toLowerCase().includes("top slide ·")`)
	tab.Click("#more-thrust_set-cross > summary")
	tab.WaitText("#more-thrust_set-cross", "Proved by")
	tab.FitsWidth()
	var high float64
	tab.Eval(`Math.min(...[...document.querySelectorAll(".offer-begin button, .offer-more > summary")].filter(e => e.checkVisibility()).map(e => e.getBoundingClientRect().height))`, &high)
	require.GreaterOrEqual(t, high, 44.0, "large enough for a thumb: WCAG 2.2, 2.5.5")
	tab.Click("#thrust_set-cross .offer-begin button")
	tab.WaitText("h1", "Thrust bearings on the screw")
	tab.FitsWidth()
}

// Lost motion below 0.1 takes a nut and the bearings together: taken, each is a draft.
func TestFromAGoal(t *testing.T) {
	url, kept := project(t, looseLathe())
	tab := browsertest.Open(t, url+"/machines/1/ways", browsertest.Screen{})
	tab.Choose("#figure", "cross.lost_motion_all")
	tab.Fill("#to", "0.1")
	tab.Press("Enter")
	tab.WaitText("#found", "reach")
	tab.Click(`.way:has(.way-steps li:nth-child(2)) button`)
	tab.WaitVisible("#plan-actions")
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(m.Upgrades), 2)
	for _, u := range m.Upgrades {
		require.Equal(t, upgrade.Draft, u.State)
	}
}

// With the keyboard alone: a word, and the first that is found is begun.
func TestBrowseByKeyboard(t *testing.T) {
	url, _ := project(t, looseLathe())
	tab := browsertest.Open(t, url+"/machines/1/upgrades", browsertest.Screen{})
	onto := func(condition string) {
		t.Helper()
		for range 60 {
			var is bool
			if tab.Eval(condition, &is); is {
				return
			}
			tab.Press("Tab")
		}
		require.Fail(t, "never reached: "+condition)
	}
	onto(`document.activeElement.id === "q"`)
	tab.Type("end play")
	tab.Wait(`new URLSearchParams(location.search).get("q") === "end play" && !document.querySelector(".htmx-request")`)
	onto(`document.activeElement.matches("#thrust_set-cross .offer-begin button")`)
	tab.Press("Enter")
	tab.WaitText("h1", "Thrust bearings on the screw")
}

func TestUpgradesAreAccessible(t *testing.T) {
	m := demo.LatheProject()
	for i, kind := range []string{"spindle_bearings", "oil_ways", "scales", "handwheel", "screw_covers"} {
		m.Upgrades = append(m.Upgrades, upgrade.Upgrade{ID: fmt.Sprint(100 + i), Kind: kind, Axis: "cross", State: upgrade.Draft, Inputs: map[string]string{}})
	}
	url, _ := project(t, m)
	for _, path := range []string{"", "/upgrades", "/upgrades?q=nut", "/complaints?about=lost_motion", "/ways", "/ways?figure=cross.lost_motion_all&to=0.1", "/upgrades/1/range",
		"/upgrades/1", "/upgrades/100", "/upgrades/101", "/upgrades/102", "/upgrades/103", "/upgrades/104"} {
		t.Run(path, func(t *testing.T) {
			t.Parallel()
			name := strings.NewReplacer("/", "-", "?", "-").Replace(path)
			browsertest.Open(t, url+"/machines/1"+path, browsertest.Screen{}).OnEveryScreen("offers-" + name)
		})
	}
}
