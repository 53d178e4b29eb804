package machine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// piece is a part with its faces and sizes as typed.
func piece(key, role string, side axis.Side, from, to string, sizes ...string) axis.Part {
	p := axis.Part{Key: key, Label: key, Role: role, Side: side, Entries: map[string]plan.Entry{}}
	measure(&p, append([]string{"from", from, "to", to}, sizes...)...)
	return p
}

// of is a machine of one axis, with more travel asked for as draft 1.
func of(a axis.Axis, entries ...string) machine.Machine {
	a.Key, a.Entries = "a", map[string]plan.Entry{}
	for i := 0; i < len(entries); i += 2 {
		a.Entries[entries[i]] = plan.Entry{Typed: entries[i+1]}
	}
	for _, o := range a.Obstructions() {
		o.Clear = true
		a.Obstacles = append(a.Obstacles, o)
	}
	m := machine.Machine{Name: "m", Units: "mm", Axes: []axis.Axis{a}}
	again(&m, "1", upgrade.Draft)
	return m
}

// A tailstock's quill, positions from the body's front face, out is positive,
// quill right in. It is 140 long with its nose at 2, the nut in its last 20; the
// screw, Tr 12 × 3, comes to 60 behind the face; the shortest tang stands 65
// behind the nose.
func tailstock() machine.Machine {
	return of(axis.Axis{Label: "Quill", Arrangement: "barrel_screw", Capacity: "depth", Plus: "out", Minus: "in", Parts: []axis.Part{
		piece("body", "guide", axis.Fixed, "-110", "0"),
		piece("collar", "collar", axis.Fixed, "-146", "-138"),
		piece("thread", "thread", axis.Fixed, "-138", "-60", "dia", "12", "pitch", "3"),
		piece("key", "key", axis.Fixed, "-20", "-12"),
		piece("quill", "quill", axis.Moving, "-138", "2", "dia", "28"),
		piece("nut", "nut", axis.Moving, "-138", "-118"),
		piece("keyway", "keyway", axis.Moving, "-78", "-10"),
	}}, "travel_found", "58", "tang_depth", "65")
}

// By hand:
//
//	in      the quill's rear meets the collar at 0; the keyway's front end comes to the key at −12 + 10 = −2
//	out     the keyway's rear end comes to the key at −20 + 78 = 58
//	ejects  the tang, 2 − 65 + s, meets the tip, −60, at s = 3
//	nut     18 of it, 1.5 × 12, still engage at −60 + 138 − 18 = 60
//	guide   1.5 × 28 = 42 of the quill stay in the body up to 0 + 138 − 42 = 96
//	use     58 − 3 = 55; the most, whatever the screw, is Lq − e − Dt = 140 − 18 − 65 = 57
func TestTailstock(t *testing.T) {
	m := tailstock()
	m.Axes[0].Parts[2].Entries["form"] = plan.Entry{Typed: "trapezoidal"}
	a := ask(t, m, "")
	require.Empty(t, a.Findings)
	a.at(sheet.Now, map[string]float64{
		"a.reach_plus": 58, "a.reach_minus": 0, "a.ejects_at": 3, "a.nut_on_thread.lasts_plus": 60, "a.quill_on_body.lasts_plus": 96,
		"a.quill_on_body.engaged_plus": 80, "a.quill_on_body.engaged_minus": 110, "a.usable": 55, "a.thread.root": 8.5, "a.nut.bore": 9,
	})
	require.Equal(t, []string{"quill meets collar"}, met(a, "a.reach_minus"))
	require.Equal(t, []string{"key at the end of the keyway"}, met(a, "a.reach_plus"))
}

// 10 further out. The keyway is cut 10 further, and the nut, 10 off the full
// thread, holds by 10 where 18 is the least. A longer screw reaches it again,
// and pushes the tool out 10 earlier: nothing is gained. A quill that is 10
// longer ejects where it did, but stands out 10 with its rear on the collar: of
// the 10, the 7 beyond the ejection are lost there again.
func TestTailstockFurtherOut(t *testing.T) {
	further := func(do string, more ...string) asked {
		return ask(t, tailstock(), "1", append([]string{"end", "plus", "amount", "10", "do.thread_plus", do}, more...)...)
	}
	a := further("none")
	a.is(map[string]float64{"a.keyway.from": -88, "a.reach_plus": 68, "a.nut_on_thread.engaged_plus": 10, "a.usable": 57}) // up to 60
	require.Equal(t, []string{"a.nut_on_thread.least_plus"}, a.failing())
	require.Contains(t, a.answer(), "It can be used over 57 mm of travel, 2 mm more, where the limit is the nut on the thread at its least.")

	a = further("new_screw")
	a.is(map[string]float64{"a.thread.to": -50, "a.ejects_at": 13, "a.reach_plus": 68, "a.usable": 55})
	require.Empty(t, a.failing())
	require.Contains(t, a.answer(), "In depth nothing is gained: the limit is the point at which the tool is pushed out.")

	a = further("longer_quill")
	a.is(map[string]float64{"a.quill.length": 150, "a.nut.from": -148, "a.ejects_at": 3, "a.reach_minus": 10, "a.travel": 58, "a.usable": 58, "a.quill_on_body.engaged_plus": 80})
	// Right in, 10 of the nut would be off the thread: but there the quill does not come.
	require.Equal(t, []string{"a.collar_quill.check", "a.nut_on_thread.least_minus"}, a.failing())
	a = further("longer_quill", "do.collar_quill", "give_up")
	require.Empty(t, a.failing())
	a.is(map[string]float64{"a.usable": 58})
}

// A shorter tang, by 11 as a taper 2 without one, gains its length: 3 − 11 is
// before the quill is in at all, so 3 of them count.
func TestTailstockWithoutTang(t *testing.T) {
	m := tailstock()
	m.Axes[0].Entries["tang_depth"] = plan.Entry{Typed: "54"}
	ask(t, m, "").at(sheet.Now, map[string]float64{"a.ejects_at": -8, "a.usable": 58})
}

// A tailstock's screw jams on its collar's side: the shank, thicker than the
// nut's bore, stands behind the thread.
func TestTailstockShankBehind(t *testing.T) {
	m := tailstock()
	m.Axes[0].Parts = append(m.Axes[0].Parts, piece("shank", "shank", axis.Fixed, "-170", "-138", "dia", "14"))
	a := ask(t, m, "")
	a.at(sheet.Now, map[string]float64{"a.thread_end.bound": 0}) // −138 + 138
	require.Equal(t, []string{"quill meets collar", "nut jams at the thread's end"}, met(a, "a.reach_minus"))
}

// A drill's quill with its rack, positions from the head's lower face, down is
// positive, quill right up:
//
//	rack    from −95 on, the pinion's mesh from −40: ends at 55
//	up      the rack ends at −20, the mesh at −28: s = −8, and a travel from 0
//	guide   1.5 × 40 = 60 stay in the head up to 0 + 120 − 60 = 60
//	spline  20 stay in the sleeve up to −150 + 250 − 20 = 80
func drill() machine.Machine {
	return of(axis.Axis{Label: "Quill", Arrangement: "rack", Capacity: "depth", Plus: "down", Minus: "up", Parts: []axis.Part{
		piece("head", "guide", axis.Fixed, "-100", "0"),
		piece("pinion", "pinion", axis.Fixed, "-40", "-28"),
		piece("sleeve", "spline_sleeve", axis.Fixed, "-190", "-150"),
		piece("quill", "quill", axis.Moving, "-120", "15", "dia", "40"),
		piece("rack", "rack", axis.Moving, "-95", "-20"),
		piece("spline", "spline", axis.Moving, "-250", "-150"),
	}}, "travel_found", "55")
}

func TestDrill(t *testing.T) {
	a := ask(t, drill(), "")
	a.at(sheet.Now, map[string]float64{
		"a.reach_plus": 55, "a.quill_on_head.lasts_plus": 60, "a.spline_on_sleeve.lasts_plus": 80, "a.usable": 55,
		"a.spline_on_sleeve.engaged_plus": 40, "a.spline_on_sleeve.least": 20, "a.quill_on_head.engaged_plus": 65, "a.pinion_rack_minus.bound": -8,
	})
	require.Equal(t, []string{"Quill, up: no part that was measured stops it where it stops; the next one is 8 mm further. Find out what does."}, a.Findings)

	// 20 deeper: a rack 20 longer, and 45 of the quill in its guide, where 60 is
	// the least: of use are 5 more. The spline would leave its drive at 25.
	a = ask(t, drill(), "1", "end", "plus", "amount", "20")
	a.is(map[string]float64{"a.rack.length": 95, "a.reach_plus": 75, "a.quill_on_head.engaged_plus": 45, "a.usable": 60})
	require.Equal(t, []string{"a.quill_on_head.least_plus"}, a.failing())
	require.Contains(t, a.answer(), "The rack is 20 mm longer. It can be used over 60 mm of travel, 5 mm more, where the limit is the quill in its guide at its least.")
	ends, far := a.howFar()
	require.InDelta(t, 5, far.To, 1e-6)
	require.InDelta(t, 25, ends["a.spline_on_sleeve.least_plus"], 1e-6)
}

// A carriage on a rack that is fixed to the bed, positions from the bed's left
// end: it begins at the headstock's guard, 60; its pinion's mesh, 110 to 125,
// comes to the rack's end at 640 − 125 = 515; at 700 − 180 = 520 the carriage
// meets the lead screw's bracket.
func TestCarriage(t *testing.T) {
	carriage := func() machine.Machine {
		return of(axis.Axis{Label: "Carriage", Arrangement: "rack", Plus: "right", Minus: "left", Parts: []axis.Part{
			piece("bed", "ways", axis.Fixed, "0", "700"),
			piece("guard", "other", axis.Fixed, "-60", "60"),
			piece("bearing", "other", axis.Fixed, "700", "730"),
			piece("rack", "rack", axis.Fixed, "20", "640"),
			piece("carriage", "slide", axis.Moving, "60", "180"),
			piece("pinion", "pinion", axis.Moving, "110", "125"),
		}}, "travel_found", "515")
	}
	a := ask(t, carriage(), "")
	require.Empty(t, a.Findings)
	a.at(sheet.Now, map[string]float64{"a.reach_plus": 515, "a.bearing_carriage.bound": 520, "a.pinion_rack_minus.bound": -90, "a.reach_minus": 0, "a.carriage_on_bed.supported_plus": 120})

	// 12 further: the rack 12 longer, and after 5 the bracket, where it stops.
	a = ask(t, carriage(), "1", "end", "plus", "amount", "12", "do.bearing_carriage", "none")
	a.is(map[string]float64{"a.rack.to": 652, "a.reach_plus": 520, "a.travel": 520})
	require.Contains(t, a.answer(), "The carriage goes 5 mm further right, not the 12 mm asked for: there the carriage meets the bearing.")
}

// Every arrangement works with nothing, and with everything, that a part can be.
func TestArrangementsWithAnyParts(t *testing.T) {
	for _, arr := range axis.Arrangements {
		for _, capacity := range append([]axis.Capacity{{}}, axis.Capacities...) {
			var parts []axis.Part
			for i, r := range axis.Roles {
				p := piece(r.Key, r.Key, arr.SideOf(r.Key), "0", "10")
				for _, s := range r.Sizes {
					if s.Choices == nil {
						p.Entries[s.Key] = plan.Entry{Typed: "4"}
					}
				}
				if i%5 == 4 {
					p.Tie = &axis.Tie{Part: parts[i-1].Key, Face: "to"}
				}
				parts = append(parts, p)
			}
			for _, list := range [][]axis.Part{nil, parts} {
				a := axis.Axis{Label: "A", Arrangement: arr.Key, Capacity: capacity.Key, Plus: "out", Minus: "in", Parts: list}
				for _, end := range []string{"plus", "minus", "both"} {
					m := of(a, "travel_found", "50", "drive_offset", "20", "tang_depth", "30", "lowest", "40", "column", "300", "tallest_job", "200", "lowest_job", "60", "foot_bolt", "30", "strut_spare", "20",
						"crank_radius", "40", "lever_length", "300", "pivot_distance", "200", "lever_short", "50", "lever_long", "200", "lever_swing", "60", "wheel_teeth", "30",
						"gear_ratio", "2", "centre_above_slide", "20", "centre_above_cross", "60", "holder_lowest", "10", "holder_highest", "25")
					m.Upgrades[0].Inputs["end"], m.Upgrades[0].Inputs["amount"] = end, "5"
					m.Upgrades = append(m.Upgrades, upgrade.Upgrade{ID: "2", Kind: "riser", Axis: "a", State: upgrade.Planned, Inputs: map[string]string{"amount": "10"}})
					p, err := m.Build("1")
					require.NoError(t, err, "%s %s", arr.Key, capacity.Key)
					sources(t, p)
				}
			}
		}
	}
}

// sources requires that every figure that is computed says where its formula
// stands, and every assumption what it rests on.
func sources(t *testing.T, p *machine.Plan) {
	t.Helper()
	for _, f := range p.Result.Figures(sheet.Planned) {
		switch f.Origin {
		case sheet.Computed:
			require.NotEmpty(t, f.Source, f.Key)
		case sheet.Assumed:
			require.NotEmpty(t, f.Note, f.Key)
		}
		require.NotEmpty(t, f.Label, f.Key)
	}
	for _, c := range p.Result.Checks() {
		require.NotEmpty(t, c.Source, c.Key)
		require.NotEmpty(t, c.Check.Sentence, c.Key)
		require.False(t, c.Figure.Symbol != "" && c.Figure.Symbol == c.Limit.Symbol, "the margin of %s is written as %s − %[2]s", c.Key, c.Figure.Symbol)
	}
}
