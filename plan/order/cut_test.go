package order_test

import (
	"math"
	"strings"
	"testing"

	"fettle/plan/material"
	"fettle/plan/order"
	"fettle/plan/part"
	"fettle/plan/unit"

	"github.com/stretchr/testify/require"
)

func size(nominal float64) part.Size { return part.Size{Label: "size", Nominal: nominal} }

// general is a size to a general tolerance, as most of a part is.
func general(nominal float64) part.Size {
	return part.Size{Label: "size", Nominal: nominal, Upper: 0.2, Lower: -0.2, Limits: "ISO 2768-m"}
}

func turned(key, mat string, quantity int, steps ...[2]float64) part.Part {
	p := part.Part{Key: key, Label: key, Material: mat, Quantity: quantity, Round: &part.Round{}}
	for _, s := range steps {
		p.Round.Outside = append(p.Round.Outside, part.Step{Length: size(s[0]), Dia: size(s[1])})
	}
	return p
}

func block(key, mat string, l, w, th part.Size) part.Part {
	return part.Part{Key: key, Label: key, Material: mat, Quantity: 1, Flat: &part.Flat{Length: l, Width: w, Thickness: th, Angle: 90}}
}

// Sections by hand from the lists of stock sizes, with 0.5 mm on bright and 3 on
// cast bar; lengths by hand from 1 mm a face, 3 for parting and 20 for holding.
func TestCutList(t *testing.T) {
	flange := turned("bracket", "gjl250", 1, [2]float64{10, 60}, [2]float64{26, 32})
	flange.Round.Flange = &part.Flange{Step: 0, Width: size(60), Height: size(40)}
	gib := block("gib", "c45", size(120), size(14), size(5))
	gib.Flat.Angle = 60
	asBar := turned("spacer", "c45", 1)
	asBar.Round.Outside = []part.Step{{Length: general(30), Dia: general(22)}}
	over := turned("collar", "6082", 1, [2]float64{20, 204})
	withLength := turned("pin", "silver_steel", 1, [2]float64{0, 5})
	withLength.Round.Length = size(18)
	for _, tc := range []struct {
		part    part.Part
		system  order.System
		section string
		length  float64
		pieces  int
		count   int
	}{
		{turned("extension", "c45", 1, [2]float64{20, 12}, [2]float64{40, 20}), order.Metric, "round 22", 60 + 2 + 3 + 20, 1, 1},
		{turned("extension", "c45", 1, [2]float64{20, 12}, [2]float64{40, 20}), order.Inch, "round 13/16 in", 85, 1, 1},
		{turned("extension", "c45", 1, [2]float64{60, 24.9}), order.Inch, "round 1 in", 85, 1, 1},
		{asBar, order.Metric, "round 22", 30.2 + 25, 1, 1},
		{asBar, order.Inch, "round 15/16 in", 30.2 + 25, 1, 1}, // 22.2 and 0.5 are more than 7/8
		{withLength, order.Metric, "round 6", 18 + 25, 1, 1},
		{flange, order.Metric, "flat 45 × 40", 62, 1, 1}, // 60 × 40 × 36: 36 + 3 thick, 40 + 3 wide, 60 and two faces long
		{gib, order.Metric, "flat 20 × 6", 122, 1, 1},    // 5.5 thick; 14 and 5 / tan 60° and 0.5 wide: 17.4
		{over, order.Metric, "round 205", 45, 1, 1},
		{turned("wheel", "6082", 1, [2]float64{20, 84}), order.Metric, "round 90", 45, 1, 1},
		{block("plate", "6082", size(50), size(30), size(24.5)), order.Metric, "flat 35 × 25", 52, 1, 1},
		{block("plate", "6082", size(50), general(30), general(10)), order.Metric, "flat 30 × 10", 52, 1, 1},
		{block("plate", "6082", size(50), size(24.5), size(24.5)), order.Metric, "square 25", 52, 1, 1},
		{block("plate", "6082", size(50), size(24), size(8)), order.Inch, "flat 1 in × 3/8 in", 52, 1, 1},
	} {
		blanks := order.CutList([]order.Need{{Upgrade: "1", Parts: []part.Part{tc.part}}}, order.Workshop{System: tc.system})
		require.Len(t, blanks, 1, tc.part.Key)
		b := blanks[0]
		require.Empty(t, b.Problem)
		require.Equal(t, tc.section, b.Section.String(), tc.part.Key)
		require.InDelta(t, tc.length, b.Length, 1e-9, tc.part.Key)
		require.Equal(t, []int{tc.pieces, tc.count}, []int{b.Pieces, b.Count}, tc.part.Key)
		sum := 0.0
		for _, term := range b.Terms {
			sum += term.MM
		}
		require.InDelta(t, b.Length, sum, 1e-9, "the terms add up")
		require.Equal(t, strings.HasSuffix(tc.section, "205"), b.Section.Beyond)
	}
}

// 22 mm bar stands out 66: two pieces of 20 with 2 and 3 to each, and no third.
func TestPiecesFromOneChucking(t *testing.T) {
	blanks := order.CutList([]order.Need{{Upgrade: "1", Parts: []part.Part{turned("collar", "c45", 5, [2]float64{20, 21})}}}, order.Workshop{})
	require.Len(t, blanks, 2)
	require.Equal(t, []int{2, 2}, []int{blanks[0].Pieces, blanks[0].Count})
	require.InDelta(t, 2*(20+2+3)+20, blanks[0].Length, 1e-9)
	require.Equal(t, []int{1, 1}, []int{blanks[1].Pieces, blanks[1].Count})
	require.InDelta(t, 20+2+3+20, blanks[1].Length, 1e-9)
	require.NotEqual(t, blanks[0].Key, blanks[1].Key)
	// A long one is told to be carried.
	long := order.CutList([]order.Need{{Parts: []part.Part{turned("screw", "c45", 1, [2]float64{240, 12})}}}, order.Workshop{})
	require.Contains(t, strings.Join(long[0].Notes, "; "), "carry its end on a centre or in a steady")
}

func TestBlankMass(t *testing.T) {
	blanks := order.CutList([]order.Need{{Parts: []part.Part{turned("bar", "c45", 2, [2]float64{975, 24})}}}, order.Workshop{})
	require.Len(t, blanks, 1)
	require.InDelta(t, 1000, blanks[0].Length, 1e-9)
	require.InEpsilon(t, 2*3.853, unit.Kilogram.In(blanks[0].Mass), 0.001, "trade tables: 25 mm round steel bar, 3.85 kg/m")
}

func TestCutListWhatIsNotKnown(t *testing.T) {
	old := turned("casting", "gjl250", 1, [2]float64{10, 10})
	old.Altered = true
	open := turned("bush", "pb1", 1, [2]float64{20, 16})
	open.Round.Outside[0].Dia = part.Size{Label: "outside", Nominal: 16, Awaits: "bracket.bore", Suits: "the bore in the bracket"}
	blanks := order.CutList([]order.Need{{Upgrade: "1", Parts: []part.Part{old, open, turned("x", "", 1, [2]float64{10, 10}),
		turned("y", "c45", 1, [2]float64{math.NaN(), 10}), turned("z", "c45", 1, [2]float64{10, math.NaN()}, [2]float64{10, 5}),
		block("w", "c45", size(10), size(math.Inf(1)), size(3)), {Key: "nothing", Material: "c45"}}}}, order.Workshop{})
	require.Len(t, blanks, 5, "an old part needs no stock, and one without a shape has none")
	require.Equal(t, []string{"outside waits for the bore in the bracket"}, blanks[0].Waits)
	require.Empty(t, blanks[0].Problem)
	require.Equal(t, "its material is not chosen yet", blanks[1].Problem)
	for _, b := range blanks[2:] {
		require.Equal(t, "its size is not known yet", b.Problem)
	}
	groups, err := order.Bars(blanks, order.Workshop{})
	require.NoError(t, err)
	require.Len(t, groups, 1)
}

// Whatever the part, its stock holds it: the section is not under what was
// wanted, and the next smaller one would be.
func TestStockHoldsThePart(t *testing.T) {
	for dia := 2.3; dia < 79; dia += 0.7 {
		b := order.CutList([]order.Need{{Parts: []part.Part{turned("p", "c45", 1, [2]float64{30, dia})}}}, order.Workshop{})[0]
		require.GreaterOrEqual(t, b.Section.Across, dia+0.5-1e-9)
		for _, s := range material.MetricRounds {
			require.False(t, s >= dia+0.5-1e-9 && s < b.Section.Across, "%g would do for %g", s, dia)
		}
	}
}

func TestBars(t *testing.T) {
	needs := []order.Need{{Upgrade: "1", Label: "travel", Parts: []part.Part{
		turned("a", "c45", 3, [2]float64{100, 20}), turned("b", "c45", 1, [2]float64{75, 21}), turned("c", "6082", 1, [2]float64{40, 20}),
	}}}
	blanks := order.CutList(needs, order.Workshop{})
	groups, err := order.Bars(blanks, order.Workshop{})
	require.NoError(t, err)
	require.Equal(t, []string{"6082 round 22", "c45 round 22"}, []string{groups[0].Key, groups[1].Key})
	// 3 × 125 and 100 with four kerfs of 2: 483 in 500.
	require.Equal(t, "1 of 500 mm: nothing less will do", groups[1].Nest.Say())
	require.InDelta(t, 500-3*125-100-4*2, groups[1].Nest.Cuts[0].Left, 1e-9)
	require.InEpsilon(t, 2.984*0.5, unit.Kilogram.In(groups[1].Mass), 0.002, "trade tables: 22 mm round steel bar, 2.98 kg/m")

	// A bar in the rack that is thick enough is used, one that is too thin, too thick or of other metal is not.
	w := order.Workshop{Owned: []order.Owned{
		{Key: "thin", Material: "c45", Form: "round", Across: 20, Length: 900},
		{Key: "thick", Material: "c45", Form: "round", Across: 40, Length: 900},
		{Key: "other", Material: "6082", Form: "hexagon", Across: 24, Length: 900},
		{Key: "right", Label: "the end of the last job", Material: "c45", Form: "round", Across: 21.5, Length: 260},
	}}
	groups, err = order.Bars(blanks, w)
	require.NoError(t, err)
	require.Equal(t, "right", groups[1].Nest.Cuts[0].Offcut)
	require.Equal(t, "1 of 250 mm: nothing less will do", groups[1].Nest.Say())
	require.Empty(t, groups[0].Nest.Cuts[0].Offcut)

	// A part that no bar is long enough for.
	long := order.CutList([]order.Need{{Parts: []part.Part{turned("screw", "c45", 1, [2]float64{1200, 12})}}}, order.Workshop{})
	groups, err = order.Bars(long, order.Workshop{})
	require.NoError(t, err)
	require.Equal(t, []string{"screw needs 1225 mm, and no bar here is as long"}, groups[0].Notes)

	_, err = order.Bars(blanks, order.Workshop{Kerf: -1})
	require.ErrorIs(t, err, order.ErrCutting)
}

func TestBarsByPrice(t *testing.T) {
	blanks := order.CutList([]order.Need{{Parts: []part.Part{turned("a", "c45", 4, [2]float64{150, 20})}}}, order.Workshop{})
	w := order.Workshop{Sold: map[string][]order.Bar{"c45 round 22": {{Length: 500, Cost: 900}, {Length: 1000, Cost: 1000}}}}
	groups, err := order.Bars(blanks, w)
	require.NoError(t, err)
	require.Equal(t, int64(1000), groups[0].Nest.Cost)
}
