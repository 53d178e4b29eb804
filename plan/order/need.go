package order

import "fettle/plan/part"

// Need is what one upgrade asks for.
type Need struct {
	Upgrade string // its id
	Label   string // "extend the travel"
	Parts   []part.Part
	Bought  []part.Bought
	Steps   []part.Operation // those that belong to no part
}

// step is what is done in the operation with the key; the key where there is
// none such.
func (n Need) step(key string) string {
	find := func(steps []part.Operation) string {
		for _, s := range steps {
			if s.Key == key {
				return s.Do
			}
		}
		return ""
	}
	if do := find(n.Steps); do != "" {
		return do
	}
	for _, p := range n.Parts {
		if do := find(p.Steps); do != "" {
			return do
		}
	}
	return key
}

// called is the label of the part or the operation with the key.
func (n Need) called(key string) string {
	for _, p := range n.Parts {
		if p.Key == key {
			return p.Label
		}
	}
	return n.step(key)
}
