package machine

import (
	"fmt"
	"slices"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/part"
	"fettle/plan/sheet"
	"fettle/plan/upgrade"
)

// Clash is an operation that needs what is not there: the machine itself while
// it is in pieces, or more room than it has.
type Clash struct {
	Upgrade   string // ID
	Operation part.Operation
	Needs     part.Capability
	Says      string
}

// gives are the capabilities of a machine by its kind, and so what is wanting
// while it is apart.
var gives = map[string][]part.Capability{
	"lathe":  {part.Turning, part.Boring, part.Threads, part.Dividing},
	"mill":   {part.Milling, part.Dividing},
	"shaper": {part.Milling},
}

// Gives lists what a machine of the kind can do itself.
func Gives(kind string) []part.Capability { return gives[kind] }

// elsewhere is what may be done about a capability that is wanting.
const elsewhere = "borrow one, put the old parts back for it, or make it before"

// Clashes names each operation of the upgrades that count and are not finished
// that needs the machine itself while one of its axes is in pieces, or that
// does not fit into it.
func (p *Plan) Clashes() []Clash {
	var all []Clash
	for _, s := range p.Sites {
		if s.State == upgrade.Finished {
			continue
		}
		for _, o := range s.Make(p.Result).Steps {
			for _, c := range o.Needs {
				if !slices.Contains(gives[p.Machine.Kind], c) {
					continue
				}
				clash := Clash{Upgrade: s.ID, Operation: o, Needs: c}
				switch short := p.tooLarge(o, c); {
				case o.Out != "":
					apart := "its " + p.axisLabel(o.Out)
					if s.Kind.About().Whole {
						apart = "it"
					}
					clash.Says = fmt.Sprintf("%s needs %s, which this machine gives, while %s is in pieces: %s.", named(o), c, apart, elsewhere)
				case short != "":
					clash.Says = fmt.Sprintf("%s needs %s: %s.", named(o), c, short)
				default:
					continue
				}
				all = append(all, clash)
			}
		}
	}
	return all
}

// named is an operation by the first clause of what is done: a comma alone ends none.
func named(o part.Operation) string {
	head := o.Do
	for _, end := range []string{": ", "; ", ". ", ", then "} {
		head, _, _ = strings.Cut(head, end)
	}
	return "“" + strings.TrimSuffix(head, ".") + "”"
}

func (p *Plan) axisLabel(key string) string {
	if l := p.Layout(key); l != nil {
		return lower(l.Label)
	}
	return key
}

// tooLarge says where a piece does not go into the machine; "" where it does,
// or where that is not known.
func (p *Plan) tooLarge(o part.Operation, c part.Capability) string {
	figure := func(l *axis.Layout, name string) (float64, bool) {
		f, ok := p.Result.Figure(l.Find(name), sheet.Now)
		return f.Value, ok && f.Known()
	}
	for _, l := range p.Layouts {
		switch {
		case p.Machine.Kind == "lathe" && (c == part.Turning || c == part.Boring):
			if swing, ok := figure(l, "swing_bed"); ok && o.Envelope[1] > swing {
				return fmt.Sprintf("it swings %s, and %s swings over the bed", p.Units.With(o.Envelope[1]), p.Units.With(swing))
			}
		case p.Machine.Kind == "mill" && c == part.Milling && l.Capacity.Key == "mill_reach":
			if travel, ok := figure(l, "travel"); ok && min(o.Envelope[0], o.Envelope[1]) > travel {
				return fmt.Sprintf("it is %s across, and the %s goes %s", p.Units.With(min(o.Envelope[0], o.Envelope[1])), lower(l.Label), p.Units.With(travel))
			}
		}
	}
	return ""
}
