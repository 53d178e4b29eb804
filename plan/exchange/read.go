package exchange

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/machine"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// MostBytes is how large a file may be.
const MostBytes = 16 << 20

// ErrTooLarge is a file of more than [MostBytes].
var ErrTooLarge = errors.New("the file is larger than the 16 MiB that a machine can take")

// Read reads one machine, with its log. Maps without entries are empty, not nil, but for an upgrade's sizes as made.
//
// It returns a [*Fault] for a file that is not as the doc of the package says, a [*NewerError] for one of
// a later version, and [ErrTooLarge].
func Read(from io.Reader) (File, error) {
	file, err := io.ReadAll(io.LimitReader(from, MostBytes+1))
	if err != nil {
		return File{}, fmt.Errorf("read machine: %w", err)
	}
	if len(file) > MostBytes {
		return File{}, ErrTooLarge
	}
	file = bytes.TrimPrefix(file, []byte("\uFEFF")) // some editors put it first
	root, err := tree(file)
	if err != nil {
		return File{}, err
	}
	r := reader{file: file}
	m := r.document(root)
	if r.err != nil {
		return File{}, r.err
	}
	return m, nil
}

// reader turns values into what they say. After the first fault, which it keeps, it goes on with empty
// values.
type reader struct {
	file []byte
	err  error
}

func (r *reader) fault(v value, say string, args ...any) {
	r.faultAt(v.at, v.path, say, args...)
}

func (r *reader) faultAt(at int, path, say string, args ...any) {
	if r.err == nil {
		r.err = faultAt(r.file, at, path, fmt.Sprintf(say, args...))
	}
}

func (r *reader) document(v value) File {
	if !r.is(v, object, "give an object, { … }") {
		return File{}
	}
	// Before anything else: a later version may have other members.
	if n, err := strconv.Atoi(v.member("version").text); err == nil && n > Version && v.member("format").text == Format {
		r.err = &NewerError{n, Version}
		return File{}
	}
	members := r.object(v, "format version machine")
	if f := members["format"]; r.text(f) != Format {
		r.fault(f, "this is no machine of Fettle's: give %q", Format)
	}
	if n := members["version"]; !r.is(n, number, "give the number of the version") || n.text != strconv.Itoa(Version) {
		r.fault(n, "there is no version %s: give %d", n.text, Version)
	}
	return r.machine(members["machine"])
}

func (r *reader) machine(v value) File {
	members := r.object(v, "name kind units note? axes? upgrades? log?")
	m := machine.Machine{
		Name:     r.text(members["name"]),
		Kind:     r.text(members["kind"]),
		Units:    oneOf(r, members["units"], "mm", "in"),
		Note:     r.text(members["note"]),
		Axes:     list(r, members["axes"], r.axis),
		Upgrades: list(r, members["upgrades"], r.upgrade),
	}
	if m.Name == "" {
		r.fault(members["name"], "give the machine a name")
	}
	axes := r.distinct(members["axes"], "key")
	upgrades := r.distinct(members["upgrades"], "id")
	for i, u := range m.Upgrades {
		if u.Axis != "" && !axes[u.Axis] {
			at := members["upgrades"].items[i].member("axis")
			r.fault(at, "no axis of this machine has the key %q", u.Axis)
		}
	}
	log := list(r, members["log"], r.logged)
	r.distinct(members["log"], "key")
	for i, e := range log {
		if e.Axis != "" && !axes[e.Axis] {
			r.fault(members["log"].items[i].member("axis"), "no axis of this machine has the key %q", e.Axis)
		}
		if e.Upgrade != "" && !upgrades[e.Upgrade] {
			r.fault(members["log"].items[i].member("upgrade"), "no upgrade of this machine has the id %q", e.Upgrade)
		}
	}
	return File{m, log}
}

func (r *reader) axis(v value) axis.Axis {
	members := r.object(v, "key label arrangement capacity? datum? plus? minus? entries? answers? parts? obstacles?")
	a := axis.Axis{
		Key:         r.key(members["key"]),
		Label:       r.text(members["label"]),
		Arrangement: r.text(members["arrangement"]),
		Capacity:    r.text(members["capacity"]),
		Datum:       r.text(members["datum"]),
		Plus:        r.text(members["plus"]),
		Minus:       r.text(members["minus"]),
		Entries:     byKey(r, members["entries"], r.entry),
		Answers:     byKey(r, members["answers"], r.text),
		Parts:       list(r, members["parts"], r.part),
		Obstacles:   list(r, members["obstacles"], r.obstacle),
	}
	r.distinct(members["parts"], "key")
	r.distinct(members["obstacles"], "key")
	renamed(a.Entries)
	return a
}

// renamed gives an axis's entries the keys of today: files written before have
// others. What was typed takes the place of what was assumed; where both were, both stay.
func renamed(entries map[string]plan.Entry) {
	old := entries["slide_mass"]
	if is := entries["moving_mass"]; old.Given() && (!is.Given() || is.Origin == sheet.Assumed) {
		entries["moving_mass"] = old
		delete(entries, "slide_mass")
	}
}

func (r *reader) part(v value) axis.Part {
	members := r.object(v, "key label role side tie? lanes? material? entries?")
	p := axis.Part{
		Key:      r.key(members["key"]),
		Label:    r.text(members["label"]),
		Role:     r.text(members["role"]),
		Side:     oneOf(r, members["side"], axis.Fixed, axis.Moving),
		Lanes:    list(r, members["lanes"], r.text),
		Material: r.text(members["material"]),
		Entries:  byKey(r, members["entries"], r.entry),
	}
	if lanes := members["lanes"]; lanes.sort == array && len(lanes.items) == 0 {
		p.Lanes = []string{}
	}
	if tie := members["tie"]; tie.sort != absent {
		members := r.object(tie, "part face")
		p.Tie = &axis.Tie{Part: r.text(members["part"]), Face: oneOf(r, members["face"], "from", "to")}
	}
	return p
}

func (r *reader) obstacle(v value) axis.Obstacle {
	members := r.object(v, "key label end gap? clear?")
	o := axis.Obstacle{
		Key:   r.key(members["key"]),
		Label: r.text(members["label"]),
		End:   oneOf(r, members["end"], axis.Plus, axis.Minus),
	}
	if gap := members["gap"]; gap.sort != absent {
		o.Gap = r.entry(gap)
	}
	if clear := members["clear"]; clear.sort != absent {
		o.Clear = r.is(clear, boolean, "give true or false") && clear.text == "true"
	}
	return o
}

func (r *reader) upgrade(v value) upgrade.Upgrade {
	members := r.object(v, "id kind axis? state on? inputs? made?")
	u := upgrade.Upgrade{
		ID:     r.text(members["id"]),
		Kind:   r.text(members["kind"]),
		Axis:   r.text(members["axis"]),
		State:  oneOf(r, members["state"], upgrade.Draft, upgrade.Planned, upgrade.Finished),
		On:     r.text(members["on"]),
		Inputs: byName(r, members["inputs"], r.text),
	}
	if made := members["made"]; len(made.members) > 0 || made.sort != absent && made.sort != object {
		u.Made = byKey(r, made, r.entry)
	}
	if n, err := strconv.Atoi(u.ID); err != nil || n < 1 || len(u.ID) > 9 || u.ID != strconv.Itoa(n) {
		r.fault(members["id"], `give a whole number above 0, in quotation marks: "1"`)
	}
	if _, err := time.Parse(time.DateOnly, u.On); err != nil && members["on"].sort != absent {
		r.fault(members["on"], `give a day as "2026-02-28"`)
	}
	return u
}

func (r *reader) entry(v value) plan.Entry {
	if v.sort == text {
		return plan.Entry{Typed: v.text}
	}
	if !r.is(v, object, `give a figure in quotation marks, such as "12.5 mm", or an object with "typed"`) {
		return plan.Entry{}
	}
	members := r.object(v, "typed? spread? with? on? origin? note?")
	e := plan.Entry{
		Typed:  r.text(members["typed"]),
		Spread: r.text(members["spread"]),
		With:   r.text(members["with"]),
		On:     r.text(members["on"]),
		Note:   r.text(members["note"]),
	}
	if origin := members["origin"]; origin.sort != absent {
		e.Origin = oneOf(r, origin, sheet.Measured, sheet.AsMade, sheet.Assumed, sheet.Chosen, sheet.Unknown)
	}
	return e
}

// is tells whether a value is of the sort, and says what to give where it is not.
func (r *reader) is(v value, want sort, say string) bool {
	if v.sort != want {
		r.fault(v, "%s", say)
	}
	return v.sort == want
}

// object gives the members of an object by name. The shape names those that are allowed; one with a ?
// may be left out.
func (r *reader) object(v value, shape string) map[string]value {
	members := map[string]value{}
	if !r.is(v, object, "give an object, { … }") {
		return members
	}
	for _, m := range v.members {
		if _, twice := members[m.name]; twice {
			r.faultAt(m.at, m.path, "it stands here twice")
		}
		members[m.name] = m.value
	}
	known := map[string]bool{}
	for name := range strings.FieldsSeq(shape) {
		name, optional := strings.CutSuffix(name, "?")
		known[name] = true
		if members[name].sort == absent && !optional {
			r.fault(v, "%q is missing", name)
		}
	}
	for _, m := range v.members {
		if !known[m.name] {
			r.faultAt(m.at, m.path, "nothing is known by this name; here there can be %s",
				strings.ReplaceAll(strings.Join(strings.Fields(shape), ", "), "?", ""))
		}
	}
	return members
}

func (v value) member(name string) value {
	for _, m := range v.members {
		if m.name == name {
			return m.value
		}
	}
	return value{}
}

func (r *reader) text(v value) string {
	if v.sort != absent {
		r.is(v, text, "give a text, in quotation marks")
	}
	return v.text
}

func (r *reader) key(v value) string {
	if s := r.text(v); v.sort != absent && !isKey(s) {
		r.fault(v, keySay)
	}
	return v.text
}

func oneOf[T ~string](r *reader, v value, allowed ...T) T {
	s := T(r.text(v))
	quoted := make([]string, len(allowed))
	for i, a := range allowed {
		if s == a {
			return s
		}
		quoted[i] = strconv.Quote(string(a))
	}
	r.fault(v, "give one of %s", strings.Join(quoted, ", "))
	return s
}

// list reads each item of an array; nil where there is none.
func list[T any](r *reader, v value, item func(value) T) (all []T) {
	if v.sort == absent || !r.is(v, array, "give a list, [ … ]") {
		return nil
	}
	for _, i := range v.items {
		all = append(all, item(i))
	}
	return all
}

// byName reads each member of an object whose names are free.
func byName[T any](r *reader, v value, item func(value) T) map[string]T {
	all := map[string]T{}
	if v.sort == absent || !r.is(v, object, "give an object, { … }") {
		return all
	}
	for _, m := range v.members {
		if _, twice := all[m.name]; twice {
			r.faultAt(m.at, m.path, "it stands here twice")
		}
		if m.name == "" {
			r.faultAt(m.at, m.path, "it has no name")
		}
		all[m.name] = item(m.value)
	}
	return all
}

// byKey is [byName] for names that are keys joined by dots.
func byKey[T any](r *reader, v value, item func(value) T) map[string]T {
	for _, m := range v.members {
		if !areKeys(m.name) {
			r.faultAt(m.at, m.path, namesSay)
		}
	}
	return byName(r, v, item)
}

// distinct gives the texts that the items of an array have as the member, and refuses one that two have.
func (r *reader) distinct(v value, member string) map[string]bool {
	seen := map[string]bool{}
	for _, i := range v.items {
		at := i.member(member)
		if seen[at.text] {
			r.fault(at, "%q is the %s of another one", at.text, member)
		}
		seen[at.text] = true
	}
	return seen
}
