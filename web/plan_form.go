package web

import (
	"maps"
	"regexp"
	"strconv"
	"strings"
	"time"

	"fettle/web/form"
)

// planForm is what the planning page's form sends beside the inputs of the upgrade, and how the page
// is to say it.
type planForm struct {
	inputs   map[string]string // as typed
	revision int64             // from which was typed
	window   string            // names the open page, so that it is not stale to itself
	turn     int64             // counts the requests of the window; 0 without scripts
	open     []string          // keys of the figures that are open
	whole    bool              // the fields must be loaded anew, not only what follows from them
	saved    string            // such as "saved 14:02"
}

// inputName is how an upgrade names its inputs.
var inputName = regexp.MustCompile(`^[a-z][a-z0-9_.]{0,99}$`)

// ours are the fields of the form that are no inputs of the upgrade.
var ours = map[string]bool{"revision": true, "over": true, "window": true, "turn": true, "open": true, "apply": true, "answer": true}

func planFormOf(f *form.Form) planForm {
	p := planForm{inputs: map[string]string{}, window: f.Value("window"), open: f.Values("open"), saved: "not saved"}
	for _, name := range f.Names() {
		if !ours[name] && inputName.MatchString(name) {
			p.inputs[name] = f.Value(name)
		}
	}
	// A remedy is a field set by a button.
	if name, value, ok := cutName(f.Value("apply")); ok {
		p.inputs[name] = value
		p.whole = true
	}
	p.revision = number(f.Value("revision"))
	if f.Has("over") { // "save mine", having seen the other one
		p.revision = number(f.Value("over"))
		p.window = ""
		p.whole = true
	}
	p.turn = number(f.Value("turn"))
	return p
}

// over gives the inputs as stored with those that were typed in their place.
func (p planForm) over(stored map[string]string) map[string]string {
	inputs := maps.Clone(stored)
	if inputs == nil {
		inputs = map[string]string{}
	}
	maps.Copy(inputs, p.inputs)
	return inputs
}

// cutName parts "name=value", whose name is one of an input.
func cutName(text string) (name, value string, ok bool) {
	name, value, ok = strings.Cut(text, "=")
	return name, value, ok && inputName.MatchString(name) && !ours[name]
}

// number reads a whole number that one of our own pages sent; anything else is 0.
func number(text string) int64 {
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		return 0
	}
	return n
}

// hour says when something was: the hour of today, or the day.
func hour(at, now time.Time) string {
	at = at.In(now.Location())
	if at.Format(time.DateOnly) == now.Format(time.DateOnly) {
		return at.Format("15:04")
	}
	return at.Format("2 January 2006")
}
