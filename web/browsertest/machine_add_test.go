package browsertest_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/preset"
	"fettle/web/browsertest"
)

// begun serves a shaper begun from its size class, at /machines/1.
func begun(t *testing.T) (url string) {
	t.Helper()
	kept := newStore(t)
	m, ok := preset.Machine("shaper", preset.Small)
	require.True(t, ok)
	_, err := kept.AddMachine(t.Context(), m)
	require.NoError(t, err)
	return serveStore(t, kept)
}

// The pages on which machines and axes are begun, and what is measured next, are readable by everybody.
func TestBeginningIsAccessible(t *testing.T) {
	url := begun(t)
	for name, path := range map[string]string{"home": "/", "kinds": "/machines/new", "new": "/machines/new?kind=knee_mill", "other": "/machines/new?kind=other",
		"machine": "/machines/1", "ram": "/machines/1/axes/shaper_ram", "table": "/machines/1/axes/shaper_table"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			tab := browsertest.Open(t, url+path, browsertest.Screen{})
			tab.Eval(`document.querySelectorAll("#new-axis, #usual-others, #measure-next-rest").forEach(d => d.open = true)`, nil)
			tab.OnEveryScreen("begin-" + name)
		})
	}
}

// From nothing to a machine with its usual axes, one more of another machine, and the first thing to
// measure: with no script at all.
func TestMachineBegunWithoutScripts(t *testing.T) {
	kept := newStore(t)
	tab := browsertest.Open(t, serveStore(t, kept)+"/", browsertest.Screen{Width: 360, Height: 740, NoScript: true})
	tab.Allow("status of 422")
	tab.Click(`a[href="/machines/new?kind=lathe"]`)
	tab.WaitText("h1", "New machine: lathe")
	tab.Click(".new-machine .main-action")
	tab.WaitText("#size-problem", "choose one of the list")
	tab.Click("#size-medium")
	tab.Click(".new-machine .main-action")
	tab.WaitText("h1", "Lathe")
	tab.WaitText("#measure-next", "Only assumed.")

	tab.Click("#new-axis summary")
	tab.Click("#usual-others summary")
	tab.Click("#usual-column")
	tab.Click("#size-small")
	tab.Click(`#new-axis button`)
	tab.WaitText("h1", "Column height")
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	require.Len(t, m.Axes, 6)
}

// What to measure next leads to its field, and what is measured exactly is named no more.
func TestMeasureNextLeadsToItsField(t *testing.T) {
	tab := browsertest.Open(t, begun(t)+"/machines/1/axes/shaper_ram", browsertest.Screen{})
	tab.WaitText("#measure-next", "ram start")
	tab.Click(`#measure-next a[href="#ram.from"]`)
	tab.Choose(named("ram.from.origin"), "measured")
	tab.Fill(named("ram.from.spread"), "0.5")
	tab.Wait(`!document.querySelector("#measure-next").innerText.includes("ram start")`)
}
