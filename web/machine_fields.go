package web

import (
	"fettle/plan/machine"
	"fettle/store"
	"fettle/web/form"
	"fettle/web/ui"
)

// What is taken of words, in characters.
const (
	longestName = 80
	longestNote = 4000
)

// machineKinds are the kinds of machine, with their names.
var machineKinds = []ui.Option{
	{Value: "lathe", Text: "Lathe"},
	{Value: "mill", Text: "Mill"},
	{Value: "drill", Text: "Drill press"},
	{Value: "shaper", Text: "Shaper"},
	{Value: "other", Text: "Another machine"},
}

// machineUnits are the units of lengths, with their names.
var machineUnits = []ui.Option{
	{Value: "mm", Text: "Millimetres"},
	{Value: "in", Text: "Inches"},
}

func kindLabel(kind string) string {
	for _, k := range machineKinds {
		if k.Value == kind {
			return k.Text
		}
	}
	return kind
}

// machineFields are the words of a machine, as a form.
type machineFields struct {
	Name  ui.Field
	Kind  ui.Choice
	Units ui.Choice
	Note  ui.Area
}

// newMachineFields is the form for a new machine.
func newMachineFields(f *form.Form) machineFields {
	return machineFields{
		Name: ui.Field{Name: "name", Label: "Name", Value: f.Value("name"), Problem: f.Problem("name"),
			Hint: "what you call it, such as “lathe in the shed”"},
		Kind: ui.Choice{Name: "kind", Label: "Kind", Options: chosen(machineKinds, f.Value("kind")), Problem: f.Problem("kind")},
		Units: ui.Choice{Name: "units", Label: "Lengths are shown in", Options: chosen(machineUnits, f.Value("units")), Problem: f.Problem("units"),
			Hint: "a number without a unit is taken for these; 3/8\" and 15 thou can be typed anyway"},
		Note: ui.Area{Name: "note", Label: "Note", Value: f.Value("note"), Problem: f.Problem("note")},
	}
}

// headOf reads the words of a machine from a form, and marks what cannot be taken.
func headOf(f *form.Form) store.Head {
	h := store.Head{
		Name:  f.Text("name", "a name", longestName),
		Kind:  f.Choice("kind", values(machineKinds)...),
		Units: f.Choice("units", values(machineUnits)...),
		Note:  f.Value("note"),
	}
	if len([]rune(h.Note)) > longestNote {
		f.Fail("note", "give a note of at most 4000 characters")
	}
	return h
}

func head(m machine.Machine) store.Head {
	return store.Head{Name: m.Name, Kind: m.Kind, Units: m.Units, Note: m.Note}
}

// chosen gives the options with the one that has the value chosen.
func chosen(options []ui.Option, value string) []ui.Option {
	all := make([]ui.Option, len(options))
	for i, o := range options {
		o.Chosen = o.Value == value
		all[i] = o
	}
	return all
}

func values(options []ui.Option) []string {
	all := make([]string, len(options))
	for i, o := range options {
		all[i] = o.Value
	}
	return all
}
