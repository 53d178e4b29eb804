package web

import (
	"encoding/json"
	"fmt"
	"mime"
	"net/http"
	"strconv"
	"strings"

	"github.com/a-h/templ"
)

// View is a finished page. Its exported fields are what the page says as JSON.
type View interface {
	Page() templ.Component // the whole page
}

// parted is a view of which htmx replaces a part. The page must contain that same part.
type parted interface {
	Part() templ.Component
}

// reply writes view as JSON, as a part or as a page. All of it is made before the first byte is
// written, so that a failure on the way can still become an error page.
func (s *Server) reply(w http.ResponseWriter, r *http.Request, status int, view View) error {
	body := templ.GetBuffer()
	defer templ.ReleaseBuffer(body)
	contentType := "text/html; charset=utf-8"
	if wantsJSON(r) {
		contentType = "application/json"
		w.Header().Set("Content-Disposition", `attachment; filename="fettle.json"`) // a browser that is led here shows nothing
		encoder := json.NewEncoder(body)
		encoder.SetIndent("", "  ")
		if err := encoder.Encode(view); err != nil {
			return fmt.Errorf("write %T as JSON: %w", view, err)
		}
	} else if err := component(r, view).Render(r.Context(), body); err != nil {
		return fmt.Errorf("write %T as HTML: %w", view, err)
	}
	header := w.Header()
	header.Set("Content-Type", contentType)
	header.Set("Content-Length", strconv.Itoa(body.Len()))
	header.Set("Cache-Control", "no-store")
	header.Add("Vary", "HX-Request, Accept")
	w.WriteHeader(status)
	if _, err := body.WriteTo(w); err != nil {
		s.log.DebugContext(r.Context(), "visitor left", "path", r.URL.Path, "err", err)
	}
	return nil
}

func component(r *http.Request, view View) templ.Component {
	if p, ok := view.(parted); ok && isPart(r) {
		return p.Part()
	}
	return view.Page()
}

// goTo sends the browser to a page of ours after a change; htmx is told in its own way to load it
// whole.
func goTo(w http.ResponseWriter, r *http.Request, path string) {
	if isPart(r) {
		w.Header().Set("HX-Redirect", path)
		w.Header().Set("Cache-Control", "no-store")
		w.WriteHeader(http.StatusNoContent)
		return
	}
	http.Redirect(w, r, path, http.StatusSeeOther)
}

// isPart reports whether htmx asks, for a part of the page that it shows already.
func isPart(r *http.Request) bool {
	return r.Header.Get("HX-Request") == "true" && r.Header.Get("HX-History-Restore-Request") != "true"
}

// wantsJSON reports whether Accept puts application/json before text/html. A bare */* is no wish.
func wantsJSON(r *http.Request) bool {
	wishes := map[string]float64{}
	for _, wish := range strings.Split(strings.Join(r.Header.Values("Accept"), ","), ",") {
		kind, params, err := mime.ParseMediaType(wish)
		if err != nil {
			continue
		}
		weight := 1.0
		if q, err := strconv.ParseFloat(params["q"], 64); err == nil {
			weight = q
		}
		wishes[kind] = max(wishes[kind], weight)
	}
	return wishes["application/json"] > wishes["text/html"]
}
