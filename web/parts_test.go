package web_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
)

// partsBench is the demo lathe, of which 12 more are asked, and the page of the parts for it.
func partsBench(t *testing.T) bench {
	t.Helper()
	m := demo.Lathe()
	m.Upgrades[0].Inputs["amount"] = "12"
	b := benchOf(t, m)
	b.path += "/parts"
	return b
}

func TestPartsSayWhatToMake(t *testing.T) {
	b := partsBench(t)
	w := b.get(b.path)
	require.Equal(t, http.StatusOK, w.Code)
	says(t, said(w),
		"New bracket new part", "Aluminium 6082-T6", "Front wall of the casting, cut back old part, altered",
		"36.5", "+0.3 / −0.3 ISO 2768-m", // ISO 2768-1: 30 to 120 mm
		"to suit the screw's shank, measured by micrometer",
		"Sheet 1 of 8.",
		"Caution. Cast-iron dust", "Out of use meanwhile: cross slide",
		"36.5 mm, limits 36.2 mm to 36.8 mm",
	)
	page := w.Body.String()
	says(t, page, `href="`+b.path+`/bracket.dxf?angle=first&amp;paper=a4"`, `href="/machines/1/figures/cross.bracket.length?draft=1"`,
		`href="#made.bracket.length"`, `href="/machines/1/axes/cross#`)
	require.Equal(t, 8, strings.Count(page, `class="drawing part-sheet `), "six parts, the assembly and the order of fitting")
	require.Equal(t, 1, strings.Count(page, `class="drawing"`), "the side view")

	// The caution stands right beside its step.
	step := regexp.MustCompile(`(?s)<li value="10">.*?</li>`).FindString(page)
	says(t, step, "Cut the front wall back", "Caution.", "Eye protection")
}

func TestPartsOnOtherPaper(t *testing.T) {
	b := partsBench(t)
	says(t, b.get(b.path).Body.String(), ">first angle<", ">A4<")
	other := b.get(b.path + "?angle=third&paper=letter&at=12")
	says(t, other.Body.String(), ">third angle</text>", ">Letter</text>", "drawings.pdf?angle=third&amp;at=12&amp;paper=letter", `value="12"`)
	saysNot(t, other.Body.String(), ">first angle</text>", ">A4</text>")

	far := b.get(b.path + "?at=300")
	require.Equal(t, http.StatusOK, far.Code)
	says(t, far.Body.String(), "Give a position from 0 mm to 100 mm.", `value="300"`)

	inch := demo.Lathe().In("in")
	inch.Upgrades[0].Inputs["amount"] = "0.5"
	b = benchOf(t, inch)
	says(t, b.get(b.path+"/parts").Body.String(), ">third angle</text>", ">Letter</text>", ">in</text>")
}

func TestPartsWhereNothingIsAsked(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	w := b.get(b.path + "/parts")
	require.Equal(t, http.StatusOK, w.Code)
	says(t, said(w), "Say how much first; the parts follow from it.", "To the plan")
	require.Equal(t, http.StatusNotFound, b.get(b.path+"/parts/drawings.pdf").Code)
	require.Equal(t, http.StatusNotFound, b.get("/machines/1/upgrades/9/parts").Code)
}

// Work can hurt where no part is drawn as well: an upgrade that only tells how shows
// its steps, each with its cautions and what to keep.
func TestPartsOfWhatIsOnlyDone(t *testing.T) {
	m := demo.Lathe()
	m.Upgrades = []upgrade.Upgrade{{ID: "1", Kind: "spindle_bearings", Axis: "cross", State: upgrade.Draft, Inputs: map[string]string{}}}
	says(t, said(benchOf(t, m).get("/machines/1/upgrades/1/parts")), "not decided yet", "To the plan")

	m.Upgrades[0].Inputs["wanted"] = "yes"
	b := benchOf(t, m)
	w := b.get(b.path + "/parts")
	require.Equal(t, http.StatusOK, w.Code)
	says(t, said(w), "No part is drawn for this.", "Order of work", "Out of use meanwhile: the whole machine")
	step := regexp.MustCompile(`(?s)<li value="3">.*?</li>`).FindString(w.Body.String())
	says(t, step, "warm them to 80 °C", "Caution.", "gloves, and no naked flame")
	saysNot(t, said(w), "what is there is enough", "All drawings")
}

func TestPartsFiles(t *testing.T) {
	b := partsBench(t)
	for _, tc := range []struct{ file, kind, how, begins, holds string }{
		{"drawings.pdf", "application/pdf", "inline", "%PDF-", "/Count 8"},
		{"drawings.pdf?paper=letter", "application/pdf", "inline", "%PDF-", "612.00"}, // 8½ in is 612 points
		{"bracket.pdf", "application/pdf", "inline", "%PDF-", "/Count 1"},
		{"bracket.svg", "image/svg+xml", "inline", "<svg", "ew bracket, sheet "},
		{"bracket.dxf", "image/vnd.dxf", "attachment", "0\r\nSECTION\r\n", "AC1009"},
		{"assembly.svg", "image/svg+xml", "inline", "<svg", "assembly"},
		{"assembly.dxf?at=40", "image/vnd.dxf", "attachment", "0\r\nSECTION\r\n", "EOF"},
		{"order-of-fitting.pdf", "application/pdf", "inline", "%PDF-", "/Count 1"},
	} {
		w := b.get(b.path + "/" + tc.file)
		require.Equal(t, http.StatusOK, w.Code, tc.file)
		require.Equal(t, tc.kind, w.Header().Get("Content-Type"), tc.file)
		name, _, _ := strings.Cut(tc.file, "?")
		require.Equal(t, tc.how+"; filename=lathe_105_mm-1-"+name, w.Header().Get("Content-Disposition"))
		body := w.Body.String()
		require.Equal(t, fmt.Sprint(len(body)), w.Header().Get("Content-Length"))
		require.True(t, strings.HasPrefix(body, tc.begins), tc.file)
		says(t, body, tc.holds)
	}
	for _, file := range []string{"nothing.svg", "bracket.txt", "bracket", ".pdf", "-strip.svg", "bracket-strip.svg", "bracket-strip.pdf", "bracket-angles.csv", "..pdf"} {
		require.Equal(t, http.StatusNotFound, b.get(b.path+"/"+file).Code, file)
	}
}

// The bracket came out 0.08 long: make the extension 10.58, so 24.58 with its lap of 14.
func TestPartAsMade(t *testing.T) {
	b := partsBench(t)
	w := b.post(b.path, b.form("made.bracket.length", "36.58", "made.bracket.length.with", "micrometer"))
	require.Equal(t, http.StatusOK, w.Code)
	says(t, said(w),
		"New bracket: length over all came out 0.08 mm over, at 36.58 mm where 36.5 mm was planned.",
		"Make the extension of the screw&#39;s end, length over all, 24.58 mm instead of 24.5 mm.",
		"was 10.5 mm now 10.58 mm",
		"in limits", "Does it still work?", "saved 12:00",
	)
	saysNot(t, w.Body.String(), "<html")
	u, revision := b.upgrade()
	require.EqualValues(t, 2, revision)
	require.Equal(t, plan.Entry{Typed: "36.58", With: "micrometer", On: "2026-03-14"}, u.Made["bracket.length"])
	says(t, b.get(b.path).Body.String(), `value="36.58"`, "24.58")

	// Taken back.
	w = b.post(b.path, b.form("made.bracket.length", "", "made.bracket.length.with", ""))
	require.Equal(t, http.StatusOK, w.Code)
	saysNot(t, said(w), "came out")
	u, _ = b.upgrade()
	require.Empty(t, u.Made)
}

func TestPartOutOfLimits(t *testing.T) {
	b := partsBench(t)
	w := b.post(b.path, b.form("made.bracket.length", "37.7"))
	says(t, said(w), "over by 0.9 mm", "More can come off.") // 36.8 is the most
	saysNot(t, said(w), "1 fails")
	// 0.3 under 36.2; the slide then meets the dial 0.6 early.
	w = b.post(b.path, b.form("made.bracket.length", "35.9"))
	says(t, said(w), "under by 0.3 mm", "What is off cannot be put back", "1 fails", "short by 0.6")
	// A caliper's 0.05 is more than the 0.03 that is between.
	w = b.post(b.path, b.form("made.bracket.length", "36.77", "made.bracket.length.with", "caliper"))
	says(t, said(w), "in limits", "As far as this was measured")
}

// What cannot be read is kept as it was typed, and said at its field; with scripts off too.
func TestPartAsMadeUnreadable(t *testing.T) {
	for _, post := range []func(bench, string, url.Values) *httptest.ResponseRecorder{bench.post, bench.plainPost} {
		b := partsBench(t)
		w := post(b, b.path, b.form("made.bracket.length", "36,58 or so", "made.bracket.dia", "30", "made.bracket.dia.spread", "much"))
		require.Equal(t, http.StatusUnprocessableEntity, w.Code)
		says(t, w.Body.String(), `value="36,58 or so"`, `value="much"`, `aria-invalid="true"`, `class="problem"`, "A field cannot be read.")
		u, _ := b.upgrade()
		require.Equal(t, "36,58 or so", u.Made["bracket.length"].Typed)
		require.Equal(t, "much", u.Made["bracket.dia"].Spread)
	}
	b := partsBench(t)
	w := b.plainPost(b.path+"?angle=third", b.form("made.bracket.length", "36.58"))
	require.Equal(t, http.StatusSeeOther, w.Code)
	require.Equal(t, b.path+"?angle=third&paper=a4#as-made", w.Header().Get("Location"))
	require.Equal(t, http.StatusBadRequest, b.post(b.path, b.form("made.bracket.length.with", "eye")).Code)
}

func TestPartsStale(t *testing.T) {
	b := partsBench(t)
	mine, theirs := b.form("made.bracket.length", "36.58"), b.form("made.bracket.length", "36.4", "made.bracket.dia", "30.1")
	require.Equal(t, http.StatusOK, b.post(b.path, theirs).Code)
	w := b.post(b.path, mine)
	require.Equal(t, http.StatusConflict, w.Code)
	says(t, said(w), "Changed meanwhile.", "New bracket, length over all 36.58 36.4", "not saved")
	says(t, w.Body.String(), `value="36.58"`)
	u, revision := b.upgrade()
	require.Equal(t, "36.4", u.Made["bracket.length"].Typed)

	mine.Set("over", fmt.Sprint(revision))
	require.Equal(t, http.StatusNoContent, b.post(b.path, mine).Code)
	u, _ = b.upgrade()
	require.Equal(t, "36.58", u.Made["bracket.length"].Typed)
	require.Equal(t, "30.1", u.Made["bracket.dia"].Typed, "what mine did not say stays")
}

// A size as made survives the amount being changed so that its part is not needed.
func TestPartsKeepWhatNoPartHas(t *testing.T) {
	b := partsBench(t)
	require.Equal(t, http.StatusOK, b.post(b.path, b.form("made.bracket.length", "36.58")).Code)
	m, err := b.kept.Machine(t.Context(), b.id)
	require.NoError(t, err)
	u := m.Upgrades[0]
	u.Inputs["amount"] = "0"
	_, _, err = b.kept.SaveUpgrade(t.Context(), b.id, m.UpgradeRevisions["1"], u)
	require.NoError(t, err)
	says(t, said(b.get(b.path)), "Say how much first", "bracket.length: 36.58")
	got, _ := b.upgrade()
	require.Equal(t, "36.58", got.Made["bracket.length"].Typed)
}

func TestPartsAsJSON(t *testing.T) {
	b := partsBench(t)
	r := request(http.MethodGet, b.path, nil)
	r.Header.Set("Accept", "application/json")
	w := send(b.server.Handler(), r)
	require.Equal(t, "application/json", w.Header().Get("Content-Type"))
	var view struct {
		State upgrade.State `json:"state"`
		Parts []struct {
			Key   string `json:"key"`
			Sizes []struct {
				Nominal, Upper, Lower string
			} `json:"sizes"`
		} `json:"parts"`
	}
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &view))
	require.Equal(t, upgrade.Draft, view.State)
	require.Equal(t, "bracket", view.Parts[1].Key)
	require.Equal(t, "36.5", view.Parts[1].Sizes[0].Nominal)
}

// dialBench is the demo lathe with a new dial of 48 asked for, and the page of the parts for it.
func dialBench(t *testing.T) bench {
	t.Helper()
	m := demo.Lathe()
	at := slices.IndexFunc(m.Upgrades, func(u upgrade.Upgrade) bool { return u.Kind == "new_dial" })
	require.NotEqual(t, -1, at)
	m.Upgrades = m.Upgrades[at : at+1]
	m.Upgrades[0].ID = "1"
	m.Upgrades[0].Inputs["dia"] = "48"
	b := benchOf(t, m)
	b.path += "/parts"
	return b
}

func TestPartsOfADial(t *testing.T) {
	b := dialBench(t)
	w := b.get(b.path)
	require.Equal(t, http.StatusOK, w.Code)
	strip := regexp.MustCompile(b.path + `/([a-z_0-9]+)-strip\.svg`).FindStringSubmatch(w.Body.String())
	require.NotNil(t, strip, "the page offers the strip")
	says(t, said(w), "Its lines", "divisions", "Table of angles", "On a dividing head of 40 to 1")
	for _, tc := range []struct{ file, kind, begins string }{
		{"-strip.svg", "image/svg+xml", "<svg"}, {"-strip.dxf", "image/vnd.dxf", "0\r\nSECTION"}, {"-strip.pdf", "application/pdf", "%PDF-"}, {"-angles.csv", "text/csv; charset=utf-8", "line,numeral,degrees"},
	} {
		got := b.get(b.path + "/" + strip[1] + tc.file)
		require.Equal(t, http.StatusOK, got.Code, tc.file)
		require.Equal(t, tc.kind, got.Header().Get("Content-Type"))
		require.True(t, strings.HasPrefix(got.Body.String(), tc.begins), tc.file)
	}
	// The strip is π × 48 = 150.8 mm long, and at true scale.
	says(t, b.get(b.path+"/"+strip[1]+"-strip.svg").Body.String(), `width="150.8mm"`)
	require.Equal(t, http.StatusOK, b.get(b.path+"/"+strip[1]+".pdf").Code)
	says(t, b.get(b.path+"/"+strip[1]+".pdf").Body.String(), "/Count 2")
	says(t, b.get(b.path+"/"+strip[1]+"-strip.pdf").Body.String(), "/Count 1")
	// The angles go once round: the last one is one line short of 360°.
	rows, err := csv.NewReader(b.get(b.path + "/" + strip[1] + "-angles.csv").Body).ReadAll()
	require.NoError(t, err)
	lines := len(rows) - 1
	require.Equal(t, []string{"0", "0", "0.0000", "0.0000"}, rows[1][:4])
	require.Equal(t, fmt.Sprintf("%.4f", 360*float64(lines-1)/float64(lines)), rows[lines][2])
}

// Every upgrade of both demos has its page, whatever is asked, and each part its files.
func TestPartsOfEveryDemo(t *testing.T) {
	for _, m := range []machine.Machine{demo.Lathe(), demo.Mill()} {
		b := benchOf(t, m)
		for _, u := range m.Upgrades {
			page := fmt.Sprintf("/machines/%d/upgrades/%s", b.id, u.ID)
			b.path = page
			for _, amount := range []string{"", "5", "12", "40"} {
				require.Less(t, b.post(page, b.form("amount", amount, "dia", amount)).Code, 500)
				w := b.get(page + "/parts")
				require.Equal(t, http.StatusOK, w.Code, "%s %s", u.Kind, amount)
				for _, file := range regexp.MustCompile(`href="(`+page+`/parts/[^"?]+)`).FindAllStringSubmatch(w.Body.String(), -1) {
					require.Equal(t, http.StatusOK, b.get(file[1]).Code, file[1])
				}
			}
		}
	}
}
