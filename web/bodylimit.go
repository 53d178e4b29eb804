package web

import "net/http"

// limitBody lets a handler read at most most bytes of the request. Reading on gives an
// [http.MaxBytesError], which becomes the 413 page.
func limitBody(most int64) func(http.Handler) http.Handler {
	return func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			r.Body = http.MaxBytesReader(w, r.Body, most)
			next.ServeHTTP(w, r)
		})
	}
}
