package axis

import (
	"fmt"
	"go/token"
	"strings"
)

// reserved are the names of scopes that are no part: those of a layout itself, and
// those that upgrades share on an axis.
var reserved = []string{"shaft_end", "extension", "support", "thrust", "bearing_pair", "outer_support", "reading", "quill_dial", "claimed", "gib", "screw_line", "gear_mesh", "thread_end", "unnamed_plus", "unnamed_minus"}

// IsKey tells whether s can name an axis, a part or an obstacle in formulas: a
// word of a-z, 0-9 and _ that does not begin with a digit and is none of Go's.
func IsKey(s string) bool {
	return s != "" && strings.Trim(s, "abcdefghijklmnopqrstuvwxyz0123456789_") == "" &&
		(s[0] < '0' || s[0] > '9') && !token.IsKeyword(s)
}

// claim takes a name for a part, an obstacle or a stop; false where it is taken.
func (l *Layout) claim(key string) bool {
	if l.taken[key] {
		return false
	}
	l.taken[key] = true
	return true
}

// named leaves out what has no name of its own, and says so: nothing about it
// could be computed.
func (l *Layout) named() {
	for _, key := range reserved {
		l.claim(key)
	}
	usable := func(key string) bool {
		if IsKey(key) && !strings.HasPrefix(key, "upgrade_") && l.claim(key) {
			return true
		}
		l.problem(key+".key", fmt.Sprintf("%q cannot be its key, or is that of something else on this axis: give a word of a-z, 0-9 and _", key))
		return false
	}
	a := *l.Axis
	a.Parts, a.Obstacles = nil, nil
	for _, p := range l.Parts {
		if usable(p.Key) {
			a.Parts = append(a.Parts, p)
		}
	}
	for _, o := range l.Obstructions() {
		if usable(o.Key) {
			a.Obstacles = append(a.Obstacles, o)
		}
	}
	l.Axis = &a
}

// stopKey is a name for a stop that nothing else has.
func (l *Layout) stopKey(key string) string {
	for !l.claim(key) {
		key += "_too"
	}
	return key
}
