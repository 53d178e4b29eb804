package browsertest_test

import (
	"context"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/store"
	"fettle/web"
	"fettle/web/browsertest"
)

// networked serves a demo machine to this computer and to a network, and gives the address of either. The
// passphrase is "password": its hash is of the reference implementation's tests of argon2.
func networked(t *testing.T) (desk, network string, kept *store.Store) {
	t.Helper()
	kept = newStore(t)
	require.NoError(t, kept.SetPassphrase(t.Context(), "$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4"))
	_, err := kept.AddMachine(t.Context(), demo.Lathe())
	require.NoError(t, err)
	here, there := http.NewServeMux(), http.NewServeMux()
	own, far := httptest.NewServer(here), httptest.NewServer(there)
	t.Cleanup(own.Close)
	t.Cleanup(far.Close)
	_, port, err := net.SplitHostPort(own.Listener.Addr().String())
	require.NoError(t, err)
	s, err := web.New(web.Options{Listen: "0.0.0.0:" + port, Hosts: []string{far.Listener.Addr().String()}, Log: slog.New(slog.DiscardHandler), Store: kept, Now: time.Now})
	require.NoError(t, err)
	here.Handle("/", s.Handler())
	there.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) { // as if over the air
		at := net.Addr(&net.TCPAddr{IP: net.IPv4(192, 168, 7, 7), Port: 8270})
		r = r.WithContext(context.WithValue(r.Context(), http.LocalAddrContextKey, at))
		r.RemoteAddr = "192.168.7.23:40000"
		s.Handler().ServeHTTP(w, r)
	})
	return own.URL, far.URL, kept
}

var (
	deskScreen  = browsertest.Screen{Width: 1280, Height: 800}
	phoneScreen = browsertest.Screen{Width: 360, Height: 740, Touch: true}
)

// A phone is paired by the address in the picture, seen at the desk, and shut out; a second one that has the
// same address gets nowhere.
func TestPhoneIsPairedAndShutOut(t *testing.T) {
	own, network, kept := networked(t)
	desk := browsertest.Open(t, own, deskScreen)
	desk.Click(`a[href="/phone"]`)
	desk.WaitText("h1", "Use your phone")
	desk.Click("#phone form button")
	desk.WaitVisible("#pair-link") // it follows the picture, which takes its time to arrive
	address := desk.Text("#pair-link")
	require.True(t, strings.HasPrefix(address, network+"/pair?code="), address)
	requirePicture(t, desk, address)

	phone := browsertest.Open(t, address, phoneScreen)
	phone.WaitText("h1", "Pair this device")
	phone.Fill("#name", "Old phone")
	phone.Press("Enter")
	phone.WaitText("h1", "Machines")
	desk.WaitText("#phone", "Old phone") // by itself
	desk.Wait(`document.querySelector(".qr") === null`)
	phone.Go(network + "/machines/1")
	phone.WaitText("h1", demo.Lathe().Name)
	phone.Go(network + "/phone")
	phone.WaitText("#phone", "Sign out")

	second := browsertest.Open(t, address, phoneScreen)
	second.Allow("status of 422")
	second.Allow("status of 401")
	second.Click(".sign-in button")
	second.WaitText("#code-problem", "this code does not work")
	second.Axe()
	second.Go(network + "/machines/1")
	second.WaitText("h1", "Sign in")

	desk.Click("#phone .devices button")
	desk.WaitText("#page", "Shut out.")
	phone.Reload()
	phone.WaitText("h1", "Sign in")
	all, err := kept.Devices(t.Context())
	require.NoError(t, err)
	require.Empty(t, all)
}

// requirePicture has another program read the QR code on the page: Debian's zbar-tools, where it is installed.
func requirePicture(t *testing.T, tab *browsertest.Tab, want string) {
	t.Helper()
	reader, err := exec.LookPath("zbarimg")
	if err != nil {
		require.NotEqual(t, "1", os.Getenv("FETTLE_REQUIRE_READERS"), "zbarimg is not installed")
		t.Log("the picture is not read: zbarimg is not installed")
		return
	}
	folder := t.TempDir()
	if os.Getenv("FETTLE_SCREENSHOTS") == "" {
		t.Setenv("FETTLE_SCREENSHOTS", folder)
	} else {
		folder = os.Getenv("FETTLE_SCREENSHOTS")
	}
	tab.Screenshot("access-code.png")
	said, err := exec.CommandContext(t.Context(), reader, "--quiet", "--raw", filepath.Join(folder, "access-code.png")).Output()
	require.NoError(t, err)
	require.Equal(t, want, strings.TrimSpace(string(said)))
}

// What was typed on a device that is shut out meanwhile stays on its page.
func TestShutOutWhileTyping(t *testing.T) {
	_, network, kept := networked(t)
	phone := browsertest.Open(t, network, phoneScreen)
	phone.Allow("status of 401")
	phone.Fill("#passphrase", "password")
	phone.Press("Enter")
	phone.WaitText("h1", "Machines")
	phone.Go(network + "/machines/1/axes/cross")
	all, err := kept.Devices(t.Context())
	require.NoError(t, err)
	require.Len(t, all, 1)
	phone.Wait(`document.readyState === "complete"`)
	require.NoError(t, kept.ShutOut(t.Context(), all[0].ID))
	phone.Fill(named("travel_found"), "91")
	phone.WaitText("#notices", "This device is not signed in, or no longer.")
	require.Equal(t, "91", phone.Value(named("travel_found")))
	require.Equal(t, "88", axisOf(t, kept).Entries["travel_found"].Typed, "nothing was changed")

	// Signed in again, as another tab would, it is sent with the next change.
	phone.Eval(`fetch("/signin", {method: "POST", body: new URLSearchParams({passphrase: "password"})})`, nil)
	phone.Fill(named("travel_found"), "92")
	settled(phone, "travel_found", "92")
	phone.Wait(`document.querySelector("#notices").childElementCount === 0`)
	require.Equal(t, "92", axisOf(t, kept).Entries["travel_found"].Typed)
}

// By keyboard alone, and without scripts: sign in, have a code shown, sign out.
func TestSignInByKeyboardWithoutScripts(t *testing.T) {
	for _, noScript := range []bool{false, true} {
		t.Run(fmt.Sprintf("noScript=%t", noScript), func(t *testing.T) {
			_, network, _ := networked(t)
			screen := phoneScreen
			screen.NoScript = noScript
			tab := browsertest.Open(t, network+"/machines/1", screen)
			tab.Allow("status of 422")
			press := func(until string) {
				t.Helper()
				for range 30 {
					tab.Press("Tab")
					var is bool
					tab.Eval(fmt.Sprintf(`document.activeElement.matches(%q)`, until), &is)
					if is {
						return
					}
				}
				require.Fail(t, "no way by keyboard to "+until)
			}
			press("#passphrase")
			tab.Type("not it")
			tab.Press("Enter")
			tab.WaitText("#passphrase-problem", "that is not the passphrase")
			require.Empty(t, tab.Value("#passphrase"), "a secret is not sent back")
			press("#passphrase")
			tab.Type("password")
			if !noScript {
				press("#shown")
				tab.Press("Space")
				tab.Wait(`document.querySelector("#passphrase").type === "text"`)
			}
			require.Equal(t, !noScript, tab.Visible("#shown"), "a tick that does nothing is not shown")
			press(".sign-in button")
			tab.Press("Enter")
			tab.WaitText("h1", demo.Lathe().Name) // the page that was asked for
			tab.Go(network + "/phone")
			press(`[action="/phone/code"] button`)
			tab.Press("Enter")
			tab.WaitVisible(".qr")
			press(`[action="/phone/sign-out"] button`)
			tab.Press("Enter")
			tab.WaitText("h1", "Sign in")
			tab.Go(network + "/phone")
			tab.WaitText("h1", "Sign in")
		})
	}
}

// The pages as everybody may see them.
func TestAccessOnEveryScreen(t *testing.T) {
	own, network, kept := networked(t)
	for i, name := range []string{"Old phone", "Tablet on the tool chest, the one with the cracked corner, 2nd"} {
		_, err := kept.AddDevice(t.Context(), hashOf(t, kept), store.Token{byte(i)}, store.Device{Name: name, Way: store.ByCode, Expires: time.Now().AddDate(0, 0, 30)}, 0)
		require.NoError(t, err)
	}
	off := serveStore(t, newStore(t))
	reply, err := http.PostForm(own+"/phone/code", url.Values{})
	require.NoError(t, err)
	require.NoError(t, reply.Body.Close())
	for name, address := range map[string]string{"phone": own + "/phone", "phone-off": off + "/phone", "signin": network + "/", "pair": network + "/pair?code=AAAA"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			browsertest.Open(t, address, browsertest.Screen{}).OnEveryScreen("access-" + name)
		})
	}
}

func hashOf(t *testing.T, kept *store.Store) string {
	t.Helper()
	hash, err := kept.Passphrase(t.Context())
	require.NoError(t, err)
	return hash
}
