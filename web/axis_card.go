package web

import (
	"slices"

	"fettle/plan/axis"
	"fettle/plan/sheet"
	"fettle/web/ui"
)

// axisCard is one axis on the machine's page.
type axisCard struct {
	Key     string       `json:"key"`
	Label   string       `json:"label"`
	Drive   string       `json:"drive"`
	Href    string       `json:"href"`
	Figures []stagesLine `json:"figures"`
	Offers  []offer      `json:"-"`
}

// stagesLine is a figure as found, now and planned, which opens to its explanation.
type stagesLine struct {
	ID      string         `json:"id"`
	Key     string         `json:"key"`
	Label   string         `json:"label"`
	Found   string         `json:"found"`
	Now     string         `json:"now"`
	Planned string         `json:"planned"`
	Moved   bool           `json:"moved"` // planned is not what it is now
	Href    string         `json:"href"`
	Explain ui.Explanation `json:"-"`
}

// offer is a kind of upgrade that makes sense on an axis.
type offer struct{ Kind, Text, Purpose string }

// question is asked where no sum can tell.
type question struct {
	Axis   string `json:"axis"`
	Ask    string `json:"ask"`
	Key    string `json:"key"`
	Answer string `json:"answer,omitempty"`
	Advice string `json:"advice,omitempty"` // what follows from a yes
	Action string `json:"-"`
}

// axisFigures are the figures of an axis that matter on its machine's page, by their local names.
func axisFigures(l *axis.Layout) []string {
	var names []string
	for _, name := range slices.Concat([]string{"travel", "usable"}, l.Capacity.GoalKeys()) {
		if l.Scope.Has(name) && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// sheetFigures are those that matter on the axis's own sheet: what the drive gives, too.
func sheetFigures(l *axis.Layout) []string {
	names := axisFigures(l)
	for _, d := range l.Arr.Drives {
		if l.Scope.Has(d.Key) {
			names = append(names, d.Key)
		}
	}
	return names
}

func (o opened) card(l *axis.Layout) axisCard {
	c := axisCard{Key: l.Key, Label: l.Label, Drive: l.Arr.Label, Href: axisURL(o.stored.ID, l.Key)}
	for _, name := range axisFigures(l) {
		c.Figures = append(c.Figures, o.stages(l.Find(name)))
	}
	c.Offers = offersFor(l)
	return c
}

// stages is a figure at the three stages.
func (o opened) stages(key string) stagesLine {
	line := stagesLine{ID: "figure-" + key, Key: key, Href: o.link(key)}
	text := func(at sheet.Stage) string {
		f, ok := o.Result.Figure(key, at)
		if !ok {
			return "–"
		}
		line.Label = capital(f.Label)
		return figureText(o.Result, o.Units, f)
	}
	line.Found, line.Now, line.Planned = text(sheet.Found), text(sheet.Now), text(sheet.Planned)
	line.Moved = line.Planned != line.Now
	if e, ok := o.Result.Explain(key, sheet.Planned); ok {
		line.Explain = explained(o.Result, e, o.Units, o.link)
	}
	return line
}

func questionsOf(machineID int64, l *axis.Layout) []question {
	var all []question
	for _, q := range l.Arr.Questions {
		ask := question{Axis: l.Label, Key: q.Key, Ask: q.Ask, Answer: l.Answers[q.Key], Action: axisURL(machineID, l.Key) + "/answers"}
		if ask.Answer == "yes" {
			ask.Advice = q.Advice
		}
		all = append(all, ask)
	}
	return all
}
