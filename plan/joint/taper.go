package joint

// Taper is a self-holding Morse taper: the shank of a tool, in mm.
type Taper struct {
	Size    string  // "2"
	Large   float64 // diameter at its large end
	Tang    float64 // length from the large end, with a tang
	Drawbar float64 // the same, tapped for a drawbar instead
	Ratio   float64 // 1 in so many, on the diameter
}

// Shorter is what a shank without its tang is shorter by.
func (t Taper) Shorter() float64 { return t.Tang - t.Drawbar }

// TaperSource is where the sizes of tapers come from.
const TaperSource = "ISO 296: self-holding tapers for tool shanks, Morse, greatest lengths with a tang and tapped for a drawbar"

// Tapers are those that tailstocks have.
var Tapers = []Taper{
	{"0", 9.045, 56.5, 50, 19.212}, {"1", 12.065, 62, 53.5, 20.047}, {"2", 17.780, 75, 64, 20.020},
	{"3", 23.825, 94, 81, 19.922}, {"4", 31.267, 117.5, 102.5, 19.254}, {"5", 44.399, 149.5, 129.5, 19.002},
}
