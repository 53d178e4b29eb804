package fit

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// ErrClass is returned for a tolerance class that does not exist, or not at the
// size asked for. What wraps it says why, in a sentence for whoever typed it.
var ErrClass = errors.New("there is no such tolerance class")

// Class is a tolerance class: a letter for where the zone lies and a grade for
// how wide it is.
type Class struct {
	Letter string // "H" of a hole, "h" of a shaft
	Grade  string // one of [Grades]
}

// Hole tells whether the class is that of a hole.
func (c Class) Hole() bool { return c.Letter < "a" }

func (c Class) String() string { return c.Letter + c.Grade }

// letters that have deviations, as of shafts.
var letters = strings.Split("a b c cd d e ef f fg g h js j k m n p r s t u v x y z za zb zc", " ")

// ParseClass reads a class such as H7, g6, JS9 or za8, with or without spaces.
// It returns [ErrClass].
func ParseClass(text string) (Class, error) {
	s := strings.Join(strings.Fields(text), "")
	i := strings.IndexAny(s, "0123456789")
	if i <= 0 {
		return Class{}, fmt.Errorf("%w: write a letter and a grade, such as H7 for a hole or g6 for a shaft", ErrClass)
	}
	c := Class{s[:i], s[i:]}
	small := strings.ToLower(c.Letter)
	switch {
	case !slices.Contains(letters, small):
		return Class{}, fmt.Errorf("%w: letters go from a to zc for shafts and from A to ZC for holes, without i, l, o, q and w", ErrClass)
	case c.Letter != small && c.Letter != strings.ToUpper(small):
		return Class{}, fmt.Errorf("%w: write a hole all in capitals, a shaft all in small letters", ErrClass)
	case !slices.Contains(Grades, c.Grade):
		return Class{}, fmt.Errorf("%w: grades go from 01 and 0 to 18", ErrClass)
	}
	return c, nil
}
