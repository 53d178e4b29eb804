package drawing_test

import (
	"math"

	"fettle/plan/drawing"
)

// Ways of looking at a display list.

// each visits every shape with the classes and parts of the groups that it is in.
func each(shapes []drawing.Shape, visit func(s drawing.Shape, in []drawing.Group)) {
	var walk func(all []drawing.Shape, in []drawing.Group)
	walk = func(all []drawing.Shape, in []drawing.Group) {
		for _, s := range all {
			visit(s, in)
			if g, ok := s.(drawing.Group); ok {
				walk(g.Shapes, append(in, g))
			}
		}
	}
	walk(shapes, nil)
}

func classOf(s drawing.Shape) string {
	switch s := s.(type) {
	case drawing.Path:
		return s.Class
	case drawing.Lines:
		return s.Class
	case drawing.Circle:
		return s.Class
	case drawing.Text:
		return s.Class
	case drawing.Group:
		return s.Class
	}
	return ""
}

// along is from where to where the outlines of a class, of a part ("" for any), lie along the axis.
func along(d *drawing.Drawing, part, class string) (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	each(d.Shapes, func(s drawing.Shape, in []drawing.Group) {
		p, ok := s.(drawing.Path)
		if !ok || p.Class != class || part != "" && (len(in) == 0 || in[len(in)-1].Part != part) {
			return
		}
		for _, loop := range p.Loops {
			for _, q := range loop {
				from, to = min(from, q.X), max(to, q.X)
			}
		}
	})
	return from, to
}

func count(d *drawing.Drawing, class string) int {
	n := 0
	each(d.Shapes, func(s drawing.Shape, _ []drawing.Group) {
		if classOf(s) == class {
			n++
		}
	})
	return n
}

func texts(d *drawing.Drawing, classes ...string) []drawing.Text {
	var all []drawing.Text
	each(d.Shapes, func(s drawing.Shape, _ []drawing.Group) {
		if t, ok := s.(drawing.Text); ok {
			for _, c := range classes {
				if t.Class == c {
					all = append(all, t)
				}
			}
		}
	})
	return all
}

// said are the texts of a class with what is struck through behind them.
func said(d *drawing.Drawing, class string) []string {
	var all []string
	for _, t := range texts(d, class) {
		s := t.Text
		if t.Old != "" {
			s += " was " + t.Old
		}
		all = append(all, s)
	}
	return all
}
