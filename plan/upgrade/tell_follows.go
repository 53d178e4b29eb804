package upgrade

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// failures tells first what does not hold, nearest limit first, and what would:
// no figure after it can be had as long as that is so.
func (t *teller) failures(s *Site, r *sheet.Result) (any bool) {
	l := s.Layout
	var failing []sheet.CheckResult
	for _, c := range r.Checks() {
		if !c.Charged() || !strings.HasPrefix(c.Key, l.Key+".") {
			continue
		}
		// Where it stops is told by itself.
		if !slices.ContainsFunc(l.Stops, func(st axis.Stop) bool { return c.Key == l.Find(st.Key+".check") }) {
			failing = append(failing, c)
		}
	}
	if len(failing) == 0 {
		return false
	}
	reach := r.HowFar(s.Amount, s.Goals[0], s.Most)
	place := func(c sheet.CheckResult) int {
		i := slices.IndexFunc(reach.Limits, func(l sheet.Limit) bool { return l.Key == c.Key })
		if i < 0 {
			return len(reach.Limits) // it fails at any amount
		}
		return i
	}
	slices.SortStableFunc(failing, func(a, b sheet.CheckResult) int { return place(a) - place(b) })
	var fail []string
	for _, c := range failing {
		by, over := -c.Margin.Best(math.NaN()), "short by "
		if c.AtMost {
			over = "over by "
		}
		amount := c.Margin.Unit.With(by)
		if c.Margin.Unit.Symbol == unit.MM.Symbol {
			amount = show(s, by)
		}
		fail = append(fail, lower(c.Label)+", "+over+amount)
	}
	t.strong("This does not hold").text(": " + strings.Join(fail[:min(len(fail), 3)], "; "))
	if more := len(fail) - 3; more > 0 {
		t.text(fmt.Sprintf("; and %d more", more))
	}
	if reach.To > reach.From && reach.To > shownLength {
		t.text(". ")
		if reach.From > shownLength {
			t.strong(wished(s, reach.From)).text(" to ")
		}
		t.strong(wished(s, reach.To)).text(" would hold")
	}
	t.text(". ")
	return true
}

// consequences are the clauses of what an upgrade asks for.
func consequences(s *Site, r *sheet.Result) [][]Run {
	l := s.Layout
	var all [][]Run
	// moved is a figure as planned and how much more it is than now.
	moved := func(name string) (plan, more float64) {
		p, ok := r.Figure(l.Find(name), sheet.Planned)
		if !ok || !p.Known() {
			return 0, 0
		}
		n, ok := r.Figure(l.Find(name), sheet.Now)
		if !ok {
			return p.Value, p.Value
		}
		return p.Value, p.Value - n.Value
	}
	if b, ok := l.WithRole("bracket"); ok {
		if _, more := moved(b.Key + ".length"); more > shownLength {
			all = append(all, []Run{{Text: "the " + b.Label + " grows by "}, {show(s, more), true}})
		}
		if _, more := moved(b.Key + ".spacer"); more > shownLength {
			all = append(all, []Run{{Text: "a spacer of "}, {show(s, more), true}, {Text: " goes under the " + b.Label}})
		}
	}
	if long, again := s.replaced(r); again {
		all = append(all, []Run{{Text: "the extension made before is replaced by one of "}, {show(s, long), true}, {Text: " over all"}})
	} else if visible, more := moved("extension.visible"); more > shownLength {
		c := []Run{{Text: "the screw needs an extension of "}, {show(s, visible), true}}
		if sleeve, _ := moved("extension.sleeve"); sleeve <= shownLength {
			c = []Run{{Text: "the new screw is "}, {show(s, visible), true}, {Text: " longer"}}
		}
		if seat, _ := moved("support.seat"); seat > 0 {
			c = append(c, Run{Text: " and a support bearing"})
		}
		all = append(all, c)
	}
	for i := range l.Parts {
		p := &l.Parts[i]
		left, more := moved(p.Key + ".length")
		role, _ := axis.RoleNamed(p.Role)
		switch {
		case role.Cut && more < -shownLength && left <= shownLength:
			all = append(all, []Run{{Text: "the " + p.Label + " is "}, {"cut right through", true}})
		case role.Cut && more < -shownLength:
			all = append(all, []Run{{show(s, left), true}, {Text: " of the " + p.Label + " is left"}})
		case p.Slides() && more < -shownLength:
			all = append(all, []Run{{show(s, -more), true}, {Text: " is cut off the " + p.Label}})
		case (role.Longer != "" || p.Role == "quill" || p.Role == "thread") && more > shownLength:
			all = append(all, []Run{{Text: "the " + p.Label + " is "}, {show(s, more), true}, {Text: " longer"}})
		}
	}
	return all
}
