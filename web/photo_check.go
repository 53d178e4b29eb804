package web

import (
	"net/http"
	"path/filepath"
	"strings"

	"fettle/store"
	"fettle/web/form"
	"fettle/web/ui"
)

// dataView says whether the files of photos are as the logs have them.
type dataView struct {
	Missing    []string    `json:"missing"`    // where in the data folder they should be
	Orphans    []string    `json:"orphans"`    // that no entry shows
	Unfinished []string    `json:"unfinished"` // that never came to their end
	Notices    []ui.Notice `json:"-"`
	Confirm    string      `json:"confirm_problem,omitempty"`
}

// dataShow looks, and changes nothing.
func (s *Server) dataShow(w http.ResponseWriter, r *http.Request) error {
	view, err := s.dataView(r)
	if err != nil {
		return err
	}
	if r.URL.Query().Has("removed") {
		view.Notices = append(view.Notices, ui.Notice{Kind: "saved", Word: "Removed.", Say: "What no entry shows is gone."})
	}
	return s.reply(w, r, http.StatusOK, view)
}

// dataRemove removes what no entry shows, by a hand that says so twice.
func (s *Server) dataRemove(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	visitor, err := s.guard.Visitor(r)
	switch {
	case err != nil:
		return err
	case !visitor.Manages():
		return refusal{status: http.StatusForbidden, title: "Not from this device",
			say: "A device that came by a code removes nothing for good. Do it at the computer, or sign in with the passphrase."}
	}
	if f.Value("sure") != "yes" {
		view, err := s.dataView(r)
		if err != nil {
			return err
		}
		view.Confirm = "Tick the box first: it cannot be undone."
		return s.reply(w, r, http.StatusUnprocessableEntity, view)
	}
	if _, err := s.store.RemoveOrphans(r.Context()); err != nil {
		return err
	}
	goTo(w, r, "/data?removed=yes")
	return nil
}

func (s *Server) dataView(r *http.Request) (dataView, error) {
	report, err := s.store.CheckPhotos(r.Context())
	if err != nil {
		return dataView{}, err
	}
	s.photos.Store(&report)
	return dataView{Missing: photoFiles(report.Missing), Orphans: photoFiles(report.Orphans), Unfinished: inDataFolder(report.Unfinished)}, nil
}

// photoFiles says where in the data folder photos are.
func photoFiles(sums []string) (paths []string) {
	for _, sum := range sums {
		paths = append(paths, "photos/"+sum[:2]+"/"+sum)
	}
	return paths
}

// inDataFolder leaves out of paths where the data folder is.
func inDataFolder(paths []string) (short []string) {
	for _, path := range paths {
		path = filepath.ToSlash(path)
		at := max(strings.LastIndex(path, "/photos/"), strings.LastIndex(path, "/renditions/"))
		short = append(short, path[at+1:])
	}
	return short
}

// photoTrouble says on the first page what was found of the photos when they were last looked at; "" is
// nothing that needs a hand.
func photoTrouble(report *store.PhotoReport) ui.Notice {
	if report == nil {
		return ui.Notice{}
	}
	switch missing, more := len(report.Missing), len(report.Orphans)+len(report.Unfinished); {
	case missing > 0:
		return ui.Notice{Kind: "problem", Word: "Photos are missing.",
			Say: "The build log shows " + count(missing, "photo whose file is", "photos whose files are") + " not in the data folder. All else is safe."}
	case more > 0:
		return ui.Notice{Word: "Files are left over.", Say: "The data folder holds " + count(more, "file", "files") + " of photos that no entry shows. Nothing was removed."}
	}
	return ui.Notice{}
}
