package axis

// usual is a part that most axes of an arrangement have.
type usual struct {
	role, label string
	on          string // the part that it stands against, by its label; "" is measured from the datum
}

var screwEnd = []usual{{"bracket", "bracket", ""}, {"dial", "dial", "bracket"}, {"handle", "handle", "dial"}, {"lock_nut", "lock nut", "handle"},
	{"thread", "screw thread", ""}, {"shank", "screw shank", ""}}

var (
	rackQuill    = []usual{{"guide", "guide", ""}, {"quill", "quill", ""}, {"rack", "rack", ""}, {"pinion", "pinion", ""}}
	rackCarriage = []usual{{"ways", "ways", ""}, {"slide", "carriage", ""}, {"rack", "rack", ""}, {"pinion", "pinion", ""}}
)

// usualParts lists them by the arrangement's key, those that others stand against first.
// Common practice, no source: what a new measuring sheet begins with, to be struck out and added to.
var usualParts = map[string][]usual{
	"held_screw":       append([]usual{{"ways", "ways", ""}, {"wall", "rear wall", ""}, {"wall", "front wall", ""}, {"slide", "slide", ""}, {"nut", "nut", ""}}, screwEnd...),
	"travelling_screw": append([]usual{{"ways", "ways", ""}, {"web", "rear web", ""}, {"base", "front wall", ""}, {"slide", "slide", ""}, {"nut", "nut", ""}}, screwEnd...),
	"barrel_screw":     {{"guide", "guide", ""}, {"quill", "barrel", ""}, {"thread", "screw thread", ""}, {"nut", "nut", ""}},
	"rack":             rackQuill,
	"rack_worm":        rackQuill,
	"rack_fixed":       rackCarriage,
	"half_nuts":        append(append([]usual{}, rackCarriage...), usual{"thread", "lead screw", ""}, usual{"nut", "half nuts", ""}),
	"turning_nut": {{"ways", "ways", ""}, {"slide", "slide", ""}, {"thread", "screw thread", ""}, {"nut", "nut", ""}, {"bracket", "bracket", ""},
		{"dial", "dial", "bracket"}, {"handle", "handle", "dial"}, {"lock_nut", "lock nut", "handle"}, {"shank", "nut's sleeve", ""}},
	"crank":          {{"ways", "ways", ""}, {"table", "ram", ""}},
	"opposed_screws": {{"ways", "base", ""}, {"slide", "top", ""}, {"key", "tongue", ""}, {"keyway", "slot", ""}, {"thread", "set-over screw", ""}},
	"lever":          {{"ways", "ways", ""}, {"slide", "slide", ""}},
}

// UsualParts gives the parts that a new measuring sheet begins with, nothing of them measured.
func (a Arrangement) UsualParts() []Part {
	var parts []Part
	var taken []string
	keys := map[string]string{}
	for _, u := range usualParts[a.Key] {
		p := Part{Key: NewKey(u.label, taken), Label: u.label, Role: u.role, Side: a.SideOf(u.role)}
		if u.on != "" {
			p.Tie = &Tie{Part: keys[u.on], Face: "to"}
		}
		taken = append(taken, p.Key)
		keys[u.label] = p.Key
		parts = append(parts, p)
	}
	return parts
}

// UsualObstacles gives what is often in the way, not measured yet.
func (a Arrangement) UsualObstacles() []Obstacle {
	obstacles := make([]Obstacle, len(a.Obstacles))
	for i, o := range a.Obstacles {
		obstacles[i] = Obstacle{Key: o.Key, Label: o.Label, End: o.End}
	}
	return obstacles
}
