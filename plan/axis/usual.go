package axis

// usual is a part that most axes of an arrangement have.
type usual struct {
	role, label string
	on          string // the part that it stands against, by its label; "" is measured from the datum
}

var screwEnd = []usual{{"bracket", "bracket", ""}, {"dial", "dial", "bracket"}, {"handle", "handle", "dial"}, {"lock_nut", "lock nut", "handle"},
	{"thread", "screw thread", ""}, {"shank", "screw shank", ""}}

// usualParts lists them by the arrangement's key, those that others stand against first.
// Common practice, no source: what a new measuring sheet begins with, to be struck out and added to.
var usualParts = map[string][]usual{
	"held_screw":       append([]usual{{"ways", "ways", ""}, {"wall", "rear wall", ""}, {"wall", "front wall", ""}, {"slide", "slide", ""}, {"nut", "nut", ""}}, screwEnd...),
	"travelling_screw": append([]usual{{"ways", "ways", ""}, {"web", "rear web", ""}, {"base", "front wall", ""}, {"slide", "slide", ""}, {"nut", "nut", ""}}, screwEnd...),
	"barrel_screw":     {{"guide", "guide", ""}, {"quill", "barrel", ""}, {"thread", "screw thread", ""}, {"nut", "nut", ""}},
	"rack":             {{"guide", "guide", ""}, {"quill", "quill", ""}, {"rack", "rack", ""}, {"pinion", "pinion", ""}},
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
