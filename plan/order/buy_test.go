package order_test

import (
	"encoding/csv"
	"strings"
	"testing"

	"fettle/plan/order"
	"fettle/plan/part"

	"github.com/stretchr/testify/require"
)

func demand() []order.Need {
	bracket := turned("bracket", "c45", 1, [2]float64{40, 21})
	bracket.Label = "longer bracket"
	bracket.Steps = []part.Operation{{Key: "probe", Do: "measure the tapped holes"}}
	bush := turned("bush", "c45", 2, [2]float64{30, 21})
	bush.Round.Outside[0].Length = part.Size{Label: "length", Nominal: 30, Awaits: "x", Suits: "the new bracket"}
	return []order.Need{
		{Upgrade: "1", Label: "extend the travel", Parts: []part.Part{bracket}, Bought: []part.Bought{
			{Key: "bolt", Label: "cap screw", Designation: "ISO 4762 M6 × 30", Quantity: 2, For: "bracket", Confirm: "probe", Source: "ISO 4762"},
			{Key: "bearing", Label: "deep-groove bearing", Designation: "ISO 15  10 × 19 × 5", Quantity: 1, For: "bracket", Source: "ISO 15"},
			{Key: "oil", Label: "slideway oil, VG 68", For: "bracket"},
		}},
		{Upgrade: "2", Label: "larger dial", Parts: []part.Part{bush}, Steps: []part.Operation{{Key: "fit", Do: "fit the dial"}}, Bought: []part.Bought{
			{Key: "bolt", Label: "cap screw", Designation: "ISO4762-M6x30", Quantity: 3, For: "fit"},
			{Key: "long", Label: "cap screw", Designation: "ISO 4762 M10 × 33", Quantity: 1, For: "fit"},
			{Key: "small", Label: "cap screw", Designation: "ISO 4762 M4 × 10", Quantity: 1, For: "fit"},
		}},
	}
}

func lines(list order.List) map[string]order.Line {
	all := map[string]order.Line{}
	for _, l := range list.Lines {
		all[l.Key] = l
	}
	return all
}

func bought(t *testing.T, needs []order.Need) []order.Group {
	t.Helper()
	groups, err := order.Bars(order.CutList(needs, order.Workshop{}), order.Workshop{})
	require.NoError(t, err)
	return groups
}

func TestBuyList(t *testing.T) {
	needs := demand()
	list := order.BuyList(needs, bought(t, needs), nil)
	var order1 []string
	for _, l := range list.Lines {
		order1 = append(order1, l.Label+" | "+l.Designation)
		require.Equal(t, order.ToGet, l.Mark.State)
	}
	require.Equal(t, []string{
		"cap screw | ISO 4762 M4 × 10", "cap screw | ISO 4762 M6 × 30", "cap screw | ISO 4762 M10 × 33", "deep-groove bearing | ISO 15 10 × 19 × 5",
		"slideway oil, VG 68 | ", "round bar, Carbon steel C45, normalised | c45 round 22, 250 mm long"}, order1)

	screw := lines(list)["iso-4762-m6-x-30"]
	require.Equal(t, 5, screw.Quantity)
	require.Equal(t, 3, screw.Sure())
	require.Equal(t, []string{"measure the tapped holes"}, screw.Confirm())
	require.Equal(t, []order.Use{
		{Upgrade: "extend the travel", For: "longer bracket", Quantity: 2, Confirm: []string{"measure the tapped holes"}},
		{Upgrade: "larger dial", For: "fit the dial", Quantity: 3}}, screw.Uses)
	require.Empty(t, screw.Problem)
	require.Equal(t, "33 mm is no length of ISO 4762 M10: take 30 mm or 35 mm", lines(list)["iso-4762-m10-x-33"].Problem)
	require.Equal(t, 1, lines(list)["slideway-oil-vg-68"].Quantity, "at least one")

	bar := lines(list)["c45-round-22-250-mm-long"]
	require.Equal(t, 1, bar.Quantity)
	require.Equal(t, []string{"bush: length waits for the new bracket"}, bar.Confirm())
	require.Equal(t, "extend the travel; larger dial", sorted(bar.Uses[0].Upgrade))
	require.Equal(t, 6, list.Unpriced)
}

func sorted(s string) string {
	parts := strings.Split(s, "; ")
	if len(parts) == 2 && parts[0] > parts[1] {
		return parts[1] + "; " + parts[0]
	}
	return s
}

func TestMarks(t *testing.T) {
	needs := demand()
	price := func(text string) order.Price {
		p, err := order.ParsePrice(text, "EUR")
		require.NoError(t, err)
		return p
	}
	marks := []order.Mark{
		{Key: "iso-4762-m6-x-30", State: order.Bought, Quantity: 4, Price: price("0.35"), Note: "black"},
		{Key: "iso-15-10-x-19-x-5", State: order.Ordered, Quantity: 2, Price: price("£6")},
		{Key: "slideway-oil-vg-68", State: order.Had, Quantity: 1, Price: price("9,90")},
		{Key: "iso-4762-m4-x-10", State: order.ToGet, Price: price("0.20")},
		{Key: "iso-4032-m8", Called: "nut, ISO 4032 M8", State: order.Bought, Quantity: 2, Price: price("1")},
	}
	list := order.BuyList(needs, nil, marks)
	screw := lines(list)["iso-4762-m6-x-30"]
	require.Equal(t, []int{1, 0}, []int{screw.Short(), screw.Spare()}, "five are needed now, and four were bought")
	bearing := lines(list)["iso-15-10-x-19-x-5"]
	require.Equal(t, []int{0, 1}, []int{bearing.Short(), bearing.Spare()})
	gone := lines(list)["iso-4032-m8"]
	require.True(t, gone.Dropped)
	require.Equal(t, "nut, ISO 4032 M8", gone.Label)
	require.Equal(t, []int{0, 2}, []int{gone.Short(), gone.Spare()})
	require.Equal(t, 1, list.Unpriced, "the M10 screw")
	var sums []string
	for _, s := range list.Sums {
		sums = append(sums, s.Spent.String()+" spent, "+s.ToPay.String()+" to pay")
	}
	// 4 × 0.35 and 2 × 1 spent; one more screw at 0.35 and one at 0.20 to get; what was had cost nothing.
	require.Equal(t, []string{"3.40 EUR spent, 0.55 EUR to pay", "12.00 GBP spent, 0.00 GBP to pay"}, sums)

	// Marks go out as they came in: taking an upgrade off and putting it back loses none.
	var back []order.Mark
	for _, l := range order.BuyList(needs[1:], nil, marks).Lines {
		if l.Mark.State != order.ToGet || l.Mark.Price.Known() {
			back = append(back, l.Mark)
		}
	}
	require.Len(t, back, len(marks))
	require.Equal(t, lines(list)["iso-15-10-x-19-x-5"].Mark, lines(order.BuyList(needs, nil, back))["iso-15-10-x-19-x-5"].Mark)
	strange := order.BuyList(needs, nil, []order.Mark{{Key: "iso-4762-m4-x-10", State: "lost in the post"}})
	require.Equal(t, order.ToGet, lines(strange)["iso-4762-m4-x-10"].Mark.State)
}

func TestBuyListOfALongPart(t *testing.T) {
	needs := []order.Need{{Upgrade: "1", Label: "screw", Parts: []part.Part{turned("screw", "c45", 1, [2]float64{1200, 12})}}}
	l := order.BuyList(needs, bought(t, needs), nil).Lines
	require.Len(t, l, 1)
	require.Equal(t, "c45 round 14, 1225 mm long", l[0].Designation)
	require.Equal(t, []string{"longer than any bar here: ask for this length"}, l[0].Notes)
}

func TestBuyCSV(t *testing.T) {
	needs := demand()
	needs[0].Bought[0].Label = `=HYPERLINK("http://x","y")`
	needs[0].Bought[2].Label = "oil, \"VG 68\"\nor the like"
	price, err := order.ParsePrice("0,35 €", "GBP")
	require.NoError(t, err)
	list := order.BuyList(needs, bought(t, needs), []order.Mark{{Key: "iso-4762-m6-x-30", State: order.Ordered, Quantity: 5, Price: price, Note: "-1 from last time"}})
	var out strings.Builder
	require.NoError(t, order.WriteBuyCSV(&out, list))
	require.NotContains(t, strings.ReplaceAll(out.String(), "\r\n", ""), "\n", "RFC 4180: lines end with CR and LF")

	rows, err := csv.NewReader(strings.NewReader(out.String())).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+len(list.Lines))
	for i, l := range list.Lines {
		require.Len(t, rows[i+1], len(rows[0]))
		require.Equal(t, l.Label, strings.TrimPrefix(rows[i+1][0], "'"))
		require.Equal(t, l.Designation, rows[i+1][1])
	}
	find := func(designation string) map[string]string {
		for _, row := range rows[1:] {
			if row[1] == designation {
				cells := map[string]string{}
				for i, name := range rows[0] {
					cells[name] = row[i]
				}
				return cells
			}
		}
		return nil
	}
	require.Equal(t, map[string]string{
		"what": `'=HYPERLINK("http://x","y")`, "designation": "ISO 4762 M6 × 30", "quantity": "5", "of them sure now": "3", "still to get": "0",
		"for": "2 for longer bracket (extend the travel); 3 for fit the dial (larger dial)", "confirm after": "measure the tapped holes", "state": "ordered",
		"price of one": "0.35", "currency": "EUR", "price as typed": "0,35 €", "note": "'-1 from last time", "source": "ISO 4762",
	}, find("ISO 4762 M6 × 30"))
}

// No cell that is written begins with what a spreadsheet takes for a formula,
// whatever was typed, and what was typed is there.
func FuzzBuyCSV(f *testing.F) {
	for _, s := range []string{"=1+1", " =1", "\t@SUM(A1)", "-3", "+4", "\ufeff=2", "＝1", "a,b\"c", "\r=1", "\x00\xff", "−5 mm", "'"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		list := order.BuyList([]order.Need{{Label: text, Bought: []part.Bought{{Label: text, Designation: text, For: text, Confirm: text, Source: text}}}}, nil,
			[]order.Mark{{Key: text, Called: text, Note: text, Price: order.Price{Text: text}}})
		var out strings.Builder
		require.NoError(t, order.WriteBuyCSV(&out, list))
		rows, err := csv.NewReader(strings.NewReader(out.String())).ReadAll()
		require.NoError(t, err)
		require.Len(t, rows, 1+len(list.Lines))
		for _, row := range rows {
			for _, cell := range row {
				if trimmed := strings.TrimSpace(cell); trimmed != "" {
					require.NotContains(t, "=+-@", trimmed[:1], "%q", cell)
				}
			}
		}
	})
}

func TestCutCSV(t *testing.T) {
	blanks := order.CutList(append(demand(), order.Need{Parts: []part.Part{turned("-unknown", "", 1, [2]float64{1, 1})}}), order.Workshop{})
	var out strings.Builder
	require.NoError(t, order.WriteCutCSV(&out, blanks))
	rows, err := csv.NewReader(strings.NewReader(out.String())).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"longer bracket", "Carbon steel C45, normalised", "round 22", "metric", "65.0", "1", "1"}, rows[1][:7])
	require.Equal(t, "'-unknown", rows[3][0])
	require.Equal(t, "its material is not chosen yet", rows[3][9])
}
