package browsertest_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/a-h/templ"
	"github.com/stretchr/testify/require"

	"fettle/store"
	"fettle/web"
	"fettle/web/form"
	"fettle/web/ui"
)

// serve starts the program's server, with a specimen page beside its own pages that shows every
// shared component under the same content policy.
func serve(t *testing.T) (url string) {
	t.Helper()
	return serveHeld(t, nil)
}

// newStore opens an empty data folder.
func newStore(t *testing.T) *store.Store {
	t.Helper()
	s, err := store.Open(t.Context(), t.TempDir(), time.Now)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, s.Close()) })
	return s
}

// serveHeld is serve, with the answer to an amount of 99 held back until held is closed.
func serveHeld(t *testing.T, held <-chan struct{}) (url string) {
	t.Helper()
	mux := http.NewServeMux()
	server := httptest.NewServer(mux)
	t.Cleanup(server.Close)
	own, err := web.New(web.Options{Listen: server.Listener.Addr().String(), Log: slog.New(slog.DiscardHandler),
		Store: newStore(t), Now: time.Now})
	require.NoError(t, err)

	asked := httptest.NewRequest(http.MethodGet, server.URL+"/", nil)
	replied := httptest.NewRecorder()
	own.Handler().ServeHTTP(replied, asked)
	policy := replied.Header().Get("Content-Security-Policy")
	require.NotEmpty(t, policy)

	mux.Handle("/", own.Handler())
	page := func(h func(w http.ResponseWriter, r *http.Request) error) http.HandlerFunc {
		return func(w http.ResponseWriter, r *http.Request) {
			w.Header().Set("Content-Security-Policy", policy)
			w.Header().Set("Content-Type", "text/html; charset=utf-8")
			if err := h(w, r); err != nil {
				t.Error(err)
			}
		}
	}
	mux.HandleFunc("GET /specimen", page(func(w http.ResponseWriter, r *http.Request) error {
		return planning(form.New(map[string][]string{"amount": {"12"}})).Render(r.Context(), w)
	}))
	mux.HandleFunc("GET /specimen/others", page(func(w http.ResponseWriter, r *http.Request) error {
		return others().Render(r.Context(), w)
	}))
	mux.HandleFunc("POST /specimen", page(func(w http.ResponseWriter, r *http.Request) error {
		f, err := form.Read(r)
		if err != nil {
			return err
		}
		switch f.Value("amount") {
		case "99":
			select {
			case <-held:
			case <-r.Context().Done():
				return nil
			}
		case "13":
			w.Header().Set("HX-Retarget", "#notices")
			w.Header().Set("HX-Reswap", "innerHTML")
			w.WriteHeader(http.StatusInternalServerError)
			return ui.Message(ui.Notice{Kind: "problem", Word: "Fettle failed.", Say: "The log says why."}).Render(r.Context(), w)
		case "twelve":
			f.Fail("amount", `give a length such as 12, 0.5 in, 1/2" or 15 thou`)
		}
		w.WriteHeader(f.Status())
		if r.Header.Get("HX-Request") == "true" {
			return errors.Join(planningForm(f).Render(r.Context(), w),
				ui.SavedUpdate("saved 14:03").Render(r.Context(), w))
		}
		return planning(f).Render(r.Context(), w)
	}))
	return server.URL
}

// all joins components, and text that is HTML already.
func all(parts ...any) templ.Component {
	return templ.ComponentFunc(func(ctx context.Context, w io.Writer) error {
		for _, part := range parts {
			var err error
			switch p := part.(type) {
			case string:
				_, err = io.WriteString(w, p)
			case templ.Component:
				err = p.Render(ctx, w)
			}
			if err != nil {
				return err
			}
		}
		return nil
	})
}

// within puts children into a component that takes some.
func within(outer templ.Component, children ...any) templ.Component {
	return templ.ComponentFunc(func(ctx context.Context, w io.Writer) error {
		return outer.Render(templ.WithChildren(ctx, all(children...)), w)
	})
}

func planning(f *form.Form) templ.Component {
	return within(ui.Layout(ui.Page{
		Title:  "More travel",
		Crumbs: []ui.Link{{Text: "Lathe, 105 mm", Href: "/"}, {Text: "Cross slide", Href: "/specimen/others"}, {Text: "More travel"}},
		Saved:  "millimetres · saved 14:02",
	}), planningForm(f))
}

func planningForm(f *form.Form) templ.Component {
	why := &ui.Explanation{
		Formula: "gap = dial − slide end − travel",
		Numbers: "= 178.0 − 78.0 − 100.0 = 0.0 mm",
		Say:     []string{"May be touched within ± 0.2. Measure the slide’s end better first: it makes 81 % of that."},
		Inputs:  []ui.Input{{Label: "dial’s inner face", Value: "178.0 mm", Origin: "assumed"}, {Label: "slide’s outer end", Value: "78.0 mm", Origin: "measured"}},
		Source:  "the layout of the axis", Verdict: "tight",
	}
	amount := f.Value("amount")
	return all(`<form class="planning" id="planning" action="/specimen" method="post" hx-post="/specimen"
		hx-trigger="input changed delay:150ms, change, submit" hx-swap="outerMorph" hx-sync="this:replace">
		<section class="plan-amount fields"><h1>More travel</h1>`,
		ui.ChoiceRow(ui.Choice{Name: "end", Label: "End of the axis", Options: []ui.Option{{Value: "outer", Text: "Outward, towards the operator", Chosen: true}, {Value: "inner", Text: "Inward"}}}),
		ui.FieldRow(ui.Field{Name: "amount", Label: "Amount", Value: amount, Hint: `12, 0.5 in, 15 thou, 1/2"`, Problem: f.Problem("amount"), Big: true, Unit: "mm"}),
		`</section><section class="plan-picture" aria-label="Answer">
		<div class="answer" id="answer" aria-live="polite"><p>The cross slide goes <b>`+templ.EscapeString(amount)+` mm</b> further out, at most, until the splash tray is measured.
		The bracket grows by <b>10.5 mm</b>, the screw needs an extension of <b>10.5 mm</b> and a support bearing, and <b>11 mm</b> of wall is left.
		Disc work can start on <b>192 mm</b>, 24 more; over the slide nothing is gained.</p></div>`,
		within(ui.PictureFrame(ui.Picture{Label: "Side view of the cross slide, now and planned", Far: true}), drawing),
		ui.SlideControl(ui.Slider{ID: "at", Label: "slide at", Least: "0", Most: "100", Step: "0.5", Value: "100", Of: "of 100 mm", Unit: "mm", Moves: "moving", Base: "100", Scale: "1"}),
		`</section><section class="plan-choices"><section><h2>How far could I go</h2>`+far+`</section>
		<section class="fields"><h2>What is met, and what to do about it</h2>`,
		ui.ChoiceRow(ui.Choice{Name: "at88", Label: "At 88, the nut meets the front wall", Options: []ui.Option{{Value: "cut", Text: "cut the wall back by 12", Chosen: true}, {Value: "move", Text: "move the nut on its slide"}}}),
		ui.ChoiceRow(ui.Choice{Name: "at89", Label: "At 89.5, the slide meets the dial", Options: []ui.Option{{Value: "bracket", Text: "lengthen the bracket by 10.5", Chosen: true}}}),
		`<div class="actions"><button class="main-action" name="do" value="add">Add to the plan</button></div></section></section>
		<div class="plan-results"><section><h2>Knock-ons</h2>`,
		ui.KnockOnTree([]ui.KnockOn{{ID: "k1", Label: "Travel, outward", Was: "88", Now: "100 mm", Moved: "+12", Then: []ui.KnockOn{
			{ID: "k2", Label: "Nut meets the front wall: wall cut back", Was: "23", Now: "11 mm", Moved: "−12"},
			{ID: "k3", Label: "Slide meets the dial, 1.5 of slack: bracket", Was: "26", Now: "36.5 mm", Moved: "+10.5", Explain: why, Then: []ui.KnockOn{
				{ID: "k4", Label: "Screw end beyond the bracket", Was: "36", Now: "25.5 mm", Moved: "−10.5", Then: []ui.KnockOn{
					{ID: "k5", Label: "Extension beyond the screw’s end", Now: "10.5 mm", Moved: "new", Then: []ui.KnockOn{
						{ID: "k6", Label: "Support bearing, 10 × 19 × 5", Now: "seat 19 H7", Moved: "new"}}}}}}},
			{ID: "k7", Label: "Slide supported at the outer end", Was: "125", Now: "113 mm", Moved: "−12"},
			{ID: "k8", Label: "Starts on a diameter of, disc work", Was: "168", Now: "192 mm", Moved: "+24"},
			{ID: "k9", Label: "Starts on a diameter of, over the slide", Now: "114 mm", Moved: "0", Because: "the swing over the cross slide swallows it"},
		}}}),
		`</section><section><h2>Checks</h2>`,
		ui.CheckList([]ui.Check{
			{ID: "c1", Name: "Wall left in front of the nut", Figure: "11.0", Limit: "≥ 8", Verdict: ui.Verdict{Word: "holds", Margin: "3.0 to spare"}, Explain: why},
			{ID: "c2", Name: "Nut on full thread, outer end", Figure: "24 of 24", Limit: "24", Verdict: ui.Verdict{Word: "holds", Margin: "10.0 to spare"}},
			{ID: "c3", Name: "Slide overhang, share of its length", Figure: "0.25", Limit: "≤ 0.33", Verdict: ui.Verdict{Word: "holds"}},
			{ID: "c4", Name: "Slide to dial, outer end", Figure: "0.0 ± 0.2", Limit: "≥ 0", Verdict: ui.Verdict{Word: "tight", Margin: "just touches"}, Explain: why, Open: true},
			{ID: "c5", Name: "Slide overhang, inner end", Figure: "0.48", Limit: "≤ 0.33", Verdict: ui.Verdict{Word: "fails", Margin: "as found"}},
			{ID: "c6", Name: "Splash tray at the outer end", Figure: "–", Limit: "≥ 0", Verdict: ui.Verdict{Word: "unmeasured", Margin: "gap to the tray"}},
		}),
		`</section></div></form>`)
}

func others() templ.Component {
	return within(ui.Layout(ui.Page{Title: "Cross slide", Crumbs: []ui.Link{{Text: "Lathe, 105 mm", Href: "/"}, {Text: "Cross slide"}}, Saved: "millimetres"}),
		`<h1>Cross slide</h1>`,
		ui.Message(ui.Notice{Kind: "saved", Word: "Saved.", Say: "All of it is on disk."}),
		ui.Message(ui.Notice{Kind: "stale", Word: "Changed meanwhile.", Say: "Somebody saved this sheet at 14:01. What you typed is below; look through it and save again."}),
		ui.Message(ui.Notice{Kind: "caution", Word: "Caution.", Say: "Take the plug out before a hand goes near the screw."}),
		`<form action="/specimen" method="post" class="fields">`,
		ui.TickRow(ui.Tick{Name: "tray", Label: "There is no splash tray", On: true}),
		ui.AreaRow(ui.Area{Name: "note", Label: "Note", Value: "as found", Hint: "anything", Problem: "give less of it"}),
		ui.RadioRows(ui.Radios{Name: "handle", Label: "Does the handle stay?", Options: []ui.Option{{Value: "yes", Text: "Yes", Chosen: true}, {Value: "no", Text: "No"}}, Problem: "choose one"}),
		`<p>`, ui.OriginMark("made"), ui.OriginMark("assumed"), ui.OriginMark("unknown"), ui.OriginMark("changed"), `</p>`,
		`<div class="actions"><button>Save</button><a class="button" href="/">Back</a></div></form>
		<div class="cards"><article class="card"><h2><a href="/specimen">Lathe, 105 mm</a></h2><p>One axis, one upgrade planned.</p>
		<dl><dt>cross slide, travel</dt><dd>88 mm</dd></dl></article><article class="card"><h2>Bench mill</h2><p>Y axis and column.</p>`,
		ui.FigureDetails(ui.Figure{ID: "f1", Value: "daylight 240 mm", Explain: ui.Explanation{Formula: "h = c − t", Source: "common practice, no source"}}),
		`</article></div>`)
}

const far = `<svg class="far" viewBox="0 0 312 150" role="img" aria-label="12 asked; 15 can be had, stopped by the front wall">
	<rect class="far-track" x="0" y="24" width="312" height="8"/><rect class="far-can" x="0" y="24" width="156" height="8"/>
	<path class="far-mark" d="M125 17v18"/><text class="far-asked" x="125" y="13" text-anchor="middle">12</text>
	<path class="far-line" d="M156 24v32M198 24v62"/><path class="far-line far-rule" d="M260 24v92"/>
	<text x="152" y="56" text-anchor="end"><tspan class="far-number">15</tspan> front wall 8 mm</text>
	<text x="194" y="86" text-anchor="end"><tspan class="far-number">19</tspan> swing over the bed</text>
	<text x="256" y="116" text-anchor="end"><tspan class="far-number">25</tspan> slide overhang</text></svg>`

var drawing = strings.Join([]string{
	`<svg class="drawing" viewBox="-80 -50 310 92" role="img" aria-label="The nut stands 11 from the wall’s outer face; bracket 36.5, 26 before">`,
	`<g class="hatch">`, hatch(0, 141, -26, -16), `</g><rect class="ln-visible" x="0" y="-26" width="141" height="10"/>`,
	`<rect class="ln-visible" x="0" y="-16" width="6" height="30"/><rect class="ln-visible" x="130" y="-16" width="11" height="30"/>`,
	`<rect class="ln-cut" x="118" y="-16" width="12" height="30"/><rect class="ln-visible" x="6" y="-5" width="134" height="6"/>`,
	`<rect class="ln-visible" x="141" y="-15" width="26" height="26"/><rect class="fill-new" x="167" y="-15" width="10.5" height="26"/>`,
	`<rect class="ln-old" x="167.5" y="-18" width="16.5" height="34"/><rect class="ln-visible" x="178" y="-18" width="16.5" height="34"/>`,
	`<rect class="ln-visible" x="194.5" y="-12" width="14" height="22"/><rect class="ln-visible" x="208.5" y="-8" width="5" height="14"/>`,
	`<path class="ln-centre" d="M-76 -2h296"/><path class="ln-hidden" d="M141 -7h36M141 3h36"/>`,
	`<g id="moving" class="moving"><rect class="fill-part ln-visible" x="28" y="-40" width="150" height="12"/><g class="hatch">`, hatch(28, 178, -40, -28), `</g>`,
	`<rect class="fill-part ln-visible" x="106" y="-12" width="24" height="20"/><text class="part-label" font-size="4" x="100" y="-32.5" text-anchor="middle">slide</text></g>`,
	`<rect class="ln-old" x="16" y="-40" width="150" height="12"/>`,
	`<text class="part-label" font-size="4" x="154" y="-.5" text-anchor="middle">bracket</text><text class="part-label" font-size="4" x="186" y="-.5" text-anchor="middle">dial</text>`,
	`<path class="dim" d="M130 16v14M141 13v17M177.5 13v17M130 28h47.5"/><path class="dim-arrow" d="M141 28l3 -.8v1.6zM177.5 28l-3 -.8v1.6z"/>`,
	`<text class="dim-text" font-size="4.2" x="135.5" y="26.5" text-anchor="middle">11</text><text class="dim-text" font-size="4.2" x="156" y="26.5" text-anchor="middle">36.5</text>`,
	`<text class="dim-old" font-size="4.2" x="167" y="26.5" text-anchor="middle">26</text></svg>`,
}, "")

// hatch gives lines at 45 degrees within a rectangle.
func hatch(left, right, top, bottom float64) string {
	var lines strings.Builder
	for x := left; x+bottom-top <= right; x += 3 {
		fmt.Fprintf(&lines, `<path d="M%g %gL%g %g"/>`, x, bottom, x+bottom-top, top)
	}
	return lines.String()
}
