package drawing

import "math"

// span is an interval along x.
type span struct{ from, to float64 }

func (a span) overlaps(b span, apart float64) bool { return a.from < b.to+apart && b.from < a.to+apart }

func around(x, width float64) span { return span{x - width/2, x + width/2} }

// zone is the room above or below the parts, in rows, the first nearest to
// them. A thing is put into the first row in which its text meets no other
// text, no dimension line, and no line that goes on to a row further out.
type zone struct {
	apart float64 // between texts
	rows  []zoneRow
	down  []upright
}

type zoneRow struct{ texts, lines []span }

// upright is a line from the parts out to a row.
type upright struct {
	x   float64
	row int
}

// option is one way of putting a thing: where its text stands, and the lines that lead out to it.
type option struct {
	text     span
	uprights [2]float64
}

// place finds the row, and which of the options is taken. line is the
// dimension line; of a leader it is [noLine].
func (z *zone) place(options []option, line span) (row, which int) {
	for row = 0; row <= len(z.rows); row++ {
		for which = range options {
			if z.free(row, options[which], line) {
				z.take(row, options[which], line)
				return row, which
			}
		}
	}
	// Nowhere without a line through a text: further out than all, where no text
	// is, and through as few as may be.
	row, which = len(z.rows), 0
	for i := range options {
		if z.crossed(options[i]) < z.crossed(options[which]) {
			which = i
		}
	}
	z.take(row, options[which], line)
	return row, which
}

// crossed is how many texts the lines of a thing would go through, further out
// than all.
func (z *zone) crossed(o option) (n int) {
	for _, r := range z.rows {
		for _, t := range r.texts {
			for _, x := range o.uprights {
				if t.from < x && x < t.to {
					n++
				}
			}
		}
	}
	return n
}

var noLine = span{math.Inf(1), math.Inf(-1)}

func (z *zone) free(row int, o option, line span) bool {
	for _, u := range z.down {
		if u.row >= row && o.text.from-z.apart/4 < u.x && u.x < o.text.to+z.apart/4 {
			return false
		}
	}
	for r := 0; r <= row && r < len(z.rows); r++ {
		for _, t := range z.rows[r].texts {
			for _, x := range o.uprights {
				if t.from-z.apart/4 < x && x < t.to+z.apart/4 {
					return false
				}
			}
		}
	}
	if row >= len(z.rows) {
		return true
	}
	for _, t := range z.rows[row].texts {
		if t.overlaps(o.text, z.apart) || t.overlaps(line, 0) {
			return false
		}
	}
	for _, l := range z.rows[row].lines {
		if l.overlaps(o.text, z.apart/4) || l.overlaps(line, -same) {
			return false
		}
	}
	return true
}

func (z *zone) take(row int, o option, line span) {
	for len(z.rows) <= row {
		z.rows = append(z.rows, zoneRow{})
	}
	z.rows[row].texts = append(z.rows[row].texts, o.text)
	if line.from < line.to {
		z.rows[row].lines = append(z.rows[row].lines, line)
	}
	for _, x := range o.uprights {
		z.down = append(z.down, upright{x, row})
	}
}
