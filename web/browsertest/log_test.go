package browsertest_test

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"io"
	"log/slog"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/buildlog"
	"fettle/plan/demo"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web"
	"fettle/web/browsertest"
)

// shop is a server that can be stopped and started again, at the same address, on the same data folder.
type shop struct {
	t       *testing.T
	folder  string
	address string
	before  func(http.Handler) http.Handler // what stands before the pages
	kept    *store.Store
	server  *http.Server
}

func newShop(t *testing.T) *shop {
	t.Helper()
	return newShopBehind(t, func(h http.Handler) http.Handler { return h })
}

func newShopBehind(t *testing.T, before func(http.Handler) http.Handler) *shop {
	t.Helper()
	s := &shop{t: t, folder: t.TempDir(), before: before}
	s.start()
	t.Cleanup(s.stop)
	_, err := s.kept.AddMachine(t.Context(), demo.Lathe())
	require.NoError(t, err)
	return s
}

func (s *shop) start() {
	s.t.Helper()
	listener := s.listen()
	var err error
	s.kept, err = store.Open(s.t.Context(), s.folder, time.Now)
	require.NoError(s.t, err)
	own, err := web.New(web.Options{Listen: s.address, Log: slog.New(slog.DiscardHandler), Store: s.kept, Now: time.Now})
	require.NoError(s.t, err)
	server := &http.Server{Handler: s.before(own.Handler())}
	s.server = server
	go func() { _ = server.Serve(listener) }() // until it is closed
}

// listen takes a port below those that a system gives away by itself: while the shop is stopped, nobody takes it.
func (s *shop) listen() net.Listener {
	s.t.Helper()
	if s.address != "" {
		listener, err := net.Listen("tcp", s.address)
		require.NoError(s.t, err)
		return listener
	}
	for range 100 {
		listener, err := net.Listen("tcp", fmt.Sprint("127.0.0.1:", 20_000+rand.IntN(12_000)))
		if err == nil {
			s.address = listener.Addr().String()
			return listener
		}
	}
	s.t.Fatal("no port is free")
	return nil
}

func (s *shop) stop() {
	if s.server == nil {
		return
	}
	require.NoError(s.t, s.server.Close())
	require.NoError(s.t, s.kept.Close())
	s.server = nil
}

func (s *shop) log() string { return "http://" + s.address + "/machines/1/log" }

// entries are all that the log has.
func (s *shop) entries() []store.LogEntry {
	s.t.Helper()
	page, err := s.kept.Log(s.t.Context(), store.LogQuery{MachineID: 1})
	require.NoError(s.t, err)
	return page.Entries
}

// write keeps an entry, with photos, a file each.
func (s *shop) write(e buildlog.Entry, files ...[]byte) {
	s.t.Helper()
	if e.Key == "" {
		e.Key = store.NewLogKey()
	}
	for i, file := range files {
		p, err := s.kept.AddPhoto(s.t.Context(), 1, e.Key, bytes.NewReader(file))
		require.NoError(s.t, err)
		if i < len(e.Photos) {
			p.Caption, p.Role = e.Photos[i].Caption, e.Photos[i].Role
			e.Photos[i] = p
			continue
		}
		e.Photos = append(e.Photos, p)
	}
	_, err := s.kept.SaveLogEntry(s.t.Context(), 1, 0, e)
	require.NoError(s.t, err)
}

var (
	red   = color.RGBA{200, 30, 30, 255}
	green = color.RGBA{30, 160, 30, 255}
	blue  = color.RGBA{30, 60, 200, 255}
	grey  = color.RGBA{120, 120, 120, 255}
)

// cornered is a grey photo with a red corner at the top on the left, and a blue one at the top on the right.
func cornered(width, height int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	draw.Draw(img, img.Rect, image.NewUniform(grey), image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(0, 0, width/4, height/4), image.NewUniform(red), image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(width*3/4, 0, width, height/4), image.NewUniform(blue), image.Point{}, draw.Src)
	return img
}

func plain(width, height int, c color.Color) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	draw.Draw(img, img.Rect, image.NewUniform(c), image.Point{}, draw.Src)
	return img
}

func jpegOf(t *testing.T, img image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, jpeg.Encode(&out, img, &jpeg.Options{Quality: 90}))
	return out.Bytes()
}

// file writes a file for the browser to choose.
func file(t *testing.T, name string, content []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, content, 0o600))
	return path
}

// exiftool is Debian's libimage-exiftool-perl.
func exiftool(t *testing.T, args ...string) string {
	t.Helper()
	path, err := exec.LookPath("exiftool")
	if err != nil {
		if os.Getenv("FETTLE_REQUIRE_READERS") == "1" {
			t.Fatal(err)
		}
		t.Skip("skipped without exiftool: ", err)
	}
	said, err := exec.CommandContext(t.Context(), path, args...).CombinedOutput()
	require.NoError(t, err, string(said))
	return string(said)
}

// asCoded is how a camera that is held in one of eight ways codes a picture, so that the orientation tells
// how it is turned back. Source: Exif 2.32, tag 0x0112: row 0 and column 0 of the coded picture are 1 top
// left, 2 top right, 3 bottom right, 4 bottom left, 5 left top, 6 right top, 7 right bottom, 8 left bottom.
func asCoded(upright *image.RGBA, orientation int) *image.RGBA {
	w, h := upright.Rect.Dx(), upright.Rect.Dy()
	at := map[int]func(row, column int) (x, y int){
		1: func(r, c int) (int, int) { return c, r },
		2: func(r, c int) (int, int) { return w - 1 - c, r },
		3: func(r, c int) (int, int) { return w - 1 - c, h - 1 - r },
		4: func(r, c int) (int, int) { return c, h - 1 - r },
		5: func(r, c int) (int, int) { return r, c },
		6: func(r, c int) (int, int) { return w - 1 - r, c },
		7: func(r, c int) (int, int) { return w - 1 - r, h - 1 - c },
		8: func(r, c int) (int, int) { return r, h - 1 - c },
	}[orientation]
	coded := image.NewRGBA(image.Rect(0, 0, w, h))
	if orientation >= 5 {
		coded = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for r := range coded.Rect.Dy() {
		for c := range coded.Rect.Dx() {
			x, y := at(r, c)
			coded.Set(c, r, upright.At(x, y))
		}
	}
	return coded
}

func isNear(t *testing.T, want color.RGBA, img image.Image, x, y int, what string) {
	t.Helper()
	r, g, b, _ := img.At(x, y).RGBA()
	for i, pair := range [][2]int{{int(want.R), int(r >> 8)}, {int(want.G), int(g >> 8)}, {int(want.B), int(b >> 8)}} {
		require.InDelta(t, pair[0], pair[1], 24, "%s, channel %d", what, i) // JPEG twice
	}
}

// Photos as a phone takes them, held in all eight ways, with the place in them: all are shown the right way
// up, and nothing that is shown says where it was.
func TestPhonePhotosAreUprightAndSayNoPlace(t *testing.T) {
	var paths []string
	for orientation := 1; orientation <= 8; orientation++ {
		path := file(t, fmt.Sprintf("held-%d.jpg", orientation), jpegOf(t, asCoded(cornered(480+orientation*8, 320), orientation)))
		exiftool(t, "-q", "-overwrite_original", "-n", fmt.Sprintf("-Orientation=%d", orientation), "-GPSLatitude=51.4779", "-GPSLatitudeRef=N",
			"-GPSLongitude=0.0015", "-GPSLongitudeRef=W", path)
		require.Contains(t, exiftool(t, "-GPSPosition", path), "51 deg")
		paths = append(paths, path)
	}
	s := newShop(t)
	tab := browsertest.Open(t, s.log(), phoneScreen)
	tab.Files("#files", paths...)
	tab.Wait(`document.querySelectorAll(".photo-row img").length === 8`)
	tab.Fill("#text", "Eight ways to hold a phone")
	tab.Axe()
	tab.FitsWidth()
	tab.Screenshot("log-quick-phone.png")
	tab.Click(".entry-save")
	tab.WaitText("#page", "The entry is in the log.")
	tab.Wait(`[...document.querySelectorAll(".entry img")].length === 8`)
	tab.Eval(`document.querySelectorAll(".entry img").forEach(i => { i.loading = "eager" })`, nil)
	tab.Wait(`[...document.querySelectorAll(".entry img")].every(i => i.complete && i.naturalWidth > i.naturalHeight)`)
	photos := s.entries()[0].Photos
	require.Len(t, photos, 8)
	for i, p := range photos {
		require.Equal(t, 480+(i+1)*8, p.Width, "in the order in which they were chosen, the right way up")
		for _, size := range []string{"small", "large"} {
			reply, err := http.Get("http://" + s.address + "/photos/" + p.SHA256 + "/" + size)
			require.NoError(t, err)
			body, err := io.ReadAll(reply.Body)
			require.NoError(t, errors.Join(err, reply.Body.Close()))
			img, err := jpeg.Decode(bytes.NewReader(body))
			require.NoError(t, err)
			w, h := img.Bounds().Dx(), img.Bounds().Dy()
			what := fmt.Sprintf("held %d, %s", i+1, size)
			isNear(t, red, img, w/12, h/12, what)
			isNear(t, blue, img, w*11/12, h/12, what)
			isNear(t, grey, img, w/12, h*11/12, what)
			said := exiftool(t, "-a", "-G1", "-s", file(t, "served.jpg", body))
			require.NotContains(t, said, "GPS")
			require.NotContains(t, said, "Orientation")
		}
	}
}

// An entry that is begun survives a reload and a restart, photos and all, and is then one entry.
func TestDraftSurvivesReloadAndRestart(t *testing.T) {
	s := newShop(t)
	tab := browsertest.Open(t, s.log(), phoneScreen)
	tab.Allow("ERR_CONNECTION_REFUSED")
	tab.Allow("ERR_CONNECTION_RESET")
	tab.Allow("ERR_EMPTY_RESPONSE")
	tab.Fill("#text", "Gib scraped")
	tab.Click("#entry-more > summary")
	tab.Fill("#hours", "1:30")
	tab.Files("#files", file(t, "one.jpg", jpegOf(t, cornered(400, 300))))
	tab.Wait(`document.querySelectorAll(".photo-row img").length === 1`)
	s.stop()
	tab.Files("#files", file(t, "two.jpg", jpegOf(t, plain(300, 400, green))))
	tab.WaitText(".photo-row:last-child .photo-state", "sent again by itself")
	tab.Fill(".photo-row:last-child input[type=text]", "from below")
	s.start()
	tab.Reload()
	tab.Wait(`document.querySelector("#text").value === "Gib scraped"`)
	tab.Wait(`document.querySelectorAll(".photo-row img").length === 2`)
	require.Equal(t, "1:30", tab.Value("#hours"))
	require.Equal(t, "from below", tab.Value(".photo-row:last-child input[type=text]"))
	require.Empty(t, s.entries())
	tab.Click(".entry-save")
	tab.WaitText("#page", "The entry is in the log.")
	all := s.entries()
	require.Len(t, all, 1)
	require.Equal(t, "Gib scraped", all[0].Text)
	require.Equal(t, []int{400, 300}, []int{all[0].Photos[0].Width, all[0].Photos[1].Width})
	require.Equal(t, "from below", all[0].Photos[1].Caption)
	tab.Reload()
	tab.Wait(`document.querySelector(".entry-live") !== null`)
	require.Empty(t, tab.Value("#text"), "what is saved is no draft")
}

// Two entries are written without a network, and both are there once, when it is back: also the one whose
// answer was lost on the way.
func TestOfflineEntriesAreSentOnce(t *testing.T) {
	lose := make(chan struct{}, 1)
	lose <- struct{}{}
	s := newShopBehind(t, func(h http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if r.Method == http.MethodPost && r.URL.Path == "/machines/1/log" {
				select {
				case <-lose: // it is kept, and the answer does not arrive
					h.ServeHTTP(discarded{http.Header{}}, r)
					panic(http.ErrAbortHandler)
				default:
				}
			}
			h.ServeHTTP(w, r)
		})
	})
	tab := browsertest.Open(t, s.log(), phoneScreen)
	for _, expected := range []string{"ERR_INTERNET_DISCONNECTED", "ERR_EMPTY_RESPONSE", "ERR_CONNECTION", "Failed to fetch"} {
		tab.Allow(expected)
	}
	tab.Wait(`document.querySelector(".entry-live") !== null`)
	tab.Offline(true)
	tab.Fill("#text", "First, with a photo")
	tab.Files("#files", file(t, "one.jpg", jpegOf(t, plain(320, 240, red))))
	tab.WaitText(".photo-state", "sent again by itself")
	tab.Click(".entry-save")
	tab.WaitText("#outbox", "First, with a photo, 1 photo")
	require.Empty(t, tab.Value("#text"), "there is room for another")
	tab.Fill("#text", "Second")
	tab.Click(".entry-save")
	tab.WaitText("#outbox", "Second")
	tab.FitsWidth()
	tab.Axe()
	tab.Screenshot("log-outbox-phone.png")
	require.Empty(t, s.entries())
	tab.Offline(false)
	tab.WaitText("#log-list", "2 entries")
	all := s.entries()
	require.Len(t, all, 2)
	texts := []string{all[0].Text, all[1].Text}
	require.ElementsMatch(t, []string{"First, with a photo", "Second"}, texts)
	require.Empty(t, tab.Text("#outbox"))
}

// What answers in the place of Fettle, as the page of a hotspot or another program at its address, has kept
// nothing: the entry stays in the browser, and is sent once Fettle answers.
func TestAnswerOfAnotherIsNone(t *testing.T) {
	for _, status := range []int{http.StatusOK, http.StatusForbidden} {
		t.Run(http.StatusText(status), func(t *testing.T) { answeredByAnother(t, status) })
	}
}

func answeredByAnother(t *testing.T, status int) {
	s, isAway := awayWith(t, status)
	tab := browsertest.Open(t, s.log(), phoneScreen)
	tab.Allow("status of 403")
	tab.Wait(`document.querySelector(".entry-live") !== null`)
	isAway.Store(true)
	tab.Fill("#text", "Scraped")
	tab.Files("#files", file(t, "one.jpg", jpegOf(t, plain(320, 240, red))))
	tab.WaitText(".photo-state", "sent again by itself")
	tab.Click(".entry-save")
	tab.WaitText("#outbox", "Scraped, 1 photo")
	tab.Fill("#text", "Without a photo")
	tab.Click(".entry-save")
	tab.WaitText("#outbox", "Without a photo")
	require.Empty(t, s.entries())
	isAway.Store(false)
	tab.WaitText("#log-list", "2 entries")
	all := s.entries()
	require.ElementsMatch(t, []string{"Scraped", "Without a photo"}, []string{all[0].Text, all[1].Text})
	require.Equal(t, 1, len(all[0].Photos)+len(all[1].Photos))
}

// discarded is a reply that nobody reads.
type discarded struct{ header http.Header }

func (d discarded) Header() http.Header         { return d.header }
func (d discarded) Write(b []byte) (int, error) { return len(b), nil }
func (d discarded) WriteHeader(int)             {}

// Of three photos on their way one is taken away: the others arrive. One that is none says so, and does
// not keep the entry from being saved once it is taken away.
func TestPhotosDoNotHinderOneAnother(t *testing.T) {
	held := make(chan struct{})
	s := newShopBehind(t, func(h http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if strings.HasSuffix(r.URL.Path, "/photos") {
				select {
				case <-held:
				case <-r.Context().Done():
					return
				}
			}
			h.ServeHTTP(w, r)
		})
	})
	tab := browsertest.Open(t, s.log(), phoneScreen)
	tab.Allow("status of 422")
	tab.Files("#files", file(t, "a.jpg", jpegOf(t, plain(320, 240, red))), file(t, "b.jpg", jpegOf(t, plain(324, 240, green))),
		file(t, "c.jpg", jpegOf(t, plain(328, 240, blue))), file(t, "notes.jpg", []byte("no photo")))
	tab.WaitText(".photo-row:nth-child(2) .photo-state", "b.jpg: is sent")
	var high, stays int
	const height = `document.querySelector(".photo-row").offsetHeight`
	tab.Eval(height, &high)
	tab.Wait(`document.querySelector(".photo-row progress") !== null`)
	tab.Eval(height, &stays)
	require.Equal(t, high, stays, "no button moves from under a thumb")
	tab.Click(`.photo-row:nth-child(2) [value^="drop."]`)
	close(held)
	tab.Wait(`document.querySelectorAll(".photo-row img").length === 2`)
	tab.Eval(height, &stays)
	require.Equal(t, high, stays, "nor when it has come")
	tab.WaitText(".photo-row:last-child .photo-state", "notes.jpg: This is an unknown sort of file")
	require.True(t, tab.Visible(".photo-row:last-child .photo-again"))
	require.False(t, tab.Visible(".photo-row:first-child .photo-again"))
	tab.Click(".entry-save")
	tab.WaitText("#draft-told", "A photo was not taken.")
	require.Empty(t, tab.Text("#outbox"), "it is in the form, and waits for nobody")
	tab.Click(`.photo-row:last-child [value^="drop."]`)
	tab.Click(`.photo-row:first-child [value^="down."]`)
	tab.Choose(".photo-row:first-child select", "before")
	tab.Click(".entry-save")
	tab.WaitText("#page", "The entry is in the log.")
	photos := s.entries()[0].Photos
	require.Len(t, photos, 2)
	require.Equal(t, []int{328, 320}, []int{photos[0].Width, photos[1].Width})
	require.Equal(t, buildlog.Before, photos[0].Role)
}

// What is wrong is said at its field, with all that was typed; then it is saved.
func TestEntryWithAProblem(t *testing.T) {
	s := newShop(t)
	tab := browsertest.Open(t, s.log(), phoneScreen)
	tab.Allow("status of 422")
	tab.Fill("#text", "Bought a bearing")
	tab.Files("#files", file(t, "a.jpg", jpegOf(t, plain(320, 240, red))))
	tab.Wait(`document.querySelectorAll(".photo-row img").length === 1`)
	tab.Click("#entry-more > summary")
	tab.Fill("#cost", "12 oranges")
	tab.Click(".entry-save")
	tab.WaitText("#cost-problem", "such as")
	require.Equal(t, "Bought a bearing", tab.Value("#text"))
	require.True(t, tab.Has(".photo-row img"))
	tab.Fill("#cost", "€ 12,50")
	tab.Click(".entry-save")
	tab.WaitText(".entry", "12.50 EUR")
	require.Len(t, s.entries(), 1)
}

func TestLogWithoutScripts(t *testing.T) {
	s := newShop(t)
	tab := browsertest.Open(t, s.log(), browsertest.Screen{Width: 360, Height: 740, NoScript: true})
	tab.Fill("#text", "By hand")
	tab.Files("#files", file(t, "a.jpg", jpegOf(t, plain(320, 240, red))), file(t, "b.jpg", jpegOf(t, plain(324, 240, green))))
	tab.Click("[value=add]")
	tab.Wait(`document.querySelectorAll(".photo-row img").length === 2`)
	tab.Click(`.photo-row:first-child [value^="down."]`)
	tab.Wait(`document.readyState === "complete" && document.querySelector(".photo-row img").naturalWidth === 324`) // the second one, on the page that came
	tab.Click(".entry-save")
	tab.WaitText("#page", "The entry is in the log.")
	require.Equal(t, 324, s.entries()[0].Photos[0].Width)
	require.False(t, tab.Visible(".compare-slide"))
}

// A deletion is undone.
func TestDeletionIsUndone(t *testing.T) {
	s := newShop(t)
	s.write(buildlog.Entry{Key: "k1", At: "2026-03-01T14:30", Text: "Reamed the bracket"}, jpegOf(t, plain(320, 240, red)))
	tab := browsertest.Open(t, s.log(), phoneScreen)
	tab.Click(`[action$="/k1/delete"] button`)
	tab.WaitText(".message", "Deleted.")
	require.Empty(t, s.entries())
	tab.Screenshot("log-deleted-phone.png")
	tab.Click(".message button")
	tab.WaitText("h1", "1 March 2026, 14:30")
	require.Len(t, s.entries()[0].Photos, 1)
}

// The slider uncovers the photo after, by keyboard.
func TestCompareByKeyboard(t *testing.T) {
	s := newShop(t)
	s.write(buildlog.Entry{Key: "k1", At: "2026-03-01T14:30", Text: "Painted", Upgrade: "1",
		Photos: []buildlog.Photo{{Role: buildlog.Before, Caption: "as it came"}, {Role: buildlog.After, Caption: "in grey"}}},
		jpegOf(t, plain(800, 600, red)), jpegOf(t, plain(600, 800, green)))
	tab := browsertest.Open(t, s.log()+"/k1", browsertest.Screen{})
	tab.WaitVisible(".compare-slide")
	edge := func() (at string) {
		tab.Eval(`getComputedStyle(document.querySelector(".compare-after img")).clipPath`, &at)
		return at
	}
	require.Equal(t, "inset(0px 0px 0px 50%)", edge())
	tab.Eval(`document.querySelector(".compare-slide input").focus()`, nil)
	tab.Press("End")
	require.Equal(t, "inset(0px 0px 0px 100%)", edge(), "the photo before alone")
	tab.Press("Home")
	require.Equal(t, "inset(0px 0px 0px 0%)", edge(), "the photo after alone")
	tab.Press("ArrowRight")
	require.Equal(t, "inset(0px 0px 0px 1%)", edge())
	// The other of another shape lies exactly over the first.
	var same bool
	tab.Eval(`{
		const [a, b] = [...document.querySelectorAll(".compare img")].map(i => i.getBoundingClientRect());
		[a.top - b.top, a.left - b.left, a.width - b.width, a.height - b.height].every(d => Math.abs(d) < 1)
	}`, &same)
	require.True(t, same)
	tab.Screenshot("log-compare.png")
	tab.Go("http://" + s.address + "/machines/1/upgrades/1/log")
	tab.WaitVisible(".compare-slide")
}

// Any two photos of an upgrade are chosen by keyboard, and stand in the address; without scripts too.
func TestComparedPhotosAreChosen(t *testing.T) {
	s := newShop(t)
	s.write(buildlog.Entry{Key: "k1", At: "2026-03-01T14:30", Upgrade: "1", Photos: []buildlog.Photo{{Caption: "rough"}}}, jpegOf(t, plain(800, 600, red)))
	s.write(buildlog.Entry{Key: "k2", At: "2026-03-02T14:30", Upgrade: "1", Photos: []buildlog.Photo{{Caption: "bored"}, {Caption: "reamed"}}},
		jpegOf(t, plain(800, 600, green)), jpegOf(t, plain(800, 600, blue)))
	for name, screen := range map[string]browsertest.Screen{"scripts": {}, "none": {NoScript: true}} {
		t.Run(name, func(t *testing.T) {
			tab := browsertest.Open(t, "http://"+s.address+"/machines/1/upgrades/1/log", screen)
			tab.Click(`a[href$="/compare"]`)
			tab.WaitText("h1", "Before and after")
			tab.Click(`li:has(img[alt="rough"]) [name=before]`)
			tab.Click(`li:has(img[alt="reamed"]) [name=after]`)
			tab.Press("Enter")
			tab.WaitText(".compare-before", "rough")
			tab.WaitText(".compare-after", "reamed")
			require.Equal(t, !screen.NoScript, tab.Visible(".compare-slide"))
			tab.Click(`li:has(img[alt="bored"]) [name=after]`) // the other stays
			tab.Press("Enter")
			tab.WaitText(".compare-after", "bored")
			tab.WaitText(".compare-before", "rough")
		})
	}
}

// A search is live, and shows what was met.
func TestLogSearchIsLive(t *testing.T) {
	s := newShop(t)
	s.write(buildlog.Entry{At: "2026-03-01T14:30", Text: "Scraped the gib"})
	s.write(buildlog.Entry{At: "2026-03-02T14:30", Text: "Painted"})
	tab := browsertest.Open(t, s.log(), browsertest.Screen{})
	tab.Fill("#q", "gib")
	tab.WaitText("#log-list", "1 entry says so")
	tab.WaitText("mark", "gib")
	require.Equal(t, "q", tab.Focus())
}

// full is a log with all that it can show.
func full(t *testing.T) *shop {
	t.Helper()
	s := newShop(t)
	m, err := s.kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	u := m.Upgrades[0]
	u.Inputs["amount"], u.State = "12", upgrade.Planned
	_, revision, err := s.kept.SaveUpgrade(t.Context(), 1, m.UpgradeRevisions[u.ID], u)
	require.NoError(t, err)
	_, err = s.kept.SetUpgradeState(t.Context(), 1, u.ID, revision, upgrade.Finished, "2026-03-02")
	require.NoError(t, err)
	s.write(buildlog.Entry{Key: "k1", At: "2026-03-01T14:30", Hours: "1:30", Cost: "€ 12,50", Upgrade: "1",
		Text:   "# Bored the bracket\n\nIn **three** cuts:\n\n- one\n- two\n\n| cut | dia |\n|:--|--:|\n| 1 | 11.5 |\n\nSee [the table](https://example.org/a/very/long/address/that/has/no/end/to/it/at/all).",
		Photos: []buildlog.Photo{{Role: buildlog.Before, Caption: "the bracket as it was, on the surface plate"}, {Role: buildlog.After, Caption: "bored"}, {}}},
		jpegOf(t, cornered(800, 600)), jpegOf(t, plain(600, 800, green)), jpegOf(t, plain(500, 500, blue)))
	s.write(buildlog.Entry{Key: "k2", At: "2026-03-03T09:05", Hours: "45 min", Cost: "£7", Axis: "cross", Part: "nut", Text: "Measured the nut."})
	s.write(buildlog.Entry{Key: "k3", At: "2026-03-03T10:00", Cost: "a few", Text: "Oil"})
	s.write(buildlog.Entry{Key: "k4", At: "2026-03-03T11:00", Text: "Thrown away"})
	require.NoError(t, s.kept.DeleteLogEntry(t.Context(), 1, "k4"))
	// A photo whose file is gone, and one that was begun two days ago.
	s.write(buildlog.Entry{Key: "k5", At: "2026-02-01T11:00", Text: "As it came"}, jpegOf(t, plain(640, 480, red)))
	lost := s.entries()[3].Photos[0].SHA256
	require.NoError(t, os.Remove(filepath.Join(s.folder, "photos", lost[:2], lost)))
	begun := filepath.Join(s.folder, "photos", ".unfinished-1")
	require.NoError(t, os.WriteFile(begun, nil, 0o600))
	old := time.Now().AddDate(0, 0, -2)
	require.NoError(t, os.Chtimes(begun, old, old))
	return s
}

// The pages of the log as everybody may see them.
func TestLogOnEveryScreen(t *testing.T) {
	s := full(t)
	base := "http://" + s.address + "/machines/1"
	for name, page := range map[string]string{"log": base + "/log", "entry": base + "/log/k1", "edit": base + "/log/k1/edit", "compare": base + "/upgrades/1/compare", "upgrade": base + "/upgrades/1/log",
		"deleted": base + "/deleted-entries", "data": "http://" + s.address + "/data", "machine": base, "search": base + "/log?q=bored+brack"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			browsertest.Open(t, page, browsertest.Screen{}).OnEveryScreen("log-" + name)
		})
	}
}

// An entry is written and saved by keyboard alone.
func TestLogByKeyboard(t *testing.T) {
	s := newShop(t)
	tab := browsertest.Open(t, s.log(), browsertest.Screen{})
	tab.Wait(`document.querySelector(".entry-live") !== null`)
	tab.Eval(`document.querySelector("#files").focus()`, nil)
	tab.Press("Tab")
	require.Equal(t, "text", tab.Focus())
	tab.Type("By keyboard")
	tab.Press("Tab") // the other fields, folded
	tab.Press("Tab")
	tab.Press("Enter")
	tab.WaitText("#page", "The entry is in the log.")
	require.Equal(t, "By keyboard", s.entries()[0].Text)
}

// On paper the log is the record: without the form, and with the photos.
func TestLogOnPaper(t *testing.T) {
	s := full(t)
	for name, page := range map[string]string{"log": s.log(), "log-entry": s.log() + "/k1"} {
		tab := browsertest.Open(t, page, browsertest.Screen{})
		tab.Eval(`document.querySelectorAll("img").forEach(i => { i.loading = "eager" })`, nil)
		tab.Wait(`[...document.images].every(i => i.complete)`)
		savePaper(t, name+".pdf", tab.PDF())
	}
	tab := browsertest.Open(t, s.log(), browsertest.Screen{Print: true})
	require.False(t, tab.Visible("#entry-form"))
	require.True(t, tab.Visible(".entry-text"))
	require.True(t, tab.Visible(".log-sums"))
}
