// Package preset starts a machine from its kind and its size: all its usual axes,
// with figures that are typical of the size and fit one another, everything
// marked as assumed until it is measured.
//
//	m, ok := preset.Machine("lathe", preset.Medium)   // name, kind, axes; no upgrades
//	a, ok := preset.Axis("cross_slide", preset.Small) // one axis, for any machine
//
// [Kinds] and [Axes] list what there is. The figures are of no machine in
// particular: round numbers within what is usual of the size, chosen so that the
// stops, the engagements and the travel agree.
package preset

import (
	"slices"
	"strings"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/sheet"
)

// The classes of size.
const (
	Small  = "small"
	Medium = "medium"
	Large  = "large"
)

// Classes are the classes of size, the smallest first.
var Classes = []string{Small, Medium, Large}

// Note stands beside every figure of a preset.
const Note = "typical of the size class; measure it"

// Kind is a kind of machine that can be started from.
type Kind struct {
	Key, Label string
	Machine    string   // of [machine.Machine]: "mill"
	Says       string   // what it is, where the name alone does not tell
	Means      []string // what each class means, by [Classes]
	Axes       []string // keys of its axes
	More       []string // keys of axes that some have
}

// Axes lists the keys of the axes that there are presets of.
func Axes() []string {
	keys := make([]string, len(axes))
	for i, a := range axes {
		keys[i] = a.key
	}
	return keys
}

// Label is what the axis with the key is called: "cross slide". Says is a few words of what it is.
func Label(key string) (label, says string, ok bool) {
	s, ok := specOf(key)
	return s.label, s.says, ok
}

// KindNamed is the kind with the key.
func KindNamed(key string) (Kind, bool) {
	i := slices.IndexFunc(Kinds, func(k Kind) bool { return k.Key == key })
	if i < 0 {
		return Kind{}, false
	}
	return Kinds[i], true
}

// Machine is a machine of a kind ([Kinds]) and a class of size, with its usual
// axes, in mm, all of it assumed. ok is false where there is no such kind or class.
func Machine(kind, class string) (m machine.Machine, ok bool) {
	k, ok := KindNamed(kind)
	n := slices.Index(Classes, class)
	if !ok || n < 0 {
		return m, false
	}
	m = machine.Machine{Name: k.Label + ", " + class, Kind: k.Machine, Units: "mm",
		Note: "Started from what is typical: " + k.Means[n] + ". All figures are assumed until they are measured."}
	for _, key := range k.Axes {
		a, _ := Axis(key, class)
		m.Axes = append(m.Axes, a)
	}
	return m, true
}

// Axis is an axis ([Axes]) of a class of size, its key that of the preset, all
// of it assumed. ok is false where there is no such axis or class.
func Axis(key, class string) (a axis.Axis, ok bool) {
	s, ok := specOf(key)
	n := slices.Index(Classes, class)
	if !ok || n < 0 {
		return a, false
	}
	arr, ok := axis.ArrangementNamed(s.arrangement)
	a = axis.Axis{Key: s.key, Label: s.label, Arrangement: s.arrangement, Capacity: s.capacity, Datum: s.datum, Plus: s.plus, Minus: s.minus,
		Entries: s.own.at(n)}
	var taken []string
	for _, p := range s.parts {
		part := p.at(n, arr)
		part.Key = axis.NewKey(p.label, taken)
		taken = append(taken, part.Key)
		a.Parts = append(a.Parts, part)
	}
	for _, o := range arr.UsualObstacles() {
		a.Obstacles = append(a.Obstacles, s.obstacle(o, n))
	}
	return a, ok
}

func specOf(key string) (spec, bool) {
	i := slices.IndexFunc(axes, func(s spec) bool { return s.key == key })
	if i < 0 {
		return spec{}, false
	}
	return axes[i], true
}

// spec is an axis for all classes. Figures are written one after another, small,
// medium and large, or once where they are the same.
type spec struct {
	key, label, says      string
	arrangement, capacity string
	datum, plus, minus    string
	own                   sizes // the axis's own
	parts                 []piece
	near                  sizes             // the gap left to each usual obstacle, or clear
	calls                 map[string]string // usual obstacles that are called otherwise here
}

// sizes are figures by their keys.
type sizes map[string]string

// piece is a part: where it lies, or after what.
type piece struct {
	label, role, material string
	from, to              string // faces from the datum; of a part that is tied, its gap and its length
	on                    string // key of the part that it is tied to, at its end
	moving                bool   // where that does not follow from its role
	lanes                 []string
	sizes                 sizes
}

// figure is one of those written one after another.
func figure(text string, n int) plan.Entry {
	all := strings.Fields(text)
	if len(all) == 1 {
		n = 0
	}
	return plan.Entry{Typed: all[n], Origin: sheet.Assumed, Note: Note}
}

func (s sizes) at(n int) map[string]plan.Entry {
	entries := make(map[string]plan.Entry, len(s)+2)
	for key, text := range s {
		entries[key] = figure(text, n)
	}
	return entries
}

func (p piece) at(n int, arr axis.Arrangement) axis.Part {
	part := axis.Part{Label: p.label, Role: p.role, Material: p.material, Side: arr.SideOf(p.role), Lanes: p.lanes, Entries: p.sizes.at(n)}
	if p.moving {
		part.Side = axis.Moving
	}
	first, second := "from", "to"
	if p.on != "" {
		part.Tie = &axis.Tie{Part: p.on, Face: "to"}
		first, second = "gap", "length"
	}
	part.Entries[first], part.Entries[second] = figure(p.from, n), figure(p.to, n)
	return part
}

// obstacle is a usual one as it is called on this axis, with the gap to it.
func (s spec) obstacle(o axis.Obstacle, n int) axis.Obstacle {
	if name, ok := s.calls[o.Key]; ok {
		o.Label = name
	}
	switch text := s.near[o.Key]; text {
	case clear:
		o.Clear = true
	case "":
	default:
		o.Gap = figure(text, n)
	}
	return o
}

// clear is the gap to what is usual and is not there.
const clear = "clear"
