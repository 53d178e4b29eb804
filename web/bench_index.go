package web

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
	"unicode"

	"fettle/plan/bench"
	"fettle/web/form"
)

// benchIndexView lists the methods by field.
type benchIndexView struct {
	Query  string       `json:"query,omitempty"` // as typed
	Fields []benchField `json:"fields"`          // those in which something was found
	Tally  string       `json:"-"`
}

type benchField struct {
	Field   string        `json:"field"`
	Methods []benchListed `json:"methods"`
	id      string
}

type benchListed struct {
	Key     string `json:"key"`
	Label   string `json:"label"`
	Purpose string `json:"purpose"`
	Href    string `json:"href"`
}

// benchIndex lists the methods that say every word of q.
func (s *Server) benchIndex(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	view := benchIndexOf(f.Value("q"))
	link := "/bench"
	if !f.Blank("q") {
		link = benchLink(link, map[string]string{"q": f.Value("q")})
	}
	w.Header().Set("HX-Replace-Url", link)
	return s.reply(w, r, http.StatusOK, view)
}

func benchIndexOf(query string) benchIndexView {
	v := benchIndexView{Query: query, Fields: []benchField{}}
	words := wordsOf(query)
	all, found := 0, 0
	for i, name := range bench.Fields {
		field := benchField{Field: name, id: fmt.Sprintf("field-%d", i+1)}
		for _, m := range bench.Methods() {
			if m.Field != name {
				continue
			}
			all++
			if saysAll(m, words) {
				found++
				field.Methods = append(field.Methods, benchListed{m.Key, m.Label, m.Purpose, "/bench/" + m.Key})
			}
		}
		if len(field.Methods) > 0 {
			v.Fields = append(v.Fields, field)
		}
	}
	switch {
	case len(words) == 0:
		v.Tally = fmt.Sprintf("%d calculations", all)
	case found == 0:
		v.Tally = "Nothing is called that. Try one word of it: thread, dial, bearing, play."
	default:
		v.Tally = fmt.Sprintf("%d of %d", found, all)
	}
	return v
}

// saysAll reports whether each of the words begins a word that the method says about itself or its
// inputs. All are in lower case.
func saysAll(m bench.Method, words []string) bool {
	said := []string{m.Key, m.Label, m.Field, m.Purpose}
	for _, in := range m.Inputs {
		said = append(said, in.Label)
	}
	text := wordsOf(strings.Join(said, " "))
	for _, word := range words {
		if !slices.ContainsFunc(text, func(w string) bool { return strings.HasPrefix(w, word) }) {
			return false
		}
	}
	return true
}

// wordsOf parts a text into its words and numbers, in lower case.
func wordsOf(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}
