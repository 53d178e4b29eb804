package web

import (
	"errors"
	"fmt"
	"net/http"
	"runtime/debug"
)

// recoverPanics turns a panic, which is a fault of the program, into the 500 page, and logs where it was.
func (s *Server) recoverPanics(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			fault := recover()
			if fault == nil {
				return
			}
			if err, ok := fault.(error); ok && errors.Is(err, http.ErrAbortHandler) {
				panic(fault) // net/http's own way to cut a reply short
			}
			late := begun(w)
			s.fail(w, r, fmt.Errorf("panic: %v\n%s", fault, debug.Stack()))
			if late {
				panic(http.ErrAbortHandler) // half a reply must not look like a whole one
			}
		}()
		next.ServeHTTP(w, r)
	})
}
