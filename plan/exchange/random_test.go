package exchange_test

import (
	"fmt"
	"math/rand/v2"
	"strconv"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/buildlog"
	"fettle/plan/exchange"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// random makes machines that a file has to hold as they are.
type random struct{ *rand.Rand }

func pick[T any](r random, of ...T) T { return of[r.IntN(len(of))] }

// text is anything that can be typed or pasted.
func (r random) text() string {
	return pick(r, "", "118", `1-1/4"`, "½″", "  a  b ", "Ökonom\u00ADie", "تراش", "旋盤", "a\u0301", "👷🏽‍♀️", "\u202Eback", "\uFEFF",
		"line\r\nline\ttab", "<b>&amp;</b>", `\ud800`, `\`, "null", "nul\x00in it", "\x7f", "\uFFFD", "\u2028\u2029", "0", "{}")
}

// keyed makes a map of up to four values.
func keyed[V any](r random, value func() V) map[string]V {
	m := map[string]V{}
	for range r.IntN(5) {
		m[pick(r, "from", "to", "travel_found", "limit.wall_2", "_x")] = value()
	}
	return m
}

// several makes up to three of what make gives for 0, 1, 2; nil when there are none.
func several[T any](r random, make func(i int) T) (all []T) {
	for i := range r.IntN(4) {
		all = append(all, make(i))
	}
	return all
}

func (r random) entry() plan.Entry {
	if r.IntN(2) == 0 {
		return plan.Entry{Typed: r.text()}
	}
	return plan.Entry{Typed: r.text(), Spread: r.text(), With: r.text(), On: r.text(), Note: r.text(),
		Origin: pick(r, "", sheet.Measured, sheet.AsMade, sheet.Assumed, sheet.Chosen, sheet.Unknown)}
}

func (r random) part(i int) axis.Part {
	return axis.Part{Key: fmt.Sprintf("part_%d", i), Label: r.text(), Role: r.text(), Side: pick(r, axis.Fixed, axis.Moving),
		Tie:      pick(r, nil, &axis.Tie{Part: r.text(), Face: pick(r, "from", "to")}),
		Lanes:    pick(r, nil, []string{}, []string{r.text(), r.text()}),
		Material: r.text(), Entries: keyed(r, r.entry)}
}

func (r random) obstacle(i int) axis.Obstacle {
	return axis.Obstacle{Key: fmt.Sprintf("obstacle_%d", i), Label: r.text(), End: pick(r, axis.Plus, axis.Minus),
		Gap: pick(r, plan.Entry{}, r.entry()), Clear: r.IntN(2) == 0}
}

func (r random) axis(i int) axis.Axis {
	return axis.Axis{Key: fmt.Sprintf("axis_%d", i), Label: r.text(), Arrangement: r.text(), Capacity: r.text(), Datum: r.text(),
		Plus: r.text(), Minus: r.text(), Parts: several(r, r.part), Obstacles: several(r, r.obstacle),
		Entries: keyed(r, r.entry), Answers: keyed(r, r.text)}
}

// file makes a machine with a log.
func (r random) file() exchange.File {
	f := exchange.File{Machine: r.machine()}
	axes, upgrades := []string{""}, []string{""}
	for _, a := range f.Axes {
		axes = append(axes, a.Key)
	}
	for _, u := range f.Upgrades {
		upgrades = append(upgrades, u.ID)
	}
	f.Log = several(r, func(i int) buildlog.Entry {
		return buildlog.Entry{Key: fmt.Sprintf("Entry-%d", i), At: fmt.Sprintf("2024-02-29T%02d:59", r.IntN(24)), Text: r.text(), Hours: r.text(),
			Cost: r.text(), Currency: r.text(), Axis: pick(r, axes...), Upgrade: pick(r, upgrades...), Part: r.text(),
			Photos: several(r, r.photo)}
	})
	return f
}

func (r random) photo(i int) buildlog.Photo {
	return buildlog.Photo{SHA256: fmt.Sprintf("%064x", i), Type: pick(r, "image/jpeg", "image/png", "image/webp", "image/heic"),
		Width: 1 + r.IntN(1<<31-1), Height: 1 + r.IntN(9), Taken: pick(r, "", "2024-02-29T23:59:59"), Place: r.text(), Caption: r.text(),
		Role: []buildlog.Role{buildlog.Before, buildlog.After, ""}[i]}
}

func (r random) machine() machine.Machine {
	m := machine.Machine{Name: "M" + r.text(), Kind: r.text(), Units: pick(r, "mm", "in"), Note: r.text(), Axes: several(r, r.axis)}
	axes := []string{""}
	for _, a := range m.Axes {
		axes = append(axes, a.Key)
	}
	ids := r.Perm(1000)
	m.Upgrades = several(r, func(i int) upgrade.Upgrade {
		u := upgrade.Upgrade{ID: strconv.Itoa(1 + ids[i]), Kind: r.text(), Axis: pick(r, axes...),
			State: pick(r, upgrade.Draft, upgrade.Planned, upgrade.Finished), On: pick(r, "", "2024-02-29"), Inputs: keyed(r, r.text), Made: r.made()}
		if r.IntN(3) == 0 {
			u.Inputs["Ü "+r.text()] = r.text()
		}
		return u
	})
	return m
}

// made is nil where nothing is.
func (r random) made() map[string]plan.Entry {
	if made := keyed(r, r.entry); len(made) > 0 {
		return made
	}
	return nil
}
