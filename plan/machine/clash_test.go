package machine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/demo"
	workshop "fettle/plan/part"
	"fettle/plan/upgrade"
)

// What the lathe's own cross slide needs turned while it is in pieces: the
// brazed end, trued on the screw, and dial and handle, bored to it. What is made
// before is not named, nor is what a mill does.
func TestNeededWhileInPieces(t *testing.T) {
	clashes := func(a asked) map[string]workshop.Capability {
		all := map[string]workshop.Capability{}
		for _, c := range a.Clashes() {
			require.NotEmpty(t, c.Says)
			all[c.Operation.Key] = c.Needs
		}
		return all
	}
	a := ask(t, lathe(), "1", "amount", "12")
	require.Equal(t, map[string]workshop.Capability{"true_extension": workshop.Turning, "bore_dial": workshop.Boring, "bore_handle": workshop.Boring}, clashes(a))
	require.Equal(t, "“Straighten the screw to 0.03 mm of run-out at its end” needs turning, which this machine gives, while its cross slide is in pieces: borrow one, put the old parts back for it, or make it before.", a.Clashes()[0].Says)

	// A pinned sleeve is not turned on the screw; dial and handle are still to bore.
	require.Equal(t, map[string]workshop.Capability{"bore_dial": workshop.Boring, "bore_handle": workshop.Boring}, clashes(ask(t, lathe(), "1", "amount", "12", "joint", "pinned")))

	// The mill cannot mill its own saddle while that is off; turning is done elsewhere anyway.
	require.Equal(t, map[string]workshop.Capability{"cut_saddle": workshop.Milling}, clashes(ask(t, demo.Mill(), "1", "amount", "15")))
	// The riser is milled while the machine still stands.
	require.Empty(t, clashes(ask(t, demo.Mill(), "2", "amount", "60")))

	// Finished is finished.
	m := lathe()
	m.Upgrades[0].State = upgrade.Finished
	require.Empty(t, clashes(ask(t, m, "", "")))
}

// A step that begins with where it is done is named with what is done there.
func TestNeededIsNamedInAWholeClause(t *testing.T) {
	m := lathe()
	m.Upgrades[0].Kind, m.Upgrades[0].Inputs = "float_adjuster", map[string]string{"end_float": "0.02"}
	says := ""
	for _, c := range ask(t, m, "1", "end_float", "0.02").Clashes() {
		says += c.Says
	}
	require.Contains(t, says, "“Between centres, cut the thread for the adjuster on the screw")
}

// A flange with bolts 120 off the axis is 2 × (120 + 9) = 258 wide: hypot(258, 30)
// = 259.7 does not swing over a bed of 210.
func TestTooLargeForTheMachine(t *testing.T) {
	m := lathe()
	measure(part(&m, "bracket"), "bolt_offset", "120")
	a := ask(t, m, "1", "amount", "12")
	require.Equal(t, "turn_bracket", a.Clashes()[0].Operation.Key)
	require.Contains(t, a.Clashes()[0].Says, "it swings 259.74 mm, and 210 mm swings over the bed")

	// A block of 160 by 150 goes under a mill whose Y axis goes 130? Not in one setting.
	m = demo.Mill()
	m.Axes[1].Entries["foot_length"], m.Axes[1].Entries["foot_width"] = m.Axes[1].Entries["column"], m.Axes[1].Entries["column"]
	a = ask(t, m, "2", "amount", "60")
	require.Equal(t, "mill_riser", a.Clashes()[0].Operation.Key)
	require.Contains(t, a.Clashes()[0].Says, "it is 420 mm across, and the Y axis goes 130 mm")
}
