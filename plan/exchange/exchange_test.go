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
	"fettle/plan/buildlog"
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

// wholeFile is what testdata/whole.json says: something in every field.
func wholeFile() exchange.File {
	return exchange.File{Log: []buildlog.Entry{
		{Key: "first_Entry-1", At: "2026-02-27T18:30", Text: "Bored the *bracket*.\n\n- 36.58", Hours: "1:30", Cost: "6,50", Currency: "eur",
			Axis: "cross", Upgrade: "2", Part: "bracket", Photos: []buildlog.Photo{
				{SHA256: strings.Repeat("ab", 32), Caption: "as it was", Role: buildlog.Before, Type: "image/jpeg", Width: 3000, Height: 4000,
					Taken: "2026-02-27T17:00:05", Place: "51.4779,-0.0015"},
				{SHA256: strings.Repeat("cd", 32), Type: "image/heic", Width: 4032, Height: 3024},
			}},
		{Key: "2", At: "2026-02-28T09:00"},
	}, Machine: machine.Machine{
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
	}}
}

func TestReadWhole(t *testing.T) {
	m, err := exchange.Read(bytes.NewReader(whole(t)))
	require.NoError(t, err)
	require.Equal(t, wholeFile(), m)
}

func TestWriteWhole(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, exchange.WriteWithPlaces(&out, wholeFile()))
	require.Equal(t, string(whole(t)), out.String())
}

func TestPlacesAreLeftOutUnlessAskedFor(t *testing.T) {
	file := wholeFile()
	var out bytes.Buffer
	require.NoError(t, exchange.Write(&out, file))
	require.NotContains(t, out.String(), "place")
	require.NotContains(t, out.String(), "51.4779")
	require.Equal(t, wholeFile(), file, "what was given is left as it was")
	got, err := exchange.Read(&out)
	require.NoError(t, err)
	file.Log[0].Photos[0].Place = ""
	require.Equal(t, file, got)
}

// The mass of what moves was two figures once: slide_mass is read as moving_mass, unless
// that was typed as well.
func TestKeysOfBeforeAreRead(t *testing.T) {
	for _, tc := range []struct{ other, want string }{
		{``, "34"},
		{`, "moving_mass": {"typed": "12", "origin": "assumed"}`, "34"},
		{`, "moving_mass": {"typed": "12"}`, "12"},
	} {
		f, err := exchange.Read(strings.NewReader(`{"format": "fettle machine", "version": 1, "machine": {"name": "Mill", "kind": "mill", "units": "mm",
			"axes": [{"key": "x", "label": "Table", "arrangement": "travelling_screw", "entries": {"slide_mass": {"typed": "34"}` + tc.other + `}}]}}`))
		require.NoError(t, err)
		entries := f.Machine.Axes[0].Entries
		require.Equal(t, tc.want, entries["moving_mass"].Typed)
		require.Equal(t, tc.want == "12", entries["slide_mass"].Given(), "nothing that was typed is lost")
	}
}

func TestByteOrderMarkIsPassedOver(t *testing.T) {
	m, err := exchange.Read(strings.NewReader("\uFEFF" + string(whole(t))))
	require.NoError(t, err)
	require.Equal(t, wholeFile(), m)
}

func TestNothingIsLost(t *testing.T) {
	schema := compiled(t)
	for seed := range uint64(500) {
		m := random{rand.New(rand.NewPCG(seed, 0))}.file()
		var out bytes.Buffer
		require.NoError(t, exchange.WriteWithPlaces(&out, m), "seed %d", seed)
		got, err := exchange.Read(bytes.NewReader(out.Bytes()))
		require.NoError(t, err)
		require.Equal(t, m, got, "seed %d", seed)
		require.NoError(t, schema.Validate(parsed(t, out.Bytes())), "seed %d", seed)
	}
}

// What no file may hold is not written: not even a beginning of it.
func TestWriteRefusesWhatCouldNotBeRead(t *testing.T) {
	for say, spoil := range map[string]func(m *exchange.File){
		`machine.axes[0].parts[1].key: "bracket" is the key of another one`: func(m *exchange.File) { m.Axes[0].Parts[1].Key = "bracket" },
		`machine.axes[0].key: give a key`:                                   func(m *exchange.File) { m.Axes[0].Key = "range" },
		`machine.upgrades[1].id: give a whole number`:                       func(m *exchange.File) { m.Upgrades[1].ID = "" },
		`machine.upgrades[0].axis: no axis`:                                 func(m *exchange.File) { m.Axes = nil },
		`machine.log[0].upgrade: no upgrade of this machine has the id "2"`: func(m *exchange.File) { m.Upgrades = m.Upgrades[1:] },
		`machine.log[1].key: "2" is the key of another one`:                 func(m *exchange.File) { m.Log[0].Key = "2" },
		`machine.log[0].at: give a day and a time as "2026-02-28T14:30"`:    func(m *exchange.File) { m.Log[0].At = "2026-02-30T12:00" },
		`the file is larger than the 16 MiB`:                                func(m *exchange.File) { m.Note = strings.Repeat("x", exchange.MostBytes) },
	} {
		m := wholeFile()
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
		require.NoError(t, exchange.WriteWithPlaces(&out, m))
		again, err := exchange.Read(&out)
		require.NoError(t, err)
		require.Equal(t, m, again)
	})
}
