package drawing

import (
	"math"

	seats "fettle/plan/fit"
	"fettle/plan/unit"
)

// Zone is where a size may lie: its deviations from nominal, in mm.
type Zone struct {
	Name         string // "hole H7"
	Upper, Lower float64
}

// clearances say what of two zones is left between them, in mm; below 0 it is interference.
func clearances(hole, shaft Zone) (most, least float64) {
	return hole.Upper - shaft.Lower, hole.Lower - shaft.Upper
}

// fitOf draws the zones of a hole and a shaft, or of a seat and the ring on it.
func fitOf(b benchFigures) (*Drawing, string) {
	zone := func(key, name string) Zone {
		return Zone{name, b.value(key + ".upper"), b.value(key + ".lower")}
	}
	var hole, shaft Zone
	switch {
	case b.has("hole.upper", "hole.lower", "shaft.upper", "shaft.lower"):
		hole, shaft = zone("hole", withClass("hole", b.Typed["hole"])), zone("shaft", withClass("shaft", b.Typed["shaft"]))
	case b.has("seat.upper", "seat.lower", "ring_size.upper", "ring_size.lower"):
		if hole, shaft = zone("seat", "seat"), zone("ring_size", "ring"); seats.Ring(b.Typed["ring"]).OnShaft() {
			hole, shaft = shaft, hole
		}
	default:
		return nil, ""
	}
	return FitZones(hole, shaft, b.value("size")), "Heights to scale, in micrometres from the nominal size."
}

func withClass(what, class string) string {
	if class == "" {
		return what
	}
	return what + " " + class
}

// FitZones draws two zones about the zero line of a nominal size in mm: heights
// to scale, in micrometres, and the greatest and least clearance beside them.
func FitZones(hole, shaft Zone, size float64) *Drawing {
	const (
		top, high  = 26.0, 210.0
		axis       = 46.0
		holeFrom   = 104.0
		zoneWide   = 62.0
		shaftFrom  = holeFrom + zoneWide + 12
		mostAt     = 280.0
		leastAt    = 319.0
		foot       = top + high
		underFirst = foot + 20
	)
	d := benchDrawing("Zones of " + hole.Name + " and " + shaft.Name)
	d.Height = underFirst + benchRow + 6
	um := func(mm float64) string { return unit.Micrometre.Text(mm, 1) }
	hi, lo := max(hole.Upper, shaft.Upper, 0), min(hole.Lower, shaft.Lower, 0)
	if hi-lo < 1e-6 {
		hi, lo = 0.001, -0.001
	}
	y := func(mm float64) float64 { return top + (hi-mm)/(hi-lo)*high }
	var g Shapes
	ticks(&g, axis, lo, hi, y)
	g.line("ln-thin", axis, y(0), benchWide-6, y(0))
	draw := func(z Zone, from float64, way int) {
		box := []Point{{from, y(z.Upper)}, {from + zoneWide, y(z.Upper)}, {from + zoneWide, y(z.Lower)}, {from, y(z.Lower)}}
		cutPart(&g, box, way, 7)
		g.add(Path{Class: "ln-visible", Loops: [][]Point{box}})
		g.add(benchText(from+zoneWide/2, underFirst, Middle, z.Name))
	}
	draw(hole, holeFrom, rising)
	draw(shaft, shaftFrom, falling)
	ends := func(z Zone, x float64, anchor Anchor) {
		at := spread([]float64{y(z.Upper), y(z.Lower)}, benchRow, top, foot)
		g.add(benchText(x, at[0]+0.35*benchType, anchor, signed(um(z.Upper))), benchText(x, at[1]+0.35*benchType, anchor, signed(um(z.Lower))))
	}
	most, least := clearances(hole, shaft)
	for _, c := range []struct {
		at, from, to, is float64
		word             string
	}{{mostAt, hole.Upper, shaft.Lower, most, "most"}, {leastAt, hole.Lower, shaft.Upper, least, "least"}} {
		g.line("dim", holeFrom+zoneWide, y(c.from), c.at+4, y(c.from))
		g.line("dim", shaftFrom+zoneWide, y(c.to), c.at+4, y(c.to))
		measured(&g, Point{c.at, y(c.from)}, Point{c.at, y(c.to)})
		middle := (y(c.from) + y(c.to)) / 2
		if math.Abs(middle-y(0)) < benchRow/2 {
			middle = y(0) - 0.7*benchRow // clear of the zero line
		}
		text := benchText(c.at+4, middle+0.35*benchType, Start, um(c.is))
		text.Class = "part-label dim-text"
		g.add(text, benchText(c.at, underFirst, Middle, c.word))
	}
	ends(hole, holeFrom-5, End)
	ends(shaft, shaftFrom+zoneWide+5, Start)
	g.add(benchText((mostAt+leastAt)/2, underFirst+benchRow, Middle, "clearance"),
		benchText(axis, 12, Middle, "µm"))
	if shown(size) && size > 0 {
		g.add(benchText(holeFrom+zoneWide, underFirst+benchRow, Middle, "zero line: ⌀ "+unit.MM.With(size)))
	}
	d.Shapes = g
	d.Desc = describeFit(hole, shaft)
	return d
}

func signed(text string) string {
	if text == "0" || text[0] == 0xe2 { // a minus
		return text
	}
	return "+" + text
}

func describeFit(hole, shaft Zone) string {
	um := unit.Micrometre.With
	say := func(z Zone) string {
		return "The zone of the " + z.Name + " lies from " + um(z.Lower) + " to " + um(z.Upper) + " of the zero line. "
	}
	most, least := clearances(hole, shaft)
	s := say(hole) + say(shaft)
	switch {
	case least >= 0:
		return s + "Between them is a clearance of " + um(least) + " to " + um(most) + "."
	case most <= 0:
		return s + "They overlap: an interference of " + um(-most) + " to " + um(-least) + "."
	}
	return s + "They overlap in part: from an interference of " + um(-least) + " to a clearance of " + um(most) + "."
}

// ticks draws a scale in micrometres beside the zones.
func ticks(g *Shapes, x, lo, hi float64, y func(mm float64) float64) {
	step := roundStep((hi - lo) / 6)
	g.line("ln-thin", x, y(lo), x, y(hi))
	for n := math.Ceil(lo/step - 1e-9); n*step <= hi+1e-9; n++ {
		at := y(n * step)
		g.line("ln-thin", x-4, at, x, at)
		g.add(benchText(x-7, at+0.35*benchType, End, unit.Micrometre.Text(n*step, 1)))
	}
}

// roundStep is the next of 1, 2 and 5 times a power of ten.
func roundStep(least float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(least)))
	for _, n := range []float64{1, 2, 5} {
		if n*power >= least*(1-1e-9) {
			return n * power
		}
	}
	return 10 * power
}
