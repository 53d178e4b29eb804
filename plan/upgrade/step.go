package upgrade

import (
	"slices"

	"fettle/plan/part"
)

// phase is where in the job an operation stands.
type phase int

// The phases, in order. From stripped to assembled the axis is out of use.
const (
	measured phase = iota
	atHand         // what is bought is measured, and what is taken off for it
	made
	stripped
	cut
	fitted
	assembled
	proved
)

type step struct {
	phase
	of string // key of the part that is made by it; "" where it is none's
	part.Operation
}

// step adds an operation, unless it is there already.
func (m *making) step(p phase, of string, o part.Operation) {
	if slices.ContainsFunc(m.steps, func(s step) bool { return s.Key == o.Key }) {
		return
	}
	m.steps = append(m.steps, step{p, of, o})
}

// finish puts the operations in order. Stripping comes after all that can be
// done before; assembling after all that is done while the axis is apart.
func (m *making) finish() Make {
	m.steps = slices.DeleteFunc(m.steps, func(s step) bool { return s.of != "" && slices.Contains(m.cannot, s.of) })
	slices.SortStableFunc(m.steps, func(a, b step) int { return int(a.phase - b.phase) })
	keys := map[string]bool{}
	apart := slices.ContainsFunc(m.steps, func(s step) bool { return s.phase == stripped })
	for i := range m.steps {
		s := &m.steps[i]
		after := []string{}
		for _, k := range s.After {
			if keys[k] {
				after = append(after, k)
			}
		}
		for _, before := range m.steps[:i] {
			waits := false
			switch s.phase {
			case stripped, assembled:
				waits = before.phase < s.phase
			case cut, fitted:
				waits = before.phase == stripped
			case proved:
				waits = before.phase == assembled || !apart
			}
			if waits && !slices.Contains(after, before.Key) {
				after = append(after, before.Key)
			}
		}
		s.After = m.nearest(after)
		if apart && s.phase >= stripped && s.phase <= assembled {
			s.Out = m.Layout.Key
		}
		keys[s.Key] = true
		m.out.Steps = append(m.out.Steps, s.Operation)
	}
	m.out.Buy = slices.DeleteFunc(m.out.Buy, func(b part.Bought) bool { return slices.Contains(m.cannot, b.For) })
	for i := range m.out.Buy {
		if b := &m.out.Buy[i]; !keys[b.Confirm] {
			b.Confirm = ""
		}
	}
	for i := range m.out.Parts {
		p := &m.out.Parts[i]
		for _, s := range m.steps {
			if s.of == p.Key {
				p.Steps = append(p.Steps, s.Operation)
			}
		}
	}
	return m.out
}

// nearest leaves out of a list of operations what another of them comes after
// anyway.
func (m *making) nearest(keys []string) []string {
	earlier := map[string]bool{}
	for i := len(m.out.Steps) - 1; i >= 0; i-- {
		if o := m.out.Steps[i]; earlier[o.Key] || slices.Contains(keys, o.Key) {
			for _, k := range o.After {
				earlier[k] = true
			}
		}
	}
	return slices.DeleteFunc(keys, func(k string) bool { return earlier[k] })
}
