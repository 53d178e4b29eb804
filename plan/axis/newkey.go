package axis

import (
	"slices"
	"strconv"
	"strings"
)

// longest is how long a key made from a name gets, in bytes.
const longest = 40

// NewKey makes a key of a name that a person gave, as no other in taken: "Front wall" gives "front_wall",
// or "front_wall_2" where that is taken. It is one that [IsKey] takes.
//
// The sheet calls the place where two parts meet by both their keys. No key that NewKey gives is such a
// pair of those in taken, nor makes one of them a pair.
func NewKey(label string, taken []string) string {
	base := slug(label)
	for key, n := base, 2; ; n++ {
		if free(key, taken) {
			return key
		}
		key = base + "_" + strconv.Itoa(n)
	}
}

func slug(label string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(label) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "_") && r != '\'' && r != '’':
			b.WriteByte('_')
		}
		if b.Len() >= longest {
			break
		}
	}
	key := strings.Trim(b.String(), "_")
	switch {
	case key == "":
		return "part"
	case key[0] <= '9':
		return "no_" + key
	case strings.HasPrefix(key, "upgrade_"): // the scope of an upgrade
		return "of_" + key
	}
	return key
}

// formulaWords stand for something in every formula.
var formulaWords = []string{"inf", "pi", "was", "when", "min", "max", "sum", "count"}

func free(key string, taken []string) bool {
	if !IsKey(key) || slices.Contains(reserved, key) || slices.Contains(formulaWords, key) || slices.Contains(taken, key) {
		return false
	}
	for _, a := range taken {
		for _, joint := range []string{"_", "_on_"} {
			// key = a pair of others, or another one = a pair with key in it.
			if rest, ok := strings.CutPrefix(key, a+joint); ok && slices.Contains(taken, rest) {
				return false
			}
			for _, b := range taken {
				if b == a+joint+key || b == key+joint+a {
					return false
				}
			}
		}
	}
	return true
}
