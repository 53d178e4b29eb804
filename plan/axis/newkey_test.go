package axis_test

import (
	"go/token"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/axis"
)

func TestNewKey(t *testing.T) {
	for _, tc := range []struct {
		label string
		taken []string
		want  string
	}{
		{"Front wall", nil, "front_wall"},
		{"Front wall", []string{"front_wall"}, "front_wall_2"},
		{"Front wall", []string{"front_wall", "front_wall_2"}, "front_wall_3"},
		{"  Dial, 34 dia. ", nil, "dial_34_dia"},
		{"owner’s stop", nil, "owners_stop"},
		{"2nd nut", nil, "no_2nd_nut"},
		{"Type", nil, "type_2"},            // a Go keyword
		{"Range", nil, "range_2"},          // another
		{"max", nil, "max_2"},              // a function of formulas
		{"upgrade 3", nil, "of_upgrade_3"}, // upgrade_3 is the scope of an upgrade
		{"旋盤", nil, "part"},                // no letter of a key in it
		{"", []string{"part"}, "part_2"},
		{"wall nut", []string{"wall", "nut"}, "wall_nut_2"},             // where the two meet
		{"nut on thread", []string{"nut", "thread"}, "nut_on_thread_2"}, // where the two engage
		{"nut", []string{"wall", "wall_nut"}, "nut_2"},                  // would make a pair of wall_nut
		{"a very long name that nobody would ever put on a drawing", nil, "a_very_long_name_that_nobody_would_ever"},
	} {
		require.Equal(t, tc.want, axis.NewKey(tc.label, tc.taken), tc.label)
	}
}

var keyShape = regexp.MustCompile(`^[a-z][a-z0-9_]*$`)

func FuzzNewKey(f *testing.F) {
	for _, seed := range []string{"Front wall", "func", "9", "_", "", "ÄÖ", "upgrade_1", "nul\x00", "\xff\xfe"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, label string) {
		var taken []string
		for range 3 {
			key := axis.NewKey(label, taken)
			require.Regexp(t, keyShape, key)
			require.False(t, token.IsKeyword(key), key)
			require.NotContains(t, taken, key)
			taken = append(taken, key)
		}
	})
}
