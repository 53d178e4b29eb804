package web

import (
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"syscall"
	"time"

	"github.com/go-chi/chi/v5"

	"fettle/plan/buildlog"
	"fettle/store"
	"fettle/store/photo"
)

const (
	mostPhotos = 40 // of an entry
	// The largest body of a form with photos: a hand without scripts sends several at once.
	photosLimit = 8*photo.MostBytes + formLimit
	photoLimit  = photo.MostBytes + formLimit // of one photo, and something to see that it is too large
	uploadTime  = 15 * time.Minute            // for either to arrive in: 400 MB at 4 Mbit/s
	mostUploads = 12                          // at the same time, of everybody
)

// photoShown is a photo as pages show it.
type photoShown struct {
	SHA256   string        `json:"sha256"`
	Caption  string        `json:"caption,omitempty"`
	Role     buildlog.Role `json:"role,omitempty"`
	Small    string        `json:"small"`
	Large    string        `json:"large"`
	Original string        `json:"original"`
	Width    int           `json:"width"` // of the original, the right way up
	Height   int           `json:"height"`
	Taken    string        `json:"taken,omitempty"`
	Placed   bool          `json:"-"` // the original says where it was taken
}

func shown(p buildlog.Photo) photoShown {
	v := photoShown{SHA256: p.SHA256, Caption: p.Caption, Role: p.Role, Width: p.Width, Height: p.Height, Placed: p.Place != "",
		Small: photoURL(p.SHA256, "small"), Large: photoURL(p.SHA256, "large"), Original: photoURL(p.SHA256, "original")}
	if at, err := time.Parse(buildlog.TakenLayout, p.Taken); err == nil {
		v.Taken = at.Format(dayAndTime)
	}
	return v
}

// Alt says what a photo shows, for whoever does not see it.
func (p photoShown) Alt() string {
	switch {
	case p.Caption != "":
		return p.Caption
	case p.Taken != "":
		return "Photo taken on " + p.Taken
	}
	return "Photo without a caption"
}

func photoURL(sha256, size string) string { return "/photos/" + sha256 + "/" + size }

// photoSizes are the names of sizes in addresses.
var photoSizes = map[string]photo.Size{"small": photo.Small, "large": photo.Large, "original": photo.Original}

// photoShow sends a photo in one of its sizes. What an address gives never changes, so that a browser
// need not ask twice; those who are not signed in get nothing, and no cache on the way keeps it.
func (s *Server) photoShow(w http.ResponseWriter, r *http.Request) error {
	sha256, name := chi.URLParam(r, "photo"), chi.URLParam(r, "size")
	size, ok := photoSizes[name]
	if !ok {
		return notFound("")
	}
	is, err := s.store.Photo(r.Context(), sha256)
	if err != nil {
		return noPhoto(err)
	}
	file, err := s.store.OpenPhoto(r.Context(), sha256, size)
	if err != nil {
		return noPhoto(err)
	}
	defer file.Close()
	header := w.Header()
	header.Set("Content-Type", "image/jpeg")
	if size == photo.Original {
		header.Set("Content-Type", is.Type)
		header.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": originalName(is)}))
	}
	header.Set("Cache-Control", "private, max-age=31536000, immutable")
	header.Set("ETag", `"`+sha256+"-"+name+`"`)
	http.ServeContent(w, r, "", time.Time{}, file)
	return nil
}

func originalName(p buildlog.Photo) string {
	ending := map[string]string{"image/jpeg": ".jpg", "image/png": ".png", "image/webp": ".webp", "image/heic": ".heic"}[p.Type]
	return "photo-" + p.SHA256[:12] + ending
}

// photoAdded tells of a photo that came for an entry.
type photoAdded struct {
	photoShown
	Back string `json:"-"`
}

// photoAdd keeps a photo for an entry that may come later. The photo is the body, as it is: so each of
// several has a progress of its own, and can be given up.
func (s *Server) photoAdd(w http.ResponseWriter, r *http.Request) error {
	id, key, err := entryKey(r)
	if err != nil {
		return err
	}
	staged, err := s.store.StagedPhotos(r.Context(), id, key)
	if err != nil {
		return err
	}
	if len(staged) >= mostPhotos {
		return tooManyPhotos
	}
	p, err := s.store.AddPhoto(r.Context(), id, key, r.Body)
	if err != nil {
		return arriving(readOn(r, err))
	}
	return s.reply(w, r, http.StatusOK, photoAdded{shown(p), logURL(id)})
}

// photoUnstage takes back a photo that came for an entry which is not saved. What is not there is as was wished.
func (s *Server) photoUnstage(w http.ResponseWriter, r *http.Request) error {
	id, key, err := entryKey(r)
	if err != nil {
		return err
	}
	if err := s.unstage(r, id, key, chi.URLParam(r, "photo")); err != nil {
		return err
	}
	if wantsJSON(r) {
		w.WriteHeader(http.StatusNoContent)
		return nil
	}
	goTo(w, r, logURL(id))
	return nil
}

var tooManyPhotos = refusal{status: http.StatusUnprocessableEntity, title: "Too many",
	say: fmt.Sprintf("An entry has at most %d photos. Save this one, and begin another.", mostPhotos)}

// readOn lets the rest of what is refused arrive: a browser that still sends does not read why.
func readOn(r *http.Request, err error) error {
	if refused := (*photo.RefusedError)(nil); errors.As(err, &refused) || errors.Is(err, store.ErrNoRoom) {
		_, _ = io.Copy(io.Discard, r.Body) // what breaks off meanwhile is no loss
	}
	return err
}

// arriving tells apart what the network broke off from faults of ours.
func arriving(err error) error {
	if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, syscall.ECONNRESET) || errors.Is(err, syscall.EPIPE) {
		return refusal{status: http.StatusBadRequest, title: "Broken off", say: "It did not arrive whole. Nothing of it was kept; send it again."}
	}
	return err
}

// noPhoto refuses a photo that was not kept, or is gone for good.
func noPhoto(err error) error {
	if errors.Is(err, store.ErrNotFound) {
		return notFound("There is no such photo. It may have been removed for good, or its file may be missing from the data folder.")
	}
	return err
}

// limitUploads lets in what takes its time, and not more of it at once than the program can hold.
func (s *Server) limitUploads(most int64) func(http.Handler) http.Handler {
	limit := limitBody(most)
	return func(next http.Handler) http.Handler {
		return limit(s.handle(func(w http.ResponseWriter, r *http.Request) error {
			select {
			case s.uploads <- struct{}{}:
				defer func() { <-s.uploads }()
			default:
				w.Header().Set("Retry-After", "5")
				return refusal{status: http.StatusTooManyRequests, title: "Busy",
					say: "Many photos are arriving at this moment. Nothing was kept of this one; send it again."}
			}
			until := time.Now().Add(uploadTime)
			control := http.NewResponseController(w)
			for _, set := range []error{control.SetReadDeadline(until), control.SetWriteDeadline(until.Add(time.Minute))} {
				if set != nil && !errors.Is(set, http.ErrNotSupported) { // such as a test's, whose bodies are there
					return set
				}
			}
			next.ServeHTTP(w, r)
			return nil
		}))
	}
}
