package fit

// Preferred is a fit that serves a purpose.
type Preferred struct{ Hole, Shaft, Use string }

// PreferredSource is where the preferred fits come from.
const PreferredSource = "ISO 286-1:2010 annex B and ANSI B4.2, preferred fits; what for: common practice"

// PreferredFits lists fits by purpose, loosest first.
var PreferredFits = []Preferred{
	{"H11", "c11", "guards, loose pivots, what is painted"},
	{"H9", "d9", "long shafts, easy running, plated parts"},
	{"H8", "f7", "running journal with oil, dial on its sleeve"},
	{"H7", "g6", "sliding without play to feel: quill, spigot, friction ring of a dial"},
	{"H7", "h6", "location, pushed on by hand: spacer on a screw"},
	{"H7", "k6", "location by a light tap: keyed handwheel"},
	{"H7", "n6", "tight location, light press"},
	{"H7", "p6", "press fit: bush in iron"},
	{"H7", "s6", "heavy press, or shrunk on"},
	{"H7", "u6", "shrunk on, to hold by itself"},
	{"N9", "h9", "key in its keyway, normal"},
	{"P9", "h9", "key in its keyway, tight"},
}
