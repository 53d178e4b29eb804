package upgrade_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/upgrade"
)

func found(query string) []string {
	var keys []string
	for _, k := range upgrade.Find(query) {
		keys = append(keys, k.About().Key)
	}
	return keys
}

// What an owner would type, in either language: what is looked for stands first, or
// among the first few where several could be meant.
func TestFind(t *testing.T) {
	for query, want := range map[string][]string{
		"gib": {"gib_strip"}, "jib": {"gib_strip"}, "new nut": {"new_nut"}, "feed nut": {"new_nut"}, "leadscrew nut": {"new_screw", "new_nut"},
		"riser block": {"riser", "head_riser"}, "raising block": {"riser"}, "needle thrust": {"thrust_set"}, "spindle bearings": {"spindle_bearings"},
		"SCRAPING": {"scraping"}, "scrap": {"scraping"}, "bed twist": {"levelling"}, "leveling": {"levelling"}, "levelling": {"levelling"}, "two collar test": {"levelling"},
		"e-stop": {"guards"}, "emergency stop": {"guards"}, "chuck guard": {"guards"}, "interlock": {"guards"},
		"toolpost": {"larger_toolpost"}, "tool post": {"larger_toolpost"}, "quick change": {"larger_toolpost"},
		"backplate": {"back_plates"}, "back plate": {"back_plates"}, "chuck adapter": {"back_plates"}, "steady rest": {"back_plates"}, "follow rest": {"back_plates"},
		"drawbar": {"drawbar"}, "draw bar": {"drawbar"}, "collet closer": {"drawbar"}, "collét": {"drawbar"},
		"cam lock": {"cam_lock"}, "camlock": {"cam_lock"}, "center height": {"tailstock_height"}, "centre height": {"tailstock_height"}, "setover": {"tailstock_height"},
		"carriage dial": {"carriage_dial"}, "saddle dial": {"carriage_dial"}, "bellows": {"screw_covers"}, "gaiter": {"screw_covers"},
		"shaper": {"shaper_feed"}, "clapper box": {"shaper_feed"}, "shear pin": {"feed_trip"}, "variable speed": {"speed_belts"}, "v-belt": {"speed_belts"}, "vfd": {"speed_belts"},
		"round column": {"column_key", "long_column"}, "mill-drill": {"column_key"}, "nod": {"column_brace"}, "elevating screw": {"knee_clearance"},
		"chip tray": {"trays_guards"}, "swarf tray": {"trays_guards"}, "t-slot": {"table_repair"}, "sub-table": {"auxiliary_table"}, "tooling plate": {"auxiliary_table"},
		"dial indicator": {"gauge_holder"}, "clock gauge": {"gauge_holder"}, "way lining": {"way_liner"}, "stick-slip": {"way_liner"}, "keep plates": {"hold_downs"},
		"carriage stop": {"stops"}, "depth stop": {"stops"}, "surface grinder": {"small_grinder"}, "quill key": {"quill_key"}, "barrel key": {"quill_key"},
		"outboard support": {"screw_tail"}, "end for end": {"screw_turned"}, "only one lathe": {"own_machine"}, "pillar": {"long_column", "column_brace"},
	} {
		keys := found(query)
		require.NotEmpty(t, keys, query)
		require.Contains(t, want, keys[0], "%s finds %v", query, keys[:min(5, len(keys))])
	}
}

// Words that are not in the kind's own text: by the glossary, and by what it cures.
func TestFindByOtherWords(t *testing.T) {
	for query, among := range map[string]string{
		"slop": "new_nut", "backlash": "new_nut", "endplay": "thrust_set", "compound": "larger_toolpost", "chips": "trays_guards", "chatter": "gib_strip",
		"the handle turns before the slide moves": "new_nut", "daylight": "riser", "topslide": "plinth", "crossslide": "extend_travel", "cross-feed": "extend_travel", "halfnut": "new_nut", "qctp": "larger_toolpost", "grease": "oil_ways", "rigid": "plinth", "lapping": "scraping", "bushing": "screw_tail", "wobble": "spindle_bearings",
	} {
		require.Contains(t, found(query), among, query)
	}
}

// All of the words count where some kind has them all, most of them else; nothing
// typed finds all; nonsense finds nothing.
func TestFindAllOrMost(t *testing.T) {
	for _, key := range found("tailstock lock") {
		require.Contains(t, []string{"cam_lock", "tailstock_height", "quill_key", "quill_travel", "slide_lock"}, key)
	}
	require.Contains(t, found("drawbar xyzzy"), "drawbar")
	require.Empty(t, found("xyzzy"))
	require.Len(t, found(""), len(upgrade.Kinds))
	require.Len(t, found(" the my "), len(upgrade.Kinds))
}

// Every kind is found first, or level with the first, by its own label, and by any
// of its own words.
func TestEveryKindIsFound(t *testing.T) {
	for _, k := range upgrade.Kinds {
		a := k.About()
		for _, said := range append([]string{a.Label}, a.Words...) {
			keys := found(said)
			at := slices.Index(keys, a.Key)
			require.True(t, at >= 0 && at < 8, "%q is found at %d of %v", said, at, keys)
		}
		require.Equal(t, a.Key, found(a.Label)[0], a.Label)
	}
}

// A term is listed once, and none of its other names is another term's own.
func TestGlossary(t *testing.T) {
	say := map[string]bool{}
	for _, term := range upgrade.Glossary {
		require.False(t, say[term.Say], term.Say)
		require.NotEmpty(t, term.Means, term.Say)
		say[term.Say] = true
	}
	for _, term := range upgrade.Glossary {
		for _, also := range term.Also {
			require.False(t, say[also], "%s is another name of %s", also, term.Say)
		}
	}
}

func BenchmarkFind(b *testing.B) {
	upgrade.Find("gib") // the documents are read once
	b.ReportAllocs()
	for b.Loop() {
		upgrade.Find("cross slide backlash")
	}
}
