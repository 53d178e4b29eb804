package web

import (
	"net/url"
	"strconv"
	"strings"

	"fettle/plan/sheet"
	"fettle/plan/unit"
	"fettle/web/ui"
)

// in gives a length that is shown in millimetres in the machine's own unit instead, where that is
// another; any other figure as it is.
func in(u unit.Unit, f sheet.Figure) sheet.Figure {
	if f.Unit == unit.MM && u != unit.MM {
		f.Unit, f.Decimals = u, u.Decimals
	}
	return f
}

// figureText writes a figure in the machine's own unit. Of two bounds it gives the one farther from what
// the figure is now.
func figureText(r *sheet.Result, u unit.Unit, f sheet.Figure) string {
	was := 0.0
	if now, ok := r.Figure(f.Key, sheet.Now); ok && now.Known() {
		was = now.Value
	}
	return in(u, f).Text(was)
}

// figureURL is the page that explains a figure at a stage; draft is the ID of an upgrade that counts as
// if it were planned, or "".
func figureURL(machine int64, key string, at sheet.Stage, draft string) string {
	query, mark := "", "?"
	if draft != "" {
		query, mark = mark+"draft="+url.QueryEscape(draft), "&"
	}
	if at != sheet.Planned {
		query += mark + "stage=" + stageNames[at]
	}
	return "/machines/" + strconv.FormatInt(machine, 10) + "/figures/" + key + query
}

// stageNames are the stages as addresses call them.
var stageNames = map[sheet.Stage]string{sheet.Found: "found", sheet.Now: "now", sheet.Planned: "planned"}

// explained puts an explanation into words; link, when there is one, gives the address that explains an input.
func explained(r *sheet.Result, e sheet.Explanation, u unit.Unit, link func(key string) string) ui.Explanation {
	x := ui.Explanation{Say: origin(e.Figure)}
	if e.Formula != "" {
		symbol := e.Symbol
		x.Formula = symbol + " = " + e.Formula
		x.Numbers = symbol + " = " + e.Numbers + " = " + figureText(r, u, e.Figure)
		if u.Symbol != unit.MM.Symbol && e.Unit.Dim == unit.LengthD {
			x.Say = append(x.Say, "Lengths in the formula are in millimetres.")
		}
	}
	x.Source, x.Validity, _ = strings.Cut(e.Source, "; valid ")
	inputs := e.Inputs
	if e.Was != nil {
		was := *e.Was
		was.Label += ", before"
		inputs = append([]sheet.Figure{was}, inputs...)
	}
	for _, f := range inputs {
		input := ui.Input{Label: f.Label, Value: figureText(r, u, f), Origin: originMark(f.Origin)}
		if link != nil && (e.Was == nil || f.Key != e.Key) {
			input.Href = link(f.Key)
		}
		x.Inputs = append(x.Inputs, input)
	}
	return x
}

// origin tells in a sentence where a figure comes from that is no formula's.
func origin(f sheet.Figure) []string {
	by := ""
	if f.Author != "" {
		by = " By the upgrade “" + f.Author + "”."
	}
	switch {
	case f.Origin == sheet.Computed && by == "":
		return nil
	case f.Origin == sheet.Computed:
		return []string{strings.TrimSpace(by)}
	case f.Origin == sheet.Unknown:
		return []string{"Not measured yet." + by}
	case f.Note == "":
		return []string{sentence(string(f.Origin)) + by}
	case f.Origin == sheet.Assumed:
		return []string{sentence("assumed: "+strings.TrimPrefix(f.Note, "assumed: ")) + by}
	}
	return []string{sentence(string(f.Origin)+": "+f.Note) + by}
}

// originMark is an origin as [ui.OriginMark] takes it: nothing where it goes without saying.
func originMark(o sheet.Origin) string {
	switch o {
	case sheet.AsMade:
		return "made"
	case sheet.Assumed, sheet.Unknown:
		return string(o)
	}
	return ""
}
