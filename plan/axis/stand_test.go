package axis_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
)

// Positions are those at s = 0, the minus end: so it must be wound there before any is read.
func TestStands(t *testing.T) {
	quill := piece("quill", "quill", axis.Moving)
	quill.Label = "spindle quill"
	for _, tc := range []struct {
		a    axis.Axis
		want string
	}{
		{axis.Axis{Arrangement: "held_screw", Datum: "the saddle's rear face", Plus: "outward, towards the operator", Minus: "inward, away from the operator"},
			"Wind the slide fully inward and leave it there. All positions are measured from the saddle's rear face; outward counts up, the other way is negative."},
		{axis.Axis{Arrangement: "travelling_screw", Plus: "right", Minus: "left", Parts: []axis.Part{piece("table", "slide", axis.Moving)}},
			"Wind the table fully left and leave it there. All positions are measured from the datum face; right counts up, the other way is negative."},
		{axis.Axis{Arrangement: "barrel_screw", Datum: "the guide's front face", Plus: "out", Minus: "back"},
			"Wind the barrel fully back and leave it there. All positions are measured from the guide's front face; out counts up, the other way is negative."},
		{axis.Axis{Arrangement: "rack", Datum: "the head's underside", Plus: "down", Minus: "up", Parts: []axis.Part{piece("guide", "guide", axis.Fixed), quill}},
			"Bring the spindle quill fully up and leave it there. All positions are measured from the head's underside; down counts up, the other way is negative."},
		{axis.Axis{Arrangement: "spaced", Datum: "the table", Plus: "up", Minus: "down"},
			"Bring the head fully down and leave it there. All positions are measured from the table; up counts up, the other way is negative."},
		{axis.Axis{Arrangement: "none"}, ""},
	} {
		require.Equal(t, tc.want, tc.a.Stands())
	}
	for _, arr := range axis.Arrangements {
		require.NotEmpty(t, arr.Moves, arr.Key)
		require.Equal(t, 1, strings.Count(arr.Stand, "{minus}"), arr.Key)
	}
}

// How a place is measured says how the axis stands, of what moves; of what stays it does not matter.
func TestAsks(t *testing.T) {
	a := axis.Axis{Arrangement: "held_screw", Minus: "inward, away"}
	how := func(p axis.Part) map[string]string {
		all := map[string]string{}
		for _, s := range a.Asks(p) {
			all[s.Key] = s.How
		}
		return all
	}
	slide := how(piece("slide", "slide", axis.Moving))
	require.Equal(t, "from the datum face, slide fully inward", slide["from"])
	require.Equal(t, "from the datum face, slide fully inward", slide["to"])
	require.Equal(t, "from the datum face to the middle of each, slide fully inward", slide["gib_screws"])
	require.Equal(t, "from the datum face", how(piece("wall", "wall", axis.Fixed))["from"])
	require.NotContains(t, how(on(piece("dial", "dial", axis.Moving), "bracket", "to"))["length"], "fully")
}

// An end at which no two parts come together, and no obstacle was measured, asks what stops it.
func TestUnexplained(t *testing.T) {
	wall, nut := piece("wall", "wall", axis.Fixed, "from", "130", "to", "140"), piece("nut", "nut", axis.Moving, "from", "0", "to", "30")
	tray := func(gap string) []axis.Obstacle {
		return []axis.Obstacle{{Key: "splash_tray", End: axis.Plus, Clear: true}, {Key: "rear_obstacle", End: axis.Minus, Gap: plan.Entry{Typed: gap}}}
	}
	for _, tc := range []struct {
		name        string
		a           axis.Axis
		plus, minus bool
	}{
		{"a wall outward", axis.Axis{Arrangement: "held_screw", Parts: []axis.Part{wall, nut}}, false, true},
		{"and an obstacle inward, not measured", axis.Axis{Arrangement: "held_screw", Parts: []axis.Part{wall, nut}, Obstacles: tray("")}, false, true},
		{"measured", axis.Axis{Arrangement: "held_screw", Parts: []axis.Part{wall, nut}, Obstacles: tray("0")}, false, false},
		{"nothing is measured: either may be", axis.Axis{Arrangement: "held_screw", Parts: []axis.Part{piece("wall", "wall", axis.Fixed), piece("nut", "nut", axis.Moving)}}, false, false},
		{"no parts", axis.Axis{Arrangement: "held_screw"}, true, true},
		{"nothing is wound", axis.Axis{Arrangement: "spaced"}, false, false},
	} {
		l, _ := layAs(t, tc.a)
		require.Equal(t, tc.plus, l.Unexplained(axis.Plus), tc.name)
		require.Equal(t, tc.minus, l.Unexplained(axis.Minus), tc.name)
	}
}
