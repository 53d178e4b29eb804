package store_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// random makes machines that the store has to keep as they are.
type random struct{ *rand.Rand }

func pick[T any](r random, of ...T) T { return of[r.IntN(len(of))] }

// text is anything that can be typed or pasted.
func (r random) text() string {
	return pick(r, "", "118", `1-1/4"`, "½″", "  a  b ", "Ökonom\u00ADie", "تراش", "旋盤", "a\u0301", "👷🏽‍♀️", "\u202Eback", "\uFEFF",
		"line\r\nline\ttab", "'; DROP TABLE machine; --", "?1", "%s", "\\", "null", "nul\x00in it", "\x7f", "\uFFFD", "0", "1e999")
}

// keyed makes a map of up to four values, or one without any.
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
	if r.IntN(4) == 0 {
		return plan.Entry{}
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
		Gap: r.entry(), Clear: r.IntN(2) == 0}
}

func (r random) axis(i int) axis.Axis {
	return axis.Axis{Key: fmt.Sprintf("axis_%d", i), Label: r.text(), Arrangement: r.text(), Capacity: r.text(), Datum: r.text(),
		Plus: r.text(), Minus: r.text(), Parts: several(r, r.part), Obstacles: several(r, r.obstacle),
		Entries: keyed(r, r.entry), Answers: keyed(r, r.text)}
}

func (r random) machine() machine.Machine {
	m := machine.Machine{Name: "M" + r.text(), Kind: r.text(), Units: pick(r, "mm", "in"), Note: r.text(),
		Axes: several(r, r.axis)}
	axes := []string{""}
	for _, a := range m.Axes {
		axes = append(axes, a.Key)
	}
	ids := r.Perm(20)
	m.Upgrades = several(r, func(i int) upgrade.Upgrade {
		return upgrade.Upgrade{ID: strconv.Itoa(1 + ids[i]), Kind: r.text(), Axis: pick(r, axes...),
			State: pick(r, upgrade.Draft, upgrade.Planned, upgrade.Finished), On: pick(r, "", "2024-02-29"), Inputs: keyed(r, r.text), Made: r.made()}
	})
	slices.SortStableFunc(m.Upgrades, func(a, b upgrade.Upgrade) int { return group(a) - group(b) }) // as the store does
	return m
}

func group(u upgrade.Upgrade) int {
	if u.State == upgrade.Finished {
		return 0
	}
	return 1
}

// made is nil where nothing is.
func (r random) made() map[string]plan.Entry {
	if made := keyed(r, r.entry); len(made) > 0 {
		return made
	}
	return nil
}
