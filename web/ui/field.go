package ui

// Field is one line of text that the user types.
type Field struct {
	Name      string `json:"name"` // also the element's id
	Label     string `json:"label"`
	Value     string `json:"value"` // as typed
	Hint      string `json:"hint,omitempty"`
	Problem   string `json:"problem,omitempty"`
	Unit      string `json:"unit,omitempty"`      // shown behind the field
	Otherwise string `json:"otherwise,omitempty"` // what counts while nothing is typed, shown in the empty field
	InputMode string `json:"-"`                   // text unless set; a length needs letters and fractions: text
	Big       bool   `json:"-"`
	Required  bool   `json:"-"`
}

// Option is one line of a [Choice].
type Option struct {
	Value  string `json:"value"`
	Text   string `json:"text"`
	Says   string `json:"says,omitempty"` // what it means, where the text alone does not tell: of [RadioCards] only
	Chosen bool   `json:"chosen,omitempty"`
}

// Choice is a list from which one line is chosen.
type Choice struct {
	Name    string   `json:"name"` // also the element's id
	Label   string   `json:"label"`
	Options []Option `json:"options"`
	Hint    string   `json:"hint,omitempty"`
	Problem string   `json:"problem,omitempty"`
}

// Area is several lines of text that the user types.
type Area struct {
	Name    string `json:"name"` // also the element's id
	Label   string `json:"label"`
	Value   string `json:"value"` // as typed
	Hint    string `json:"hint,omitempty"`
	Problem string `json:"problem,omitempty"`
}

// Radios is a list of which one line is chosen, all of them in sight.
type Radios struct {
	Name    string   `json:"name"` // also the element's id
	Label   string   `json:"label"`
	Options []Option `json:"options"`
	Problem string   `json:"problem,omitempty"`
}

// Tick is a box that is ticked or not.
type Tick struct {
	Name  string `json:"name"` // also the element's id
	Label string `json:"label"`
	On    bool   `json:"on"`
}

func (f Field) inputMode() string {
	if f.InputMode == "" {
		return "text"
	}
	return f.InputMode
}

// describedBy names the elements that explain a field to a reader of the screen.
func describedBy(name, hint, problem string) string {
	switch {
	case hint != "" && problem != "":
		return name + "-problem " + name + "-hint"
	case problem != "":
		return name + "-problem"
	case hint != "":
		return name + "-hint"
	default:
		return ""
	}
}
