package upgrade

import (
	"fettle/plan/axis"
	"fettle/plan/part"
)

// thrustRecess is what is bored into a face of the bracket for a thrust set.
func thrustRecess(m *making, b *axis.Part, at string) []part.Step { return nil }
