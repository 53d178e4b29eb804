package axis

import "strings"

// Moves is what moves on the axis, in a word: the slide or the quill by its own
// name, or what it usually is.
func (a *Axis) Moves() string {
	for _, p := range a.Parts {
		if p.Side == Moving && p.carries() {
			return p.Label
		}
	}
	arr, _ := ArrangementNamed(a.Arrangement)
	return arr.Moves
}

// carries tells whether a part is what moves, and not one that goes with it.
func (p Part) carries() bool { return p.Slides() || p.Role == "quill" }

// Slides tells whether a part slides on ways: a slide, or a table or ram.
func (p Part) Slides() bool { return p.Role == "slide" || p.Role == "table" }

// OnWays is the part that slides on the axis's ways.
func (l *Layout) OnWays() (*Part, bool) {
	short, long, ok := l.Guided()
	if ok && long.Slides() {
		return long, true
	}
	return short, ok
}

// Guided are the two that run on one another. The shorter one is guided over its
// whole length, and so has the gib and its screws: a slide, or the ways of a table.
func (l *Layout) Guided() (short, long *Part, ok bool) {
	ways, ok := l.WithRole("ways")
	if !ok {
		return nil, nil, false
	}
	if sl, ok := l.WithRole("slide"); ok {
		return sl, ways, true
	}
	table, ok := l.WithRole("table")
	return ways, table, ok
}

// Spaced tells whether nothing drives the axis: it is a distance that a spacer changes.
func (a *Axis) Spaced() bool { return a.Arrangement == "spaced" }

// Upright tells whether an axis goes up and down, by what its ends are called.
func (a *Axis) Upright() bool {
	_, ok := a.Up()
	return ok
}

// Up is the end that is up, by what the ends are called. ok is false where the
// axis does not go up and down.
func (a *Axis) Up() (end End, ok bool) {
	switch {
	case a.upward(Plus), a.downward(Minus):
		return Plus, true
	case a.upward(Minus), a.downward(Plus):
		return Minus, true
	}
	return "", false
}

func (a *Axis) upward(e End) bool   { return strings.HasPrefix(strings.ToLower(a.EndName(e)), "up") }
func (a *Axis) downward(e End) bool { return strings.HasPrefix(strings.ToLower(a.EndName(e)), "down") }

// Stands says how the axis stands while it is measured, and from where: every
// position on its sheet is taken so, at s = 0. It is "" where nothing is known
// of the arrangement.
func (a *Axis) Stands() string {
	arr, ok := ArrangementNamed(a.Arrangement)
	if !ok {
		return ""
	}
	return a.fill(arr.Stand) + " All positions are measured from " + a.datum() + "; " + a.EndName(Plus) + " counts up, the other way is negative."
}

func (a *Axis) datum() string {
	if a.Datum == "" {
		return "the datum face"
	}
	return a.Datum
}

func (a *Axis) fill(text string) string {
	return strings.NewReplacer("{moves}", a.Moves(), "{minus}", a.EndName(Minus)).Replace(text)
}

// Asks lists what is asked of a part of the axis, where it lies first. Of what
// moves, it says how the axis stands when its place is read.
func (a *Axis) Asks(p Part) []Size {
	sizes := p.Sizes()
	if p.Side != Moving {
		return sizes
	}
	for i := range sizes {
		switch sizes[i].Key {
		case "from", "to", "gib_screws":
			sizes[i].How += a.fill(", {moves} fully {minus}")
		}
	}
	return sizes
}
