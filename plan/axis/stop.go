package axis

import (
	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Stop is something that ends the travel at one end.
type Stop struct {
	Key           string // scope in the axis: "front_wall_nut"; its bound is Key + ".bound"
	Label         string // "nut meets front wall"
	Says          string // the same as it stands in a sentence: "the nut meets the front wall"
	End           End
	Fixed, Moving string  // part keys; "" for an obstacle and for what is not named
	Found         float64 // mm, roughly: where it lies as found, to put the stops in order; NaN where that is not known
	Unmeasured    bool
	Kind          StopKind
}

// StopKind is the way in which a stop stops.
type StopKind string

// The kinds of stop.
const (
	Meets   StopKind = "meets"    // two faces come together
	Jams    StopKind = "jams"     // the shank does not enter the nut
	RunsOut StopKind = "runs out" // what must stay within comes to the end of it
)

// stop adds a bound that is already defined to its end, with its check.
func (l *Layout) stop(s Stop, e end, between string) {
	sc := l.Scope.In(s.Key)
	l.Scope.Family(e.stops, "stops, "+e.name, unit.MM, s.Key+".bound")
	sc.Formula(quiet("gap", s.Label+": gap, "+e.name, "gap", unit.MM), e.gap, "geometry: from where the travel is asked to go")
	sc.Check(sheet.Check{Key: "check", Label: capital(s.Label) + ", " + e.name, Figure: "gap", Limit: "touching", Level: sheet.Stop,
		Sentence: "Room left " + between + ", with the travel that is asked for: {figure}.", Source: "geometry"})
	l.Stops = append(l.Stops, s)
}
