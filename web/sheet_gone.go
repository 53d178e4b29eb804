package web

import (
	"slices"
	"strconv"
	"strings"

	"fettle/plan/axis"
	"fettle/web/form"
)

// goneThing was taken off while the page is open. The form carries what was measured of it, so that it
// can be put back.
type goneThing struct {
	Kind  string // part or obstacle
	Key   string
	Label string
	Holds []typedField
}

// typedField is a field of a form that is kept out of sight.
type typedField struct{ Name, Value string }

// goneKeys are the kinds and keys of what was taken off and not put back.
func goneKeys(f *form.Form, a axis.Axis) [][2]string {
	var gone [][2]string
	add := func(kind, key string) {
		if axis.IsKey(key) && !slices.Contains(keysOf(form.New(nil), a), key) && !slices.Contains(gone, [2]string{kind, key}) {
			gone = append(gone, [2]string{kind, key})
		}
	}
	for _, kind := range []string{"part", "obstacle"} {
		for _, key := range f.Values("gone_" + kind) {
			add(kind, key)
		}
		if key, taken := strings.CutPrefix(f.Value("do"), "take_off_"+kind+":"); taken {
			add(kind, key)
		}
	}
	return gone
}

// putAside keeps what was taken off on the page, out of sight.
func (v *sheetView) putAside(f *form.Form, a axis.Axis) {
	for _, is := range goneKeys(f, a) {
		kind, key := is[0], is[1]
		g := goneThing{Kind: kind, Key: key, Label: f.Value(key + ".label")}
		for _, name := range f.Names() {
			if strings.HasPrefix(name, key+".") {
				g.Holds = append(g.Holds, typedField{name, f.Value(name)})
			}
		}
		if place := slices.Index(f.Values(kind), key); place >= 0 {
			g.Holds = append(g.Holds, typedField{key + ".place", strconv.Itoa(place)})
		}
		v.gone = append(v.gone, g)
	}
}
