package store_test

import (
	"fmt"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
	"fettle/store"
)

// large is a machine of 4 axes with 12 parts each, and 12 upgrades.
func large() machine.Machine {
	m := machine.Machine{Name: "Lathe", Kind: "lathe", Units: "mm"}
	for a := range 4 {
		x := axis.Axis{Key: fmt.Sprintf("axis_%d", a), Entries: map[string]plan.Entry{"travel_found": {Typed: "88"}}}
		for p := range 12 {
			x.Parts = append(x.Parts, axis.Part{Key: fmt.Sprintf("part_%d", p), Side: axis.Fixed, Entries: map[string]plan.Entry{
				"from": {Typed: "118"}, "to": {Typed: "141", With: "caliper"}, "dia": {Typed: "30"}, "bore": {Typed: "10"}}})
		}
		m.Axes = append(m.Axes, x)
	}
	for u := range 12 {
		m.Upgrades = append(m.Upgrades, upgrade.Upgrade{ID: strconv.Itoa(u + 1), Axis: "axis_0", State: upgrade.Planned,
			Inputs: map[string]string{"amount": "12", "end": "plus", "joint": "brazed", "sleeve": "14", "lap": "14"}})
	}
	return m
}

func benched(b *testing.B) (*store.Store, int64) {
	s, err := store.Open(b.Context(), b.TempDir(), atNoon)
	require.NoError(b, err)
	b.Cleanup(func() { require.NoError(b, s.Close()) })
	id, err := s.AddMachine(b.Context(), large())
	require.NoError(b, err)
	b.ReportAllocs()
	return s, id
}

func BenchmarkMachine(b *testing.B) {
	s, id := benched(b)
	for b.Loop() {
		if _, err := s.Machine(b.Context(), id); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSaveUpgrade(b *testing.B) {
	s, id := benched(b)
	u, revision := large().Upgrades[11], int64(1)
	for b.Loop() {
		var err error
		if _, revision, err = s.SaveUpgrade(b.Context(), id, revision, u); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSaveAxis(b *testing.B) {
	s, id := benched(b)
	a, revision := large().Axes[0], int64(1)
	for b.Loop() {
		var err error
		if revision, err = s.SaveAxis(b.Context(), id, revision, a); err != nil {
			b.Fatal(err)
		}
	}
}
