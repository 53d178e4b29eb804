package web_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"image/jpeg"
	"io"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/plan/buildlog"
	"fettle/store"
	"fettle/web"
)

// photoSent is a photo as the script of the pages sends it.
func photoSent(key string, body io.Reader) *http.Request {
	r := httptest.NewRequest(http.MethodPost, logPath+"/"+key+"/photos", body)
	r.Host = listen
	r.Header.Set("Accept", "application/json")
	r.Header.Set("Content-Type", "application/octet-stream")
	return r
}

// came reads which photo was kept.
func came(t *testing.T, w *httptest.ResponseRecorder) string {
	t.Helper()
	require.Equal(t, http.StatusOK, w.Code, w.Body)
	var said struct{ SHA256 string }
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &said))
	return said.SHA256
}

func TestPhotoIsServedInThreeSizes(t *testing.T) {
	s, kept := logged(t)
	original := photoOf(t, 3000)
	sum := came(t, send(s.Handler(), photoSent("k1", bytes.NewReader(original))))
	for size, wide := range map[string]int{"small": 400, "large": 2048, "original": 3000} {
		w := get(s, "/photos/"+sum+"/"+size)
		require.Equal(t, http.StatusOK, w.Code)
		require.Equal(t, "image/jpeg", w.Header().Get("Content-Type"))
		require.Equal(t, "private, max-age=31536000, immutable", w.Header().Get("Cache-Control"))
		require.Equal(t, "nosniff", w.Header().Get("X-Content-Type-Options"))
		require.Equal(t, size == "original", strings.HasPrefix(w.Header().Get("Content-Disposition"), "attachment"))
		img, err := jpeg.Decode(bytes.NewReader(w.Body.Bytes()))
		require.NoError(t, err)
		require.Equal(t, wide, img.Bounds().Dx())
		r := request(http.MethodGet, "/photos/"+sum+"/"+size, nil)
		r.Header.Set("If-None-Match", w.Header().Get("ETag"))
		require.Equal(t, http.StatusNotModified, send(s.Handler(), r).Code)
	}
	require.Equal(t, original, get(s, "/photos/"+sum+"/original").Body.Bytes(), "byte for byte")
	for _, none := range []string{"/photos/" + sum + "/huge", "/photos/" + sum + "/", "/photos/" + strings.Repeat("0", 64) + "/small", "/photos/x/small",
		"/photos/..%2f..%2ffettle.sqlite/original", "/photos/" + strings.ToUpper(sum) + "/small"} {
		require.Equal(t, http.StatusNotFound, get(s, none).Code, none)
	}
	// Taken back before its entry is saved, nothing shows it.
	require.Equal(t, http.StatusSeeOther, send(s.Handler(), request(http.MethodPost, logPath+"/k1/photos/"+sum+"/remove", url.Values{})).Code)
	require.Equal(t, http.StatusNotFound, get(s, "/photos/"+sum+"/small").Code)
	_, err := kept.StagedPhotos(t.Context(), 1, "k1")
	require.NoError(t, err)
}

func TestPhotosOfAnEntryDeletedForGoodAreNotShown(t *testing.T) {
	now := noon()
	kept, err := store.Open(t.Context(), t.TempDir(), func() time.Time { return now })
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, kept.Close()) })
	_, err = kept.AddMachine(t.Context(), lathe())
	require.NoError(t, err)
	s, _ := serverOf(t, kept)
	require.Equal(t, http.StatusSeeOther, send(s.Handler(), sent(t, logPath, entry(), map[string][]byte{"a.jpg": photoOf(t, 40)})).Code)
	require.Equal(t, http.StatusSeeOther, send(s.Handler(), sent(t, logPath, entry("key", "k2"), nil)).Code)
	address := "/photos/" + photoFields.FindStringSubmatch(get(s, logPath+"/k1/edit").Body.String())[1] + "/small"
	remove := func(key string) {
		require.Equal(t, http.StatusSeeOther, send(s.Handler(), request(http.MethodPost, logPath+"/"+key+"/delete", url.Values{})).Code)
	}
	remove("k1")
	now = now.Add(30*24*time.Hour + time.Second)
	require.Equal(t, http.StatusOK, get(s, address).Code)
	remove("k2") // makes final what was deleted 30 days ago
	require.Equal(t, http.StatusNotFound, get(s, address).Code)
}

func TestWhatIsNoPhotoIsRefused(t *testing.T) {
	s, kept := logged(t)
	w := send(s.Handler(), photoSent("k1", strings.NewReader("<svg xmlns='http://www.w3.org/2000/svg'/>")))
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	says(t, w.Body.String(), "JPEG, PNG, WebP and HEIC photos work")
	require.Equal(t, http.StatusNotFound, send(s.Handler(), photoSent("a.b", bytes.NewReader(photoOf(t, 40)))).Code)
	for i := range 40 {
		came(t, send(s.Handler(), photoSent("k1", bytes.NewReader(photoOf(t, 40+4*i)))))
	}
	w = send(s.Handler(), photoSent("k1", bytes.NewReader(photoOf(t, 800))))
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	says(t, w.Body.String(), "at most 40 photos")
	staged, err := kept.StagedPhotos(t.Context(), 1, "k1")
	require.NoError(t, err)
	require.Len(t, staged, 40)
}

// held is a body that does not come to an end until it is let.
type held struct{ begun, let chan struct{} }

func (h held) Read([]byte) (int, error) {
	h.begun <- struct{}{}
	<-h.let
	return 0, io.ErrUnexpectedEOF
}

// Twelve uploads at once; one more is asked to come again. One that breaks off is no fault of the program.
func TestUploadsAreFewAtOnce(t *testing.T) {
	kept := newStore(t)
	s, log := serverOf(t, kept)
	_, err := kept.AddMachine(t.Context(), lathe())
	require.NoError(t, err)
	body := held{make(chan struct{}, 12), make(chan struct{})}
	done := make(chan int, 12)
	for range 12 {
		go func() { done <- send(s.Handler(), photoSent("k1", body)).Code }()
	}
	for range 12 {
		<-body.begun
	}
	w := send(s.Handler(), photoSent("k1", bytes.NewReader(photoOf(t, 40))))
	require.Equal(t, http.StatusTooManyRequests, w.Code)
	require.Equal(t, "5", w.Header().Get("Retry-After"))
	close(body.let)
	for range 12 {
		require.Equal(t, http.StatusBadRequest, <-done)
	}
	came(t, send(s.Handler(), photoSent("k1", bytes.NewReader(photoOf(t, 40)))))
	require.NotContains(t, log.String(), "level=ERROR")
}

// deadlines notes what a handler asks of its connection.
type deadlines struct {
	*httptest.ResponseRecorder
	read, write time.Time
}

func (d *deadlines) SetReadDeadline(at time.Time) error  { d.read = at; return nil }
func (d *deadlines) SetWriteDeadline(at time.Time) error { d.write = at; return nil }

// A photo may take longer than a form, and not for ever.
func TestUploadsHaveATimeOfTheirOwn(t *testing.T) {
	s, _ := logged(t)
	for _, r := range []*http.Request{photoSent("k1", bytes.NewReader(photoOf(t, 40))), sent(t, logPath, entry(), nil)} {
		d := &deadlines{ResponseRecorder: httptest.NewRecorder()}
		before := time.Now()
		s.Handler().ServeHTTP(d, r)
		require.WithinRange(t, d.read, before.Add(15*time.Minute), time.Now().Add(15*time.Minute))
		require.True(t, d.write.After(d.read), "the reply comes after all of it")
	}
}

// What is missing and what is left over is told; it is removed by a hand that says so twice, and nothing else.
func TestDataFolderIsToldAndLeft(t *testing.T) {
	now, folder := time.Now(), t.TempDir() // a file's age is told by the disk
	kept, err := store.Open(t.Context(), folder, func() time.Time { return now })
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, kept.Close()) })
	_, err = kept.AddMachine(t.Context(), lathe())
	require.NoError(t, err)
	s, _ := serverOf(t, kept)
	says(t, get(s, "/data").Body.String(), "Every photo that a build log shows is there")
	loose := came(t, send(s.Handler(), photoSent("k1", bytes.NewReader(photoOf(t, 40)))))
	lost := came(t, send(s.Handler(), photoSent("k1", bytes.NewReader(photoOf(t, 80)))))
	require.NoError(t, kept.UnstagePhoto(t.Context(), 1, "k1", loose))
	path := func(sum string) string { return filepath.Join(folder, "photos", sum[:2], sum) }
	require.NoError(t, os.Remove(path(lost)))
	now = now.Add(48 * time.Hour)

	report, err := kept.CheckPhotos(t.Context())
	require.NoError(t, err)
	s, err = web.New(web.Options{Listen: listen, Log: quiet(), Store: kept, Now: noon, Photos: report})
	require.NoError(t, err)
	says(t, get(s, "/").Body.String(), "Photos are missing.", `href="/data"`)
	page := get(s, "/data").Body.String()
	says(t, page, "Missing: 1", "photos/"+lost[:2]+"/"+lost, "Left over: 1", "photos/"+loose[:2]+"/"+loose)
	w := send(s.Handler(), request(http.MethodPost, "/data", url.Values{}))
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	says(t, w.Body.String(), "Tick the box first")
	require.FileExists(t, path(loose))
	w = send(s.Handler(), request(http.MethodPost, "/data", url.Values{"sure": {"yes"}}))
	require.Equal(t, http.StatusSeeOther, w.Code)
	says(t, get(s, w.Header().Get("Location")).Body.String(), "Removed.", "Missing: 1")
	require.NoFileExists(t, path(loose))
	says(t, get(s, "/").Body.String(), "Photos are missing.")
}

// The rows of the plan of security tests that are about the log and its photos.
var asvsLog = []row{
	{"5.2.7", "a picture that can hold a script is refused", func(t *testing.T, s *workshop) {
		w := s.send(s.photo(t, s.signIn(t), strings.NewReader(`<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>`)))
		require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	}},
	{"5.2.8", "Markdown becomes no script, and fetches nothing", func(t *testing.T, s *workshop) {
		s.machine(t)
		_, err := s.kept.SaveLogEntry(t.Context(), 1, 0, buildlog.Entry{Key: "k", At: "2026-03-01T10:00",
			Text: "<script>alert(1)</script> [a](javascript:alert(1)) [b](vbscript:x) [c](data:text/html,x) ![d](https://elsewhere.example/x.png) [e](//elsewhere.example) [f](&#106;avascript:alert(1))"})
		require.NoError(t, err)
		page := s.send(byPhone(http.MethodGet, logPath, nil, s.signIn(t))).Body.String()
		saysNot(t, page, "<script>alert", "<img", `href="javascript`, `href="vbscript`, `href="data`, `href="//`)
	}},
	{"12.3.1", "the name of a file that is sent names nothing here", func(t *testing.T, s *workshop) {
		s.machine(t)
		cookie := s.signIn(t)
		before := names(t, s.folder)
		r := sent(t, logPath, entry(), map[string][]byte{"../../../evil.html": photoOf(t, 40), "C:\\evil.exe": photoOf(t, 44)})
		r.RemoteAddr, r.Host = "192.168.7.23:40000", "192.168.7.7:8270"
		r = r.WithContext(byPhone(http.MethodGet, "/", nil).Context())
		r.AddCookie(cookie)
		require.Equal(t, http.StatusSeeOther, s.send(r).Code)
		for _, name := range names(t, s.folder) {
			require.NotContains(t, name, "evil")
		}
		require.Greater(t, len(names(t, s.folder)), len(before))
	}},
	{"12.3.2", "no file is read by a name from outside", func(t *testing.T, s *workshop) {
		cookie := s.signIn(t)
		for _, name := range []string{"../fettle.sqlite", "..%2f..%2fetc%2fpasswd", "....//", "%00", strings.Repeat("0", 63) + "/"} {
			for _, size := range []string{"small", "original", "..", "2048"} {
				w := s.send(byPhone(http.MethodGet, "/photos/"+name+"/"+size, nil, cookie))
				require.NotEqual(t, http.StatusOK, w.Code, name)
			}
		}
	}},
	{"12.4.1", "what was sent in lies outside of what is served, for the owner alone", func(t *testing.T, s *workshop) {
		came(t, s.send(s.photo(t, s.signIn(t), bytes.NewReader(photoOf(t, 40)))))
		require.NoError(t, filepath.WalkDir(filepath.Join(s.folder, "photos"), func(_ string, d fs.DirEntry, err error) error {
			info, failed := d.Info()
			require.NoError(t, errors.Join(err, failed))
			require.Zero(t, info.Mode().Perm()&0o077)
			require.False(t, info.Mode().IsRegular() && info.Mode().Perm()&0o111 != 0)
			return nil
		}))
	}},
	{"12.5.1", "only photos that a log shows are served, to who is let in", func(t *testing.T, s *workshop) {
		cookie := s.signIn(t)
		sum := came(t, s.send(s.photo(t, cookie, bytes.NewReader(photoOf(t, 40)))))
		for _, size := range []string{"small", "large", "original"} {
			require.Equal(t, http.StatusOK, s.send(byPhone(http.MethodGet, "/photos/"+sum+"/"+size, nil, cookie)).Code)
			w := s.send(byPhone(http.MethodGet, "/photos/"+sum+"/"+size, nil))
			require.Equal(t, http.StatusSeeOther, w.Code)
			require.Equal(t, "no-store", w.Header().Get("Cache-Control"))
		}
		require.NoError(t, s.kept.UnstagePhoto(t.Context(), 1, "k1", sum))
		require.Equal(t, http.StatusNotFound, s.send(byPhone(http.MethodGet, "/photos/"+sum+"/original", nil, cookie)).Code)
	}},
}

// machine adds one.
func (s *workshop) machine(t *testing.T) {
	t.Helper()
	_, err := s.kept.AddMachine(t.Context(), lathe())
	require.NoError(t, err)
}

// photo is one that a phone sends for an entry of a machine, which it adds.
func (s *workshop) photo(t *testing.T, cookie *http.Cookie, body io.Reader) *http.Request {
	t.Helper()
	s.machine(t)
	return s.photoFor(cookie, body)
}

func (s *workshop) photoFor(cookie *http.Cookie, body io.Reader) *http.Request {
	r := byPhone(http.MethodPost, logPath+"/k1/photos", nil, cookie)
	r.Header.Set("Accept", "application/json")
	r.Body = io.NopCloser(body)
	return r
}

// names lists all files of a folder.
func names(t *testing.T, folder string) (all []string) {
	t.Helper()
	require.NoError(t, filepath.WalkDir(folder, func(path string, _ fs.DirEntry, err error) error {
		all = append(all, path)
		return err
	}))
	return all
}
