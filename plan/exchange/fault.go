package exchange

import (
	"fmt"
	"unicode/utf8"
)

// Fault is a place in a file where it is not what it has to be.
type Fault struct {
	Line, Column int    // of the first character, from 1
	Path         string // of the value: "machine.axes[0].parts[2].role"; "" is the file itself
	Say          string
}

func (f *Fault) Error() string {
	if f.Path == "" {
		return fmt.Sprintf("%d:%d: %s", f.Line, f.Column, f.Say)
	}
	return fmt.Sprintf("%d:%d: %s: %s", f.Line, f.Column, f.Path, f.Say)
}

// NewerError is a file in a version that only a newer program reads.
type NewerError struct{ Found, Known int }

func (e *NewerError) Error() string {
	return fmt.Sprintf("a newer Fettle has written this file, in version %d of the format; this one reads version %d at most",
		e.Found, e.Known)
}

func faultAt(file []byte, at int, path, say string) *Fault {
	f := &Fault{Line: 1, Column: 1, Path: path, Say: say}
	for i := 0; i < at && i < len(file); {
		r, size := utf8.DecodeRune(file[i:])
		f.Column++
		if r == '\n' {
			f.Line, f.Column = f.Line+1, 1
		}
		i += size
	}
	return f
}
