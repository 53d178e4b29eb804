package web_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/order"
	"fettle/plan/upgrade"
	"fettle/store"
)

// buyBench is the demo lathe with 12 more planned, and the page of what to get for it.
func buyBench(t *testing.T, state upgrade.State) bench {
	t.Helper()
	m := demo.Lathe()
	m.Upgrades = m.Upgrades[:1]
	m.Upgrades[0].Inputs["amount"] = "12"
	m.Upgrades[0].State = state
	b := benchOf(t, m)
	b.path = fmt.Sprintf("/machines/%d/buy", b.id)
	return b
}

func (b bench) shopping() store.Shopping {
	b.Helper()
	sh, _, err := b.kept.Shopping(b.Context(), b.id)
	require.NoError(b, err)
	return sh
}

const bearingKey = "iso-15-10-x-19-x-5"

func TestBuySaysWhatToGet(t *testing.T) {
	b := buyBench(t, upgrade.Planned)
	w := b.get(b.path)
	require.Equal(t, http.StatusOK, w.Code)
	says(t, said(w),
		"Counted: More travel, cross slide",
		"1 × Support bearing, deep groove ISO 15 10 × 19 × 5 1 for new bracket (More travel, cross slide)",
		"not sure yet Confirm after: extension of the screw&#39;s end: length over all waits for the new bracket: its length as made",
		// The bracket is 66 × 30 × 36.5, with 0.3 of its tolerance: flat 40 × 30, 66 and two faced ends.
		"New bracket Aluminium 6082-T6 flat 40 × 30", "68 mm", "facing of both ends",
		"1 of 250 mm: nothing less will do.", "No way of cutting them buys less than 250 mm",
		"Without 4 lines that have no price yet.", "In the rack",
	)
}

func TestBuyCountsDraftsWhenAsked(t *testing.T) {
	b := buyBench(t, upgrade.Draft)
	w := b.get(b.path)
	says(t, said(w), "Nothing is planned yet; there are drafts.")
	saysNot(t, said(w), "Support bearing")
	w = b.get(b.path + "?drafts=yes")
	says(t, said(w), "Support bearing", "and for the drafts", "Without the drafts")
	says(t, w.Body.String(), `action="`+b.path+`?drafts=yes"`, `href="`+b.path+`/buy-list.csv?drafts=yes"`)

	empty := benchOf(t, machine.Machine{Name: "Bare", Kind: "lathe", Units: "mm"})
	says(t, said(empty.get(fmt.Sprintf("/machines/%d/buy", empty.id))), "Plan an upgrade first")
	require.Equal(t, http.StatusNotFound, empty.get("/machines/77/buy").Code)
}

func TestBuyKeepsWhatIsNoted(t *testing.T) {
	b := buyBench(t, upgrade.Planned)
	w := b.post(b.path, b.form("price."+bearingKey, "6,50", "state."+bearingKey, "ordered", "got."+bearingKey, "2", "note."+bearingKey, "one spare", "currency", "€"))
	require.Equal(t, http.StatusOK, w.Code)
	says(t, said(w), "13.00 EUR 0.00 EUR", "1 to spare", "Without 3 lines that have no price yet.", "saved 12:00")
	saysNot(t, w.Body.String(), "<html")
	require.Equal(t, store.Shopping{Currency: "€", Marks: []store.Mark{{Key: bearingKey, Called: "support bearing, deep groove, ISO 15 10 × 19 × 5",
		State: order.Ordered, Quantity: "2", Price: "6,50", Note: "one spare"}}}, b.shopping())
	says(t, b.get(b.path).Body.String(), `value="6,50"`, `value="one spare"`, `<option value="ordered" selected>`)

	// As many as are needed, where it is not said how many.
	w = b.post(b.path, b.form("got."+bearingKey, ""))
	says(t, said(w), "6.50 EUR 0.00 EUR")

	// Off the plan, the line is kept because it was noted; rubbed out, it is gone.
	m, err := b.kept.Machine(t.Context(), b.id)
	require.NoError(t, err)
	require.NoError(t, b.kept.DeleteUpgrade(t.Context(), b.id, m.Upgrades[0].ID))
	says(t, said(b.get(b.path)), "Support bearing, deep groove, ISO 15 10 × 19 × 5", "not needed by what is counted here; kept, because you noted it")
	w = b.post(b.path, b.form("state."+bearingKey, "to get", "price."+bearingKey, "", "note."+bearingKey, ""))
	saysNot(t, said(w), "Support bearing")
	require.Empty(t, b.shopping().Marks)
}

func TestBuyPricesOfSeveralCurrencies(t *testing.T) {
	b := buyBench(t, upgrade.Planned)
	w := b.post(b.path, b.form("price."+bearingKey, "£6", "price.iso-17672-ag-155", "12.50 EUR"))
	says(t, said(w), "0.00 EUR 12.50 EUR 0.00 GBP 6.00 GBP")
}

// What cannot be read is kept as it was typed, and said at its field; with scripts off too.
func TestBuyUnreadable(t *testing.T) {
	for _, post := range []func(bench, string, url.Values) *httptest.ResponseRecorder{bench.post, bench.plainPost} {
		b := buyBench(t, upgrade.Planned)
		w := post(b, b.path, b.form("price."+bearingKey, "a fiver", "got."+bearingKey, "some", "currency", "shells", "rack", "yes",
			"own.0.material", "6082", "own.0.form", "flat", "own.0.across", "wide", "own.0.second", "30", "own.0.length", "100"))
		require.Equal(t, http.StatusUnprocessableEntity, w.Code)
		says(t, w.Body.String(), `value="a fiver"`, `value="some"`, `value="shells"`, `value="wide"`,
			"Give a price such as", "Give a whole number of pieces", "Give a currency by its sign", "Give a length such as")
		sh := b.shopping()
		require.Equal(t, "a fiver", sh.Marks[0].Price)
		require.Equal(t, "wide", sh.Offcuts[0].Across)
	}
	b := buyBench(t, upgrade.Planned)
	w := b.plainPost(b.path+"?drafts=yes", b.form("currency", "SEK"))
	require.Equal(t, http.StatusSeeOther, w.Code)
	require.Equal(t, b.path+"?drafts=yes", w.Header().Get("Location"))
	require.Equal(t, http.StatusBadRequest, b.post(b.path, b.form("state."+bearingKey, "lost")).Code)
	require.Equal(t, http.StatusBadRequest, b.post(b.path, b.form("rack", "yes", "own.900.length", "1")).Code)
}

// The rack is used first: the bracket comes out of a piece of 100, and nothing of that is bought.
func TestBuyUsesTheRackFirst(t *testing.T) {
	b := buyBench(t, upgrade.Planned)
	w := b.post(b.path, b.form("rack", "yes", "own.0.material", "6082", "own.0.form", "flat", "own.0.across", "40", "own.0.second", "30", "own.0.length", "100",
		"own.0.label", "left of the tool post", "own.1.form", "round"))
	require.Equal(t, http.StatusOK, w.Code)
	says(t, said(w), "100 mm, left of the tool post: New bracket 68 mm.", "you have it", "used for new bracket", "Nothing to buy: it comes out of what you have",
		"Without 3 lines")
	require.Len(t, b.shopping().Offcuts, 1, "the blank row is none")
	// Rubbed out, and the blank row is left.
	b.post(b.path, b.form("rack", "yes", "own.0.form", "round"))
	require.Empty(t, b.shopping().Offcuts)
	// A form without the rack does not touch it.
	b.post(b.path, b.form("rack", "yes", "own.0.length", "50"))
	b.post(b.path, b.form("currency", "EUR"))
	require.Len(t, b.shopping().Offcuts, 1)
}

func TestBuyStale(t *testing.T) {
	b := buyBench(t, upgrade.Planned)
	mine, theirs := b.form("price."+bearingKey, "7 EUR"), b.form("price."+bearingKey, "8 EUR")
	require.Equal(t, http.StatusOK, b.post(b.path, theirs).Code)
	w := b.post(b.path, mine)
	require.Equal(t, http.StatusConflict, w.Code)
	says(t, said(w), "Changed meanwhile.", "to get, 7 EUR to get, 8 EUR", "not saved")
	says(t, w.Body.String(), `value="7 EUR"`)
	require.Equal(t, "8 EUR", b.shopping().Marks[0].Price)
	mine.Set("over", "1")
	require.Equal(t, http.StatusNoContent, b.post(b.path, mine).Code)
	require.Equal(t, "7 EUR", b.shopping().Marks[0].Price)
}

func TestBuyFiles(t *testing.T) {
	b := buyBench(t, upgrade.Planned)
	b.post(b.path, b.form("price."+bearingKey, "6.50 EUR", "state."+bearingKey, "bought"))
	for _, tc := range []struct {
		file, first string
		rows        int
		row         []string
	}{
		{"buy-list.csv", "what", 5, []string{"support bearing, deep groove", "ISO 15 10 × 19 × 5", "1", "1", "0"}},
		{"cut-list.csv", "part", 3, []string{"new bracket", "Aluminium 6082-T6", "flat 40 × 30", "metric", "68.0"}},
	} {
		w := b.get(b.path + "/" + tc.file)
		require.Equal(t, http.StatusOK, w.Code)
		require.Equal(t, "text/csv; charset=utf-8", w.Header().Get("Content-Type"))
		require.Equal(t, "attachment; filename=lathe_105_mm-"+tc.file, w.Header().Get("Content-Disposition"))
		rows, err := csv.NewReader(w.Body).ReadAll()
		require.NoError(t, err)
		require.Len(t, rows, tc.rows)
		require.Equal(t, tc.first, rows[0][0])
		found := false
		for _, row := range rows {
			if row[0] == tc.row[0] {
				require.Equal(t, tc.row, row[:5])
				found = true
			}
		}
		require.True(t, found)
	}
}

func TestBuyAsJSON(t *testing.T) {
	b := buyBench(t, upgrade.Planned)
	r := request(http.MethodGet, b.path, nil)
	r.Header.Set("Accept", "application/json")
	w := send(b.server.Handler(), r)
	require.Equal(t, "application/json", w.Header().Get("Content-Type"))
	var view struct {
		Lines []struct {
			Key, State string
			Quantity   int
		}
	}
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &view))
	require.Len(t, view.Lines, 4)
	require.Equal(t, "to get", view.Lines[0].State)
}
