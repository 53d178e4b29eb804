package drawing

import (
	"math"
	"slices"
	"strings"

	"fettle/plan/unit"
)

// Profile is a thread in section. Lengths are in mm; Flank is half of the angle
// between flanks, in rad.
type Profile struct {
	Name                  string
	Pitch, Flank          float64
	Major, PitchDia, Root float64 // of the screw
	NutMajor, Bore        float64 // of the nut
	Wire                  float64 // diameter of the wires laid into it; 0 for none
	OverWires             float64
}

// threadOf draws the profile where a thread's sizes are among the figures.
func threadOf(b benchFigures) (*Drawing, string) {
	if !b.has("pitch", "flank", "dia", "pitch_dia", "root", "nut_major", "bore") || b.value("pitch") <= 0 {
		return nil, ""
	}
	p := Profile{
		Name: b.Typed["thread"], Pitch: b.value("pitch"), Flank: b.value("flank"),
		Major: b.value("dia"), PitchDia: b.value("pitch_dia"), Root: b.value("root"),
		NutMajor: b.value("nut_major"), Bore: b.value("bore"),
	}
	if b.has("wire_dia", "over_wires") {
		p.Wire, p.OverWires = b.value("wire_dia"), b.value("over_wires")
	}
	if !(p.Root > 0) || !(p.Major > p.Root) {
		return nil, ""
	}
	return ThreadProfile(p), "To scale, in section through the axis. Roundings of crests and roots are not drawn."
}

// ThreadProfile draws two turns of a thread, the nut above and the screw below,
// and names its diameters.
func ThreadProfile(p Profile) *Drawing {
	const (
		left, right = 8.0, 248.0
		names       = 262.0
		turns       = 2
		top         = 34.0
		body        = 26.0 // of metal beyond the thread
	)
	d := benchDrawing("Profile of " + p.Name)
	scale := (right - left) / (turns * p.Pitch)
	crown := p.NutMajor
	if p.Wire > 0 {
		crown = max(crown, p.OverWires)
	}
	highest := top + body
	if p.Wire > 0 {
		highest = top + 6
	}
	y := func(dia float64) float64 { return highest + (crown-dia)/2*scale }
	end := y(p.Root) + body
	d.Height = end + 10
	var g Shapes
	// Half of a tooth's width at a diameter: half of the pitch lies on the pitch line.
	half := func(dia float64) float64 {
		return min(max(p.Pitch/4-(dia-p.PitchDia)/2*math.Tan(p.Flank), 0), p.Pitch/2)
	}
	// The line of the flanks from the left, between an inner and an outer diameter.
	flanks := func(inner, outer float64) []Point {
		points := []Point{{left, y(inner)}}
		for n := range turns {
			at := (float64(n) + 0.5) * p.Pitch
			for _, q := range [...]struct{ x, dia float64 }{{at - half(inner), inner}, {at - half(outer), outer}, {at + half(outer), outer}, {at + half(inner), inner}} {
				points = append(points, Point{left + q.x*scale, y(q.dia)})
			}
		}
		return append(points, Point{right, y(inner)})
	}
	screw, nut := flanks(p.Root, p.Major), flanks(p.Bore, p.NutMajor)
	cutPart(&g, append(slices.Clone(screw), Point{right, end}, Point{left, end}), rising, 8)
	if p.Wire > 0 {
		for n := range turns - 1 {
			g.add(Circle{"fill-new", left + float64(n+1)*p.Pitch*scale, y(p.OverWires - p.Wire), p.Wire / 2 * scale})
		}
	} else {
		roof := y(p.NutMajor) - body
		cutPart(&g, append(slices.Clone(nut), Point{right, roof}, Point{left, roof}), falling, 8)
		g.add(Path{Class: "ln-visible", Loops: [][]Point{nut}, Open: true})
	}
	g.add(Path{Class: "ln-visible", Loops: [][]Point{screw}, Open: true})
	g.line("ln-centre", left, y(p.PitchDia), names-8, y(p.PitchDia))
	crest := left + p.Pitch/2*scale
	row := top - 14
	g.line("dim", crest, y(p.Major)-3, crest, row-4)
	g.line("dim", crest+p.Pitch*scale, y(p.Major)-3, crest+p.Pitch*scale, row-4)
	measured(&g, Point{crest, row}, Point{crest + p.Pitch*scale, row})
	g.add(dimText((left+right)/2, row-4, "P "+unit.MM.Text(p.Pitch, 4)))
	if p.Flank > 0 && p.Wire == 0 {
		g.add(benchText(crest, y(p.PitchDia)+1.3*benchType, Middle, unit.Degree.With(2*p.Flank)))
	}
	p.diameters(&g, y, right, names)
	d.Shapes = g
	d.Desc = p.describe()
	return d
}

func dimText(x, y float64, text string) Text {
	t := benchText(x, y, Middle, text)
	t.Class = "part-label dim-text"
	return t
}

// sizes are the diameters by the symbols of the standards, those that are the same together, the
// largest first.
func (p Profile) sizes() (names []string, dias []float64) {
	all := []struct {
		name string
		dia  float64
	}{{"d", p.Major}, {"d₂", p.PitchDia}, {"d₃", p.Root}}
	if p.Wire > 0 {
		all = append(all, struct {
			name string
			dia  float64
		}{"M", p.OverWires})
	} else {
		all = append(all, struct {
			name string
			dia  float64
		}{"D₄", p.NutMajor}, struct {
			name string
			dia  float64
		}{"D₁", p.Bore})
	}
	for _, s := range all {
		same := slices.IndexFunc(dias, func(dia float64) bool { return math.Abs(dia-s.dia) < 5e-4 })
		if same >= 0 {
			names[same] += ", " + s.name
			continue
		}
		at := 0
		for at < len(dias) && dias[at] > s.dia {
			at++
		}
		names, dias = slices.Insert(names, at, s.name), slices.Insert(dias, at, s.dia)
	}
	return names, dias
}

// diameters names each at the right, with a line from its height.
func (p Profile) diameters(g *Shapes, y func(dia float64) float64, from, to float64) {
	names, dias := p.sizes()
	wish := make([]float64, len(dias))
	for i, dia := range dias {
		wish[i] = y(dia)
	}
	at := spread(wish, benchRow, benchType, math.Inf(1))
	for i, dia := range dias {
		g.add(Path{Class: "dim", Open: true, Loops: [][]Point{{{from, y(dia)}, {from + 4, y(dia)}, {to - 4, at[i]}}}})
		g.add(benchText(to, at[i]+0.35*benchType, Start, names[i]+" "+unit.MM.Text(dia, 3)))
	}
}

func (p Profile) describe() string {
	names, dias := p.sizes()
	say := make([]string, len(dias))
	for i, dia := range dias {
		say[i] = names[i] + " " + unit.MM.Text(dia, 3)
	}
	s := "The screw below, the nut above. "
	if p.Wire > 0 {
		s = "The screw with a wire of " + unit.MM.Text(p.Wire, 3) + " mm in its thread. "
	}
	s += "Pitch " + unit.MM.Text(p.Pitch, 4) + " mm"
	if p.Flank > 0 {
		s += ", flanks " + unit.Degree.With(2*p.Flank) + " apart"
	}
	return s + ". Diameters in mm: " + strings.Join(say, "; ") + "."
}
