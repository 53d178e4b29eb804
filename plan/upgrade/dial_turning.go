package upgrade

import "fettle/plan/axis"

// Which way a handle turns, which way the slide goes, and which way figures rise.

// turning asks which way the slide goes, and which way the figures are to rise.
func (s *Site) turning(t *axis.Part) {
	l := s.Layout
	ends := []Option{{string(axis.Minus), capital(l.EndName(axis.Minus))}, {string(axis.Plus), capital(l.EndName(axis.Plus))}}
	chosen := s.choose(Field{Name: "clockwise", Label: "Turned clockwise, the slide goes", Options: ends}, string(clockwiseUsual(l, t)))
	s.choose(Field{Name: "rises", Label: "The figures rise when it goes", Options: ends}, chosen)
}

// handleAt is the end of the screw at which the handle is.
func handleAt(l *axis.Layout) axis.End {
	b, okB := l.WithRole("bracket")
	t, okT := l.WithRole("thread")
	if okB && okT && asFound(l, b.Key+".from") < asFound(l, t.Key+".from") {
		return axis.Minus
	}
	return axis.Plus
}

// clockwiseGoes is where the slide goes when the handle is turned clockwise, by
// the hand of the thread. A nut on a right-hand screw that is held comes towards
// the handle; a right-hand screw in a nut that is held goes away from it.
func clockwiseGoes(l *axis.Layout, t *axis.Part) (axis.End, bool) {
	return goesBy(l, t.Entries["hand"].Typed)
}

// clockwiseUsual is the same, and away from the handle where that is not known.
func clockwiseUsual(l *axis.Layout, t *axis.Part) axis.End {
	if by, ok := clockwiseGoes(l, t); ok {
		return by
	}
	return opposite(handleAt(l))
}

// goesBy is the same of a thread of the hand.
func goesBy(l *axis.Layout, hand string) (axis.End, bool) {
	nut, ok := l.WithRole("nut")
	if !ok || hand != "right" && hand != "left" {
		return "", false
	}
	towards := (nut.Side == axis.Moving) == (hand == "right")
	if towards {
		return handleAt(l), true
	}
	return opposite(handleAt(l)), true
}

// rises are where the slide goes when the handle is turned clockwise, and where
// it goes as the figures rise.
func (s *Site) rises(t *axis.Part) (clockwise, rises string) {
	clockwise = s.input("clockwise", string(clockwiseUsual(s.Layout, t)))
	return clockwise, s.input("rises", clockwise)
}
