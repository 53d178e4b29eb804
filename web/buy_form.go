package web

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"fettle/plan/axis"
	"fettle/plan/order"
	"fettle/plan/unit"
	"fettle/store"
	"fettle/web/form"
)

// Most of what one form may say: well above what anybody keeps.
const (
	mostOffcuts = 500
	mostPieces  = 1_000_000
)

// shoppingTyped gives what is stored with what was typed in its place.
func shoppingTyped(stored store.Shopping, f *form.Form) (store.Shopping, error) {
	sh := store.Shopping{Currency: stored.Currency, Offcuts: stored.Offcuts}
	if f.Has("currency") {
		sh.Currency = f.Value("currency")
	}
	marks := map[string]store.Mark{}
	for _, m := range stored.Marks {
		marks[m.Key] = m
	}
	rack, some := map[int]store.Offcut{}, f.Has("rack")
	for _, name := range f.Names() {
		word, key, ok := strings.Cut(name, ".")
		if !ok || len(key) > 300 {
			continue
		}
		value, m := f.Value(name), marks[key]
		switch word {
		case "state":
			if m.State = order.State(value); !slices.Contains(order.States, m.State) {
				return sh, badRequest("Choose a state of the list.")
			}
		case "got":
			m.Quantity = value
		case "price":
			m.Price = value
		case "note":
			m.Note = value
		case "own":
			if err := offcutTyped(rack, key, value); err != nil {
				return sh, err
			}
			continue
		default:
			continue
		}
		m.Key = key
		marks[key] = m
	}
	for _, key := range slices.Sorted(maps.Keys(marks)) {
		m := marks[key]
		if m.State == "" {
			m.State = order.ToGet
		}
		if m.State != order.ToGet || m.Quantity+m.Price+m.Note != "" {
			sh.Marks = append(sh.Marks, m)
		}
	}
	if some {
		sh.Offcuts = nil
		for _, i := range slices.Sorted(maps.Keys(rack)) {
			if o := rack[i]; o.Label+o.Material+o.Across+o.Second+o.Length != "" {
				sh.Offcuts = append(sh.Offcuts, o)
			}
		}
	}
	return sh, nil
}

// offcutTyped puts one field of a piece in the rack, "3.length", where it belongs.
func offcutTyped(rack map[int]store.Offcut, key, value string) error {
	number, word, _ := strings.Cut(key, ".")
	i, err := strconv.Atoi(number)
	if err != nil || i < 0 || i >= mostOffcuts {
		return badRequest("A rack of at most 500 pieces can be kept.")
	}
	o := rack[i]
	switch word {
	case "label":
		o.Label = value
	case "material":
		o.Material = value
	case "form":
		o.Form = value
	case "across":
		o.Across = value
	case "second":
		o.Second = value
	case "length":
		o.Length = value
	}
	rack[i] = o
	return nil
}

func sameShopping(a, b store.Shopping) bool {
	return a.Currency == b.Currency && slices.Equal(a.Marks, b.Marks) && slices.Equal(a.Offcuts, b.Offcuts)
}

// owned reads the pieces in the rack. One that is not all said, or cannot be read, is not used.
func (b *buying) owned(offcuts []store.Offcut, u unit.Unit) []order.Owned {
	var all []order.Owned
	for i, o := range offcuts {
		field := "own." + strconv.Itoa(i)
		ok := o.Material != ""
		read := func(word, typed string) float64 {
			v, err := unit.Parse(typed, u)
			switch {
			case strings.TrimSpace(typed) == "":
				ok = false
			case err != nil || v <= 0:
				ok = false
				b.problems[field+"."+word] = `Give a length such as 12.5 mm, 1/2" or 250.`
			}
			return v
		}
		owned := order.Owned{Key: field, Label: o.Label, Material: o.Material, Form: o.Form, Across: read("across", o.Across), Length: read("length", o.Length)}
		if o.Form == "flat" {
			owned.Second = read("second", o.Second)
		}
		if ok {
			all = append(all, owned)
		}
	}
	return all
}

// wholeNumber reads a count of pieces.
func wholeNumber(text string) (int, bool) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	return max(n, 0), err == nil && n >= 0 && n <= mostPieces
}

// currencyOf is a currency as a code, whichever way it was typed; "" for none that is known.
func currencyOf(typed string) string {
	code := strings.ToUpper(strings.TrimSpace(typed))
	if order.KnownCurrency(code) {
		return code
	}
	if p, err := order.ParsePrice("1 "+strings.TrimSpace(typed), ""); err == nil {
		return p.Currency
	}
	return ""
}

// called names each mark by the line that it is of, so that it can be told when that is gone.
func (v *buyView) called(marks []store.Mark) []store.Mark {
	for i, m := range marks {
		for _, l := range v.Lines {
			if l.Key == m.Key && !l.Dropped {
				marks[i].Called = l.called
			}
		}
	}
	return marks
}

// changedMeanwhile sets what is stored beside what was typed, of which nothing was saved.
func (v *buyView) changedMeanwhile(theirs store.Shopping, revision int64, mine store.Shopping) {
	v.Saved = "not saved"
	v.Stale = &buyStale{Revision: revision}
	said := func(sh store.Shopping) map[string]string {
		all := map[string]string{"Prices without a sign are in": sh.Currency, "In the rack": count(len(sh.Offcuts), "piece", "pieces")}
		for _, m := range sh.Marks {
			label := m.Called
			if label == "" {
				label = m.Key
			}
			all[label] = strings.Join(slices.DeleteFunc([]string{string(m.State), m.Quantity, m.Price, m.Note}, func(s string) bool { return s == "" }), ", ")
		}
		return all
	}
	a, b := said(mine), said(theirs)
	labels := maps.Clone(a)
	maps.Copy(labels, b)
	or := func(s string) string {
		if s == "" {
			return "blank"
		}
		return s
	}
	for _, label := range slices.Sorted(maps.Keys(labels)) {
		if a[label] != b[label] {
			v.Stale.Theirs = append(v.Stale.Theirs, planDifference{Label: label, Mine: or(a[label]), Theirs: or(b[label])})
		}
	}
}

// fileName is what files of a machine are called.
func fileName(machine string) string { return axis.NewKey(machine, nil) }
