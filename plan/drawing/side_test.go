package drawing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
	"fettle/plan/drawing"
	"fettle/plan/machine"
	"fettle/plan/unit"
)

func side(t testing.TB, ma machine.Machine, draft string, opt drawing.Options) *drawing.Drawing {
	t.Helper()
	p := build(t, ma, draft)
	return drawing.SideView(p.Layouts[0], p.Result, opt)
}

const outline = "fill-part ln-visible"

// Where things lie along the axis; worked out by hand from the lathe's table in the issue.
func TestSideViewToScale(t *testing.T) {
	d := side(t, lathe(), "1", drawing.Options{})
	for _, tc := range []struct {
		part, class string
		from, to    float64
		why         string
	}{
		{"slide", outline, 28, 178, "-72 to 78, drawn 100 further out"},
		{"nut", outline, 106, 130, "6 to 30, drawn 100 further out: it touches the wall at 130"},
		{"front_wall", outline, 118, 141, "what stays above and below the pocket begins where it did"},
		{"front_wall", "ln-cut", 118, 130, "cut back by 12"},
		{"bracket", outline, 141, 177.5, "36.5 long"},
		{"bracket", "fill-new", 167, 177.5, "10.5 of it are new"},
		{"dial", outline, 178, 194.5, "0.5 beyond the bracket, 16.5 long"},
		{"lock_nut", outline, 208.5, 213.5, "beyond dial 16.5 and handle 14"},
		{"extension", "fill-new", 189, 213.5, "a lap of 14 before 203, and 10.5 beyond"},
		{"support", "fill-part ln-new", 172.5, 177.5, "5 wide, in the bracket's outer end"},
		{"thread", outline, 6, 140, "as measured"},
		{"", "ln-old", 16, 203, "the slide was at 16 to 166, the lock nut ended at 203"},
	} {
		t.Run(tc.part+" "+tc.class, func(t *testing.T) {
			from, to := along(d, tc.part, tc.class)
			require.InDelta(t, tc.from, from, 1e-9, tc.why) // a sum of decimals
			require.InDelta(t, tc.to, to, 1e-9, tc.why)
		})
	}
	require.ElementsMatch(t, []string{"11 was 23", "36.5 was 26", "14 lap", "10.5", "+12", "100 travel was 88"}, said(d, "dim-text"))
	require.Equal(t, []string{"touches", "touches"}, said(d, "gap-text"))
	require.Equal(t, drawing.Slide{Group: "x-moving", At: 100, From: 0, To: 100, Gaps: "x-gaps"}, d.Slide)
	for _, says := range []string{"Bracket: 36.5 mm long, now 26 mm, new metal from 167 to 177.5.", "Front wall: 11 mm long, now 23 mm, cut away from 118 to 130.",
		"The screw's end is longer by 10.5 mm", "Nut and front wall: touches."} {
		require.Contains(t, d.Desc, says)
	}
}

// A wish at the other end is looked at from there.
func TestSideViewAtTheOtherEnd(t *testing.T) {
	ma := lathe()
	ma.Upgrades[0].Inputs = map[string]string{"end": "minus", "amount": "4"}
	d := side(t, ma, "1", drawing.Options{})
	require.Equal(t, -4.0, d.Slide.At)
	from, _ := along(d, "slide", outline)
	require.InDelta(t, -76, from, 1e-9)
	require.Contains(t, said(d, "dim-text"), "+4")
}

func TestSideViewGaps(t *testing.T) {
	at := 99.0
	d := side(t, lathe(), "1", drawing.Options{At: &at})
	require.Equal(t, []string{"1 left", "1 left"}, said(d, "gap-text"), "both are met at 100")
	at = 50
	d = side(t, lathe(), "1", drawing.Options{At: &at})
	require.Empty(t, said(d, "gap-text"))
	require.Empty(t, d.Slide.Gaps)
	at = 101
	d = side(t, lathe(), "1", drawing.Options{At: &at})
	require.Equal(t, []string{"1 too far", "1 too far"}, said(d, "gap-text"))
}

// The moving side is the same drawing wherever it stands, and the paper has room for it everywhere.
func TestSideViewMoves(t *testing.T) {
	for name, ma := range machines() {
		t.Run(name, func(t *testing.T) {
			here := side(t, ma, "1", drawing.Options{})
			moves := ma.Axes[0].Arrangement != "spaced" // of a head on its column nothing goes along the paper
			require.Equal(t, moves, here.Slide.Group != "")
			if !moves {
				return
			}
			at := here.Slide.At - 7
			there := side(t, ma, "1", drawing.Options{At: &at})
			for _, p := range ma.Axes[0].Parts {
				if p.Side != axis.Moving {
					continue
				}
				from, to := along(here, p.Key, outline)
				from2, to2 := along(there, p.Key, outline)
				require.InDelta(t, from-7, from2, 1e-9, p.Key)
				require.InDelta(t, to-7, to2, 1e-9, p.Key)
				for _, s := range []float64{here.Slide.From, here.Slide.To} {
					require.Greater(t, from+s-here.Slide.At, here.X, p.Key)
					require.Less(t, to+s-here.Slide.At, here.X+here.Width, p.Key)
				}
			}
		})
	}
}

// As it is, nothing was and nothing is new.
func TestSideViewUnchanged(t *testing.T) {
	for name, ma := range machines() {
		t.Run(name, func(t *testing.T) {
			d := side(t, ma, "", drawing.Options{})
			for _, class := range []string{"ln-old", "ln-cut", "fill-new", "ln-new", "fill-part ln-new"} {
				require.Zero(t, count(d, class), class)
			}
			for _, x := range texts(d, "dim-text") {
				require.Empty(t, x.Old)
			}
			require.NotZero(t, count(d, outline))
		})
	}
}

// Figures are written in the machine's unit; the drawing is the same.
func TestSideViewInInches(t *testing.T) {
	mm := side(t, lathe(), "1", drawing.Options{})
	in := side(t, lathe(), "1", drawing.Options{Units: unit.Inch})
	require.Contains(t, said(in, "dim-text"), "1.437 was 1.024", "36.5 and 26 divided by 25.4")
	require.Contains(t, in.Desc, "in inches")
	_, a := along(mm, "bracket", "fill-new")
	_, b := along(in, "bracket", "fill-new")
	require.Equal(t, a, b)
}

// What is not measured is not drawn, and the words say so.
func TestSideViewUnknown(t *testing.T) {
	ma := lathe()
	delete(ma.Axes[0].Parts[2].Entries, "to") // the front wall
	delete(ma.Axes[0].Parts[5].Entries, "length")
	d := side(t, ma, "1", drawing.Options{})
	from, _ := along(d, "front_wall", outline)
	require.Greater(t, from, 1e9)
	require.Contains(t, d.Desc, "Not drawn, because it is not measured where they lie: front wall, handle hub, lock nut.")

	for _, arr := range axis.Arrangements {
		t.Run(arr.Key, func(t *testing.T) {
			d := side(t, machine.Machine{Units: "mm", Axes: []axis.Axis{{Key: "x", Label: "X", Arrangement: arr.Key, Plus: "out", Minus: "in",
				Parts: arr.UsualParts(), Obstacles: arr.UsualObstacles()}}}, "", drawing.Options{})
			require.Zero(t, count(d, outline))
			require.Contains(t, d.Desc, "Nothing can be drawn until it is measured")
		})
	}
}

// A riser lifts the lowest as much as the highest.
func TestSideViewStanding(t *testing.T) {
	d := side(t, column(), "1", drawing.Options{})
	require.ElementsMatch(t, []string{"110 was 60", "290 was 240", "50"}, said(d, "dim-text"))
	require.Equal(t, 1, count(d, "fill-new"), "the block")
	require.Contains(t, d.Desc, "from 110 mm to 290 mm above the table, now from 60 mm to 240 mm")
	require.Empty(t, d.Slide.Group)
	m := column() // a head that is wound goes up on the block as well, ways and screw and all
	m.Axes[0].Arrangement = "held_screw"
	require.ElementsMatch(t, []string{"110 was 60", "290 was 240", "50"}, said(side(t, m, "1", drawing.Options{}), "dim-text"))
}
