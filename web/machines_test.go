package web_test

import (
	"bytes"
	"fmt"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/exchange"
	"fettle/plan/machine"
)

func TestMachineAdd(t *testing.T) {
	for _, tc := range []struct {
		name string
		form url.Values
		code int
		says []string
	}{
		{"good", url.Values{"name": {" Lathe in the shed "}, "kind": {"lathe"}, "units": {"in"}, "note": {"as found"}}, http.StatusSeeOther, nil},
		{"no name", url.Values{"name": {"  "}, "kind": {"mill"}, "units": {"mm"}, "note": {"kept as typed"}}, http.StatusUnprocessableEntity,
			[]string{"give a name", "kept as typed", `<option value="mill" selected`}},
		{"long name", url.Values{"name": {strings.Repeat("x", 81)}, "kind": {"mill"}, "units": {"mm"}}, http.StatusUnprocessableEntity,
			[]string{"at most 80 characters; this has 81", strings.Repeat("x", 81)}},
		{"kind of ours only", url.Values{"name": {"X"}, "kind": {"boat"}, "units": {"mm"}}, http.StatusUnprocessableEntity, []string{"choose one of the list"}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			kept := newStore(t)
			s, _ := serverOf(t, kept)
			w := send(s.Handler(), request(http.MethodPost, "/machines", tc.form))
			require.Equal(t, tc.code, w.Code)
			for _, say := range tc.says {
				says(t, w.Body.String(), say)
			}
			list, err := kept.Machines(t.Context())
			require.NoError(t, err)
			if tc.code != http.StatusSeeOther {
				require.Empty(t, list)
				return
			}
			require.Len(t, list, 1)
			require.Equal(t, "Lathe in the shed", list[0].Name)
			require.Equal(t, fmt.Sprintf("/machines/%d", list[0].ID), w.Header().Get("Location"))
		})
	}
}

func TestMachineDeleteAndUndo(t *testing.T) {
	kept := newStore(t)
	s, _ := serverOf(t, kept)
	id, err := kept.AddMachine(t.Context(), machine.Machine{Name: "Old <mill>", Kind: "mill", Units: "mm"})
	require.NoError(t, err)
	path := fmt.Sprintf("/machines/%d", id)

	gone := send(s.Handler(), request(http.MethodPost, path+"/delete", url.Values{}))
	require.Equal(t, http.StatusSeeOther, gone.Code)
	list := send(s.Handler(), request(http.MethodGet, gone.Header().Get("Location"), nil)).Body.String()
	says(t, list, "“Old &lt;mill&gt;” is off the list.")
	says(t, list, `action="`+path+`/restore"`)
	require.Equal(t, http.StatusNotFound, send(s.Handler(), request(http.MethodPost, path+"/delete", url.Values{})).Code, "gone already")

	back := send(s.Handler(), request(http.MethodPost, path+"/restore", url.Values{}))
	require.Equal(t, path, back.Header().Get("Location"))
	says(t, send(s.Handler(), request(http.MethodGet, "/", nil)).Body.String(), `href="`+path+`"`)
	require.Equal(t, http.StatusNotFound, send(s.Handler(), request(http.MethodPost, "/machines/99/restore", url.Values{})).Code)
}

// upload gives a request that sends a file.
func upload(t *testing.T, target, content string) *http.Request {
	t.Helper()
	var body bytes.Buffer
	parts := multipart.NewWriter(&body)
	file, err := parts.CreateFormFile("file", "machine.json")
	require.NoError(t, err)
	_, err = file.Write([]byte(content))
	require.NoError(t, err)
	require.NoError(t, parts.Close())
	r := httptest.NewRequest(http.MethodPost, target, &body)
	r.Host = listen
	r.Header.Set("Content-Type", parts.FormDataContentType())
	return r
}

func TestImport(t *testing.T) {
	for _, tc := range []struct {
		name, file string
		say        string // "" where it is taken
	}{
		{"good", `{"format": "fettle machine", "version": 1, "machine": {"name": "Lathe", "kind": "lathe", "units": "mm"}}`, ""},
		{"not JSON", "PK\x03\x04", "line 1, column 1"},
		{"unknown member", "{\"format\": \"fettle machine\", \"version\": 1,\n \"machine\": {\"name\": \"Lathe\", \"kind\": \"lathe\", \"units\": \"mm\", \"colour\": \"grey\"}}",
			"line 2, column 63, at machine.colour: nothing is known by this name"},
		{"newer", `{"format": "fettle machine", "version": 2, "machine": {}}`, "a newer Fettle has written this file"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			kept := newStore(t)
			s, _ := serverOf(t, kept)
			w := send(s.Handler(), upload(t, "/import", tc.file))
			list, err := kept.Machines(t.Context())
			require.NoError(t, err)
			if tc.say == "" {
				require.Equal(t, http.StatusSeeOther, w.Code, w.Body)
				require.Len(t, list, 1)
				return
			}
			require.Equal(t, http.StatusUnprocessableEntity, w.Code)
			says(t, w.Body.String(), tc.say)
			require.Empty(t, list)
		})
	}
}

func TestImportWithoutAFile(t *testing.T) {
	s, _ := newServer(t)
	w := send(s.Handler(), request(http.MethodPost, "/import", url.Values{"file": {""}}))
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	says(t, w.Body.String(), "choose a file that was exported from Fettle")
}

func TestImportIsLimited(t *testing.T) {
	s, _ := newServer(t)
	w := send(s.Handler(), upload(t, "/import", strings.Repeat(" ", exchange.MostBytes+128<<10)))
	require.Equal(t, http.StatusRequestEntityTooLarge, w.Code)
	w = send(s.Handler(), upload(t, "/machines", strings.Repeat(" ", 2<<20)))
	require.Equal(t, http.StatusRequestEntityTooLarge, w.Code, "only an import may be as large as that")
}

func TestExportIsWhatImportTakes(t *testing.T) {
	kept := newStore(t)
	s, _ := serverOf(t, kept)
	id, err := kept.AddMachine(t.Context(), machine.Machine{Name: "Größte \"Drehe\"\r\n", Kind: "lathe", Units: "in", Note: "½″ \u202e"})
	require.NoError(t, err)
	w := send(s.Handler(), request(http.MethodGet, fmt.Sprintf("/machines/%d/export", id), nil))
	require.Equal(t, http.StatusOK, w.Code)
	require.Equal(t, `attachment; filename=gr_te_drehe.json`, w.Header().Get("Content-Disposition"))

	require.Equal(t, http.StatusSeeOther, send(s.Handler(), upload(t, "/import", w.Body.String())).Code)
	again, err := kept.Machine(t.Context(), id+1)
	require.NoError(t, err)
	was, err := kept.Machine(t.Context(), id)
	require.NoError(t, err)
	require.Equal(t, was.Machine, again.Machine)
}

func TestMachinesAsJSON(t *testing.T) {
	kept := newStore(t)
	s, _ := serverOf(t, kept)
	_, err := kept.AddMachine(t.Context(), machine.Machine{Name: "Lathe", Kind: "lathe", Units: "mm"})
	require.NoError(t, err)
	r := request(http.MethodGet, "/", nil)
	r.Header.Set("Accept", "application/json")
	w := send(s.Handler(), r)
	require.Equal(t, http.StatusOK, w.Code)
	says(t, w.Body.String(), `"name": "Lathe"`)
}

// What only readers hear stands apart from the word before it: "Delete Bench lathe", not "DeleteBench lathe".
func TestUnseenWordsStandApart(t *testing.T) {
	m := demo.Lathe()
	m.Upgrades[0].Inputs["amount"] = "12" // there are parts to make
	k := keep(t, m)
	stuck := regexp.MustCompile(`\w<span class="unseen">\w`)
	for _, path := range []string{"/", k.url, k.url + "/upgrades", k.url + "/axes/cross", k.url + "/upgrades/1/parts", k.url + "/buy"} {
		w := send(k, request(http.MethodGet, path, nil))
		require.Equal(t, http.StatusOK, w.Code, path)
		require.Contains(t, w.Body.String(), `class="unseen"`, path)
		require.Empty(t, stuck.FindAllString(w.Body.String(), -1), path)
	}
}
