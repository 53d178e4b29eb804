package web_test

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/buildlog"
	"fettle/store"
	"fettle/web"
)

// logged is a server with a machine, and its log.
func logged(t *testing.T) (*web.Server, *store.Store) {
	t.Helper()
	kept := newStore(t)
	s, _ := serverOf(t, kept)
	_, err := kept.AddMachine(t.Context(), lathe())
	require.NoError(t, err)
	return s, kept
}

// photoOf is a photo of one colour, so many pixels wide.
func photoOf(t testing.TB, width int) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, width, width*3/4))
	for i := range img.Pix {
		img.Pix[i] = 200
	}
	img.Set(0, 0, color.White)
	var out bytes.Buffer
	require.NoError(t, jpeg.Encode(&out, img, nil))
	return out.Bytes()
}

// sent is an entry as a browser without scripts sends it: the fields, then the files, by their names.
func sent(t *testing.T, target string, fields url.Values, files map[string][]byte) *http.Request {
	t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	for _, name := range []string{"key", "revision", "at", "text", "hours", "cost", "currency", "about", "in", "do", "photo"} {
		for _, v := range fields[name] {
			require.NoError(t, form.WriteField(name, v))
		}
	}
	for name, all := range fields {
		if strings.Contains(name, ".") {
			require.NoError(t, form.WriteField(name, all[0]))
		}
	}
	for name, file := range files {
		part, err := form.CreateFormFile("files", name)
		require.NoError(t, err)
		_, err = part.Write(file)
		require.NoError(t, err)
	}
	require.NoError(t, form.Close())
	r := httptest.NewRequest(http.MethodPost, target, &body)
	r.Host = listen
	r.Header.Set("Content-Type", form.FormDataContentType())
	return r
}

// entry is what a hand types, and changes of it: name, value, name, value.
func entry(pairs ...string) url.Values {
	v := url.Values{"key": {"k1"}, "revision": {"0"}, "at": {"2026-03-01T14:30"}, "text": {"Bored the *bracket*."}}
	for i := 0; i < len(pairs); i += 2 {
		v.Set(pairs[i], pairs[i+1])
	}
	return v
}

const logPath = "/machines/1/log"

func get(s *web.Server, target string) *httptest.ResponseRecorder {
	return send(s.Handler(), request(http.MethodGet, target, nil))
}

// oneEntry is the only entry of the log.
func oneEntry(t *testing.T, kept *store.Store) store.LogEntry {
	t.Helper()
	page, err := kept.Log(t.Context(), store.LogQuery{MachineID: 1})
	require.NoError(t, err)
	require.Len(t, page.Entries, 1)
	return page.Entries[0]
}

func TestEntryIsWrittenAndShown(t *testing.T) {
	s, kept := logged(t)
	w := send(s.Handler(), sent(t, logPath, entry("hours", "1:30", "cost", "€ 12,50", "about", "upgrade=1"), map[string][]byte{"slide.jpg": photoOf(t, 800)}))
	require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
	page := get(s, w.Header().Get("Location")).Body.String()
	says(t, page, "Saved.", "1 March 2026, 14:30", "<em>bracket</em>", "1 h 30 min", "12.50 EUR", "1 entry.", "/small")
	e := oneEntry(t, kept)
	require.Equal(t, "1", e.Upgrade)
	require.Equal(t, "€ 12,50", e.Cost, "as typed")
	require.Len(t, e.Photos, 1)
	says(t, get(s, "/machines/1/upgrades/1/log").Body.String(), "<em>bracket</em>")
	saysNot(t, get(s, "/machines/1/upgrades/2/log").Body.String(), "<em>bracket</em>")
	says(t, get(s, logPath+"/k1").Body.String(), "Original, 800 × 600")
}

// Sent again because no answer came: one entry, and no second set of photos.
func TestEntrySentTwiceIsOne(t *testing.T) {
	s, kept := logged(t)
	for range 2 {
		w := send(s.Handler(), sent(t, logPath, entry(), map[string][]byte{"a.jpg": photoOf(t, 40)}))
		require.Equal(t, http.StatusSeeOther, w.Code)
	}
	require.Len(t, oneEntry(t, kept).Photos, 1)
	staged, err := kept.StagedPhotos(t.Context(), 1, "k1")
	require.NoError(t, err)
	require.Empty(t, staged, "what came twice does not wait for another entry")
	w := send(s.Handler(), sent(t, logPath, entry("text", "Something else"), nil))
	require.Equal(t, http.StatusConflict, w.Code)
	says(t, w.Body.String(), "Something else", "Changed meanwhile.", `action="/machines/1/log/k1"`, `name="revision" value="1"`)
	require.Equal(t, "Bored the *bracket*.", oneEntry(t, kept).Text)
}

func TestWhatIsTypedIsNotLost(t *testing.T) {
	for name, tc := range map[string]struct {
		fields url.Values
		say    string
	}{
		"hours":    {entry("hours", "soon"), "Give hours such as 1.5"},
		"cost":     {entry("cost", "a few"), "Give a price such as"},
		"currency": {entry("cost", "12"), "Give a currency by its sign"},
		"day":      {entry("at", "yesterday"), "Give a day and a time"},
		"no day":   {entry("at", "2026-02-30T10:00"), "Give a day and a time"},
		"about":    {entry("about", "elsewhere"), "Choose one of the list."},
		"gone":     {entry("about", "upgrade=99"), "no longer there"},
		"nothing":  {entry("text", " "), "Write a line, or add a photo."},
		"file":     {entry(), "“notes.jpg”: this is an unknown sort of file"},
	} {
		t.Run(name, func(t *testing.T) {
			s, kept := logged(t)
			files := map[string][]byte{"a.jpg": photoOf(t, 40)}
			if name == "file" {
				files["notes.jpg"] = []byte("not a photo")
			}
			if name == "nothing" {
				files = nil
			}
			w := send(s.Handler(), sent(t, logPath, tc.fields, files))
			require.Equal(t, http.StatusUnprocessableEntity, w.Code)
			page := w.Body.String()
			says(t, page, tc.say, `name="key" value="k1"`)
			if name != "nothing" {
				says(t, page, "Bored the *bracket*.</textarea>")
				require.Len(t, photoFields.FindAllString(page, -1), 1, "the photo has come, and stays")
			}
			page2, err := kept.Log(t.Context(), store.LogQuery{MachineID: 1})
			require.NoError(t, err)
			require.Empty(t, page2.Entries)
		})
	}
}

var photoFields = regexp.MustCompile(`name="photo" value="([0-9a-f]{64})"`)

// Without scripts the buttons at the photos send the form, which comes back changed and not saved.
func TestPhotosArePutInOrderWithoutScripts(t *testing.T) {
	s, kept := logged(t)
	w := send(s.Handler(), sent(t, logPath, entry("do", "add"), map[string][]byte{"a.jpg": photoOf(t, 40)}))
	require.Equal(t, http.StatusOK, w.Code)
	one := photoFields.FindStringSubmatch(w.Body.String())[1]
	f := entry("do", "add", "photo", one, "caption."+one, "as it was", "role."+one, "before")
	page := send(s.Handler(), sent(t, logPath, f, map[string][]byte{"b.jpg": photoOf(t, 44)})).Body.String()
	two := photoFields.FindAllStringSubmatch(page, -1)[1][1]
	says(t, page, `value="as it was"`, `value="before" selected`)
	f["photo"] = []string{one, two}
	f.Set("do", "down."+one)
	page = send(s.Handler(), sent(t, logPath, f, nil)).Body.String()
	require.Equal(t, two, photoFields.FindStringSubmatch(page)[1])
	f["photo"] = []string{two, one}
	f.Set("do", "drop."+two)
	page = send(s.Handler(), sent(t, logPath, f, nil)).Body.String()
	require.Len(t, photoFields.FindAllString(page, -1), 1)
	staged, err := kept.StagedPhotos(t.Context(), 1, "k1")
	require.NoError(t, err)
	require.Len(t, staged, 1, "what was taken away waits no longer")
	f["photo"] = []string{one}
	f.Del("do")
	require.Equal(t, http.StatusSeeOther, send(s.Handler(), sent(t, logPath, f, nil)).Code)
	e := oneEntry(t, kept)
	require.Equal(t, "as it was", e.Photos[0].Caption)
	require.Equal(t, buildlog.Before, e.Photos[0].Role)
}

func TestEntryIsChangedDeletedAndHadBack(t *testing.T) {
	s, kept := logged(t)
	require.Equal(t, http.StatusSeeOther, send(s.Handler(), sent(t, logPath, entry("cost", "7 SEK"), map[string][]byte{"a.jpg": photoOf(t, 40)})).Code)
	says(t, get(s, logPath+"/k1/edit").Body.String(), "Bored the *bracket*.</textarea>", `value="7 SEK"`, `name="revision" value="1"`)
	sum := oneEntry(t, kept).Photos[0].SHA256
	change := entry("revision", "1", "text", "Reamed it", "photo", sum)
	require.Equal(t, http.StatusSeeOther, send(s.Handler(), sent(t, logPath+"/k1", change, nil)).Code)
	require.Equal(t, "Reamed it", oneEntry(t, kept).Text)
	w := send(s.Handler(), sent(t, logPath+"/k1", change, nil))
	require.Equal(t, http.StatusConflict, w.Code, "from an older revision")
	says(t, w.Body.String(), "Changed meanwhile.", `name="revision" value="2"`)

	w = send(s.Handler(), request(http.MethodPost, logPath+"/k1/delete", url.Values{}))
	require.Equal(t, http.StatusSeeOther, w.Code)
	page := get(s, w.Header().Get("Location")).Body.String()
	says(t, page, "Deleted.", `action="/machines/1/log/k1/restore"`)
	saysNot(t, page, "Reamed it")
	require.Equal(t, http.StatusNotFound, get(s, logPath+"/k1").Code)
	// 14 March and 30 days: 13 April.
	says(t, get(s, "/machines/1/deleted-entries").Body.String(), "Reamed it", "Final on 13 April 2026", sum)
	require.Equal(t, http.StatusOK, get(s, "/photos/"+sum+"/small").Code, "it can be had back, and be looked at")
	require.Equal(t, http.StatusSeeOther, send(s.Handler(), request(http.MethodPost, logPath+"/k1/restore", url.Values{})).Code)
	for _, to := range []string{"/k9/restore", "/k9/delete"} {
		w := send(s.Handler(), request(http.MethodPost, logPath+to, url.Values{}))
		require.Equal(t, http.StatusNotFound, w.Code, to)
		says(t, w.Body.String(), "The log has no such entry.")
	}
	says(t, get(s, logPath).Body.String(), "Reamed it")
}

func TestSearchShowsWhatWasMet(t *testing.T) {
	s, _ := logged(t)
	require.Equal(t, http.StatusSeeOther, send(s.Handler(), sent(t, logPath, entry("text", "Scraped the gib <b>and</b> more"), nil)).Code)
	require.Equal(t, http.StatusSeeOther, send(s.Handler(), sent(t, logPath, entry("key", "k2", "text", "Painted"), nil)).Code)
	page := get(s, logPath+"?q=gib+scr").Body.String()
	says(t, page, "<mark>Scraped</mark>", "<mark>gib</mark>", "&lt;b&gt;and", "1 entry says so.")
	saysNot(t, page, "Painted")
	says(t, get(s, logPath+"?q=nothing+like+it").Body.String(), "No entry says so.")
}

// A text is what its writer typed, and nothing that a browser would run or fetch.
func TestTextIsSafe(t *testing.T) {
	s, _ := logged(t)
	text := "# Done\n\n<script>alert(1)</script> <img src=x onerror=alert(1)> ![p](https://elsewhere.example/p.png) [j](javascript:alert(1)) " +
		"[d](data:text/html,x) [ok](https://elsewhere.example/?a=1&b=\"2) <https://auto.example> www.bare.example\n\n| a | b |\n|:-:|--:|\n| 1 | 2 |\n\n" +
		"[r]: javascript:alert(2)\n\n[r]\n\ngap < 0.1 & > 0.05"
	require.Equal(t, http.StatusSeeOther, send(s.Handler(), sent(t, logPath, entry("text", text), nil)).Code)
	page := get(s, logPath+"/k1").Body.String()
	says(t, page, "<h2>Done</h2>", "&lt;script&gt;", "&lt;img", `rel="noopener noreferrer nofollow"`, "gap &lt; 0.1 &amp; &gt; 0.05", `href="https://auto.example"`)
	says(t, page, `<td align="center">1</td>`)
	saysNot(t, page, "<script>alert", "<img src=x", `src="https://elsewhere`, "href=\"javascript", "href=\"data:", "style=", "<h1>Done")
}

// Ten kilobytes of a wide head and short rows would be eleven megabytes of empty cells, and ten times as much
// text a hundred times that; rows that are short by a few cells are filled.
func TestTableOfEmptyCellsIsNone(t *testing.T) {
	s, _ := logged(t)
	const columns, rows = 1000, 1000
	text := "|" + strings.Repeat("a|", columns) + "\n|" + strings.Repeat("-|", columns) + strings.Repeat("\n|b", rows) + "\n\n" +
		"Part|Of|Note\n-|-|-\nnut|bronze\nscrew|steel|new"
	require.Equal(t, http.StatusSeeOther, send(s.Handler(), sent(t, logPath, entry("text", text), nil)).Code)
	page := get(s, logPath+"/k1").Body.String()
	require.Less(t, len(page), 200_000)
	says(t, page, "|b<br>", "<td>bronze</td>\n<td></td>", "<td>new</td>")
}
