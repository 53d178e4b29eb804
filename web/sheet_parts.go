package web

import (
	"slices"
	"strings"

	"fettle/plan/axis"
	"fettle/web/ui"
)

// sheetPart is a part with its figures.
type sheetPart struct {
	Key   string     `json:"key"`
	Label string     `json:"label"`
	Role  string     `json:"role"`
	Side  string     `json:"side"`
	Rows  []sheetRow `json:"figures"`
	More  []sheetRow `json:"also,omitempty"` // not asked for by themselves
	Words partWords  `json:"-"`
	Up    bool       `json:"-"`
	Down  bool       `json:"-"`
	Begun bool       `json:"-"` // something of it was measured
}

// partWords are what a part is, beside its figures.
type partWords struct {
	Label    ui.Field
	Role     ui.Choice
	Side     ui.Choice
	Tie      ui.Choice
	Material ui.Choice
	Lanes    ui.Field
	Open     bool
}

// part is one part: what is asked first, and what can be given beside it.
func (w *sheetWriter) part(i int, p axis.Part) sheetPart {
	role, _ := axis.RoleNamed(p.Role)
	sp := sheetPart{Key: p.Key, Label: p.Label, Role: role.Label, Side: w.sideWord(p), Words: w.partWords(i, p),
		Up: i > 0, Down: i < len(w.axis.Parts)-1}
	for _, e := range p.Entries {
		sp.Begun = sp.Begun || e.Given()
	}
	sp.Rows, sp.More = w.asked(p.Key+".", w.axis.Asks(p), p.Entries)
	return sp
}

// sideWord says whether a part moves.
func (w *sheetWriter) sideWord(p axis.Part) string {
	switch {
	case p.Side != axis.Moving:
		return staysWord
	case p.Label == w.axis.Moves():
		return "moves"
	}
	return w.movesWord()
}

const staysWord = "stays"

func (w *sheetWriter) movesWord() string { return "moves with the " + w.axis.Moves() }

// what is the part in a few words: its role, where its name does not say it, and whether it moves.
func (p sheetPart) what() string {
	if strings.EqualFold(p.Role, p.Label) {
		return p.Side
	}
	return p.Role + ", " + p.Side
}

// materials are those that a part is made of, as the axis tells them apart.
var materials = []ui.Option{
	{Value: "", Text: "not said"}, {Value: "cast_iron", Text: "cast iron"}, {Value: "steel", Text: "steel"},
	{Value: "aluminium", Text: "aluminium"}, {Value: "bronze", Text: "bronze"}, {Value: "brass", Text: "brass"},
}

func (w *sheetWriter) partWords(i int, p axis.Part) partWords {
	at := p.Key + "."
	problem := func(name string) string { return w.problems[at+name] }
	role, _ := axis.RoleNamed(p.Role)
	usual := "as usual for its role: " + lanesOut(role.Lanes)
	if len(role.Lanes) == 0 {
		usual = "as usual for its role: none"
	}
	made := materials
	if !slices.ContainsFunc(made, func(o ui.Option) bool { return o.Value == p.Material }) {
		made = append(slices.Clone(made), ui.Option{Value: p.Material, Text: p.Material})
	}
	words := partWords{
		Label: ui.Field{Name: at + "label", Label: "Name", Value: p.Label},
		Role:  ui.Choice{Name: at + "role", Label: "What it is", Options: roleOptions(p.Role), Problem: problem("role")},
		Side: ui.Choice{Name: at + "side", Label: "It", Options: chosen([]ui.Option{
			{Value: string(axis.Fixed), Text: staysWord}, {Value: string(axis.Moving), Text: w.movesWord()}}, string(p.Side))},
		Tie:      ui.Choice{Name: at + "tie", Label: "Where it lies", Options: w.ties(i, p), Problem: problem("tie")},
		Material: ui.Choice{Name: at + "material", Label: "Made of", Options: chosen(made, p.Material)},
		Lanes: ui.Field{Name: at + "lanes", Label: "Lanes", Value: lanesOut(p.Lanes),
			Hint: "parts that share one can meet; blank: " + usual},
	}
	words.Open = words.Role.Problem != "" || words.Tie.Problem != "" || problem("key") != ""
	return words
}

// ties are the faces that a part can follow: those of the parts above it.
func (w *sheetWriter) ties(i int, p axis.Part) []ui.Option {
	is := ""
	if p.Tie != nil {
		is = p.Tie.Part + "." + p.Tie.Face
	}
	options := []ui.Option{{Value: "", Text: "measured from the datum face"}}
	for _, on := range w.axis.Parts[:i] {
		options = append(options,
			ui.Option{Value: on.Key + ".to", Text: "follows the end of the " + on.Label},
			ui.Option{Value: on.Key + ".from", Text: "follows the start of the " + on.Label})
	}
	if !slices.ContainsFunc(options, func(o ui.Option) bool { return o.Value == is }) {
		options = append(options, ui.Option{Value: is, Text: "follows " + is})
	}
	return chosen(options, is)
}

func roleOptions(is string) []ui.Option {
	options := make([]ui.Option, 0, len(axis.Roles)+1)
	for _, r := range axis.Roles {
		options = append(options, ui.Option{Value: r.Key, Text: r.Label})
	}
	if _, known := axis.RoleNamed(is); !known && is != "" {
		options = append(options, ui.Option{Value: is, Text: is})
	}
	return chosen(options, is)
}
