package sheet

// Method is a formula with its source and where it holds, for the rooms that
// keep the engineering: written once, used on any sheet.
type Method struct {
	Text   string
	Source string
	Valid  string // "" where it always holds
}

// Method defines a derived figure by a method of one of the rooms.
func (sc *Scope) Method(q Q, m Method, with ...With) {
	source := m.Source
	if m.Valid != "" {
		source += "; valid " + m.Valid
	}
	sc.Formula(q, m.Text, source, with...)
}
