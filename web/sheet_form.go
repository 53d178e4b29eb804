package web

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/web/form"
)

// A measuring sheet's form holds the whole axis, a field for each thing that it keeps:
//
//	label, arrangement, capacity, plus, minus, datum   the axis's words
//	KEY                                                a figure: of the axis; of a part, KEY.SIZE; of an obstacle, KEY.gap
//	KEY.spread .with .origin .on .note                 what goes with a figure
//	part, obstacle, limit                              once for each: its key, in the order of the page
//	PART.label .role .side .tie .lanes .material       a part's words
//	OBSTACLE.label .end .clear                         an obstacle's
//	answer.QUESTION                                    yes, no or ""
//	gone_part, gone_obstacle                           keys of what was taken off while the page is open
//	also                                               the figures that stand out of sight unless they are wanted
//	do                                                 what a button asks for beside saving: "up:KEY"

// suffixes are what the fields of a figure end in, and where each belongs.
var suffixes = []struct {
	name string
	of   func(*plan.Entry) *string
}{
	{"", func(e *plan.Entry) *string { return &e.Typed }},
	{".spread", func(e *plan.Entry) *string { return &e.Spread }},
	{".with", func(e *plan.Entry) *string { return &e.With }},
	{".origin", func(e *plan.Entry) *string { return (*string)(&e.Origin) }},
	{".on", func(e *plan.Entry) *string { return &e.On }},
	{".note", func(e *plan.Entry) *string { return &e.Note }},
}

// origins are those that a person can give a figure.
var origins = []sheet.Origin{"", sheet.Measured, sheet.AsMade, sheet.Assumed, sheet.Chosen, sheet.Unknown}

// entryIn reads a figure as typed over what it was. A field that was not sent stays.
func entryIn(f *form.Form, name string, was plan.Entry) plan.Entry {
	e := was
	for _, s := range suffixes {
		if f.Has(name + s.name) {
			*s.of(&e) = f.Value(name + s.name)
		}
	}
	if !slices.Contains(origins, e.Origin) {
		e.Origin = was.Origin
	}
	if _, known := plan.InstrumentNamed(e.With); !known && e.With != "" {
		e.With = was.With
	}
	return e
}

// entriesIn reads the figures with the keys, their fields named after the prefix. A figure of which
// nothing is said is left out.
func entriesIn(f *form.Form, prefix string, keys []string, was map[string]plan.Entry) map[string]plan.Entry {
	entries := maps.Clone(was)
	if entries == nil {
		entries = map[string]plan.Entry{}
	}
	for _, key := range keys {
		if e := entryIn(f, prefix+key, entries[key]); e == (plan.Entry{}) {
			delete(entries, key)
		} else {
			entries[key] = e
		}
	}
	return entries
}

// dotted are keys joined by dots, as fields are named.
var dotted = regexp.MustCompile(`^[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*)*$`)

// axisIn reads an axis as typed over what it was. What the form does not hold stays as it was; so
// nothing is lost that another window has added meanwhile.
func axisIn(f *form.Form, was axis.Axis) axis.Axis {
	a := was
	if f.Has("label") {
		a = wordsIn(f, was)
	}
	var keys []string
	for _, of := range []axis.Axis{was, a} {
		for _, s := range ownSizes(of) {
			keys = append(keys, s.Key)
		}
	}
	for _, key := range f.Values("limit") {
		if dotted.MatchString(key) {
			keys = append(keys, key)
		}
	}
	a.Entries = entriesIn(f, "", keys, was.Entries)
	a.Answers = maps.Clone(was.Answers)
	arrangement, _ := axis.ArrangementNamed(a.Arrangement)
	for _, q := range arrangement.Questions {
		if answer := f.Value("answer." + q.Key); f.Has("answer."+q.Key) && slices.Contains(answers, answer) {
			if a.Answers == nil {
				a.Answers = map[string]string{}
			}
			if a.Answers[q.Key] = answer; answer == "" {
				delete(a.Answers, q.Key)
			}
		}
	}
	a.Parts = itemsIn(f, "part", was.Parts, func(p axis.Part) string { return p.Key }, func(key string, was *axis.Part) axis.Part {
		if was == nil {
			return partIn(f, axis.Part{Key: key, Side: axis.Fixed})
		}
		return partIn(f, *was)
	})
	a.Obstacles = itemsIn(f, "obstacle", was.Obstructions(), func(o axis.Obstacle) string { return o.Key }, func(key string, was *axis.Obstacle) axis.Obstacle {
		if was == nil {
			return obstacleIn(f, axis.Obstacle{Key: key, End: axis.Plus})
		}
		return obstacleIn(f, *was)
	})
	return a
}

// ownSizes are the figures of the axis itself that its sheet asks for.
func ownSizes(a axis.Axis) []axis.Size {
	arrangement, _ := axis.ArrangementNamed(a.Arrangement)
	capacity, _ := axis.CapacityNamed(a.Capacity)
	return slices.Concat(arrangement.Sizes, capacity.Sizes)
}

// wordsIn reads the words of an axis. A name that is missing, and a choice that is none, stay as they were.
func wordsIn(f *form.Form, was axis.Axis) axis.Axis {
	a := axisOf(f, was)
	if f.Problem("label") != "" {
		a.Label = was.Label
	}
	if f.Problem("arrangement") != "" {
		a.Arrangement = was.Arrangement
	}
	if f.Problem("capacity") != "" {
		a.Capacity = was.Capacity
	}
	return a
}

// itemsIn reads the things of an axis that the fields called name list by their keys, each over what was of
// its key, nil where nothing was. Those of was that are neither there nor among the gone come after them.
func itemsIn[T any](f *form.Form, name string, was []T, keyOf func(T) string, read func(key string, was *T) T) []T {
	var all []T
	at := func(list []T, key string) int {
		return slices.IndexFunc(list, func(x T) bool { return keyOf(x) == key })
	}
	for _, key := range f.Values(name) {
		if !axis.IsKey(key) || at(all, key) >= 0 {
			continue
		}
		var before *T
		if i := at(was, key); i >= 0 {
			before = &was[i]
		}
		all = append(all, read(key, before))
	}
	for _, x := range was {
		if at(all, keyOf(x)) < 0 && !slices.Contains(f.Values("gone_"+name), keyOf(x)) {
			all = append(all, x)
		}
	}
	return all
}

func partIn(f *form.Form, was axis.Part) axis.Part {
	p := was
	word := func(name string, to *string) {
		if f.Has(p.Key + "." + name) {
			*to = f.Value(p.Key + "." + name)
		}
	}
	word("label", &p.Label)
	word("role", &p.Role)
	word("material", &p.Material)
	if strings.TrimSpace(p.Label) == "" {
		p.Label = p.Key
	}
	if side := axis.Side(f.Value(p.Key + ".side")); side == axis.Fixed || side == axis.Moving {
		p.Side = side
	}
	if f.Has(p.Key + ".tie") {
		p.Tie = tieIn(f.Value(p.Key + ".tie"))
	}
	if f.Has(p.Key + ".lanes") {
		p.Lanes = lanesIn(f.Value(p.Key + ".lanes"))
	}
	var keys []string
	for _, s := range slices.Concat(was.Sizes(), p.Sizes()) {
		keys = append(keys, s.Key)
	}
	p.Entries = entriesIn(f, p.Key+".", keys, was.Entries)
	return p
}

// tieIn reads "PART.FACE"; anything else is no tie.
func tieIn(typed string) *axis.Tie {
	part, face, ok := strings.Cut(typed, ".")
	if !ok || !axis.IsKey(part) || face != "from" && face != "to" {
		return nil
	}
	return &axis.Tie{Part: part, Face: face}
}

// noLanes is typed for a part that meets nothing.
const noLanes = "none"

// lanesIn reads names of lanes apart by commas; nothing typed is the role's own.
func lanesIn(typed string) []string {
	switch typed = strings.TrimSpace(typed); typed {
	case "":
		return nil
	case noLanes:
		return []string{}
	}
	lanes := []string{}
	for lane := range strings.SplitSeq(typed, ",") {
		if lane = strings.ToLower(strings.TrimSpace(lane)); lane != "" {
			lanes = append(lanes, lane)
		}
	}
	return lanes
}

func lanesOut(lanes []string) string {
	if lanes != nil && len(lanes) == 0 {
		return noLanes
	}
	return strings.Join(lanes, ", ")
}

func obstacleIn(f *form.Form, o axis.Obstacle) axis.Obstacle {
	if label := f.Value(o.Key + ".label"); strings.TrimSpace(label) != "" {
		o.Label = label
	}
	if end := axis.End(f.Value(o.Key + ".end")); end == axis.Plus || end == axis.Minus {
		o.End = end
	}
	o.Clear = f.Has(o.Key + ".clear") // the form holds the obstacle, so no tick is a no
	o.Gap = entryIn(f, o.Key+".gap", o.Gap)
	return o
}
