package ui

import (
	"context"
	"io"
	"regexp"

	"github.com/a-h/templ"
)

// Input is one figure that another was computed from.
type Input struct {
	Label  string `json:"label"`
	Value  string `json:"value"`            // with its unit
	Origin string `json:"origin,omitempty"` // as for [OriginMark]
	Href   string `json:"href,omitempty"`   // where it is explained in its turn
}

// Explanation is a figure opened: how it was computed, from what, and by whose rule.
type Explanation struct {
	Formula  string   `json:"formula,omitempty"` // in symbols
	Numbers  string   `json:"numbers,omitempty"` // the same with the numbers in
	Say      []string `json:"say,omitempty"`
	Inputs   []Input  `json:"inputs,omitempty"`
	Source   string   `json:"source,omitempty"`
	Validity string   `json:"validity,omitempty"`
	Verdict  string   `json:"verdict,omitempty"` // holds, tight, fails, unmeasured, or none
	Held     *Held    `json:"held,omitempty"`
}

// Held is the limit that a figure is held against, explained in its turn.
type Held struct {
	Say     []string `json:"say"`               // what it is
	Near    string   `json:"near"`              // what is tight
	Formula string   `json:"formula,omitempty"` // in symbols
	Numbers string   `json:"numbers,omitempty"`
	Source  string   `json:"source,omitempty"`
	Change  []Link   `json:"change,omitempty"` // where what it rests on can be changed
}

// class gives the class of an explanation's box.
func (e Explanation) class() string {
	switch e.Verdict {
	case "holds", "tight", "fails", "unmeasured":
		return "explain explain-" + e.Verdict
	default:
		return "explain"
	}
}

// subscript is a symbol with what stands below the line: "d_r", "L_1".
var subscript = regexp.MustCompile(`(\pL)_([\pL\d]+)`)

// InSymbols writes a formula, or a symbol, with what belongs there below the line. It is no markup of templ's, which
// would put space around it.
func InSymbols(formula string) templ.Component {
	return templ.ComponentFunc(func(_ context.Context, w io.Writer) error {
		_, err := io.WriteString(w, subscript.ReplaceAllString(templ.EscapeString(formula), "$1<sub>$2</sub>"))
		return err
	})
}

// Figure is a value that can be opened.
type Figure struct {
	ID      string      `json:"id"`
	Value   string      `json:"value"` // with its unit
	Explain Explanation `json:"explain"`
}

// Verdict is what a check says: Word is holds, tight, fails or unmeasured; Margin is the figure that
// goes with it, such as "3.0 to spare".
type Verdict struct {
	Word   string `json:"word"`
	Margin string `json:"margin,omitempty"`
}

// words gives word and margin together: "holds, 3.0 to spare".
func (v Verdict) words() string {
	if v.Margin == "" {
		return v.Word
	}
	return v.Word + ", " + v.Margin
}

// long says that the words want a line of their own: what is missing can be a list.
func (v Verdict) long() bool { return len(v.words()) > 60 }

// Check is one line of a [CheckList].
type Check struct {
	ID      string       `json:"id"`
	Name    string       `json:"name"`
	Figure  string       `json:"figure"`
	Limit   string       `json:"limit"` // with its sense, such as "at least 8"
	Verdict Verdict      `json:"verdict"`
	Explain *Explanation `json:"explain,omitempty"`
	Open    bool         `json:"-"`              // shown opened: a verdict that needs its sentence
	Key     string       `json:"key,omitempty"`  // of the figure that is judged
	Href    string       `json:"href,omitempty"` // where it is explained; see [KnockOn]
	Formula string       `json:"formula,omitempty"`
	Say     []string     `json:"say,omitempty"` // shown under the line, opened or not, below the formula
	Actions []Action     `json:"actions,omitempty"`
}

// Action is something that the program can do about a check: a button that sends Name and Value with
// the form around it.
type Action struct {
	Name  string `json:"name"`
	Value string `json:"value"`
	Text  string `json:"text"`
}

// KnockOn is one consequence of a change, with what follows from it in turn.
//
// A line opens to its Explain, or, with a Href alone, to a link that leads to the explanation; with
// scripts it is loaded into the line's place. A line with a Key tells the form around it that it is
// open, as a field called "open", so that the next reply can explain it at once.
type KnockOn struct {
	ID      string       `json:"id"`
	Key     string       `json:"key,omitempty"`
	Label   string       `json:"label"`
	Was     string       `json:"was,omitempty"`
	Now     string       `json:"now"`   // with its unit
	Moved   string       `json:"moved"` // the difference with its sign, or "new" or "gone"
	Because string       `json:"because,omitempty"`
	Explain *Explanation `json:"explain,omitempty"`
	Href    string       `json:"href,omitempty"`
	Then    []KnockOn    `json:"then,omitempty"`
}

func (k KnockOn) class() string {
	switch k.Moved {
	case "new", "gone":
		return "knock-on-" + k.Moved
	default:
		return ""
	}
}

// Slider moves a group of the drawing. All its figures are in the drawing's own unit.
type Slider struct {
	ID    string `json:"id"`
	Name  string `json:"name,omitempty"` // sent with the form when set
	Label string `json:"label"`
	Least string `json:"least"`
	Most  string `json:"most"`
	Step  string `json:"step"`
	Value string `json:"value"`
	Of    string `json:"of"` // what stands behind the value, such as "of 100 mm"
	Unit  string `json:"unit"`
	Moves string `json:"-"` // id of the SVG group that moves
	Marks string `json:"-"` // id of a group that is true at Base only, or ""
	Base  string `json:"-"` // the value at which the server drew the group
	Scale string `json:"-"` // drawing units a step of one; negative where the drawing runs the other way
}

// Picture is the frame of a drawing.
type Picture struct {
	Label   string `json:"label"` // what the drawing shows, for a reader of the screen
	Caption string `json:"caption,omitempty"`
	Far     bool   `json:"-"` // where the picture scrolls, it starts at its right end
}
