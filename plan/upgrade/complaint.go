package upgrade

// Complaint is what an owner says, in plain words, and what can be behind it.
type Complaint struct {
	Key, Say string
	Causes   []Cause
}

// Cause is one thing that can be behind a complaint. Kinds name it in
// [About.Cures] by the keys of the two: "lost_motion.nut".
type Cause struct {
	Key, Says string
	Tells     string // the measurement that tells it from the others
	Figure    string // what of the axis shows it, by its name there; "" where no figure does
}

// Complaints is the list of them. Common practice, no source.
var Complaints = []Complaint{
	{"lost_motion", "The handle turns before the slide moves", []Cause{
		{"nut", "the nut is worn, or the screw is", "A dial gauge on the slide and another on the screw's end: what the slide loses and the screw's end does not is the nut's. Take it at three places: where it differs by more than 0.1 mm the screw is worn as well.", "backlash"},
		{"end_float", "the screw moves endways in its bearing", "Push and pull at the handle, a dial gauge on the screw's end.", "end_float"},
		{"handle", "the handle or the dial is loose on the screw", "Hold the screw still and turn the handle to and fro.", ""},
	}},
	{"reading", "Every cut needs a calculator, or the dial cannot be read", []Cause{
		{"value", "a line of the dial is no round figure", "Wind ten turns against a gauge: travel in ten turns, divided by ten, and by the lines of the dial.", "dial.per_line"},
		{"small", "the lines stand too close together", "Measure the dial's diameter, and count its lines.", "dial.spacing"},
		{"radius", "it reads the radius, and the work is measured across", "Take a test cut and measure the work before and after.", ""},
		{"none", "there is nothing to read", "Look whether quill, carriage or tailstock have a scale at all.", ""},
	}},
	{"setting", "The dial loses its setting", []Cause{
		{"friction", "it turns too easily on its sleeve", "Touch it with a finger while the handle is held.", ""},
		{"squeezed", "one nut sets the end float and holds the dial as well", "Slacken the handle's nut: if the dial comes free and the screw gets end float with it, they share one nut.", ""},
		{"knocked", "a reading is lost when the machine is moved or knocked", "Set it to nought, wind out and back to a stop, and read again.", ""},
	}},
	{"reach", "I cannot get the tool out, or the table over, far enough", []Cause{
		{"travel", "the slide stops too early", "Wind it to its end, and look for what touches.", "travel"},
		{"window", "there is travel enough, at the wrong end", "Compare what is left over at one end with what is wanted at the other.", "nut_on_thread.spare_plus"},
		{"tooling", "the tool post stands in the wrong place", "Measure from the tool's tip to the spindle's axis, slide at both ends.", ""},
	}},
	{"height", "The work does not go under the spindle", []Cause{
		{"column", "the spindle does not go high enough", "From the table to the spindle's nose at the highest.", "highest"},
		{"quill", "the quill does not come down far enough", "From the quill's nose, up, to its nose, down.", "travel"},
		{"ejects", "the quill pushes the tool out before it is back", "How far the quill stands out when the tool lets go.", "ejects_at"},
	}},
	{"swing", "The work is too large to turn over the bed", []Cause{
		{"bed", "the spindle stands too low over the bed", "Twice the height of its axis over the bed: no larger disc swings.", "largest_disc"},
		{"reach", "it swings, and the tool does not come out to its rim", "Wind the cross slide right out: twice the tool's distance from the axis.", "start_reach"},
	}},
	{"jams", "It jams, or goes hard, at one end", []Cause{
		{"nut", "nut and screw are not in line", "Slide off, gib out: wind the nut along the screw and feel where it goes hard. It is worst next to the bracket.", ""},
		{"gib", "the gib is tight there: the ways are worn in the middle", "Push the slide without its screw, by a spring balance, at three places.", ""},
		{"bent", "the screw is bent", "Run-out of the screw between centres.", ""},
	}},
	{"rocks", "The slide rocks, or the work chatters", []Cause{
		{"gib", "the gib does not fill its gap", "A dial gauge at the slide's end: push and pull sideways.", "slide.gib_play"},
		{"few_screws", "too few gib screws bear, or none near the end", "Count the screws over the ways with the slide at its end.", ""},
		{"stack", "too much stands between tool and bed", "Push at the tool with 100 N, a dial gauge on each joint in turn.", ""},
		{"unlocked", "nothing locks what should stand still", "A dial gauge on the slide that is not fed, during a cut.", ""},
		{"quill", "the quill is loose in its bore", "A dial gauge at the quill's nose, pushed and pulled, at both ends.", ""},
		{"spindle", "the spindle runs out or floats", "A dial gauge in the spindle's taper, and on its nose; push and pull.", ""},
		{"ways", "the ways are worn", "A straightedge and feelers along them, or blue.", ""},
	}},
	{"stiff", "It is hard work to wind", []Cause{
		{"thrust", "plain faces rub at the screw's bearing", "Torque at the handle with the slide off its screw, pushed and pulled.", ""},
		{"handle", "the handle is small, or hurts", "Force at its rim by a spring balance.", "hand_torque"},
		{"oil", "the ways run dry", "Look whether oil comes out at each way.", ""},
		{"weight", "it carries its own weight", "Force at the handle upwards, and downwards.", ""},
		{"turns", "it takes too many turns, or they are too many to be made by hand", "Count the turns from end to end.", ""},
	}},
	{"wears", "Things wear fast", []Cause{
		{"swarf", "swarf gets onto ways and screw", "Wipe a way with a white cloth after a day's work.", ""},
		{"oil", "oil does not get where metal rubs", "Look at each way after three strokes.", ""},
	}},
	{"untrue", "What it makes is not true", []Cause{
		{"level", "the bed is twisted", "A test cut on two collars, 150 mm apart.", ""},
		{"tailstock", "the tailstock is off the spindle's axis", "A test bar between centres, a gauge on the carriage.", ""},
		{"ways", "the ways are worn", "A cut along the work, measured at both ends and in the middle.", ""},
		{"column", "the column leans or nods", "Tram, and a push at the spindle with a gauge on the table.", ""},
		{"lead", "the screw's lead is not what its dial says", "Ten turns against a gauge block.", ""},
	}},
	{"speed", "The spindle turns too fast, or too slowly", []Cause{
		{"range", "its speeds do not suit the work", "Count the spindle's turns, by a counter, at its slowest and its fastest.", ""},
	}},
	{"danger", "It could hurt somebody", []Cause{
		{"guards", "there is no guard, or no stop within reach", "Stand where you work, and see what you can reach.", ""},
		{"runaway", "nothing stops a feed at the end", "Look what a feed runs into.", ""},
		{"tips", "it is top-heavy, or not held down", "Push at its top.", ""},
	}},
}

// CauseNamed is the cause with the key that [About.Cures] gives.
func CauseNamed(key string) (Complaint, Cause, bool) {
	for _, c := range Complaints {
		for _, cause := range c.Causes {
			if c.Key+"."+cause.Key == key {
				return c, cause, true
			}
		}
	}
	return Complaint{}, Cause{}, false
}
