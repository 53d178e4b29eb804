package web_test

import (
	"fmt"
	"html"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/buildlog"
	"fettle/store"
)

// pictured keeps an entry with a photo for each caption, a file each, and gives their sums by caption.
func pictured(t *testing.T, kept *store.Store, e buildlog.Entry, captions ...string) map[string]string {
	t.Helper()
	sums := map[string]string{}
	for _, caption := range captions {
		p, err := kept.AddPhoto(t.Context(), 1, e.Key, strings.NewReader(string(photoOf(t, 40))+e.Key+caption))
		require.NoError(t, err)
		p.Caption = caption
		e.Photos = append(e.Photos, p)
		sums[caption] = p.SHA256
	}
	_, err := kept.SaveLogEntry(t.Context(), 1, 0, e)
	require.NoError(t, err)
	return sums
}

const (
	sideBySide  = `class="compare"`
	comparePath = "/machines/1/upgrades/1/compare"
)

func TestAnyTwoPhotosAreCompared(t *testing.T) {
	s, kept := logged(t)
	first := pictured(t, kept, buildlog.Entry{Key: "k1", At: "2026-03-01T12:00", Upgrade: "1"}, "rough", "bored")
	second := pictured(t, kept, buildlog.Entry{Key: "k2", At: "2026-03-02T12:00", Upgrade: "1"}, "reamed")
	other := pictured(t, kept, buildlog.Entry{Key: "k3", At: "2026-03-03T12:00"}, "of no upgrade")
	for _, tc := range []struct {
		of, before, after string
		says              []string
	}{
		{comparePath, first["rough"], second["reamed"], []string{sideBySide, "rough", "reamed"}},
		{comparePath, second["reamed"], first["bored"], []string{sideBySide}},
		{logPath + "/k1/compare", first["bored"], first["rough"], []string{sideBySide}},
		{logPath + "/k1/compare", first["bored"], second["reamed"], []string{"is not there any more"}},
		{comparePath, first["rough"], other["of no upgrade"], []string{"is not there any more"}},
		{comparePath, first["rough"], "../../etc", []string{"is not there any more"}},
		{comparePath, first["rough"], first["rough"], []string{"are the same photo"}},
		{comparePath, first["rough"], "", []string{"Choose two photos: one as before"}},
		{comparePath, "", "", []string{"Choose two photos: one as before"}},
	} {
		w := get(s, tc.of+"?before="+tc.before+"&after="+tc.after)
		require.Equal(t, http.StatusOK, w.Code)
		page := w.Body.String()
		says(t, page, tc.says...)
		require.Equal(t, tc.says[0] == sideBySide, strings.Contains(page, sideBySide), tc)
		if tc.before != "" {
			says(t, page, fmt.Sprintf(`name="before" value=%q required checked`, tc.before)) // what was chosen stays chosen
		}
	}
	saysNot(t, get(s, comparePath).Body.String(), sideBySide, "of no upgrade", "Choose two photos: one")
	require.Equal(t, http.StatusNotFound, get(s, logPath+"/k9/compare").Code)
	require.NoError(t, kept.DeleteLogEntry(t.Context(), 1, "k2"))
	says(t, get(s, comparePath+"?before="+first["rough"]+"&after="+second["reamed"]).Body.String(), "is not there any more")
}

// Photos of many entries come in pages; those that are chosen stay chosen on each.
func TestPhotosToCompareComeInPages(t *testing.T) {
	s, kept := logged(t)
	old := pictured(t, kept, buildlog.Entry{Key: "old", At: "2026-03-01T12:00", Upgrade: "1"}, "the oldest")["the oldest"]
	for i := range store.LogPageSize {
		pictured(t, kept, buildlog.Entry{Key: fmt.Sprint("k", i), At: "2026-03-02T12:00", Upgrade: "1"}, "later")
		pictured(t, kept, buildlog.Entry{Key: fmt.Sprint("w", i), At: "2026-03-02T12:00", Upgrade: "1", Text: "only words"})
	}
	first := get(s, comparePath+"?before="+old).Body.String()
	says(t, first, "Chosen, of another page", "Photos of earlier entries")
	require.Equal(t, store.LogPageSize, strings.Count(first, `alt="later"`), "entries without photos take no room")
	found := regexp.MustCompile(`href="([^"]+)" rel="next"`).FindStringSubmatch(first)
	require.Len(t, found, 2)
	next := html.UnescapeString(found[1])
	says(t, next, "before="+old)
	second := get(s, next).Body.String()
	says(t, second, fmt.Sprintf(`name="before" value=%q required checked`, old), "Newest photos")
	saysNot(t, second, "Chosen, of another page", `alt="later"`)
}
