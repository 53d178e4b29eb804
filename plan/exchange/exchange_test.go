package exchange_test

import (
	"bytes"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/exchange"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

func whole(t testing.TB) []byte {
	t.Helper()
	file, err := os.ReadFile("testdata/whole.json")
	require.NoError(t, err)
	return file
}

// wholeMachine is what testdata/whole.json says: something in every field.
func wholeMachine() machine.Machine {
	return machine.Machine{
		Name: "Bench lathe", Kind: "lathe", Units: "in", Note: "Großvater's <best> & only,\n\"as found\"",
		Axes: []axis.Axis{{
			Key: "cross", Label: "Cross slide", Arrangement: "held_screw", Capacity: "lathe_cross_slide",
			Datum: "the saddle's rear face", Plus: "outward", Minus: "inward",
			Entries: map[string]plan.Entry{
				"travel_found":  {Typed: `3-7/16"`, Spread: "5 thou", With: "caliper", On: "2026-02-28", Origin: sheet.Measured, Note: "twice"},
				"hand_torque":   {},
				"overhang_most": {Typed: "0.4", Origin: sheet.Chosen, Note: "light cuts only"},
			},
			Answers: map[string]string{"carried": "no", "marked": ""},
			Parts: []axis.Part{
				{Key: "bracket", Label: "bracket", Role: "bracket", Side: axis.Fixed, Material: "aluminium",
					Entries: map[string]plan.Entry{"from": {Typed: "141 mm"}, "to": {Typed: "167 mm", Origin: sheet.AsMade}}},
				{Key: "dial", Label: "dial", Role: "dial", Side: axis.Fixed, Tie: &axis.Tie{Part: "bracket", Face: "to"},
					Lanes: []string{"screw", "hand"}, Entries: map[string]plan.Entry{}},
				{Key: "nut", Label: "nut", Role: "nut", Side: axis.Moving, Lanes: []string{}, Entries: map[string]plan.Entry{}},
			},
			Obstacles: []axis.Obstacle{
				{Key: "tray", Label: "splash tray", End: axis.Plus, Gap: plan.Entry{Typed: `3/4"`}},
				{Key: "rear_guard", Label: "rear guard", End: axis.Minus, Clear: true},
			},
		}},
		Upgrades: []upgrade.Upgrade{
			{ID: "2", Kind: "extend_travel", Axis: "cross", State: upgrade.Finished, On: "2026-02-27",
				Inputs: map[string]string{"amount": `1/2"`, "end": "plus", "pocket.front_wall": "28 mm"},
				Made:   map[string]plan.Entry{"bracket.length": {Typed: "36.58 mm", With: "micrometer", On: "2026-02-20"}, "extension.lap": {Typed: "14 mm"}}},
			{ID: "1", Kind: "extend_travel", State: upgrade.Draft, Inputs: map[string]string{}},
		},
	}
}

func TestReadWhole(t *testing.T) {
	m, err := exchange.Read(bytes.NewReader(whole(t)))
	require.NoError(t, err)
	require.Equal(t, wholeMachine(), m)
}

func TestWriteWhole(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, exchange.Write(&out, wholeMachine()))
	require.Equal(t, string(whole(t)), out.String())
}

func TestByteOrderMarkIsPassedOver(t *testing.T) {
	m, err := exchange.Read(strings.NewReader("\uFEFF" + string(whole(t))))
	require.NoError(t, err)
	require.Equal(t, wholeMachine(), m)
}

func TestNothingIsLost(t *testing.T) {
	schema := compiled(t)
	for seed := range uint64(500) {
		m := random{rand.New(rand.NewPCG(seed, 0))}.machine()
		var out bytes.Buffer
		require.NoError(t, exchange.Write(&out, m), "seed %d", seed)
		got, err := exchange.Read(bytes.NewReader(out.Bytes()))
		require.NoError(t, err)
		require.Equal(t, m, got, "seed %d", seed)
		require.NoError(t, schema.Validate(parsed(t, out.Bytes())), "seed %d", seed)
	}
}

// What no file may hold is not written: not even a beginning of it.
func TestWriteRefusesWhatCouldNotBeRead(t *testing.T) {
	for say, spoil := range map[string]func(m *machine.Machine){
		`machine.axes[0].parts[1].key: "bracket" is the key of another one`: func(m *machine.Machine) { m.Axes[0].Parts[1].Key = "bracket" },
		`machine.axes[0].key: give a key`:                                   func(m *machine.Machine) { m.Axes[0].Key = "range" },
		`machine.upgrades[1].id: give a whole number`:                       func(m *machine.Machine) { m.Upgrades[1].ID = "" },
		`machine.upgrades[0].axis: no axis`:                                 func(m *machine.Machine) { m.Axes = nil },
		`the file is larger than the 16 MiB`:                                func(m *machine.Machine) { m.Note = strings.Repeat("x", exchange.MostBytes) },
	} {
		m := wholeMachine()
		spoil(&m)
		var out bytes.Buffer
		require.ErrorContains(t, exchange.Write(&out, m), say)
		require.Zero(t, out.Len())
	}
}

func TestFileThatIsTooLarge(t *testing.T) {
	blank := strings.Repeat(" ", exchange.MostBytes-len(whole(t)))
	_, err := exchange.Read(strings.NewReader(string(whole(t)) + blank))
	require.NoError(t, err)
	_, err = exchange.Read(strings.NewReader(string(whole(t)) + blank + " "))
	require.ErrorIs(t, err, exchange.ErrTooLarge)
}

func TestNewerVersionIsRefused(t *testing.T) {
	file := strings.Replace(string(whole(t)), `"version": 1,`, `"version": 3, "of_tomorrow": [],`, 1)
	_, err := exchange.Read(strings.NewReader(file))
	var newer *exchange.NewerError
	require.ErrorAs(t, err, &newer)
	require.Equal(t, exchange.NewerError{Found: 3, Known: 1}, *newer)
	require.EqualError(t, err, "a newer Fettle has written this file, in version 3 of the format; this one reads version 1 at most")
}

// A few levels are enough for a machine; a file of a million is no reason to run out of stack.
func TestDeepFile(t *testing.T) {
	for _, file := range []string{strings.Repeat("[", 1<<20), strings.Repeat(`{"a":`, 1<<20)} {
		_, err := exchange.Read(strings.NewReader(file))
		require.ErrorContains(t, err, "nested too deeply")
	}
}

func FuzzRead(f *testing.F) {
	f.Add(whole(f))
	f.Add([]byte(`{"format":"fettle machine","version":1,"machine":{"name":"x","kind":"","units":"mm"}}`))
	f.Add([]byte(`{"format":"fettle machine","version":1,"machine":{"name":"\ud800","kind":"","units":"in","axes":[{"key":"a","label":"","arrangement":"","entries":{"a.b":{},"c":""}}]}}`))
	f.Add([]byte(`[1, 2e9, {"a" : "b"}, tru`))
	schema := compiled(f)
	f.Fuzz(func(t *testing.T, file []byte) {
		m, err := exchange.Read(bytes.NewReader(file))
		if err != nil {
			return
		}
		require.NoError(t, schema.Validate(parsed(t, bytes.TrimPrefix(file, []byte("\uFEFF")))), "the schema takes what is read")
		var out bytes.Buffer
		require.NoError(t, exchange.Write(&out, m))
		again, err := exchange.Read(&out)
		require.NoError(t, err)
		require.Equal(t, m, again)
	})
}
