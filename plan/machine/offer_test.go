package machine_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/demo"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

func offered(t *testing.T, m machine.Machine, kind, axis, says string) machine.Offer {
	t.Helper()
	all, err := m.Offers()
	require.NoError(t, err)
	for _, o := range all {
		if o.About.Key == kind && o.Axis.Key == axis && o.Trial.Says == says {
			return o
		}
	}
	require.Fail(t, "not offered", "%s on %s, %s", kind, axis, says)
	return machine.Offer{}
}

// without is a machine on which a kind is not planned.
func without(m machine.Machine, kind string) machine.Machine {
	m.Upgrades = slices.DeleteFunc(slices.Clone(m.Upgrades), func(u upgrade.Upgrade) bool { return u.Kind == kind })
	return m
}

func stops(o machine.Offer) (labels []string) {
	for _, c := range o.Stops {
		labels = append(labels, c.Label)
	}
	return labels
}

func lacks(o machine.Offer) (keys []string) {
	for _, f := range o.Missing {
		keys = append(keys, f.Key)
	}
	return keys
}

// The lathe. Outward the wall of 23 may give 15, and the tool then stands outside
// of 2 (88 + 15 − 4) = 198, where it is 168: 30 more in 8 to 25 hours, 30 / 16.5 an
// hour; the tray is not measured. Inward the rear wall of 6 has nothing to give, of
// which 8 are to stay. Thrust bearings leave 0.01 of 0.12.
func TestOffersOfTheLathe(t *testing.T) {
	o := offered(t, demo.Lathe(), "extend_travel", "cross", "further outward")
	require.Equal(t, machine.Gains, o.Told)
	require.Equal(t, []string{"cross.start_disc", "15 mm"}, []string{o.Goal.Key, o.Inputs["amount"]})
	require.InDelta(t, 168, o.Was, exact)
	require.InDelta(t, 198, o.Is, exact)
	require.InDelta(t, 30/16.5, o.PerHour(), exact)
	require.True(t, o.AtMost)
	require.Contains(t, lacks(o), "cross.splash_tray.gap_left")

	o = offered(t, demo.Lathe(), "extend_travel", "cross", "further inward")
	require.Equal(t, machine.Impossible, o.Told)
	require.Equal(t, []string{"Wall left: rear wall"}, stops(o))

	o = offered(t, demo.Lathe(), "thrust_set", "cross", "")
	require.Equal(t, machine.Gains, o.Told)
	require.True(t, o.Less)
	require.InDelta(t, 0.11, o.Better(), exact)

	// What was never measured cannot be told, and what is missing is named.
	o = offered(t, demo.Lathe(), "new_nut", "cross", "")
	require.Equal(t, machine.Unmeasured, o.Told)
	require.Contains(t, lacks(o), "cross.lost_motion")
	require.True(t, math.IsNaN(o.PerHour()))
}

// A dial is planned on the project's cross slide: another lead takes it along, and does not
// fail by it. Of oil points it is not known what there is now, which no gain can be told without.
// A head of 25 kg weighs 245 N; a strut of F lifts F right up and F (1 + 0.3 × 200 / 250) =
// 1.24 F right down, its stroke the next 50 above 200 + 10: as much short as over at
// F = 2 × 245.17 / 2.24 = 218.9, where 0.12 / 1.12 = 26.3 N are not carried; a whole
// newton off F is 1.24 there.
func TestOffersOfProjects(t *testing.T) {
	o := offered(t, without(demo.LatheProject(), "new_nut"), "new_lead", "cross", "finer")
	require.Equal(t, machine.Gains, o.Told)
	require.Empty(t, stops(o))
	o = offered(t, demo.LatheProject(), "oil_ways", "top_slide", "two points on each way")
	require.Equal(t, machine.Unmeasured, o.Told)
	require.Contains(t, lacks(o), o.Goal.Key)
	o = offered(t, without(demo.MillProject(), "counterbalance"), "counterbalance", "mill_z", "one strut")
	require.Equal(t, machine.Gains, o.Told)
	require.Equal(t, "250 mm", o.Inputs["stroke"])
	require.InDelta(t, 245.17, o.Was, 0.01)
	require.InDelta(t, 26.3, o.Is, 1.24)
}

// Two struts of F lift 2 F right up and 2.48 F right down: as much short as over at F = 2 × 245.17 / 4.48 = 109.4. Of
// whole newtons, 109 leave 245.17 − 218 = 27.17 right up, and 110 lift 272.8 − 245.17 = 27.63 too much right down.
func TestOffersTakeTheBest(t *testing.T) {
	o := offered(t, without(demo.MillProject(), "counterbalance"), "counterbalance", "mill_z", "two struts")
	require.Equal(t, "109 N", o.Inputs["force"])
	require.InDelta(t, 27.17, o.Is, 0.01)
}

// The front wall stands at 132, and lets the nut's face at 30 go 102; the dial stops the slide at 89.5, and 12.5 of
// spacer take it out of the way. Bolts of 20 hold through 8 of flange and up to 3 of spacer, 9 of them in the iron at
// the least. Those of 25 come with the next, and with less than 4 go deeper than the 13 that there are; those of 30
// from 8 on, and from 9. So it holds to 3, from 4 to 8 and from 9 to 12.5: the last is the best.
func TestOffersHoldAgain(t *testing.T) {
	m := demo.Lathe()
	wall, _ := m.Axes[0].Part("front_wall")
	wall.Entries["from"] = plan.Entry{Typed: "132"}
	m.Axes[0].Entries["travel_found"] = plan.Entry{Typed: "89.5", With: "dial_gauge"}
	o := offered(t, m, "bracket_spacer", "cross", "")
	require.Equal(t, machine.Gains, o.Told)
	require.Equal(t, "12.5 mm", o.Inputs["amount"])
	require.InDelta(t, 102, o.Is, exact)

	// 96 is reached with 6.5, and no less is in any stretch; 93 with 4, as 3.5 does not hold.
	for to, amount := range map[float64]string{96: "6.5 mm", 93: "4 mm", 92: "2.5 mm"} {
		s, err := m.Ways(machine.Wanted{Goal: sheet.Goal{Key: "cross.reach_plus"}, To: to})
		require.NoError(t, err)
		i := slices.IndexFunc(s.Ways, func(w machine.Way) bool { return len(w.Upgrades) == 1 && w.Upgrades[0].Kind == "bracket_spacer" })
		require.GreaterOrEqual(t, i, 0)
		require.Equal(t, amount, s.Ways[i].Upgrades[0].Inputs["amount"])
	}
}

// The project's cross slide has a new dial planned, and a new nut. Another dial takes the same place, a lead of another
// pitch wants a nut of its own, and a screw turned end for end is told of as well that a new screw is planned. As a
// draft, or finished, they have nothing alone: the gib strip is made, and another one may follow.
func TestOffersThatAreTaken(t *testing.T) {
	m := demo.LatheProject()
	o := offered(t, m, "new_dial", "cross", "reads the diameter")
	require.Equal(t, machine.Taken, o.Told)
	require.Equal(t, []machine.Claim{{Upgrade: "2", Author: "New dial, Cross slide", Label: "the dial"}}, o.Taken)
	require.Equal(t, "cross.dial.spacing", o.Goal.Key)
	require.True(t, math.IsNaN(o.PerHour()))
	require.Equal(t, []machine.Claim{{Upgrade: "4", Author: "New feed nut, Cross slide", Label: "the nut"}}, offered(t, m, "new_lead", "cross", "finer").Taken)
	require.Empty(t, offered(t, m, "gib_strip", "cross", "").Taken)
	require.NotEqual(t, machine.Taken, offered(t, m, "new_dial", "top_slide", "").Told, "it is planned on another axis")

	for i := range m.Upgrades {
		m.Upgrades[i].State = upgrade.Finished
	}
	all, err := m.Offers()
	require.NoError(t, err)
	for _, o := range all {
		require.Empty(t, o.Taken, o.About.Key)
	}
	m.Upgrades = []upgrade.Upgrade{{ID: "7", Kind: "new_screw", Axis: "cross", State: upgrade.Planned}}
	o = offered(t, m, "screw_turned", "cross", "")
	require.Equal(t, []machine.Claim{{Upgrade: "7", Author: "New feed screw, with its nut, Cross slide", Label: "the feed screw"}}, o.Taken)
	m.Upgrades[0].State = upgrade.Draft
	require.Equal(t, machine.Guided, offered(t, m, "screw_turned", "cross", "").Told)
}

// What is planned counts as done: after 12 mm more there are 3 left of the wall to
// give. A draft does not count.
func TestOffersAfterWhatIsPlanned(t *testing.T) {
	m := demo.Lathe()
	m.Upgrades[0].Inputs["amount"] = "12"
	require.Equal(t, "15 mm", offered(t, m, "extend_travel", "cross", "further outward").Inputs["amount"])
	m.Upgrades[0].State = upgrade.Planned
	o := offered(t, m, "extend_travel", "cross", "further outward")
	require.Equal(t, "3 mm", o.Inputs["amount"])
	require.InDelta(t, 192, o.Was, exact)
	require.InDelta(t, 198, o.Is, exact)
}

// What an offer says is what comes of it when a draft begins so.
func TestOffersHold(t *testing.T) {
	for _, m := range []machine.Machine{demo.Lathe(), demo.Mill()} {
		all, err := m.Offers()
		require.NoError(t, err)
		require.NotEmpty(t, all)
		for _, o := range all {
			if o.Told != machine.Gains || math.IsNaN(o.Was) {
				continue
			}
			with := m
			with.Upgrades = append(with.Upgrades[:len(with.Upgrades):len(with.Upgrades)], upgrade.Upgrade{ID: "9", Kind: o.About.Key, Axis: o.Axis.Key, State: upgrade.Draft, Inputs: o.Inputs})
			p, err := with.Build("9")
			require.NoError(t, err)
			require.Empty(t, p.Site("9").Problems, o.About.Key)
			now, _ := p.Result.Figure(o.Goal.Key, sheet.Now)
			f, _ := p.Result.Figure(o.Goal.Key, sheet.Planned)
			_, is := sheet.Compare(now, f)
			require.InDelta(t, o.Is, is, 0.05, o.About.Key)
			for _, c := range p.Result.Checks() {
				require.False(t, c.Charged(), "%s on %s: %s %s", o.About.Key, o.Axis.Key, c.Label, c.Phrase)
			}
		}
	}
}

func worn() machine.Machine {
	m := demo.Lathe()
	m.Axes[0].Entries["lost_motion"] = plan.Entry{Typed: "0.25", With: "dial_gauge"}
	return m
}

// 190 needs 190 = 2 (88 + x − 4), x = 11; no more than that is asked for.
func TestWaysToADiameter(t *testing.T) {
	m := demo.Lathe()
	s, err := m.Ways(machine.Wanted{Goal: sheet.Goal{Key: "cross.start_disc"}, To: 190})
	require.NoError(t, err)
	require.NotEmpty(t, s.Ways)
	way := s.Ways[0]
	require.Len(t, way.Upgrades, 1)
	require.Equal(t, "11 mm", way.Upgrades[0].Inputs["amount"])
	require.InDelta(t, 190, way.Is, 0.02)

	// There already; and nothing has to be done.
	s, err = m.Ways(machine.Wanted{Goal: sheet.Goal{Key: "cross.start_disc"}, To: 160})
	require.NoError(t, err)
	require.True(t, s.Met)
	require.Empty(t, s.Ways)
	// No disc of more than 206 swings over the bed: 210 less 2 on either side.
	s, err = m.Ways(machine.Wanted{Goal: sheet.Goal{Key: "cross.start_disc"}, To: 207})
	require.NoError(t, err)
	require.Empty(t, s.Ways)
	require.NotNil(t, s.Nearest)
	require.InDelta(t, 206, s.Nearest.Is, 0.05) // in whole steps
	require.True(t, slices.ContainsFunc(s.Nearest.Upgrades, func(u upgrade.Upgrade) bool { return u.Kind == "extend_travel" }))
}

// Lost motion of 0.25, of which 0.12 is end float and 0.13 the nut's. Bearings
// leave 0.01 + 0.13 = 0.14, a nut 0.12 + 0.05 = 0.17: below 0.1 takes both, 0.06.
func TestWaysTakeTwoTogether(t *testing.T) {
	m := worn()
	want := machine.Wanted{Goal: sheet.Goal{Key: "cross.lost_motion_all", Less: true}, To: 0.1}
	s, err := m.Ways(want)
	require.NoError(t, err)
	var both *machine.Way
	for i, w := range s.Ways {
		require.Greater(t, len(w.Upgrades), 1, "none does it alone")
		kinds := map[string]bool{}
		for _, u := range w.Upgrades {
			kinds[u.Kind] = true
		}
		if len(kinds) == 2 && kinds["thrust_set"] && kinds["new_nut"] {
			both = &s.Ways[i]
		}
	}
	require.NotNil(t, both)
	require.InDelta(t, 0.06, both.Is, 1e-6)
	require.Equal(t, [2]float64{5, 22}, both.Hours) // 2 to 14, and 3 to 8

	want.To = 0.15 // bearings alone: 0.14
	s, err = m.Ways(want)
	require.NoError(t, err)
	for _, w := range s.Ways {
		if len(w.Upgrades) > 1 {
			for _, u := range w.Upgrades {
				require.NotEqual(t, "thrust_set", u.Kind, "a set that holds one that does it is not listed")
			}
		}
	}
}

// Every way holds when it is built, in the order in which it is told.
func TestWaysHold(t *testing.T) {
	for _, want := range []machine.Wanted{
		{Goal: sheet.Goal{Key: "cross.start_disc"}, To: 185}, {Goal: sheet.Goal{Key: "cross.lost_motion_all", Less: true}, To: 0.15},
		{Goal: sheet.Goal{Key: "cross.end_float", Less: true}, To: 0.02}, {Goal: sheet.Goal{Key: "cross.dial.spacing"}, To: 2},
	} {
		m := worn()
		m.Upgrades = nil
		s, err := m.Ways(want)
		require.NoError(t, err)
		require.NotEmpty(t, s.Ways, want.Key)
		for _, w := range s.Ways {
			with := m
			for _, u := range w.Upgrades {
				u.State = upgrade.Planned
				with.Upgrades = append(with.Upgrades, u)
			}
			p, err := with.Build("")
			require.NoError(t, err)
			require.Len(t, p.Sites, len(w.Upgrades))
			for _, site := range p.Sites {
				if wish := site.Wish(); wish != "" {
					require.NotEmpty(t, site.Inputs[wish], "%s has nothing to do", site.Name)
				}
			}
			require.Empty(t, p.Result.Conflicts())
			now, _ := p.Result.Figure(want.Key, sheet.Now)
			f, _ := p.Result.Figure(want.Key, sheet.Planned)
			_, is := sheet.Compare(now, f)
			require.True(t, is == want.To || (is < want.To+0.02) == want.Less || (is > want.To-0.02) == !want.Less, "%s: %v", want.Key, is)
			for _, c := range p.Result.Checks() {
				require.False(t, c.Charged(), "%s: %s %s", want.Key, c.Label, c.Phrase)
			}
		}
	}
}

// The further it goes the larger the work, and the thinner the wall: at 12 it is
// 2 (88 + 12 − 4) = 192, and 23 − 12 = 11 of the wall are left, where 8 are to stay.
func TestCurve(t *testing.T) {
	p := ask(t, demo.Lathe(), "1", "amount", "12").Plan
	c, ok := p.Curve(p.Site("1"))
	require.True(t, ok)
	require.Equal(t, "cross.front_wall.length", c.Prices[0].Key)
	require.InDelta(t, 8, c.Prices[0].Limit, exact)
	require.False(t, c.Prices[0].Most)
	for _, at := range c.Points {
		x := at.Amount
		require.InDelta(t, math.Min(2*(88+x-4), 206), at.Goal, 1e-6)
		require.InDelta(t, 23-x, at.Prices[0], 1e-6)
	}
	require.Greater(t, c.Points[len(c.Points)-1].Amount, 15.0, "it goes on beyond where it stops")
	f, _ := p.Result.Figure("cross.upgrade_1.amount", sheet.Planned)
	require.InDelta(t, 12, f.Value, exact, "the plan is left as it was")
}

// Every figure that was typed has its range: of the lap over the old end, of which
// 5 carry an old thread, 6 are wanted: 11; the sleeve wants a wall of 1.5 around
// the shank of 10: 13 (table of the joint room, common practice).
func TestReachOfEveryInput(t *testing.T) {
	p := ask(t, demo.Lathe(), "1", "amount", "12").Plan
	got := map[string]machine.InputReach{}
	for _, r := range p.Reaches(p.Site("1")) {
		got[r.Field.Name] = r
	}
	require.InDelta(t, 15, got["amount"].To, 1e-6)
	require.InDelta(t, 11, got["lap"].From, 1e-6)
	require.InDelta(t, 13, got["sleeve"].From, 1e-6)

	// 1 more ends before the dial is met, 1.5 on: no extension, and no range of its sleeve.
	p = ask(t, demo.Lathe(), "1", "amount", "1").Plan
	for _, r := range p.Reaches(p.Site("1")) {
		require.NotContains(t, []string{"lap", "sleeve"}, r.Field.Name)
	}
}

// BenchmarkOffers tries every kind on the demo lathe, and on all axes of its whole project.
func BenchmarkOffers(b *testing.B) {
	for name, m := range map[string]machine.Machine{"lathe": demo.Lathe(), "project": demo.LatheProject()} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := m.Offers(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkWays looks for what takes lost motion away on a worn lathe, and for a larger disc on the demo lathe, of
// which far more kinds bear on one another.
func BenchmarkWays(b *testing.B) {
	for name, at := range map[string]struct {
		machine.Machine
		machine.Wanted
	}{
		"motion": {worn(), machine.Wanted{Goal: sheet.Goal{Key: "cross.lost_motion_all", Less: true}, To: 0.1}},
		"disc":   {demo.Lathe(), machine.Wanted{Goal: sheet.Goal{Key: "cross.start_disc"}, To: 190}},
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := at.Ways(at.Wanted); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// What is typed is what was tried, in whatever the wish is: of a feed in whole
// mm/min, of a length in hundredths.
func TestOffersAreTypedAsTried(t *testing.T) {
	for _, m := range []machine.Machine{demo.LatheProject(), demo.MillProject()} {
		all, err := m.Offers()
		require.NoError(t, err)
		typed := 0
		for _, o := range all {
			if o.Told != machine.Gains || len(o.Inputs) == len(o.Trial.Inputs) {
				continue // nothing was taken as far as it goes
			}
			with := m
			with.Upgrades = append(slices.Clip(with.Upgrades), upgrade.Upgrade{ID: "99", Kind: o.About.Key, Axis: o.Axis.Key, State: upgrade.Draft, Inputs: o.Inputs})
			p, err := with.Build("99")
			require.NoError(t, err)
			s := p.Site("99")
			require.Empty(t, s.Problems, o.About.Key)
			reach := p.Result.HowFar(s.Amount, s.Goals[0], s.Most)
			f, _ := p.Result.Figure(s.Amount, sheet.Planned)
			require.LessOrEqual(t, f.Value, reach.To+1e-6, "%s on %s", o.About.Key, o.Axis.Key)
			typed++
		}
		require.Positive(t, typed)
	}
}
