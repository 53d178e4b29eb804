package web_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web"
)

// bench is a server with one machine, and the page of the machine's first upgrade.
type bench struct {
	*testing.T
	server *web.Server
	kept   *store.Store
	id     int64
	path   string
}

func benchOf(t *testing.T, m machine.Machine) bench {
	t.Helper()
	kept := newStore(t)
	server, _ := serverOf(t, kept)
	id, err := kept.AddMachine(t.Context(), m)
	require.NoError(t, err)
	return bench{t, server, kept, id, fmt.Sprintf("/machines/%d/upgrades/1", id)}
}

func (b bench) get(path string) *httptest.ResponseRecorder {
	return send(b.server.Handler(), request(http.MethodGet, path, nil))
}

// post sends the form as htmx does.
func (b bench) post(path string, form url.Values) *httptest.ResponseRecorder {
	r := request(http.MethodPost, path, form)
	r.Header.Set("HX-Request", "true")
	return send(b.server.Handler(), r)
}

// plainPost sends the form as a browser does by itself.
func (b bench) plainPost(path string, form url.Values) *httptest.ResponseRecorder {
	return send(b.server.Handler(), request(http.MethodPost, path, form))
}

func (b bench) upgrade() (upgrade.Upgrade, int64) {
	b.Helper()
	m, err := b.kept.Machine(b.Context(), b.id)
	require.NoError(b, err)
	for _, u := range m.Upgrades {
		if u.ID == "1" {
			return u, m.UpgradeRevisions["1"]
		}
	}
	b.Fatal("the upgrade is gone")
	return upgrade.Upgrade{}, 0
}

var hidden = regexp.MustCompile(`<input type="hidden" name="(revision|window)" id="[a-z]+" value="([^"]*)">`)

// form is what a page sends that was just opened, with the fields given.
func (b bench) form(pairs ...string) url.Values {
	b.Helper()
	f := url.Values{}
	for _, field := range hidden.FindAllStringSubmatch(b.get(b.path).Body.String(), -1) {
		f.Set(field[1], field[2])
	}
	require.Len(b, f, 2, "the page's own fields")
	for i := 0; i < len(pairs); i += 2 {
		f.Set(pairs[i], pairs[i+1])
	}
	return f
}

// said is a page's text as it is read: without its tags, white space as one space.
func said(w *httptest.ResponseRecorder) string {
	text := regexp.MustCompile(`<[^>]*>`).ReplaceAllString(w.Body.String(), " ")
	return strings.Join(strings.Fields(text), " ")
}

// The figures are those of the demo lathe: see the table that was worked out by hand in plan/demo.
func TestPlanAnswersTheMainQuestion(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	w := b.post(b.path, b.form("end", "plus", "amount", "12"))
	require.Equal(t, http.StatusOK, w.Code)
	says(t, said(w),
		"goes 12 mm further outward, at most, until the gap to the splash tray is measured",
		"bracket grows by 10.5 mm", "extension of 10.5 mm",
		"At 88 mm, the nut meets the front wall", "12 mm must give here",
		"At 89.5 mm, the slide meets the dial", "10.5 mm must give here",
		"was 26 now 36.5 mm +10.5",
		"now by “nut meets front wall” and “slide meets dial”",
		"nothing gained: limited by “swing over the cross slide, less clearance”, before and after",
		"Broken as found, and not charged to this change.",
		"You could have 15 mm; then the front wall metal left is less than 8 mm.",
		"After that comes, at 19 mm: swing over the bed.",
		"At most: the gap to the splash tray is not measured.",
		"millimetres · saved 12:00",
	)
	saysNot(t, said(w), "the slide meets the handle", "<html")
	u, revision := b.upgrade()
	require.Equal(t, "12", u.Inputs["amount"])
	require.EqualValues(t, 2, revision)
	require.Equal(t, upgrade.Draft, u.State)
}

func TestPlanSaysWhatCanBeHad(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	w := b.post(b.path, b.form("amount", "30"))
	says(t, said(w), "You asked for 30 mm; you can have 15 mm, because then the front wall metal left is less than 8 mm.",
		// 19 is where the largest disc is reached: 2 × (88 + 19 − 4) = 206 = 210 − 2 × 2.
		"19 mm is enough: beyond it")
}

func TestPlanInInches(t *testing.T) {
	m := demo.Lathe().In("in")
	b := benchOf(t, m)
	w := b.post(b.path, b.form("amount", "0.5"))
	require.Equal(t, http.StatusOK, w.Code)
	// 12.7 mm; 12.7 − 1.5 = 11.2 mm; 100.7 mm of travel.
	says(t, said(w), "goes 0.5 in further outward", "grows by 0.441 in", "≤ 3.965 in", "inches · saved 12:00")
	saysNot(t, said(w), " mm ")
}

// What the program proposes in mm is not taken for inches.
func TestPlanProposesInInchesToo(t *testing.T) {
	m := demo.Lathe().In("in")
	m.Upgrades[0].Inputs = map[string]string{"joint": "brazed"}
	b := benchOf(t, m)
	w := b.post(b.path, b.form("amount", "0.5"))
	require.Equal(t, http.StatusOK, w.Code)
	says(t, w.Body.String(), `name="sleeve" value="14 mm"`)
}

func TestPlanForms(t *testing.T) {
	for _, tc := range []struct {
		name, to string
		form     []string
		code     int
		says     []string
		saysNot  []string
		kept     string // as the amount
		state    upgrade.State
	}{
		{"a figure", "", []string{"amount", "12"}, http.StatusOK, []string{"further outward"}, nil, "12", upgrade.Draft},
		{"as said in a workshop", "", []string{"amount", `1/2"`}, http.StatusOK, []string{"12.7 mm", `value="1/2&#34;"`}, nil, `1/2"`, upgrade.Draft},
		{"cannot be read", "", []string{"amount", "twelve"}, http.StatusUnprocessableEntity,
			[]string{"Not worked out.", `value="twelve"`, `aria-invalid="true"`, "amount-problem", "saved 12:00"}, []string{"further outward", "Knock-ons", "can have"}, "twelve", upgrade.Draft},
		{"marked up", "", []string{"amount", "<b>12"}, http.StatusUnprocessableEntity, []string{`value="&lt;b&gt;12"`}, []string{"<b>12"}, "<b>12", upgrade.Draft},
		{"too much", "", []string{"amount", "2000"}, http.StatusUnprocessableEntity, []string{"from 0 mm to 1000 mm"}, nil, "2000", upgrade.Draft},
		{"blank", "", []string{"amount", " "}, http.StatusOK, []string{"Say how much further", "You could have 15 mm"}, []string{"aria-invalid", "Knock-ons"}, " ", upgrade.Draft},
		{"a choice not of the list", "", []string{"amount", "12", "joint", "glue"}, http.StatusUnprocessableEntity, []string{"Choose one of the list."}, []string{"further outward"}, "12", upgrade.Draft},
		{"nothing but an amount", "", []string{"amount", "3"}, http.StatusOK, []string{`name="pocket.front_wall" value="28"`}, nil, "3", upgrade.Draft},
		{"added", "/add", []string{"amount", "12"}, http.StatusNoContent, nil, nil, "12", upgrade.Planned},
		{"added without a wish", "/add", []string{"amount", ""}, http.StatusUnprocessableEntity, []string{"Say how much first", "not counted until it is added"}, nil, "", upgrade.Draft},
		{"added unreadable", "/add", []string{"amount", "1 2 3"}, http.StatusUnprocessableEntity, []string{"Not worked out."}, nil, "1 2 3", upgrade.Draft},
		{"a field that is no input's", "", []string{"amount", "12", "UPPER", "x", "a b", "y"}, http.StatusOK, nil, []string{"UPPER"}, "12", upgrade.Draft},
	} {
		t.Run(tc.name, func(t *testing.T) {
			b := benchOf(t, demo.Lathe())
			w := b.post(b.path+tc.to, b.form(tc.form...))
			require.Equal(t, tc.code, w.Code)
			says(t, w.Body.String(), tc.says...)
			saysNot(t, w.Body.String(), tc.saysNot...)
			u, _ := b.upgrade()
			require.Equal(t, tc.kept, u.Inputs["amount"])
			require.Equal(t, tc.state, u.State)
			require.NotContains(t, u.Inputs, "UPPER")
			require.NotContains(t, u.Inputs, "revision")
		})
	}
}

func TestPlanKeepsWhatIsNotShown(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	for _, amount := range []string{"12", "0", "", "0.5", "nonsense"} {
		b.post(b.path, b.form("amount", amount))
	}
	before := demo.Lathe().Upgrades[0].Inputs
	u, _ := b.upgrade()
	for name, typed := range before {
		if name != "amount" {
			require.Equal(t, typed, u.Inputs[name], name)
		}
	}
}

func TestPlanPlainSubmit(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	w := b.plainPost(b.path, b.form("amount", "12"))
	require.Equal(t, http.StatusSeeOther, w.Code)
	require.Equal(t, b.path, w.Header().Get("Location"))
	says(t, said(b.get(b.path)), "goes 12 mm further outward", "Work it out")

	w = b.plainPost(b.path, b.form("amount", "a lot"))
	require.Equal(t, http.StatusUnprocessableEntity, w.Code)
	says(t, w.Body.String(), "<html", `value="a lot"`)
	w = b.get(b.path)
	require.Equal(t, http.StatusOK, w.Code, "a look at it is no mistake")
	says(t, w.Body.String(), `value="a lot"`, "Not worked out.")
}

func TestPlanAddAndBack(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	require.Equal(t, http.StatusSeeOther, b.plainPost(b.path+"/add", b.form("amount", "12")).Code)
	says(t, said(b.get(b.path)), "in the plan: it counts", "goes 12 mm further outward", "Back to a draft")

	// While it is in the plan it is changed in the plan.
	b.post(b.path, b.form("amount", "11"))
	u, _ := b.upgrade()
	require.Equal(t, upgrade.Planned, u.State)
	require.Equal(t, "11", u.Inputs["amount"])

	require.Equal(t, http.StatusSeeOther, b.plainPost(b.path+"/back-to-draft", b.form()).Code)
	u, _ = b.upgrade()
	require.Equal(t, upgrade.Draft, u.State)
	require.Equal(t, "11", u.Inputs["amount"])
}

func TestPlanDropAndUndo(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	b.post(b.path, b.form("amount", "12"))
	dropped := b.plainPost(b.path+"/drop", url.Values{})
	require.Equal(t, http.StatusSeeOther, dropped.Code)
	require.Equal(t, http.StatusNotFound, b.get(b.path).Code)
	says(t, b.get(dropped.Header().Get("Location")).Body.String(), `action="`+b.path+`/restore"`, "Undo")

	back := b.plainPost(b.path+"/restore", url.Values{})
	require.Equal(t, http.StatusSeeOther, back.Code)
	says(t, said(b.get(back.Header().Get("Location"))), "goes 12 mm further outward")
	require.Equal(t, http.StatusSeeOther, b.get(b.path+"/dropped").Code, "it is there again")
	require.Equal(t, http.StatusNotFound, b.plainPost(b.path+"/restore", url.Values{}).Code)
}

func TestPlanThatIsNotThere(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	for _, path := range []string{"/machines/99/upgrades/1", fmt.Sprintf("/machines/%d/upgrades/99", b.id), "/machines/x/upgrades/1"} {
		require.Equal(t, http.StatusNotFound, b.get(path).Code, path)
		for _, end := range []string{"", "/add", "/drop", "/back-to-draft", "/restore"} {
			require.Equal(t, http.StatusNotFound, b.plainPost(path+end, url.Values{}).Code, path+end)
		}
	}
	require.Equal(t, http.StatusNotFound, b.get(fmt.Sprintf("/machines/%d/upgrades/x/dropped", b.id)).Code)
}

// What was fitted stays told as it was made, whatever came after it: a record, no form.
func TestPlanFitted(t *testing.T) {
	m := demo.Lathe()
	later := m.Upgrades[0]
	later.ID, later.Inputs = "9", map[string]string{"end": "plus", "amount": "1", "do.front_wall_nut": "cut_front_wall", "do.dial_slide": "longer_bracket"}
	m.Upgrades = append(m.Upgrades, later)
	b := benchOf(t, m)
	b.post(b.path, b.form("amount", "12"))
	_, revision := b.upgrade()
	_, err := b.kept.SetUpgradeState(t.Context(), b.id, "1", revision, upgrade.Finished, "2026-03-01")
	require.NoError(t, err)
	_, err = b.kept.SetUpgradeState(t.Context(), b.id, "9", 1, upgrade.Finished, "2026-03-02")
	require.NoError(t, err)
	w := b.get(b.path)
	require.Equal(t, http.StatusOK, w.Code)
	// 88 as found, 100 with it; the bracket of 26 grew by 10.5. One more since then is not its effect.
	says(t, said(w), "More travel, as made", "Fitted on 1 March 2026", "fitted: part of the machine as it is now", "goes 12 mm further outward",
		"Amount 12 mm", "At 88 mm, the nut meets the front wall cut the front wall back", "was 26 now 36.5 mm +10.5", "Put it back to planned")
	saysNot(t, said(w), "Add to the plan", "Drop it", "Back to a draft", "How far could I go", "finished", "101")
	saysNot(t, w.Body.String(), "hx-post", `name="amount"`, "<select", "by no more than") // no stop was shared

	// Its figures open as of then too.
	says(t, w.Body.String(), "/figures/cross.bracket.length?draft=1")
	figure := said(b.get("/machines/1/figures/cross.bracket.length?draft=1"))
	says(t, figure, "36.5 mm", "As found, before, as made", "before 26 mm", "as made 36.5 mm")

	for _, end := range []string{"", "/add", "/back-to-draft"} {
		w = b.post(b.path+end, url.Values{"amount": {"15"}, "revision": {"2"}})
		require.Equal(t, http.StatusConflict, w.Code)
		says(t, said(w), "This upgrade is fitted, and its page is the record of it: it cannot be changed. Put it back to planned first.")
	}
	require.Equal(t, http.StatusConflict, b.post(b.path+"/drop", nil).Code)
	u, revision := b.upgrade()
	require.Equal(t, "12", u.Inputs["amount"])

	w = b.plainPost(b.path+"/not-fitted", url.Values{"revision": {strconv.FormatInt(revision, 10)}, "back": {"plan"}})
	require.Equal(t, http.StatusSeeOther, w.Code)
	require.Equal(t, b.path, w.Header().Get("Location"))
	says(t, b.get(b.path).Body.String(), `name="amount"`, "in the plan: it counts")
}

func TestPlanInTwoWindows(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	mine, theirs := b.form("amount", "12", "lap", "15"), b.form("amount", "9", "lap", "14")
	require.NotEqual(t, mine.Get("window"), theirs.Get("window"))
	require.Equal(t, http.StatusOK, b.post(b.path, theirs).Code)

	w := b.post(b.path, mine)
	require.Equal(t, http.StatusConflict, w.Code)
	says(t, said(w), "Changed meanwhile.", "Amount 12 9", "Lap over the old end 15 14", "not saved", "Save mine", "Take theirs")
	says(t, w.Body.String(), `value="12"`, `value="15"`, `name="over" value="2"`)
	u, _ := b.upgrade()
	require.Equal(t, "9", u.Inputs["amount"])

	// It stays so until it is decided.
	require.Equal(t, http.StatusConflict, b.post(b.path, mine).Code)
	mine.Set("over", "2")
	require.Equal(t, http.StatusNoContent, b.post(b.path, mine).Code)
	u, _ = b.upgrade()
	require.Equal(t, "12", u.Inputs["amount"])
	require.Equal(t, "15", u.Inputs["lap"])

	// Now the other one is told.
	theirs.Set("amount", "10")
	w = b.post(b.path, theirs)
	require.Equal(t, http.StatusConflict, w.Code)
	says(t, said(w), "Amount 10 12")
}

func TestPlanSaysTheSameInTwoWindows(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	one, two := b.form("amount", "12"), b.form("amount", "12")
	require.Equal(t, http.StatusOK, b.post(b.path, one).Code)
	require.Equal(t, http.StatusOK, b.post(b.path, two).Code, "there is nothing to decide")
}

// A newer request cancels the older one, whose reply with the new revision then never arrives.
func TestPlanWindowIsNotStaleToItself(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	typed := b.form("amount", "1", "turn", "101")
	require.Equal(t, http.StatusOK, b.post(b.path, typed).Code)
	typed.Set("amount", "12")
	typed.Set("turn", "103")
	require.Equal(t, http.StatusOK, b.post(b.path, typed).Code, "the revision is the one before both")

	// One that was overtaken on its way changes nothing any more.
	typed.Set("amount", "7")
	typed.Set("turn", "102")
	require.Equal(t, http.StatusConflict, b.post(b.path, typed).Code)
	u, _ := b.upgrade()
	require.Equal(t, "12", u.Inputs["amount"])

	// What another window wrote in between is no business of this one's.
	require.Equal(t, http.StatusOK, b.post(b.path, b.form("amount", "5")).Code)
	typed.Set("amount", "13")
	typed.Set("turn", "104")
	w := b.post(b.path, typed)
	require.Equal(t, http.StatusConflict, w.Code)
	says(t, said(w), "Changed meanwhile.")
}

// Whatever way the requests of one window come, the last that was typed is what stands.
func TestPlanKeepsTheLatestOfMany(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	opened := b.form()
	var all sync.WaitGroup
	for turn := 1; turn <= 12; turn++ {
		typed := url.Values{"amount": {strconv.Itoa(turn)}, "turn": {strconv.Itoa(turn)}}
		for name, value := range opened {
			typed[name] = value
		}
		all.Go(func() {
			if code := b.post(b.path, typed).Code; code != http.StatusOK && code != http.StatusConflict {
				t.Error(code)
			}
		})
	}
	all.Wait()
	u, _ := b.upgrade()
	require.Equal(t, "12", u.Inputs["amount"])
}

func TestPlanRemedy(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	w := b.post(b.path, b.form("amount", "17"))
	require.Equal(t, http.StatusOK, w.Code)
	says(t, said(w), "fails, short by 2", "Instead: move the nut on its slide")
	says(t, w.Body.String(), `name="apply" value="do.front_wall_nut=move_nut"`)

	require.Equal(t, http.StatusNoContent, b.post(b.path, b.form("amount", "17", "apply", "do.front_wall_nut=move_nut")).Code)
	u, _ := b.upgrade()
	require.Equal(t, "move_nut", u.Inputs["do.front_wall_nut"])
	saysNot(t, said(b.get(b.path)), "fails, short by 2")
}

func TestPlanQuestion(t *testing.T) {
	m := demo.Lathe()
	m.Axes[0].Answers = nil
	b := benchOf(t, m)
	w := b.post(b.path, b.form("amount", "12"))
	says(t, said(w), "Does one nut both set the end float and hold the dial or the handle?")
	require.Equal(t, http.StatusBadRequest, b.post(b.path, b.form("answer", "shared_nut=perhaps")).Code)
	require.Equal(t, http.StatusSeeOther, b.plainPost(b.path, b.form("answer", "shared_nut=yes")).Code)
	says(t, said(b.get(b.path)), "Plan an adjuster of its own")
	require.Equal(t, http.StatusSeeOther, b.plainPost(b.path, b.form("answer", "shared_nut=no")).Code)
	saysNot(t, said(b.get(b.path)), "adjuster", "Does one nut")
}

func TestPlanExplainsWhatIsOpen(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	closed := b.post(b.path, b.form("amount", "12")).Body.String()
	says(t, closed, fmt.Sprintf(`href="/machines/%d/figures/cross.bracket.length?draft=1"`, b.id))
	saysNot(t, closed, "<dl>")
	open := b.post(b.path, b.form("amount", "12", "open", "cross.bracket.length")).Body.String()
	says(t, open, "<dl>", "Source: ", "36.5 mm", "Known within ± ", `name="open" value="cross.bracket.length">`)
	b.post(b.path, b.form("open", "no.such.figure", "amount", "13"))
}

func TestPlanAsJSON(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	r := request(http.MethodPost, b.path, b.form("amount", "12"))
	r.Header.Set("Accept", "application/json")
	w := send(b.server.Handler(), r)
	require.Equal(t, http.StatusOK, w.Code)
	var got struct {
		Answer   string `json:"answer"`
		Revision int64  `json:"revision"`
		Fields   []struct {
			Field *struct{ Name, Value string }
		} `json:"fields"`
		KnockOns []struct {
			Key, Now, Moved string
			Then            []struct{ Key, Was, Now, Moved string }
		} `json:"knock_ons"`
		Checks struct {
			Touched, Unchanged []struct {
				Name    string
				Verdict struct{ Word, Margin string }
			}
		}
		Reach struct {
			To     string
			AtMost bool `json:"at_most"`
			Limits []struct{ At, Label, Level string }
		}
	}
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &got))
	require.Contains(t, got.Answer, "10.5 mm")
	require.EqualValues(t, 2, got.Revision)
	require.Equal(t, "12", got.Fields[1].Field.Value)
	require.Equal(t, "15 mm", got.Reach.To)
	require.True(t, got.Reach.AtMost)
	require.Equal(t, "19 mm", got.Reach.Limits[1].At)
	require.Equal(t, "use", got.Reach.Limits[1].Level)
	require.Equal(t, "cross.asked_plus", got.KnockOns[0].Key)
	require.Equal(t, "+12", got.KnockOns[0].Moved)
	found := false
	for _, k := range got.KnockOns[0].Then {
		if k.Key == "cross.bracket.length" {
			require.Equal(t, "26", k.Was)
			require.Equal(t, "36.5 mm", k.Now)
			found = true
		}
	}
	require.True(t, found, "the bracket")
	require.NotEmpty(t, got.Checks.Touched)
	require.NotEmpty(t, got.Checks.Unchanged)
}

// A riser lifts the lowest position as much as the highest: the reach has two ends, or none.
func TestPlanRiserHasNoAnswer(t *testing.T) {
	m := demo.Mill()
	b := benchOf(t, m)
	for _, u := range m.Upgrades {
		if u.Kind == "riser" {
			b.path = fmt.Sprintf("/machines/%d/upgrades/%s", b.id, u.ID)
		}
	}
	w := b.post(b.path, b.form("amount", "80"))
	require.Equal(t, http.StatusOK, w.Code)
	says(t, said(w), "No amount does it all")
}

// A measurement that cannot be read counts as none: that is said above the answer, with the way to its field.
func TestPlanSaysWhichMeasurementsCannotBeRead(t *testing.T) {
	m := demo.Lathe()
	bracket, _ := m.Axes[0].Part("bracket")
	bracket.Entries["from"] = plan.Entry{Typed: "about 141"}
	b := benchOf(t, m)
	page := b.post(b.path, b.form("amount", "12"))
	says(t, said(page), "1 measurement cannot be read: bracket start")
	says(t, page.Body.String(), `href="/machines/1/axes/cross#bracket.from"`)
	before, after, _ := strings.Cut(page.Body.String(), `id="answer"`)
	says(t, before, "cannot be read")
	saysNot(t, after, "cannot be read", "cannot be taken")

	bracket.Entries["bolts"] = plan.Entry{Typed: "-2"}
	// (said puts a space where a tag was)
	says(t, said(benchOf(t, m).get("/machines/1/upgrades/1")), "2 measurements cannot be read: bracket start , bracket bolts .")
}
