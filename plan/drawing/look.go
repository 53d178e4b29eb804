package drawing

// shape is what a part looks like from the side, cut along the screw's axis.
type shape int8

const (
	unseen  shape = iota
	along         // the ways: a bed between slide and screw
	above         // the slide, on the ways
	hanging       // a wall under the ways, through which the screw goes
	tall          // a column that stands higher than the slide
	rod           // a shaft: not cut
	sleeve        // a body around the shaft
	block         // the nut: around the screw, lower down than up
	barrel        // a quill: around the axis, hollow
	housing       // what guides a quill
	ring          // a collar on a quill
	strip         // a rack
	wheel         // a pinion
	slot          // a keyway in a quill
	peg           // a key
	lump          // anything else that is met
)

// look is how a role is drawn.
type look struct {
	shape shape
	hatch int     // plain: not cut
	close float64 // lines of the hatching apart, in mm of paper
	layer int     // drawn in this order
	ghost bool    // what was is shown where it has moved
	dia   float64 // of the screw's own diameter, where it is not known
	at    float64 // mm: where it usually begins, for a picture to measure by
	long  float64 // mm: usual length, for the same
}

// looks: neighbours are hatched in opposite ways; walls are one casting with the
// ways. The usual diameters and lengths are ours, for the picture only.
var looks = map[string]look{
	"ways":          {shape: along, hatch: rising, close: 2.8, long: 140},
	"wall":          {shape: hanging, hatch: rising, close: 2.8, ghost: true, long: 20},
	"base":          {shape: hanging, hatch: rising, close: 2.8, ghost: true, at: 118, long: 20},
	"web":           {shape: hanging, hatch: rising, close: 2.8, ghost: true, at: -14, long: 12},
	"column":        {shape: tall, hatch: falling, close: 3.2, ghost: true, at: -60, long: 30},
	"guide":         {shape: housing, hatch: falling, close: 2.8, long: 90},
	"spline_sleeve": {shape: sleeve, hatch: rising, close: 2, layer: 2, ghost: true, dia: 2, at: -30, long: 30},
	"thread":        {shape: rod, layer: 1, at: 6, long: 130},
	"shank":         {shape: rod, layer: 1, dia: 0.85, at: 140, long: 62},
	"spline":        {shape: rod, layer: 1, ghost: true, at: -60, long: 120},
	"bracket":       {shape: sleeve, hatch: falling, close: 2.4, layer: 2, ghost: true, dia: 2.4, at: 141, long: 26},
	"dial":          {shape: sleeve, hatch: rising, close: 2, layer: 2, ghost: true, dia: 2.9, at: 168, long: 16},
	"handle":        {shape: sleeve, hatch: falling, close: 2, layer: 2, ghost: true, dia: 2.1, at: 184, long: 14},
	"lock_nut":      {shape: sleeve, hatch: rising, close: 1.6, layer: 2, ghost: true, dia: 1.5, at: 198, long: 5},
	"slide":         {shape: above, hatch: falling, close: 2.8, ghost: true, at: -72, long: 150},
	"table":         {shape: above, hatch: falling, close: 2.8, ghost: true, at: -190, long: 400},
	"tail_bearing":  {shape: sleeve, hatch: falling, close: 2.4, layer: 2, ghost: true, dia: 2.4, at: -14, long: 14},
	"nut":           {shape: block, hatch: falling, close: 1.8, layer: 2, ghost: true, at: 6, long: 24},
	"quill":         {shape: barrel, hatch: rising, close: 2.4, ghost: true, at: 8, long: 140},
	"collar":        {shape: ring, hatch: falling, close: 2, layer: 2, ghost: true, at: -22, long: 12},
	"rack":          {shape: strip, layer: 3, at: 20, long: 100},
	"pinion":        {shape: wheel, layer: 4, at: 62, long: 12},
	"keyway":        {shape: slot, layer: 3, at: 24, long: 80},
	"key":           {shape: peg, hatch: falling, close: 1.6, layer: 4, at: 78, long: 8},
	"other":         {shape: lump, hatch: rising, close: 2.4, layer: 2, ghost: true, dia: 1.8, at: 206, long: 15},
}

func lookOf(role string) look {
	if k, ok := looks[role]; ok {
		return k
	}
	return looks["other"]
}

// The layers in which the shafts and the nearest parts lie.
const (
	shafts  = 1
	deepest = 4
)
