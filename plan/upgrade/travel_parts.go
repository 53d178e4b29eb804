package upgrade

import (
	"fettle/plan/part"
	"fettle/plan/sheet"
)

// Parts of more travel: what each remedy that is used asks for, in one order
// of work.
func (k extendTravel) Parts(s *Site, r *sheet.Result) Make {
	m := s.making(r)
	if !m.more(s.Amount) {
		return Make{}
	}
	for _, ask := range s.asks {
		ask(m)
	}
	if len(m.steps) == 0 {
		return Make{}
	}
	around(m, "travel by gauge at both ends, push on the handle at three places, lost motion at three places")
	return m.finish()
}

// around are the operations before and after those of the parts: readings, a
// look inside, stripping, assembling.
func around(m *making, readings string) {
	l := m.Layout
	name := lower(l.Label)
	m.step(measured, "", part.Operation{Key: "readings_before", Do: "Take the readings that tell afterwards whether it is better: " + readings + ".",
		Needs: []part.Capability{part.Bench}, Minutes: [2]float64{30, 60}, Record: "readings, before"})
	m.step(measured, "", part.Operation{Key: "look_inside", Do: "Take the slide off for an hour, measure what is hidden (walls, the thread's start, tapped holes), look for oil ways, and put it back. The work goes on meanwhile.",
		Needs: []part.Capability{part.Bench}, Out: l.Key, After: []string{"readings_before"}, Minutes: [2]float64{60, 120}, Record: "what is hidden, with photos", Cautions: []string{isolate}})
	m.step(stripped, "", part.Operation{Key: "strip", Do: "Strip the " + name + ". A photo before each thing comes off; screws and shims in numbered bags. By now all parts are made, but for what must suit.",
		Needs: []part.Capability{part.Bench}, Minutes: [2]float64{60, 120}, Record: "a photo of each thing before it comes off", Cautions: []string{isolate}})
	m.step(assembled, "", part.Operation{Key: "assemble", Do: "Assemble dry and wind from end to end by hand with the gib slack; then set the gib, then the end float, then pinch the nut up at the end nearest the bracket, then the dial. Oil the ways.",
		Needs: []part.Capability{part.Bench}, Minutes: [2]float64{120, 240}, Record: "clearance where things nearly touch", Cautions: []string{"Guards go back on before the machine runs."}})
	m.step(proved, "", part.Operation{Key: "readings_after", Do: "Take the same readings at the same places with the same instruments, and again after five hours of work.",
		Needs: []part.Capability{part.Bench}, Minutes: [2]float64{45, 90}, Record: "readings, after"})
}

const isolate = "Isolate the machine: unplug it, and put a tag on the plug."

// ask keeps what a remedy asks the workshop for.
func (s *Site) ask(f func(*making)) { s.asks = append(s.asks, f) }
