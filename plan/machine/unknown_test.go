package machine_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// place is where one entry stands.
type place struct {
	entries map[string]plan.Entry
	key     string
}

// entries lists every entry of a machine's first axis.
func entries(m *machine.Machine) []place {
	a := &m.Axes[0]
	var all []place
	add := func(list map[string]plan.Entry) {
		for key := range list {
			all = append(all, place{list, key})
		}
	}
	add(a.Entries)
	for i := range a.Parts {
		add(a.Parts[i].Entries)
	}
	return all
}

// truths are the figures of which a machine may not claim more than there is.
var truths = []string{"reach_plus", "reach_minus", "travel", "usable"}

// With any of its figures not measured, a machine is worked out all the same,
// and what it says of its travel holds the truth: as found, and as planned.
func TestNotMeasured(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 14))
	for name, fresh := range map[string]func() machine.Machine{
		"lathe": lathe, "mill": demo.Mill, "tailstock": tailstock, "drill": drill,
	} {
		t.Run(name, func(t *testing.T) {
			whole := fresh()
			truth := ask(t, whole, "1", "amount", "12")
			key := whole.Axes[0].Key + "."
			holds := func(m machine.Machine, without []string) {
				a := ask(t, m, "1", "amount", "12")
				for _, stage := range []sheet.Stage{sheet.Found, sheet.Planned} {
					for _, name := range truths {
						want := truth.figure(key+name, stage)
						require.True(t, want.Known())
						got, ok := a.Result.Figure(key+name, stage)
						require.True(t, ok)
						require.LessOrEqual(t, got.Lo, want.Value+exact, "%s, %s, without %v", name, stage, without)
						require.GreaterOrEqual(t, got.Hi, want.Value-exact, "%s, %s, without %v", name, stage, without)
					}
				}
				if travel, _ := a.Result.Figure(key+"travel_found", sheet.Found); travel.Known() {
					require.True(t, a.figure(key+"travel", sheet.Found).Known(), "the present travel stays exact, without %v", without)
				}
				require.NotEmpty(t, a.answer())
				a.howFar()
			}
			count := len(entries(&whole))
			for i := range count + 60 {
				m := fresh()
				all := entries(&m)
				var without []string
				for j, e := range all {
					if i < count && i == j || i >= count && rng.IntN(4) == 0 {
						// A default that stands in place of what was measured is another figure.
						if e.key == "gap" || e.key == "gib_screws" || e.key == "form" {
							continue
						}
						delete(e.entries, e.key)
						without = append(without, e.key)
					}
				}
				holds(m, without)
			}
		})
	}
}

// An axis of which nothing at all is measured.
func TestNothingMeasured(t *testing.T) {
	for _, m := range machines() {
		for _, e := range entries(&m) {
			delete(e.entries, e.key)
		}
		a := ask(t, m, "1", "amount", "12")
		require.False(t, a.figure(m.Axes[0].Key+".travel", sheet.Planned).Known())
		require.NotEmpty(t, a.Result.Missing(m.Axes[0].Key+".travel", sheet.Planned))
	}
}

// The wall's face is not measured: the present travel is exact, a gain is "at
// most" until it is, and that is what is asked for.
func TestWallNotMeasured(t *testing.T) {
	m := lathe()
	delete(part(&m, "front_wall").Entries, "from")
	a := ask(t, m, "1", "amount", "12")
	a.at(sheet.Now, map[string]float64{"cross.travel": 88})
	require.Contains(t, a.answer(), "The cross slide goes 12 mm further outward, at most, until the front wall start")
	require.Equal(t, sheet.Unmeasured, a.check("cross.front_wall.left_check").Verdict)
}

// Whatever was typed anywhere, a machine is worked out, or says what cannot be read.
func FuzzBuild(f *testing.F) {
	for _, seed := range []string{"12", "-1", "1e9", "12 mm; 3", `1-1/4"`, "inf", "nan", "was", "", "x^2", "func", "a.b", "\x00", "ÄÖ", "10x19x5"} {
		f.Add(seed, uint64(1))
	}
	f.Fuzz(func(t *testing.T, text string, seed uint64) {
		rng := rand.New(rand.NewPCG(seed, 1))
		m := lathe()
		a := &m.Axes[0]
		all := entries(&m)
		for range 3 {
			e := all[rng.IntN(len(all))]
			e.entries[e.key] = plan.Entry{Typed: text, Spread: text, With: text}
		}
		u := &m.Upgrades[0]
		u.Inputs["amount"] = "12"
		for _, name := range []string{"amount", "end", "do.front_wall_nut", "part.front_wall_nut", "rest.dial_slide", "joint", "sleeve", "bearing"} {
			if rng.IntN(3) == 0 {
				u.Inputs[name] = text
			}
		}
		p := &a.Parts[rng.IntN(len(a.Parts))]
		for _, to := range []*string{&a.Label, &a.Plus, &a.Arrangement, &a.Capacity, &p.Key, &p.Label, &p.Role, &p.Material, (*string)(&p.Side), &a.Obstacles[0].Key, &a.Obstacles[0].Gap.Typed, &a.Key, &u.ID, &u.Axis} {
			if rng.IntN(12) == 0 {
				*to = text
			}
		}
		if rng.IntN(4) == 0 {
			p.Tie = &axis.Tie{Part: text, Face: text}
		}
		a.Entries["slide_on_saddle_ways.overhang_most"] = plan.Entry{Typed: text}
		built, err := m.Build(u.ID)
		require.NoError(t, err)
		for _, s := range built.Sites {
			upgrade.Text(s.Kind.Answer(s, built.Result))
			if len(s.Goals) > 0 {
				built.Result.HowFar(s.Amount, s.Goals[0], s.Most)
			}
		}
		built.Result.Checks()
		built.Result.KnockOns()
	})
}
