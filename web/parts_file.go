package web

import (
	"bytes"
	"encoding/csv"
	"mime"
	"net/http"
	"strconv"
	"strings"

	"github.com/go-chi/chi/v5"

	"fettle/plan/axis"
	"fettle/plan/drawing"
	"fettle/plan/part"
	"fettle/plan/upgrade"
	"fettle/web/pdf"
)

// Names of files that are of no one part. A part's key has no stroke in it.
const (
	allFile      = "drawings"
	assemblyFile = "assembly"
	fittingFile  = "order-of-fitting"
	stripEnd     = "-strip"
	anglesEnd    = "-angles"
)

var noSuchDrawing = notFound("There is no such drawing. The plan may have been changed since the page was opened.")

// partsFile gives drawings as a file: all of them, one sheet, or a dial's strip.
func (s *Server) partsFile(w http.ResponseWriter, r *http.Request) error {
	m, at, err := s.planAt(r)
	if err != nil {
		return err
	}
	name, ext, _ := strings.Cut(chi.URLParam(r, "file"), ".")
	u := m.Upgrades[at]
	draft := ""
	if u.State == upgrade.Draft {
		draft = u.ID
	}
	p, err := m.Build(draft)
	if err != nil {
		return err
	}
	set := partsSet{stored: m, plan: p, site: p.Site(u.ID), choice: partsChoiceOf(r, p.Units), today: s.now()}
	if set.site == nil {
		return noSuchDrawing
	}
	set.make = set.site.Make(p.Result)
	f := file{name: axis.NewKey(m.Name, nil) + "-" + u.ID + "-" + name + "." + ext}
	if err := set.write(&f, name, ext); err != nil {
		return err
	}
	return s.send(w, r, f)
}

// file is something to be kept, or looked at by itself.
type file struct {
	name string
	kind string // content type
	open bool   // the browser shows it, rather than keeping it
	body bytes.Buffer
}

// send replies with a file.
func (s *Server) send(w http.ResponseWriter, r *http.Request, f file) error {
	how := "attachment"
	if f.open {
		how = "inline"
	}
	header := w.Header()
	header.Set("Content-Type", f.kind)
	header.Set("Content-Length", strconv.Itoa(f.body.Len()))
	header.Set("Content-Disposition", mime.FormatMediaType(how, map[string]string{"filename": f.name}))
	header.Set("Cache-Control", "no-store")
	if _, err := f.body.WriteTo(w); err != nil {
		s.log.DebugContext(r.Context(), "visitor left", "path", r.URL.Path, "err", err)
	}
	return nil
}

// write writes what name says, in the format that ext says.
func (s *partsSet) write(f *file, name, ext string) error {
	if key, ok := strings.CutSuffix(name, anglesEnd); ok && ext == "csv" {
		if p, ok := s.make.Part(key); ok && p.Dial != nil {
			return f.angles(p.Dial)
		}
		return noSuchDrawing
	}
	if key, ok := strings.CutSuffix(name, stripEnd); ok && ext != "pdf" {
		p, ok := s.make.Part(key)
		if !ok {
			return noSuchDrawing
		}
		d := drawing.DialStrip(p, "strip")
		if d == nil {
			return noSuchDrawing
		}
		return f.draw(ext, f.name, []*drawing.Drawing{d})
	}
	return f.draw(ext, s.stored.Name+", "+lowered(s.site.Kind.About().Label), s.named(name))
}

// named are the sheets that a file's name stands for; none where there is no such thing.
func (s *partsSet) named(name string) []*drawing.Drawing {
	all := s.sheets()
	whole := sheetsOf(all, "")
	key, strip := strings.CutSuffix(name, stripEnd)
	switch {
	case name == allFile:
		return all
	case name == assemblyFile && len(whole) > 0:
		return whole[:1]
	case name == fittingFile && len(whole) > 1:
		return whole[1:]
	case key == "":
		return nil
	}
	of := sheetsOf(all, key)
	if p, ok := s.make.Part(key); ok && strip {
		return stripsOf(of, p)
	}
	return of
}

// stripsOf are the sheets on which a dial's strip is: all but the first, which is the part itself.
func stripsOf(sheets []*drawing.Drawing, p *part.Part) []*drawing.Drawing {
	if p.Dial == nil || len(sheets) == 0 {
		return nil
	}
	return sheets[1:]
}

// draw writes sheets: a PDF of all of them, the first alone in the other formats.
func (f *file) draw(ext, title string, sheets []*drawing.Drawing) error {
	if len(sheets) == 0 {
		return noSuchDrawing
	}
	switch ext {
	case "svg":
		f.kind, f.open = "image/svg+xml", true
		return sheets[0].SVG(&f.body)
	case "dxf":
		f.kind = "image/vnd.dxf"
		return sheets[0].DXF(&f.body)
	case "pdf":
		f.kind, f.open = "application/pdf", true
		return pdf.Write(&f.body, title, sheets)
	}
	return noSuchDrawing
}

// angles writes a dial's lines as a table.
func (f *file) angles(d *part.Dial) error {
	f.kind = "text/csv; charset=utf-8"
	out := csv.NewWriter(&f.body)
	out.UseCRLF = true
	if err := out.Write([]string{"line", "numeral", "degrees", "along the strip mm", "line length mm"}); err != nil {
		return err
	}
	number := func(v float64) string { return strconv.FormatFloat(v, 'f', 4, 64) }
	for _, l := range drawing.DialLines(d) {
		if err := out.Write([]string{strconv.Itoa(l.Number), l.Numeral, number(l.Angle), number(l.Arc), number(l.Length)}); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}
