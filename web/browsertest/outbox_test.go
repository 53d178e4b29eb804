package browsertest_test

import (
	"fmt"
	"net/http"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/store"
	"fettle/web/browsertest"
)

// away is a shop in whose place another program answers what is sent, while it is told to.
func away(t *testing.T) (s *shop, is *atomic.Bool) {
	t.Helper()
	return awayWith(t, http.StatusOK)
}

func awayWith(t *testing.T, status int) (s *shop, is *atomic.Bool) {
	t.Helper()
	is = &atomic.Bool{}
	return newShopBehind(t, func(h http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if r.Method == http.MethodPost && is.Load() {
				w.Header().Set("Content-Type", "text/html")
				w.WriteHeader(status)
				fmt.Fprint(w, "<p>Welcome to the network")
				return
			}
			h.ServeHTTP(w, r)
		})
	}), is
}

// keptKeys counts the entries that the browser keeps.
const keptKeys = `Object.keys(localStorage).filter(name => name.startsWith("fettle ")).length`

// waits writes an entry with a photo while nobody takes it.
func waits(t *testing.T, tab *browsertest.Tab, text string) {
	t.Helper()
	tab.Wait(`document.querySelector(".entry-live") !== null`)
	tab.Fill("#text", text)
	tab.Files("#files", file(t, "one.jpg", jpegOf(t, plain(320, 240, red))))
	tab.WaitText(".photo-state", "sent again by itself")
	tab.Click(".entry-save")
	tab.WaitText("#outbox", text+", 1 photo")
	require.Empty(t, tab.Value("#text"))
}

// An entry that waits is sent from a page that is not of its log, once: also when two pages are open.
func TestWaitingEntryIsSentFromAnyPage(t *testing.T) {
	s, isAway := away(t)
	isAway.Store(true)
	tab := browsertest.Open(t, s.log(), phoneScreen)
	waits(t, tab, "Scraped")
	tab.Go("http://" + s.address + "/bench")
	tab.WaitText("#outbox-told", "Not sent yet. Scraped, 1 photo")
	tab.FitsWidth()
	tab.Axe()
	tab.Screenshot("outbox-elsewhere-phone.png")
	tab.Eval(`document.querySelector("h1").onclick = () => { window.other = open("/machines/1/log") }`, nil)
	tab.Click("h1") // a browser opens a page for a hand alone
	tab.Wait(`window.other?.document.querySelector("#outbox")?.innerText.includes("Scraped")`)
	require.Empty(t, s.entries())
	isAway.Store(false)
	tab.Wait(keptKeys + ` === 0`)
	all := s.entries()
	require.Len(t, all, 1)
	require.Equal(t, "Scraped", all[0].Text)
	require.Len(t, all[0].Photos, 1)
	for _, page := range []string{"document", "window.other.document"} { // also on the one that has not sent it
		tab.Wait(`![...` + page + `.querySelectorAll(".outbox")].some(told => told.innerText.includes("Not sent yet"))`)
	}

	// What was begun stays in its form.
	tab.Go(s.log())
	tab.Wait(`document.querySelector(".entry-live") !== null`)
	require.Empty(t, tab.Text("#outbox"))
	tab.Fill("#text", "Not done")
	tab.Go("http://" + s.address + "/bench")
	tab.Wait(`document.readyState === "complete"`)
	require.Empty(t, tab.Text("#outbox-told"))
	tab.Go(s.log())
	tab.Wait(`document.querySelector("#text").value === "Not done"`)
	require.Len(t, s.entries(), 1)
}

// A browser that keeps nothing, for want of room or because it was told so, keeps the entry in its form, and sends
// it from there.
func TestBrowserThatKeepsNothing(t *testing.T) {
	for name, full := range map[string]string{
		"text":   `Storage.prototype.setItem = () => { throw new Error("full") }`,
		"photos": `IDBObjectStore.prototype.put = () => { throw new Error("full") }`,
	} {
		t.Run(name, func(t *testing.T) {
			s, isAway := away(t)
			isAway.Store(true)
			tab := browsertest.Open(t, s.log(), phoneScreen)
			tab.Wait(`document.querySelector(".entry-live") !== null`)
			tab.Eval(full, nil)
			tab.Fill("#text", "Scraped")
			tab.Files("#files", file(t, "one.jpg", jpegOf(t, plain(320, 240, red))))
			tab.WaitText(".photo-state", "sent again by itself")
			tab.WaitText("#draft-told", "keeps no draft")
			tab.Click(".entry-save")
			tab.WaitText("#draft-told", "leave this page open")
			require.Equal(t, "Scraped", tab.Value("#text"))
			isAway.Store(false)
			tab.WaitText("#page", "The entry is in the log.")
			all := s.entries()
			require.Len(t, all, 1)
			require.Equal(t, "Scraped", all[0].Text)
			require.Len(t, all[0].Photos, 1)
		})
	}
}

// What one page has sent of an entry stays sent, though another that does not know keeps the entry once more.
func TestTwoPagesKeepOneEntry(t *testing.T) {
	s := newShop(t)
	tab := browsertest.Open(t, "http://"+s.address+"/bench", phoneScreen)
	var kept string
	tab.Eval(`import(document.querySelector("script[src$='outbox.js']").src.replace("outbox", "kept")).then(m => {
		const asBegun = { key: "k1", fields: { text: "Scraped", hours: "", cost: "" }, photos: [{ id: "p1", name: "one.jpg" }], done: true };
		m.keepEntry("/machines/1/log", asBegun);
		m.photoCame("/machines/1/log", "k1", "p1", "3f2a");
		m.keepEntry("/machines/1/log", asBegun);
		return m.sumOf("/machines/1/log", "k1", "p1");
	})`, &kept)
	require.Equal(t, "3f2a", kept)
}

// What is typed while an entry is on its way is saved too, as a change of it.
func TestTypedWhileItIsSent(t *testing.T) {
	came, answered := make(chan struct{}, 1), make(chan struct{})
	s := newShopBehind(t, func(h http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if r.Method == http.MethodPost && r.URL.Path == "/machines/1/log" {
				came <- struct{}{}
				<-answered
			}
			h.ServeHTTP(w, r)
		})
	})
	tab := browsertest.Open(t, s.log(), phoneScreen)
	tab.Wait(`document.querySelector(".entry-live") !== null`)
	tab.Fill("#text", "Scraped")
	tab.Click(".entry-save")
	<-came
	tab.Fill("#text", "Scraped, and tried")
	tab.Files("#files", file(t, "one.jpg", jpegOf(t, plain(320, 240, red))))
	close(answered)
	tab.WaitText("#page", "The entry is in the log.")
	all := s.entries()
	require.Len(t, all, 1)
	require.Equal(t, "Scraped, and tried", all[0].Text)
	require.Len(t, all[0].Photos, 1)
	tab.Wait(keptKeys + ` === 0`)
}

// An entry whose machine is gone is not sent for ever: it is said, and can be thrown away.
func TestWaitingEntryOfNoLog(t *testing.T) {
	s, isAway := away(t)
	isAway.Store(true)
	tab := browsertest.Open(t, s.log(), phoneScreen)
	tab.Allow("status of 404")
	waits(t, tab, "Scraped")
	require.NoError(t, s.kept.DeleteMachine(t.Context(), 1))
	isAway.Store(false)
	tab.Go("http://" + s.address + "/")
	tab.WaitText("#outbox-told", "Not taken. Scraped, 1 photo")
	tab.Click("#outbox-told button")
	tab.Wait(keptKeys + ` === 0`)
	require.Empty(t, tab.Text("#outbox-told"))
}

// A device that is shut out keeps what was written on it, says so, and sends it once it has signed in.
func TestShutOutDeviceKeepsItsEntries(t *testing.T) {
	_, network, kept := networked(t)
	phone := browsertest.Open(t, network, phoneScreen)
	phone.Allow("status of 401")
	signIn := func() {
		phone.Fill("#passphrase", "password")
		phone.Press("Enter")
	}
	signIn()
	phone.WaitText("h1", "Machines")
	phone.Go(network + "/machines/1/log")
	phone.Wait(`document.querySelector(".entry-live") !== null`)
	all, err := kept.Devices(t.Context())
	require.NoError(t, err)
	require.NoError(t, kept.ShutOut(t.Context(), all[0].ID))
	phone.Fill("#text", "Scraped")
	phone.Click(".entry-save")
	phone.WaitText("#outbox", "This device is not signed in, or no longer. The entry is kept in this browser")
	phone.Axe()
	phone.Screenshot("outbox-shut-out-phone.png")
	phone.Click(`#outbox a[href^="/signin"]`)
	phone.WaitText("h1", "Sign in")
	phone.WaitText("#outbox-told", "Kept in this browser: 1 entry of a build log")
	require.NotContains(t, phone.Text("#page"), "Scraped", "whoever is not signed in reads nothing of it")
	phone.FitsWidth()
	phone.Axe()
	phone.Screenshot("outbox-sign-in-phone.png")
	signIn()
	phone.WaitText("#log-list", "Scraped")
	phone.Wait(keptKeys + ` === 0`)
	page, err := kept.Log(t.Context(), store.LogQuery{MachineID: 1})
	require.NoError(t, err)
	require.Len(t, page.Entries, 1)
}
