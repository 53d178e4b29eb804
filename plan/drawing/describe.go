package drawing

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"fettle/plan/axis"
)

// describe says in words what the picture shows.
func (s *scene) describe() string {
	var say []string
	drawn := 0
	var unknown []string
	for i := range s.parts {
		if s.parts[i].drawn() {
			drawn++
		} else {
			unknown = append(unknown, s.parts[i].Label)
		}
	}
	if drawn > 0 && s.isLying() {
		say = append(say, "It goes up and down, and is drawn lying.")
	}
	if drawn > 0 {
		say = append(say, "To scale along the axis, in "+s.unitName()+"; "+s.l.EndName(axis.Plus)+" is to the right.",
			"The moving side stands at "+s.units.With(s.at)+".")
	} else {
		say = append(say, "Nothing can be drawn until it is measured where the parts begin and end.")
	}
	if was, is := s.asked(s.from), s.asked(s.to); math.Abs(was-is) >= moved {
		say = append(say, "The travel grows from "+s.units.With(was)+" to "+s.units.With(is)+".")
	}
	for i := range s.parts {
		b := &s.parts[i]
		if !b.drawn() {
			continue
		}
		ch := s.change(b)
		switch {
		case ch.length:
			say = append(say, capital(b.Label)+": "+s.units.With(b.plan.long())+" long, now "+s.units.With(b.now.long())+s.faces(ch)+".")
		case math.Abs(ch.shift) >= moved && b.ghost:
			say = append(say, capital(b.Label)+": moved by "+s.units.With(ch.shift)+".")
		}
	}
	if e, ok := s.sleeve(); ok && e.fresh {
		say = append(say, "The screw's end is longer by "+s.units.With(e.visible)+", with a lap of "+s.units.With(e.old-e.joint)+" over the old end.")
	}
	say = append(say, s.said...)
	if drawn > 0 && len(unknown) > 0 {
		say = append(say, "Not drawn, because it is not measured where they lie: "+strings.Join(unknown, ", ")+".")
	}
	return strings.Join(say, " ")
}

func (s *scene) faces(ch change) string {
	t := ""
	for _, a := range ch.added {
		t += ", new metal from " + s.text(a.from) + " to " + s.text(a.to)
	}
	for _, a := range ch.cut {
		t += ", cut away from " + s.text(a.from) + " to " + s.text(a.to)
	}
	return t
}

func (s *scene) unitName() string {
	if s.units.Symbol == "in" {
		return "inches"
	}
	return "millimetres"
}

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// lower makes the first letter small, unless it stands alone as in "Y axis".
func lower(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 || len(s) > n && s[n] == ' ' {
		return s
	}
	return string(unicode.ToLower(r)) + s[n:]
}
