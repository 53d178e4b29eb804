package upgrade_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/sheet"
)

// A lead of 3 in lines of 0.05: 60 of them, on 60 mm π 60/60 = 3.1416 apart. What was
// read to 0.5 is read to 0.05.
func TestQuillDial(t *testing.T) {
	p := built(t, and(tailstockAxis(), "quill_dial", "by", "dial", "dia", "60", "width", "20", "value", "0.05 mm", "read_now", "0.5", "on", "20", "room", "40"))
	is(t, p, map[string]float64{"a.quill_dial.divisions": 60, "a.quill_dial.spacing": 3.1416, "a.quill_dial.per_line": 0.05, "a.reads_to": 0.05, "a.upgrade_1.better": 0.45})
	require.Empty(t, failing(p))
	require.Contains(t, answer(p, "1"), "The depth is read to 0.05 mm, where it is 0.5 mm now. The dial's lines are 3.14 mm apart.")
	ring := piece(t, p, "1", "quill_dial")
	require.Equal(t, 60, ring.Dial.Divisions)
	require.Empty(t, ring.Replaces)
	require.InDelta(t, 20, piece(t, p, "1", "dial_sleeve").Round.Left[0].Dia.Nominal, 1e-9)
	// 300 lines of 0.01 stand 0.63 apart: too close. Lines along the quill every 0.5, too.
	p = built(t, and(tailstockAxis(), "quill_dial", "by", "dial", "dia", "60", "value", "0.01 mm", "read_now", "0.5", "on", "20", "room", "40"))
	require.Equal(t, []string{"a.upgrade_1.spacing_check"}, failing(p))
}

// Lines 1 apart are read to half of one, over 58 of travel and 5 more.
func TestQuillScale(t *testing.T) {
	p := built(t, and(tailstockAxis(), "quill_dial", "by", "scale", "line", "1", "read_now", "1"))
	is(t, p, map[string]float64{"a.reads_to": 0.5, "a.upgrade_1.long": 63, "a.upgrade_1.better": 0.5})
	require.Empty(t, failing(p))
	require.InDelta(t, 63, piece(t, p, "1", "quill_scale").Flat.Length.Nominal, 1e-9)
	require.Equal(t, []string{"a.upgrade_1.line_check"}, failing(built(t, and(tailstockAxis(), "quill_dial", "by", "scale", "line", "0.5", "read_now", "1"))))
	// More travel of the quill asks for a longer scale: 58 + 8 + 5, where the keyway is cut for it.
	m := and(tailstockAxis(), "quill_dial", "by", "scale", "line", "1", "read_now", "1")
	p = built(t, and(m, "extend_travel", "end", "plus", "amount", "2"))
	travel, _ := p.Result.Figure("a.travel", sheet.Planned)
	is(t, p, map[string]float64{"a.upgrade_1.long": travel.Value + 5})
}

// Nothing was said of what is read now: no verdict. Two of them: both named.
func TestQuillDialUnmeasured(t *testing.T) {
	p := built(t, and(tailstockAxis(), "quill_dial", "by", "scale", "line", "1"))
	c := verdict(t, p, "a.upgrade_1.better_check")
	require.Equal(t, sheet.Unmeasured, c.Verdict)
	require.Equal(t, "a.reading.now", c.Missing[0].Key)
	require.NotEmpty(t, built(t, and(and(tailstockAxis(), "quill_dial", "by", "scale", "line", "1"), "quill_dial", "by", "scale", "line", "2")).Result.Conflicts())
	require.Contains(t, answer(built(t, and(tailstockAxis(), "quill_dial")), "1"), "Say how large the dial should be")
}
