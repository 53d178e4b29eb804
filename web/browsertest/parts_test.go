package browsertest_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web/browsertest"
)

// asked serves the demo lathe with 12 more planned, and gives the address of the parts for it.
func asked(t *testing.T) (page string, kept *store.Store) {
	t.Helper()
	page, kept = planned(t)
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	u := m.Upgrades[0]
	u.Inputs["amount"], u.State = "12", upgrade.Planned
	_, _, err = kept.SaveUpgrade(t.Context(), 1, m.UpgradeRevisions[u.ID], u)
	require.NoError(t, err)
	return page + "/parts", kept
}

func buyPage(parts string) string {
	machine, _, _ := strings.Cut(parts, "/upgrades/")
	return machine + "/buy"
}

// The bracket came out 0.08 long, as it is typed.
func TestPartAsMadeLive(t *testing.T) {
	page, kept := asked(t)
	tab := browsertest.Open(t, page, browsertest.Screen{})
	tab.Fill(`[id="made.bracket.length"]`, "36.58")
	tab.WaitText("#came", "Make the extension of the screw's end, length over all, 24.58 mm instead of 24.5 mm.")
	tab.WaitText("#follows", "10.58 mm")
	tab.WaitText(`[id="made.bracket.length-told"]`, "in limits")
	require.Equal(t, "made.bracket.length", tab.Focus())
	tab.Choose(`[id="made.bracket.length.with"]`, "micrometer")
	tab.Wait(`!document.querySelector(".htmx-request") && document.querySelector('[id="made.bracket.length.with"] option[selected]').value === "micrometer"`)
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	require.Equal(t, "36.58", m.Upgrades[0].Made["bracket.length"].Typed)
	require.Equal(t, "micrometer", m.Upgrades[0].Made["bracket.length"].With)
	tab.Screenshot("parts-as-made.png")

	// A figure opens to how it comes about, and stays open.
	tab.Click("#size-bracket-1 > summary")
	tab.WaitText("#size-bracket-1", "as made")
	tab.Allow("status of 422")
	tab.Fill(`[id="made.bracket.length"]`, "banana")
	tab.WaitVisible("#unreadable")
	require.Equal(t, "banana", tab.Value(`[id="made.bracket.length"]`))
	require.True(t, tab.Visible("#size-bracket-1 .explain"))
}

func TestPartsWithoutScripts(t *testing.T) {
	page, kept := asked(t)
	tab := browsertest.Open(t, page, browsertest.Screen{NoScript: true})
	tab.Fill(`[id="made.bracket.length"]`, "36.58")
	tab.Press("Enter")
	tab.WaitText("#came", "24.58 mm instead of 24.5 mm")
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	require.Equal(t, "36.58", m.Upgrades[0].Made["bracket.length"].Typed)
	tab.Choose("#angle", "third")
	tab.Click("#drawings button")
	tab.WaitText("#part-bracket", "third angle")
}

func TestBuyLive(t *testing.T) {
	page, kept := asked(t)
	tab := browsertest.Open(t, buyPage(page), browsertest.Screen{})
	tab.Fill("#currency", "EUR")
	tab.Wait(`document.querySelector("#currency").getAttribute("value") === "EUR" && !document.querySelector(".htmx-request")`)
	tab.Fill(`[id="price.iso-15-10-x-19-x-5"]`, "6.50")
	tab.WaitText("#sums", "6.50 EUR")
	tab.Choose(`[id="own.0.material"]`, "6082")
	tab.Choose(`[id="own.0.form"]`, "flat")
	tab.Fill(`[id="own.0.across"]`, "40")
	tab.Fill(`[id="own.0.second"]`, "30")
	tab.Fill(`[id="own.0.length"]`, "100")
	tab.WaitText("#bars", "you have it")
	tab.Wait(`document.querySelector('[id="own.1.length"]') !== null`)
	sh, _, err := kept.Shopping(t.Context(), 1)
	require.NoError(t, err)
	require.Equal(t, "6.50", sh.Marks[0].Price)
	require.Equal(t, "100", sh.Offcuts[0].Length)
	tab.Screenshot("buy-noted.png")
}

// Both pages as everybody may see them.
func TestPartsAndListsOnEveryScreen(t *testing.T) {
	page, kept := asked(t)
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	u := m.Upgrades[0]
	u.Made = madeOf("bracket.length", "37.7", "bracket.dia", "29.7", "bracket.flange", "8,1 or so")
	_, _, err = kept.SaveUpgrade(t.Context(), 1, m.UpgradeRevisions[u.ID], u)
	require.NoError(t, err)
	for name, address := range map[string]string{"parts": page, "buy": buyPage(page)} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			browsertest.Open(t, address, browsertest.Screen{}).OnEveryScreen(name)
		})
	}
}

// madeOf gives sizes as made: key, typed, key, typed.
func madeOf(pairs ...string) map[string]plan.Entry {
	made := map[string]plan.Entry{}
	for i := 0; i < len(pairs); i += 2 {
		made[pairs[i]] = plan.Entry{Typed: pairs[i+1]}
	}
	return made
}

// On paper each drawing is a page of its own, at true scale.
func TestPartsOnPaper(t *testing.T) {
	page, _ := asked(t)
	tab := browsertest.Open(t, page, browsertest.Screen{})
	paper := tab.PDF()
	// Eight sheets, none of them followed or led by an empty one. A4 is 595 by 842 points.
	require.Len(t, a4Page.FindAll(paper, -1), 8)
	savePaper(t, "parts.pdf", paper)
	tab.Go(buyPage(page))
	savePaper(t, "buy.pdf", tab.PDF())
}

var a4Page = regexp.MustCompile(`/MediaBox \[0 0 (59[45]\.\d+ 84[12]\.\d+|84[12]\.\d+ 59[45]\.\d+)\]`)

// savePaper keeps a printed page where screenshots are kept, if they are.
func savePaper(t *testing.T, name string, paper []byte) {
	t.Helper()
	if folder := os.Getenv("FETTLE_SCREENSHOTS"); folder != "" {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), paper, 0o600))
	}
}
