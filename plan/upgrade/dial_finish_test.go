package upgrade_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A usual film of 15 µm, a third of which grows outward (from memory, unchecked):
// 5 µm a side, and the bore closes by 10; H7/g6 leaves 6 µm at 10 to 18 mm (ISO
// 286-2). Masked it does not matter; 5 µm close it by 3.3.
func TestStoryAnodisedDial(t *testing.T) {
	p := built(t, with("new_dial", "dia", "50", "finish", "usual", "film", "15", "bored", "before"))
	is(t, p, map[string]float64{"cross.upgrade_1.film.growth": 0.005, "cross.upgrade_1.film.closes": 0.01})
	require.Equal(t, []string{"cross.upgrade_1.film.check"}, failing(p))
	require.Empty(t, failing(built(t, with("new_dial", "dia", "50", "finish", "usual", "film", "5", "bored", "before"))))
	p = built(t, with("new_dial", "dia", "50", "finish", "usual", "film", "15"))
	require.Empty(t, failing(p))
	d := piece(t, p, "1", "dial")
	require.Contains(t, strings.Join(d.Notes, " "), "The film closes a bore by about 10 µm")
}

// Figures that fall as the handle is turned clockwise are asked about, before they
// are stamped; so is which way it goes at all.
func TestStoryNumberedBackwards(t *testing.T) {
	p := built(t, with("new_dial", "dia", "50", "rises", "plus")) // a left-hand screw takes it inward, clockwise
	require.Contains(t, answer(p, "1"), "Its figures fall when it is turned clockwise: is that meant?")
	require.NotContains(t, answer(built(t, with("new_dial", "dia", "50")), "1"), "Its figures fall")
	mk := p.Site("1").Make(p.Result)
	require.Contains(t, stepNamed(t, mk, "dial_before").Asks[1], "which way does the slide go")
}

// What a line is worth stands on the drawing both ways: 3/150 = 0.01 of the slide is
// 0.02 on the diameter.
func TestStoryRadiusOrDiameter(t *testing.T) {
	p := built(t, with("new_dial", "reads", "diameter", "value", "0.02 mm", "dia", "50"))
	notes := strings.Join(piece(t, p, "1", "dial").Notes, " ")
	require.Contains(t, notes, "A line is 0.01 mm that the slide moves; on the diameter of turned work it is 0.02 mm.")
	require.Contains(t, notes, "Mark it ⌀")
	mk := p.Site("1").Make(p.Result)
	require.Contains(t, stepNamed(t, mk, "dial_before").Asks[0], "Two sorts side by side make scrap.")
}

// A dial of 50 beside a bracket of 30 has its index on a plate, (50 − 30)/2 + 6 = 16
// high; one of 30 has it on the bracket itself.
func TestIndexPlate(t *testing.T) {
	p := built(t, with("new_dial", "dia", "50"))
	require.InDelta(t, 16, piece(t, p, "1", "index_plate").Flat.Length.Nominal, 1e-9)
	p = built(t, with("new_dial", "dia", "30"))
	mk := p.Site("1").Make(p.Result)
	_, there := mk.Part("index_plate")
	require.False(t, there)
}
