package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"github.com/go-chi/chi/v5"

	"fettle/plan/bench"
	"fettle/plan/exchange"
	"fettle/plan/upgrade"
	"fettle/web/form"
	"fettle/web/ui"
)

// benchRoutes lists the addresses of the bench figures, below /bench.
func (s *Server) benchRoutes(r chi.Router) {
	r.Get("/", s.handle(s.benchIndex))
	r.Get("/{method}", s.handle(s.benchMethod))
}

// benchMethod works one method out from the inputs that its address carries.
func (s *Server) benchMethod(w http.ResponseWriter, r *http.Request) error {
	m, ok := bench.Named(chi.URLParam(r, "method"))
	if !ok {
		return notFound("There is no such bench figure. The list of them is under “Bench figures”, above.")
	}
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	view, err := benchOf(m, f)
	if err != nil {
		return err
	}
	w.Header().Set("HX-Replace-Url", view.link)
	return s.reply(w, r, view.status(wantsJSON(r)), view)
}

// benchView is the page of one method. As JSON it is what "fettle bench -json" prints.
type benchView struct {
	exchange.Figures
	title    string
	purpose  string
	path     string // without inputs
	typed    bool   // something stands in a field
	link     string // with them
	example  string // with inputs that give an answer; "" where the defaults do, or something is typed
	rows     []benchRow
	wrong    []string // what is wrong with no field of the page
	needed   []string // what is still to be given
	bad      bool     // something typed cannot be taken
	answer   []upgrade.Run
	picture  benchPicture
	figures  []benchFigure
	between  []benchFigure // what the figures were worked out from
	checks   []ui.Check
	table    benchTable
	cautions []string
}

// benchOf works the method out and puts it into words. Where it cannot be, the view says why, and
// holds no figures.
func benchOf(m bench.Method, f *form.Form) (*benchView, error) {
	typed := typedInputs(f)
	c, err := m.Run(typed)
	if problems := (bench.Problems)(nil); err != nil && !errors.As(err, &problems) {
		return nil, fmt.Errorf("bench figure %s: %w", m.Key, err)
	}
	path := "/bench/" + m.Key
	v := &benchView{
		Figures: exchange.FiguresOf(c, err), title: m.Label, purpose: m.Purpose,
		path: path, link: benchLink(path, typed), cautions: m.Cautions,
	}
	v.typed = len(typed) > 0
	if m.Example != nil && !v.typed {
		v.example = benchLink(path, m.Example)
	}
	v.fields(m, f, typed)
	if c.Result != nil {
		v.results(c)
	}
	return v, nil
}

// typedInputs are the fields of the form in which something stands.
func typedInputs(f *form.Form) map[string]string {
	typed := map[string]string{}
	for _, name := range f.Names() {
		if !f.Blank(name) {
			typed[name] = f.Value(name)
		}
	}
	return typed
}

// benchLink is an address that carries its inputs.
func benchLink(path string, typed map[string]string) string {
	query := url.Values{}
	for name, value := range typed {
		query.Set(name, value)
	}
	if len(query) == 0 {
		return path
	}
	return path + "?" + query.Encode()
}

// status is 422 for what cannot be taken. A page of which something is still to be typed is none;
// a program that asks for figures gets none, and is told so.
func (v *benchView) status(program bool) int {
	if v.bad || program && len(v.Problems) > 0 {
		return http.StatusUnprocessableEntity
	}
	return http.StatusOK
}

// unread reports whether a field cannot be read, and says so.
func (v *benchView) unread() bool {
	return slices.ContainsFunc(v.rows, func(row benchRow) bool { return row.Problem != "" })
}

// asked says what is still to be given, in a sentence; nothing where there is an answer or a mistake.
func (v *benchView) asked() string {
	if v.bad || len(v.needed) == 0 {
		return ""
	}
	return "Still to be given: " + strings.Join(v.needed, "; ") + "."
}
