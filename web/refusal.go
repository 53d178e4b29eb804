package web

import (
	"errors"
	"fmt"
	"net/http"
	"os"

	"fettle/plan/axis"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/store/photo"
	"fettle/web/form"
)

// refusal is an error whose reason is for the visitor to read: a title, and a sentence that says what
// can be done.
type refusal struct {
	status int
	title  string
	say    string
}

func (e refusal) Error() string { return fmt.Sprintf("%d %s: %s", e.status, e.title, e.say) }

// notFound refuses with 404. say may name what is missing; "" says it in general.
func notFound(say string) error {
	if say == "" {
		say = "There is nothing at this address. It may have been removed, or the address may be mistyped."
	}
	return refusal{status: http.StatusNotFound, title: "Not found", say: say}
}

// badRequest refuses with 400 what no page of ours sends.
func badRequest(say string) error {
	return refusal{status: http.StatusBadRequest, title: "Not understood", say: say}
}

// conflict refuses with 409 a change of something that was changed meanwhile.
func conflict(say string) error {
	return refusal{status: http.StatusConflict, title: "Changed meanwhile", say: say}
}

// ErrorPage is the page, the message or the JSON that stands for an error.
type ErrorPage struct {
	Status int    `json:"status"`
	Title  string `json:"title"`
	Say    string `json:"say"`
}

// errorPageOf tells an error to the visitor. Whatever is not known here is a fault of the program.
func errorPageOf(err error) ErrorPage {
	var (
		refused  refusal
		tooLarge *http.MaxBytesError
		problem  *form.Problem
		noPhoto  *photo.RefusedError
	)
	switch {
	case errors.As(err, &refused):
		return ErrorPage{refused.status, refused.title, refused.say}
	case errors.As(err, &tooLarge):
		return ErrorPage{http.StatusRequestEntityTooLarge, "Too large",
			fmt.Sprintf("Send at most %s at a time. Nothing of it was kept.", size(tooLarge.Limit))}
	case errors.As(err, &problem):
		return ErrorPage{http.StatusUnprocessableEntity, "Not accepted", sentence(problem.Say)}
	case errors.As(err, &noPhoto):
		return ErrorPage{http.StatusUnprocessableEntity, "Not kept", sentence(noPhoto.Say)}
	case errors.Is(err, store.ErrNotFound):
		return ErrorPage{http.StatusNotFound, "Not found",
			"There is no such machine, axis or upgrade. It may have been deleted, in another window for one."}
	case isStale[store.Head](err), isStale[axis.Axis](err), isStale[upgrade.Upgrade](err), isStale[store.LogEntry](err):
		return ErrorPage{http.StatusConflict, "Changed meanwhile",
			"It was changed in another window, or by somebody else. Nothing was saved; look at it again, and repeat what you did."}
	case errors.Is(err, store.ErrBusy):
		return ErrorPage{http.StatusServiceUnavailable, "Busy",
			"Another program is writing to the data file. Nothing was saved; try again in a moment."}
	case errors.Is(err, store.ErrNoRoom):
		return ErrorPage{http.StatusInsufficientStorage, "No room",
			"The disk that holds Fettle's data is full. Nothing of this was saved; what was saved before is safe. Make room there, and send it again."}
	case errors.Is(err, store.ErrInUse):
		return ErrorPage{http.StatusConflict, "Still needed", "An upgrade is planned on it. Drop that upgrade first."}
	case isLate(err):
		return ErrorPage{http.StatusRequestTimeout, "Too slow", "It took too long to arrive. Nothing of it was kept; send it again."}
	case errors.Is(err, form.ErrUnreadable):
		return ErrorPage{http.StatusBadRequest, "Not understood", "The form did not arrive as readable text. Go back and send it again."}
	default:
		return ErrorPage{http.StatusInternalServerError, "Fettle failed",
			"This is a fault in the program, not in what you typed. What was saved before is safe. The log says what went wrong."}
	}
}

// isLate tells whether a body did not arrive in its time.
func isLate(err error) bool { return errors.Is(err, os.ErrDeadlineExceeded) }

func isStale[T any](err error) bool {
	var stale *store.StaleError[T]
	return errors.As(err, &stale)
}
