package web_test

import (
	"net/http"
	"net/url"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/machine"
	"fettle/plan/preset"
	"fettle/plan/sheet"
)

// The kinds lead to a form that says what each size means, and what the machine begins with.
func TestMachineNew(t *testing.T) {
	s, _ := serverOf(t, newStore(t))
	page := send(s.Handler(), request(http.MethodGet, "/machines/new", nil)).Body.String()
	for _, k := range preset.Kinds {
		says(t, page, k.Label, `href="/machines/new?kind=`+k.Key+`"`)
		form := send(s.Handler(), request(http.MethodGet, "/machines/new?kind="+k.Key, nil))
		require.Equal(t, http.StatusOK, form.Code)
		says(t, form.Body.String(), k.Means[0], k.Means[1], k.Means[2], "Begin with nothing", "Assumed until measured.")
	}
	other := send(s.Handler(), request(http.MethodGet, "/machines/new?kind=other", nil)).Body.String()
	says(t, other, `name="name"`, `value="other" selected`)
	saysNot(t, other, `name="size"`, "Assumed until measured.")
	require.Equal(t, http.StatusNotFound, send(s.Handler(), request(http.MethodGet, "/machines/new?kind=loom", nil)).Code)
}

// A machine from its kind and size has the usual axes, in its own units, and all of it is assumed.
func TestMachineAddUsual(t *testing.T) {
	for _, units := range []string{"mm", "in"} {
		kept := newStore(t)
		s, _ := serverOf(t, kept)
		w := send(s.Handler(), request(http.MethodPost, "/machines", url.Values{"start": {"lathe"}, "kind": {"lathe"}, "size": {preset.Medium}, "name": {"Old one"}, "units": {units}, "note": {""}}))
		require.Equal(t, http.StatusSeeOther, w.Code)
		m, err := kept.Machine(t.Context(), 1)
		require.NoError(t, err)
		want, _ := preset.Machine("lathe", preset.Medium)
		require.Len(t, m.Axes, len(want.Axes))
		require.Equal(t, want.Note, m.Note)
		require.Equal(t, sheet.Assumed, m.Axes[1].Entries["travel_found"].Origin)
		p, err := m.Build("")
		require.NoError(t, err)
		require.Empty(t, p.Problems)
		f, _ := p.Result.Figure("cross_slide.travel", sheet.Found)
		require.Equal(t, 110.0, f.Value) // mm, whatever it is shown in
		page := send(s.Handler(), request(http.MethodGet, "/machines/1", nil)).Body.String()
		says(t, page, "What to measure next", "Only assumed.")
	}
}

func TestMachineAddUsualAsked(t *testing.T) {
	kept := newStore(t)
	s, _ := serverOf(t, kept)
	post := func(size, name string) *http.Response {
		return send(s.Handler(), request(http.MethodPost, "/machines", url.Values{"start": {"mill"}, "kind": {"mill"}, "size": {size}, "name": {name}, "units": {"mm"}, "note": {"kept as typed"}})).Result()
	}
	require.Equal(t, http.StatusUnprocessableEntity, post("", "Mill").StatusCode)
	require.Equal(t, http.StatusUnprocessableEntity, post("huge", "Mill").StatusCode)
	w := send(s.Handler(), request(http.MethodPost, "/machines", url.Values{"start": {"mill"}, "kind": {"mill"}, "name": {""}, "size": {preset.Large}, "units": {"in"}, "note": {"kept as typed"}}))
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	says(t, w.Body.String(), "give a name", "kept as typed", `value="large" checked`, `value="in" selected`)
	require.Equal(t, http.StatusBadRequest, send(s.Handler(), request(http.MethodPost, "/machines", url.Values{"start": {"loom"}, "kind": {"mill"}, "name": {"X"}, "units": {"mm"}})).Code)
	require.Equal(t, http.StatusSeeOther, post("nothing", "Mill").StatusCode)
	m, err := kept.Machine(t.Context(), 1)
	require.NoError(t, err)
	require.Empty(t, m.Axes)
}

// An axis can be begun from what is usual, on any machine, and has a measuring sheet and a blank one.
func TestAxisAddUsual(t *testing.T) {
	k := keep(t, machine.Machine{Name: "Odd one", Kind: "lathe", Units: "mm"})
	says(t, k.get(t, ""), "Which axis?", `id="usual-cross_slide"`, "Those of other machines", preset.Kinds[0].Means[0])
	says(t, keep(t, machine.Machine{Name: "Mill", Kind: "mill", Units: "mm"}).get(t, ""), preset.Kinds[1].Means[0], "Shaper: driven by crank and slotted lever")
	says(t, keep(t, machine.Machine{Name: "Saw", Kind: "other", Units: "mm"}).get(t, ""), "of a machine that stands on the floor")
	page := k.post(t, "/axes", http.StatusUnprocessableEntity, "usual_axis", "yes", "usual", "shaper_ram")
	says(t, page, `value="shaper_ram" checked`, `id="usual-others" open`, "choose one of the list")
	for _, key := range preset.Axes() {
		at := k.post(t, "/axes", http.StatusSeeOther, "usual_axis", "yes", "usual", key, "size", preset.Small)
		for _, query := range []string{"", "?blank=1"} {
			w := send(k, request(http.MethodGet, at+query, nil))
			require.Equal(t, http.StatusOK, w.Code)
			says(t, w.Body.String(), "<svg")
		}
	}
	require.Len(t, k.now(t).Axes, len(preset.Axes()))
}
