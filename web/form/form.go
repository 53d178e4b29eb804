// Package form keeps a posted form as it was typed, with the problems found in it.
//
// A field's text is never changed on its way through: what was typed is what the page shows again,
// good or bad. A problem is one sentence beside its field that says what is accepted:
//
//	f, err := form.Read(r)
//	if err != nil {
//		return err // too large, or no form at all
//	}
//	amount, err := unit.ParseLength(f.Value("amount"))
//	if err != nil {
//		f.Fail("amount", `give a length such as 12, 12.5 mm, 0.5 in, 1/2" or 15 thou`)
//	}
//	return s.reply(w, r, f.Status(), page) // 422 and the same page while a problem stands
//
// The package knows no field of any page and parses no figures: that is plan/unit's work.
package form

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// ErrUnreadable says that a request held no form that can be read: broken encoding, or a kind of
// content that no page of ours sends.
var ErrUnreadable = errors.New("form cannot be read")

// memory is how much of an upload is held in memory; the rest of it waits in temporary files.
const memory = 1 << 20

// Problem is what is wrong with one field, in a sentence that says what is accepted.
type Problem struct {
	Field string `json:"field"`
	Say   string `json:"say"`
}

// Error gives the sentence, led by the field's name.
func (p *Problem) Error() string { return p.Field + ": " + p.Say }

// Form is what was typed and what is wrong with it. The zero Form is empty and without problems.
type Form struct {
	values   url.Values
	problems []Problem
}

// New makes a form of values, such as those of a saved draft.
func New(values url.Values) *Form { return &Form{values: values} }

// Read takes the form from r: its body, or its query when the method is GET or HEAD. It returns
// [ErrUnreadable], or an [http.MaxBytesError] when the body is larger than is allowed.
func Read(r *http.Request) (*Form, error) {
	if r.Method == http.MethodGet || r.Method == http.MethodHead {
		values, err := url.ParseQuery(r.URL.RawQuery)
		if err != nil {
			return nil, fmt.Errorf("%w: %w", ErrUnreadable, err)
		}
		return Of(values)
	}
	if err := parseBody(r); err != nil {
		if tooLarge := (*http.MaxBytesError)(nil); errors.As(err, &tooLarge) {
			return nil, err
		}
		return nil, fmt.Errorf("%w: %w", ErrUnreadable, err)
	}
	return Of(r.PostForm)
}

func parseBody(r *http.Request) error {
	if strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/form-data") {
		return r.ParseMultipartForm(memory)
	}
	return r.ParseForm()
}

// Of makes a form of values that came from outside. It refuses bytes that are no text with [ErrUnreadable]:
// they could be neither stored nor shown again.
func Of(values url.Values) (*Form, error) {
	for name, all := range values {
		for _, value := range append(all, name) {
			if !utf8.ValidString(value) || strings.ContainsRune(value, 0) {
				return nil, fmt.Errorf("%w: field %q is not UTF-8 text", ErrUnreadable, name)
			}
		}
	}
	return New(values), nil
}

// Value gives the text of the first field called name as typed, or "".
func (f *Form) Value(name string) string { return f.values.Get(name) }

// Values gives the texts of all fields called name, in the order of the page.
func (f *Form) Values(name string) []string { return f.values[name] }

// Has reports whether a field called name was sent at all, be it empty. An unticked box is not sent.
func (f *Form) Has(name string) bool { return f.values.Has(name) }

// Blank reports whether nothing but space was typed into the field called name.
func (f *Form) Blank(name string) bool { return strings.TrimSpace(f.Value(name)) == "" }

// Names gives the names of all fields sent, sorted.
func (f *Form) Names() []string {
	names := make([]string, 0, len(f.values))
	for name := range f.values {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// Encoded gives the whole form as text, in the form that [url.ParseQuery] reads, for keeping a draft.
func (f *Form) Encoded() string { return f.values.Encode() }

// Fail marks the field called name with a sentence that says what is accepted. The first problem
// of a field stands; later ones are usually its consequences.
func (f *Form) Fail(name, sentence string) {
	if f.Problem(name) == "" {
		f.problems = append(f.problems, Problem{Field: name, Say: sentence})
	}
}

// Problem gives the sentence beside the field called name, or "".
func (f *Form) Problem(name string) string {
	for _, p := range f.problems {
		if p.Field == name {
			return p.Say
		}
	}
	return ""
}

// Problems gives all problems in the order in which they were found.
func (f *Form) Problems() []Problem { return slices.Clone(f.problems) }

// OK reports whether no field has a problem.
func (f *Form) OK() bool { return len(f.problems) == 0 }

// Status is 200 for a form without problems and 422 otherwise.
func (f *Form) Status() int {
	if f.OK() {
		return http.StatusOK
	}
	return http.StatusUnprocessableEntity
}

// Text gives the field called name without the space around it, and marks it when it is blank or
// longer than most characters.
func (f *Form) Text(name, what string, most int) string {
	text := strings.TrimSpace(f.Value(name))
	switch length := utf8.RuneCountInString(text); {
	case length == 0:
		f.Fail(name, "give "+what)
	case length > most:
		f.Fail(name, fmt.Sprintf("give %s in at most %d characters; this has %d", what, most, length))
	}
	return text
}

// Choice gives the field called name when it is one of allowed, and otherwise marks it and gives
// the first of them.
func (f *Form) Choice(name string, allowed ...string) string {
	if value := f.Value(name); slices.Contains(allowed, value) {
		return value
	}
	f.Fail(name, "choose one of the list")
	return allowed[0]
}

// Whole gives the field called name as a whole number from least to most, and marks it when it is
// not one.
func (f *Form) Whole(name string, least, most int) int {
	n, err := strconv.Atoi(strings.TrimSpace(f.Value(name)))
	if err != nil || n < least || n > most {
		f.Fail(name, fmt.Sprintf("give a whole number from %d to %d", least, most))
		return least
	}
	return n
}
