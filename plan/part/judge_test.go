package part_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/plan/part"
)

func TestJudge(t *testing.T) {
	// ISO 286-2: 19 H7 is 19.000 to 19.021, 14 h6 is 13.989 to 14.000.
	seat := part.Size{Nominal: 19, Upper: 0.021, Grows: true}
	shaft := part.Size{Nominal: 14, Lower: -0.011}
	for _, tc := range []struct {
		what      string
		size      part.Size
		made, off float64
		want      part.Judged
	}{
		{"seat in the middle", seat, 19.01, 0.005, part.Judged{Verdict: part.Within, Sure: true}},
		{"seat at its limit", seat, 19.021, 0, part.Judged{Verdict: part.Within, Sure: true}},
		{"seat at its limit, as far as can be measured", seat, 19.018, 0.01, part.Judged{Verdict: part.Within}},
		{"seat too small: bore on", seat, 18.98, 0.01, part.Judged{Verdict: part.Under, By: 0.02, Rework: true, Sure: true}},
		{"seat too large: scrap, or a sleeve", seat, 19.05, 0.01, part.Judged{Verdict: part.Over, By: 0.029, Sure: true}},
		{"shaft too large: turn on", shaft, 14.1, 0.05, part.Judged{Verdict: part.Over, By: 0.1, Rework: true, Sure: true}},
		{"shaft too small", shaft, 13.98, 0.01, part.Judged{Verdict: part.Under, By: 0.009}},
		{"still open", part.Size{Nominal: 10, Upper: 0.1, Awaits: "x"}, 10, 0, part.Judged{}},
		{"no limits", part.Size{Nominal: 10}, 11, 0, part.Judged{}},
	} {
		got := tc.size.Judge(tc.made, tc.off)
		require.InDelta(t, tc.want.By, got.By, 1e-9, tc.what)
		got.By = tc.want.By
		require.Equal(t, tc.want, got, tc.what)
	}
}

// Every size is found, whatever it belongs to, and each name once.
func TestSizes(t *testing.T) {
	n := 0
	size := func(name string) part.Size { n++; return part.Size{Name: name} }
	p := part.Part{
		Round: &part.Round{
			Length:  size("length"),
			Outside: []part.Step{{Length: size("body"), Dia: size("outside")}},
			Left:    []part.Step{{Length: size(""), Dia: size("bore")}},
			Right:   []part.Step{{Length: size("depth"), Dia: size("seat")}},
			Grooves: []part.Groove{{At: size(""), Width: size("groove"), Dia: size("")}},
			Cross:   []part.CrossHole{{At: size(""), Dia: size("pin")}},
			Flats:   []part.FlatOn{{At: size(""), Length: size(""), Across: size("flats")}},
			Flange:  &part.Flange{Width: size(""), Height: size(""), Corner: size(""), Holes: []part.FlangeHole{{X: size("x"), Y: size("x"), Dia: size("")}}},
		},
		Flat: &part.Flat{Length: size("long"), Width: size(""), Thickness: size(""),
			Features: []part.Feature{{X: size(""), Y: size(""), Length: size(""), Width: size(""), Dia: size(""), Depth: size(""), Left: size("left")}}},
		Dial: &part.Dial{Dia: size("outside"), Width: size("")},
	}
	require.Len(t, p.Sizes(), n)
	var names []string
	for _, s := range p.Measured() {
		names = append(names, s.Name)
	}
	require.Equal(t, []string{"length", "body", "outside", "bore", "depth", "seat", "groove", "pin", "flats", "x", "long", "left"}, names)
	p.Measured()[0].Nominal = 5 // the same size, not a copy
	require.Equal(t, 5.0, p.Round.Length.Nominal)
}
