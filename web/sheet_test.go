package web_test

import (
	"encoding/json"
	"maps"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
)

// fields gives what a browser would send of the form with the id, no button pressed.
func fields(t testing.TB, page, id string) url.Values {
	t.Helper()
	root, err := html.Parse(strings.NewReader(page))
	require.NoError(t, err)
	values := url.Values{}
	attr := func(n *html.Node, name string) (string, bool) {
		for _, a := range n.Attr {
			if a.Key == name {
				return a.Val, true
			}
		}
		return "", false
	}
	var walk func(n *html.Node, in bool)
	walk = func(n *html.Node, in bool) {
		if is, _ := attr(n, "id"); n.Data == "form" {
			in = is == id
		}
		name, named := attr(n, "name")
		switch {
		case !in || !named:
		case n.Data == "input":
			kind, _ := attr(n, "type")
			value, _ := attr(n, "value")
			if _, ticked := attr(n, "checked"); kind != "checkbox" && kind != "radio" || ticked {
				values.Add(name, value)
			}
		case n.Data == "select":
			for i, o := range options(n) {
				value, _ := attr(o, "value")
				if _, is := attr(o, "selected"); is || i == 0 {
					values.Set(name, value)
				}
			}
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c, in)
		}
	}
	walk(root, false)
	return values
}

func options(n *html.Node) (all []*html.Node) {
	for c := range n.Descendants() {
		if c.Data == "option" {
			all = append(all, c)
		}
	}
	return all
}

// sheet posts a sheet's form as it is, with pairs in place of what it holds.
func (k kept) sheet(t *testing.T, path string, form url.Values, pairs ...string) *httptest.ResponseRecorder {
	t.Helper()
	values := url.Values{}
	for name, all := range form {
		values[name] = all
	}
	for i := 0; i < len(pairs); i += 2 {
		values.Set(pairs[i], pairs[i+1])
	}
	return send(k, request(http.MethodPost, k.url+path, values))
}

func (k kept) axis(t *testing.T) axis.Axis {
	t.Helper()
	return k.now(t).Axes[0]
}

// The form holds all that the sheet keeps: sent as it came, it changes nothing, and so makes no revision.
func TestSheetSentUnchangedChangesNothing(t *testing.T) {
	for _, d := range demo.Machines() {
		k := keep(t, d.Machine)
		for i, a := range k.now(t).Axes {
			path := "/axes/" + a.Key
			form := fields(t, k.get(t, path), "sheet")
			require.Equal(t, http.StatusSeeOther, k.sheet(t, path, form).Code)
			want := a
			want.Obstacles = a.Obstructions()
			if len(want.Obstacles) == 0 {
				want.Obstacles = nil
			}
			require.Equal(t, want, k.now(t).Axes[i], "%s %s", d.Key, a.Key)
			revision := k.now(t).AxisRevisions[a.Key]
			require.Equal(t, http.StatusSeeOther, k.sheet(t, path, fields(t, k.get(t, path), "sheet")).Code)
			require.Equal(t, revision, k.now(t).AxisRevisions[a.Key])
		}
	}
}

func TestSheetPage(t *testing.T) {
	k := keep(t, demo.Lathe())
	page := k.get(t, "/axes/cross")
	says(t, page,
		"measuring sheet, positions from the saddle&#39;s rear face",
		"<svg", "The letters are those of the list below.",
		`<span class="letter" aria-hidden="true">A</span>`,
		"wind it from end to end", // how
		`name="bracket.to" value="167"`,
		"follows the end of the bracket",
		"assumed: common practice, no source: the parts touch",
		"Left to measure", "there is none, or it cannot be met",
		"Does one nut both set the end float and hold the dial or the handle?",
		"Rules and assumptions that count for this axis",
		"The handle goes with the slide.",
	)
	blank := k.get(t, "/axes/cross?blank=1")
	says(t, blank, `class="box"`, "This line is 100 mm long", "Back to the sheet")
	saysNot(t, blank, "<input", `value="167"`)
}

// What cannot be read is kept as it was typed, and said at its field.
func TestSheetKeepsWhatCannotBeRead(t *testing.T) {
	k := keep(t, lathe())
	form := fields(t, k.get(t, "/axes/cross"), "sheet")
	w := k.sheet(t, "/axes/cross", form, "bracket.to", "about  167", "slide.from", "-2 7/8 in", "bracket.from.spread", "a hair", "nut.to.on", "yesterday", "nut.to.note", "<b>")
	require.Equal(t, http.StatusSeeOther, w.Code)
	a := k.axis(t)
	require.Equal(t, "about  167", a.Parts[3].Entries["to"].Typed)
	require.Equal(t, "-2 7/8 in", a.Parts[7].Entries["from"].Typed)
	page := k.get(t, "/axes/cross")
	says(t, page, `value="about  167"`, "Cannot be read; give a length such as 12", `value="yesterday"`, "Give the day as 2026-03-14", `value="a hair"`, "Plus or minus: cannot be read", "&lt;b&gt;")
	says(t, k.get(t, ""), `href="`+k.url+`/axes/cross#bracket.to"`)
}

func TestSheetWhileTyping(t *testing.T) {
	k := keep(t, lathe())
	form := fields(t, k.get(t, "/axes/cross"), "sheet")
	form.Set("travel_found", "90")
	r := request(http.MethodPost, k.url+"/axes/cross", form)
	r.Header.Set("HX-Request", "true")
	w := send(k, r)
	require.Equal(t, http.StatusOK, w.Code)
	page := w.Body.String()
	saysNot(t, page, "<html")
	says(t, page, `id="sheet"`, `value="90"`, "saved 12:00", `name="revision" id="revision" value="2"`,
		// The parts stop it at 88 as before, two before the end that was measured.
		"before the end of the travel that was measured")
	require.Equal(t, "90", k.axis(t).Entries["travel_found"].Typed)

	// The request before was given up by the page, so this one still names the first revision.
	form.Set("travel_found", "88")
	form.Set("turn", "2")
	r = request(http.MethodPost, k.url+"/axes/cross", form)
	r.Header.Set("HX-Request", "true")
	require.Equal(t, http.StatusOK, send(k, r).Code, "a page is not stale by its own doing")
	require.Equal(t, "88", k.axis(t).Entries["travel_found"].Typed)
}

// Two windows: the later is told, sees what the other saved, and loses nothing.
func TestSheetChangedMeanwhile(t *testing.T) {
	k := keep(t, lathe())
	mine, theirs := fields(t, k.get(t, "/axes/cross"), "sheet"), fields(t, k.get(t, "/axes/cross"), "sheet")
	require.Equal(t, http.StatusSeeOther, k.sheet(t, "/axes/cross", theirs, "bracket.to", "168", "nut.to", "29.9").Code)
	require.Equal(t, http.StatusSeeOther, k.sheet(t, "/axes/cross", fields(t, k.get(t, "/axes/cross"), "sheet"), "do", "add_part", "new_role", "other", "new_label", "stop rod").Code)
	saved := k.axis(t)

	w := k.sheet(t, "/axes/cross", mine, "bracket.to", "166", "do", "save")
	require.Equal(t, http.StatusConflict, w.Code)
	page := w.Body.String()
	says(t, page, "Changed meanwhile.", `name="bracket.to" value="166"`, "saved there: <b>168</b>", "<td>30</td>", "<td>29.9</td>", "Save what is here", "Stop rod")
	require.Equal(t, saved, k.axis(t), "nothing was saved")

	again := k.sheet(t, "/axes/cross", fields(t, page, "sheet"), "do", "mine")
	require.Equal(t, http.StatusSeeOther, again.Code, again.Body)
	a := k.axis(t)
	require.Equal(t, "166", a.Parts[3].Entries["to"].Typed)
	require.Equal(t, "30", a.Parts[8].Entries["to"].Typed)
	require.Equal(t, "stop_rod", a.Parts[9].Key, "what only the other window knew of stays")
}

func TestSheetButtons(t *testing.T) {
	for _, tc := range []struct {
		name  string
		pairs []string
		at    string // where the reader is led
		want  func(a *axis.Axis)
	}{
		{"up", []string{"do", "up:nut"}, "#nut", func(a *axis.Axis) { a.Parts[7], a.Parts[8] = a.Parts[8], a.Parts[7] }},
		{"down", []string{"do", "down:ways"}, "#ways", func(a *axis.Axis) { a.Parts[0], a.Parts[1] = a.Parts[1], a.Parts[0] }},
		{"up at the top", []string{"do", "up:ways"}, "#ways", func(*axis.Axis) {}},
		{"another part", []string{"do", "add_part", "new_role", "nut", "new_label", "Second nut"}, "#second_nut", func(a *axis.Axis) {
			a.Parts = append(a.Parts, axis.Part{Key: "second_nut", Label: "Second nut", Role: "nut", Side: axis.Moving, Entries: map[string]plan.Entry{}})
		}},
		{"an unnamed part", []string{"do", "add_part", "new_role", "wall"}, "#wall", func(a *axis.Axis) {
			a.Parts = append(a.Parts, axis.Part{Key: "wall", Label: "wall", Role: "wall", Side: axis.Fixed, Entries: map[string]plan.Entry{}})
		}},
		{"an obstacle", []string{"do", "add_obstacle", "new_obstacle", "Bench", "new_end", "minus"}, "#bench", func(a *axis.Axis) {
			a.Obstacles = append(a.Obstacles, axis.Obstacle{Key: "bench", Label: "Bench", End: axis.Minus})
		}},
		{"tied", []string{"shank.tie", "bracket.to", "shank.length", "36"}, "", func(a *axis.Axis) {
			a.Parts[6].Tie = &axis.Tie{Part: "bracket", Face: "to"}
			a.Parts[6].Entries["length"] = plan.Entry{Typed: "36"} // and its faces are kept, for when it is untied
		}},
		{"another role", []string{"dial.role", "handle", "dial.material", "brass", "dial.lanes", "Slide, nut", "dial.side", "moving"}, "", func(a *axis.Axis) {
			a.Parts[4].Role, a.Parts[4].Material, a.Parts[4].Lanes, a.Parts[4].Side = "handle", "brass", []string{"slide", "nut"}, axis.Moving
		}},
		{"meets nothing", []string{"dial.lanes", "none"}, "", func(a *axis.Axis) { a.Parts[4].Lanes = []string{} }},
		{"ruled out", []string{"splash_tray.clear", "yes"}, "", func(a *axis.Axis) { a.Obstacles[0].Clear = true }},
		{"as made", []string{"nut.to", "30.02", "nut.to.origin", "as made", "nut.to.with", "micrometer", "nut.to.spread", "0.01", "nut.to.on", "2026-03-01", "nut.to.note", "new nut"}, "",
			func(a *axis.Axis) {
				a.Parts[8].Entries["to"] = plan.Entry{Typed: "30.02", Origin: sheet.AsMade, With: "micrometer", Spread: "0.01", On: "2026-03-01", Note: "new nut"}
			}},
		{"no such instrument", []string{"nut.to.with", "eye", "nut.to.origin", "guessed"}, "", func(*axis.Axis) {}},
		{"answered", []string{"answer.shared_nut", "no"}, "", func(a *axis.Axis) { a.Answers["shared_nut"] = "no" }},
		{"limit", []string{"agree_within", "1", "agree_within.note", "worn rule"}, "", func(a *axis.Axis) {
			a.Entries["agree_within"] = plan.Entry{Typed: "1", Note: "worn rule"}
		}},
		{"words", []string{"label", "Top slide", "plus", "towards the tailstock", "capacity", ""}, "", func(a *axis.Axis) {
			a.Label, a.Plus, a.Capacity = "Top slide", "towards the tailstock", ""
		}},
		{"nothing measured any more", []string{"travel_found", ""}, "", func(a *axis.Axis) { delete(a.Entries, "travel_found") }},
	} {
		t.Run(tc.name, func(t *testing.T) {
			k := keep(t, lathe())
			want := k.axis(t)
			want.Obstacles = want.Obstructions()
			tc.want(&want)
			w := k.sheet(t, "/axes/cross", fields(t, k.get(t, "/axes/cross"), "sheet"), tc.pairs...)
			require.Equal(t, http.StatusSeeOther, w.Code)
			require.Equal(t, k.url+"/axes/cross"+tc.at, w.Header().Get("Location"))
			require.Equal(t, want, k.axis(t))
			k.get(t, "/axes/cross")
		})
	}
}

func TestSheetRefusals(t *testing.T) {
	k := keep(t, lathe())
	form := fields(t, k.get(t, "/axes/cross"), "sheet")
	require.Equal(t, http.StatusBadRequest, k.sheet(t, "/axes/cross", form, "do", "polish").Code)
	require.Equal(t, http.StatusNotFound, k.sheet(t, "/axes/other", form).Code)
	w := k.sheet(t, "/axes/cross", form, "label", " ", "nut.to", "31")
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	says(t, w.Body.String(), "give a name")
	require.Equal(t, "Cross slide", k.axis(t).Label)
	require.Equal(t, "31", k.axis(t).Parts[8].Entries["to"].Typed, "all else is kept")
}

// What is taken off can be put back as it was, with scripts and without.
func TestSheetUndo(t *testing.T) {
	k := keep(t, demo.Lathe())
	k.sheet(t, "/axes/cross", fields(t, k.get(t, "/axes/cross"), "sheet"))
	was := k.axis(t)
	w := k.sheet(t, "/axes/cross", fields(t, k.get(t, "/axes/cross"), "sheet"), "do", "take_off_part:bracket")
	require.Equal(t, http.StatusOK, w.Code)
	page := w.Body.String()
	says(t, page, "“bracket” is off the sheet.", `value="put_back_part:bracket"`)
	require.Len(t, k.axis(t).Parts, len(was.Parts)-1)

	// It stays at hand while other things are typed.
	page = k.sheet(t, "/axes/cross", fields(t, page, "sheet"), "nut.to.note", "checked").Body.String()
	w = k.sheet(t, "/axes/cross", fields(t, page, "sheet"), "do", "put_back_part:bracket", "nut.to.note", was.Parts[len(was.Parts)-1].Entries["to"].Note)
	require.Equal(t, http.StatusSeeOther, w.Code)
	require.Equal(t, was, k.axis(t))
}

func TestSheetObstacleTakenOff(t *testing.T) {
	m := lathe()
	m.Axes[0].Obstacles = append(m.Axes[0].Obstacles, axis.Obstacle{Key: "bench", Label: "bench", End: axis.Plus, Gap: plan.Entry{Typed: "40", Note: "its edge"}})
	k := keep(t, m)
	was := k.axis(t)
	was.Obstacles = was.Obstructions()
	page := k.sheet(t, "/axes/cross", fields(t, k.get(t, "/axes/cross"), "sheet"), "do", "take_off_obstacle:bench").Body.String()
	require.Len(t, k.axis(t).Obstacles, len(was.Obstacles)-1)
	k.sheet(t, "/axes/cross", fields(t, page, "sheet"), "do", "put_back_obstacle:bench")
	require.ElementsMatch(t, was.Obstacles, k.axis(t).Obstacles)
}

// Whatever is typed wherever: it is kept, and the pages still open.
func TestSheetTakesAnything(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	texts := []string{"", " ", "0", "-1", "1e9", "12", "1/0", "½", `1-1/4"`, "nut", "nut.to", "yes", "plus", "moving", "wall", "none", "slide,,", "旋盤", "\u202e", "<b>", "'; --",
		"a\r\nb", strings.Repeat("x", 5000), "as made", "unknown", "2026-02-30", "held_screw", "rack", "depth"}
	for range 40 {
		k := keep(t, demo.Lathe())
		form := fields(t, k.get(t, "/axes/cross"), "sheet")
		for _, name := range slices.Sorted(maps.Keys(form)) {
			if name != "revision" && name != "window" && rng.IntN(4) == 0 {
				form[name][rng.IntN(len(form[name]))] = texts[rng.IntN(len(texts))]
			}
		}
		w := k.sheet(t, "/axes/cross", form)
		require.Less(t, w.Code, http.StatusInternalServerError, form)
		k.get(t, "/axes/cross")
		k.get(t, "")
		k.get(t, "/upgrades/1")
		if w.Code == http.StatusSeeOther && form.Has("nut.to") {
			a := k.axis(t)
			if nut, ok := a.Part("nut"); ok && slices.Contains(form["part"], "nut") {
				require.Equal(t, form.Get("nut.to"), nut.Entries["to"].Typed)
			}
		}
	}
}

func TestSheetAsJSON(t *testing.T) {
	k := keep(t, lathe())
	r := request(http.MethodGet, k.url+"/axes/cross", nil)
	r.Header.Set("Accept", "application/json")
	var told struct {
		Label string
		Left  int `json:"left_to_measure"`
		Parts []struct {
			Key     string
			Figures []struct{ Letter, Name, Value string }
		}
	}
	require.NoError(t, json.Unmarshal(send(k, r).Body.Bytes(), &told))
	require.Equal(t, "Cross slide", told.Label)
	require.Equal(t, 2, told.Left, "the tray, and the usual thing at the rear that the sheet asks for")
	require.Equal(t, "bracket", told.Parts[3].Key)
	require.Equal(t, "141", told.Parts[3].Figures[0].Value)
	require.NotEmpty(t, told.Parts[3].Figures[0].Letter)
}

// Nothing measured is a sheet too, and one in inches shows inches.
func TestSheetOfANewAxis(t *testing.T) {
	k := keep(t, machine.Machine{Name: "Old lathe", Kind: "lathe", Units: "in"})
	for _, a := range axis.Arrangements {
		at := k.post(t, "/axes", http.StatusSeeOther, "label", "Axis", "arrangement", a.Key)
		page := send(k, request(http.MethodGet, at, nil))
		require.Equal(t, http.StatusOK, page.Code, a.Key)
		says(t, page.Body.String(), "<span>in</span>", "not measured")
	}
}
