package web_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestFigure(t *testing.T) {
	kept := newStore(t)
	s, _ := serverOf(t, kept)
	id, err := kept.AddMachine(t.Context(), lathe())
	require.NoError(t, err)
	for _, tc := range []struct {
		path string
		code int
		says []string
	}{
		// 88 as found; the tray is not measured, so with the draft it is a bound.
		{"cross.travel", http.StatusOK, []string{"<b>88 mm</b>", "planned", "Source: geometry", "reach"}},
		{"cross.travel?draft=1", http.StatusOK, []string{"<b>at most 100 mm</b>", "What to measure, for this to be known", "gap to the splash tray",
			"/figures/cross.splash_tray.gap_left?draft=1"}},
		// 2 × (88 − 4) = 168: from the sentence in the issue, starts on 168 diameter.
		{"cross.start_reach?stage=found", http.StatusOK, []string{"<b>168 mm</b>", "as found", "d<sub>r</sub> = 2 × r", "Measure this better first", "Try 100 000 times"}},
		{"cross.travel_found", http.StatusOK, []string{"Measured: caliper.", "Within ± 0.05 mm, at the very worst", "would come to ± 0.058 mm, which is more than it can be off"}},
		{"cross.start_reach?trials=1000", http.StatusOK, []string{"1000 trials, each with every measurement"}},
		{"cross.hand_torque", http.StatusOK, []string{"Assumed: 100 N at a radius of 30 mm."}},
		{"cross.nothing", http.StatusNotFound, []string{"There is no figure “cross.nothing” planned."}},
		{"cross.travel?stage=soon", http.StatusBadRequest, []string{"as found, now or planned"}},
		{"cross.travel?trials=1e9", http.StatusBadRequest, []string{"Ask for 2 to 100000 trials."}},
	} {
		t.Run(tc.path, func(t *testing.T) {
			w := send(s.Handler(), request(http.MethodGet, fmt.Sprintf("/machines/%d/figures/%s", id, tc.path), nil))
			require.Equal(t, tc.code, w.Code)
			for _, say := range tc.says {
				says(t, w.Body.String(), say)
			}
		})
	}
}

func TestFigureAsPartAndAsJSON(t *testing.T) {
	kept := newStore(t)
	s, _ := serverOf(t, kept)
	id, err := kept.AddMachine(t.Context(), lathe())
	require.NoError(t, err)
	r := request(http.MethodGet, fmt.Sprintf("/machines/%d/figures/cross.travel", id), nil)
	r.Header.Set("HX-Request", "true")
	part := send(s.Handler(), r).Body.String()
	says(t, part, `class="explain"`)
	saysNot(t, part, "<html")

	r.Header.Del("HX-Request")
	r.Header.Set("Accept", "application/json")
	var told struct{ Key, Label, Stage, Value string }
	require.NoError(t, json.Unmarshal(send(s.Handler(), r).Body.Bytes(), &told))
	require.Equal(t, "cross.travel", told.Key)
	require.Equal(t, "88 mm", told.Value)
	require.Equal(t, "planned", told.Stage)
}

func TestFigureInInches(t *testing.T) {
	kept := newStore(t)
	s, _ := serverOf(t, kept)
	m := lathe()
	m.Units = "in"
	m.Axes[0].Entries["travel_found"] = m.Axes[0].Parts[0].Entries["to"] // 141, of inches now
	id, err := kept.AddMachine(t.Context(), m)
	require.NoError(t, err)
	w := send(s.Handler(), request(http.MethodGet, fmt.Sprintf("/machines/%d/figures/cross.travel_found", id), nil))
	says(t, w.Body.String(), "<b>141 in</b>")
}
