package web

import (
	"cmp"
	"math"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"fettle/plan/machine"
	"fettle/plan/part"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web/ui"
)

// offersView is what a machine could become: the upgrades that suit it, with what each would gain.
type offersView struct {
	Machine string       `json:"machine"`
	Units   string       `json:"units"`
	Groups  []offerGroup `json:"groups"` // those that better one figure, and those that are told in words
	Told    string       `json:"told"`   // how many of how many are shown
	Found   bool         `json:"-"`
	Filter  offerFilter  `json:"-"`
	URL     string       `json:"-"` // of the machine

	none bool // there is no upgrade for it at all
}

// offerGroup is what betters one figure.
type offerGroup struct {
	ID     string      `json:"-"`
	Title  string      `json:"title"`
	Axis   string      `json:"axis,omitempty"`
	Now    string      `json:"now,omitempty"` // the figure as it is planned
	Goal   string      `json:"figure,omitempty"`
	Ways   string      `json:"-"` // address that asks which of them reach a value
	Offers []offerLine `json:"offers"`
}

// offerLine is one upgrade on one axis.
type offerLine struct {
	ID       string    `json:"-"`
	Kind     string    `json:"kind"`
	Label    string    `json:"label"`
	Says     string    `json:"way,omitempty"` // which way of making it
	Axis     string    `json:"axis"`          // key
	On       string    `json:"on"`            // the axis in words, or the machine
	Purpose  string    `json:"purpose"`
	Told     string    `json:"told"` // "gains", …
	Gain     string    `json:"gain"`
	More     string    `json:"more,omitempty"` // what is to be added to it
	PerHour  string    `json:"per_hour,omitempty"`
	Hours    string    `json:"hours"`
	Risk     string    `json:"risk"`
	Undo     string    `json:"undo"`
	Needs    []string  `json:"needs"`
	Own      bool      `json:"made_on_this_machine"`
	Guided   bool      `json:"guided"`
	Missing  []ui.Link `json:"missing,omitempty"`
	Stops    []string  `json:"stops,omitempty"`
	Tight    []string  `json:"tight,omitempty"`
	Taken    []ui.Link `json:"taken_by,omitempty"` // the upgrades that have what it takes
	Follows  string    `json:"follows,omitempty"`
	Measure  []string  `json:"measure,omitempty"`
	Cautions []string  `json:"cautions"`
	Proof    string    `json:"proof"`
	Begun    []ui.Link `json:"begun,omitempty"` // upgrades of the kind that are there already
	Inputs   []input   `json:"inputs,omitempty"`
}

// input is one thing that a draft begins with.
type input struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// offers shows what a machine could become.
func (s *Server) offers(w http.ResponseWriter, r *http.Request) error {
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	all, o, err := s.offersOf(m)
	if err != nil {
		return err
	}
	v := &offersView{Machine: m.Name, Units: unitWords(m.Units), URL: machineURL(m.ID)}
	v.Filter = newOfferFilter(m, r.URL.Query())
	shown := slices.DeleteFunc(slices.Clone(all), func(x machine.Offer) bool { return !v.Filter.lets(x) })
	v.group(shown, o)
	v.Found, v.none = len(shown) > 0, len(all) == 0
	v.Told = strconv.Itoa(len(shown)) + " of " + count(len(all), "upgrade", "upgrades")
	return s.reply(w, r, http.StatusOK, v)
}

// offersOf are the offers of a machine, and what their words are written with.
func (s *Server) offersOf(m store.Stored) ([]machine.Offer, opened, error) {
	p, err := m.Build("")
	if err != nil {
		return nil, opened{}, err
	}
	all, err := s.offered.of(m)
	return all, opened{stored: m, Plan: p}, err
}

// group puts together what betters one figure, the best for an hour's work first.
func (v *offersView) group(offers []machine.Offer, o opened) {
	at := map[string]int{}
	for _, x := range offers {
		key := "words." + x.Axis.Key
		switch {
		case x.Goal.Key != "":
			key = x.Axis.Key + "." + x.Goal.Label // a figure that an upgrade brings along has another key each time
		case x.About.Whole:
			key = "words"
		}
		i, ok := at[key]
		if !ok {
			i = len(v.Groups)
			at[key] = i
			v.Groups = append(v.Groups, o.offerGroup(x, i))
		}
		v.Groups[i].Offers = append(v.Groups[i].Offers, o.offerLine(x))
	}
	for i := range v.Groups {
		order := map[string]float64{}
		for _, x := range offers {
			order[offerID(x)] = rank(x)
		}
		slices.SortStableFunc(v.Groups[i].Offers, func(a, b offerLine) int { return cmp.Compare(order[b.ID], order[a.ID]) })
	}
	slices.SortStableFunc(v.Groups, func(a, b offerGroup) int { return cmp.Compare(b.worth(), a.worth()) })
}

// rank is by how much an offer comes before others that better the same figure.
func rank(x machine.Offer) float64 {
	switch per := x.PerHour(); {
	case !math.IsNaN(per):
		return 1 + math.Max(per, 0)
	case x.Told == machine.Gains:
		return 1
	case x.Told == machine.Unmeasured:
		return 0
	case x.Told == machine.Nothing:
		return -1
	case x.Told == machine.Impossible, x.Told == machine.Taken:
		return -2
	}
	return 0
}

// worth puts groups in which something can be gained first, and those in words last.
func (g offerGroup) worth() int {
	switch {
	case g.Goal == "":
		return 0
	case slices.ContainsFunc(g.Offers, func(l offerLine) bool { return l.Told == toldWords[machine.Gains] }):
		return 3
	case slices.ContainsFunc(g.Offers, func(l offerLine) bool { return l.Told == toldWords[machine.Unmeasured] }):
		return 2
	}
	return 1
}

func offerID(x machine.Offer) string {
	return strings.Trim(x.About.Key+"-"+x.Axis.Key+"-"+strings.ReplaceAll(x.Trial.Says, " ", "-"), "-")
}

// begin is where a draft of a kind is begun.
func (v *offersView) begin() string { return v.URL + "/upgrades" }

// offerFilter is what of the offers is looked at.
type offerFilter struct {
	Words   ui.Field
	Axis    ui.Choice
	Hours   ui.Choice
	Undo    ui.Choice
	Only    ui.Tick
	Without []ui.Tick
	Any     bool // whether anything is left out

	found   map[string]bool // keys of the kinds that the words find; nil where none were typed
	hours   float64
	undo    upgrade.Undo
	without []part.Capability
}

// undoWords are what the choice of a way back is called in an address.
var undoWords = map[string]upgrade.Undo{"fully": upgrade.Undone, "part": upgrade.UndonePart}

func newOfferFilter(m store.Stored, q url.Values) offerFilter {
	f := offerFilter{
		Words: ui.Field{Name: "q", Label: "In words", Value: q.Get("q"), Hint: "backlash, compound, end play, riser …"},
		Axis:  ui.Choice{Name: "axis", Label: "Axis", Options: []ui.Option{{Text: "all"}}},
		Hours: ui.Choice{Name: "hours", Label: "Work, at the most", Options: chosen([]ui.Option{{Text: "any"}, {Value: "4", Text: "4 hours"}, {Value: "8", Text: "8 hours"}, {Value: "16", Text: "16 hours"}}, q.Get("hours"))},
		Undo:  ui.Choice{Name: "undo", Label: "Can be undone", Options: chosen([]ui.Option{{Text: "or not"}, {Value: "fully", Text: "fully"}, {Value: "part", Text: "fully or in part"}}, q.Get("undo"))},
		Only:  ui.Tick{Name: "gains", Label: "Only what gains something here", On: q.Get("gains") != ""},
		undo:  undoWords[q.Get("undo")],
	}
	for _, a := range m.Axes {
		f.Axis.Options = append(f.Axis.Options, ui.Option{Value: a.Key, Text: a.Label, Chosen: a.Key == q.Get("axis")})
	}
	f.hours, _ = strconv.ParseFloat(q.Get("hours"), 64)
	for _, c := range part.Capabilities {
		if c == part.Bench {
			continue
		}
		name := "without." + strings.Fields(string(c))[0]
		on := q.Get(name) != ""
		f.Without = append(f.Without, ui.Tick{Name: name, Label: string(c), On: on})
		if on {
			f.without = append(f.without, c)
		}
	}
	if words := strings.TrimSpace(q.Get("q")); words != "" {
		f.found = map[string]bool{}
		for _, k := range upgrade.Find(words) {
			f.found[k.About().Key] = true
		}
	}
	f.Any = f.found != nil || f.axis() != "" || f.hours > 0 || f.undo != 0 || f.Only.On || len(f.without) > 0
	return f
}

func (f *offerFilter) axis() string { return chosenOf(f.Axis) }

// lets tells whether an offer is looked at.
func (f *offerFilter) lets(x machine.Offer) bool {
	a := x.About
	switch {
	case f.found != nil && !f.found[a.Key]:
	case f.axis() != "" && f.axis() != x.Axis.Key:
	case f.hours > 0 && a.Hours[1] > f.hours:
	case f.undo != 0 && a.Undo > f.undo:
	case f.Only.On && x.Told != machine.Gains:
	case slices.ContainsFunc(f.without, func(c part.Capability) bool { return slices.Contains(a.Needs, c) }):
	default:
		return true
	}
	return false
}
