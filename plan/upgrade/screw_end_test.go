package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The bracket, 12 longer less what there was, ends at 177.5. A lap of 30 on an end at
// 203 begins at 173: 4.5 of the joint would run in the bearing.
func TestStoryJointInTheJournal(t *testing.T) {
	p := built(t, with("extend_travel", "end", "plus", "amount", "12", "lap", "30"))
	is(t, p, map[string]float64{"cross.extension.joint_from": 173, "cross.extension.clear": -4.5})
	require.Contains(t, failing(p), "cross.extension.clear_check")
	is(t, built(t, with("extend_travel", "end", "plus", "amount", "12")), map[string]float64{"cross.extension.clear": 11.5})
}

// What is bought waits for what it must suit, and threads are asked about.
func TestStoryBoughtTooEarly(t *testing.T) {
	p := built(t, withHandle("handwheel", "dia", "120", "room", "95", "fixed", "pin"))
	mk := p.Site("1").Make(p.Result)
	for _, b := range mk.Buy {
		if b.Key == "handle_pin" {
			require.Equal(t, "turn_handle", b.Confirm)
		}
	}
	require.Contains(t, stepNamed(t, mk, "handle_before").Asks[1], "Which thread has the nut")
	p = built(t, with("scales", "length", "100"))
	mk = p.Site("1").Make(p.Result)
	require.Equal(t, "scale_room", mk.Buy[0].Confirm)
}
