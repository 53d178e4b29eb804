package web

import (
	"fmt"
	"time"

	"fettle/plan/buildlog"
	"fettle/store"
)

// logTotal is what an upgrade took.
type logTotal struct {
	Label   string   `json:"label"`
	Href    string   `json:"-"`
	Entries int      `json:"entries"`
	Spent   string   `json:"spent"`
	Costs   []string `json:"costs"` // one a currency
	Unread  string   `json:"unread,omitempty"`
	All     bool     `json:"-"`
}

func sumOf(totals map[string]buildlog.Totals) (all buildlog.Totals) {
	for _, t := range totals {
		all = all.Plus(t)
	}
	return all
}

// logTotals are what each upgrade took, in their order, and the whole; or what the one took.
func logTotals(m store.Stored, totals map[string]buildlog.Totals, only string) (lines []logTotal) {
	line := func(label, id string, t buildlog.Totals) logTotal {
		l := logTotal{Label: label, Href: logOfURL(m.ID, id), Entries: t.Entries, Spent: spentText(t.Spent), Costs: costTexts(t)}
		if t.Unread > 0 {
			l.Unread = "without " + count(t.Unread, "entry whose hours or cost cannot be read", "entries whose hours or cost cannot be read")
		}
		return l
	}
	if only != "" {
		if t := totals[only]; t.Entries > 0 {
			lines = append(lines, line("In all", only, t))
			lines[0].Href = "" // it is this page
		}
		return lines
	}
	known := map[string]bool{"": true}
	for _, u := range m.Upgrades {
		known[u.ID] = true
		if t := totals[u.ID]; t.Entries > 0 {
			lines = append(lines, line(upgradeLabel(m, u), u.ID, t))
		}
	}
	var dropped buildlog.Totals
	for id, t := range totals {
		if !known[id] {
			dropped = dropped.Plus(t)
		}
	}
	if dropped.Entries > 0 {
		lines = append(lines, line("upgrades that were dropped", "", dropped))
		lines[len(lines)-1].Href = ""
	}
	if t := totals[""]; t.Entries > 0 {
		lines = append(lines, line("no upgrade", "", t))
		lines[len(lines)-1].Href = ""
	}
	if len(lines) == 0 {
		return nil
	}
	all := line("In all", "", sumOf(totals))
	all.All, all.Href = true, ""
	return append(lines, all)
}

func costTexts(t buildlog.Totals) []string {
	texts := make([]string, len(t.Costs))
	for i, c := range t.Costs {
		texts[i] = c.String()
	}
	return texts
}

// spentText says a time spent: "1 h 30 min"; "" for none.
func spentText(d time.Duration) string {
	hours, minutes := int(d.Round(time.Minute)/time.Hour), int(d.Round(time.Minute)%time.Hour/time.Minute)
	switch {
	case d == 0:
		return ""
	case hours == 0:
		return fmt.Sprintf("%d min", minutes)
	case minutes == 0:
		return fmt.Sprintf("%d h", hours)
	}
	return fmt.Sprintf("%d h %d min", hours, minutes)
}
