package web

import (
	"log/slog"
	"net/http"
	"strings"
	"time"

	"fettle/static"
)

// recorder notes what was replied.
type recorder struct {
	http.ResponseWriter
	status int // 0 until the reply has begun
	bytes  int
}

func (w *recorder) WriteHeader(status int) {
	if w.status == 0 && status >= http.StatusOK {
		w.status = status
	}
	w.ResponseWriter.WriteHeader(status)
}

func (w *recorder) Write(body []byte) (int, error) {
	if w.status == 0 {
		w.status = http.StatusOK
	}
	n, err := w.ResponseWriter.Write(body)
	w.bytes += n
	return n, err
}

// Unwrap lets [http.ResponseController] reach the writer within.
func (w *recorder) Unwrap() http.ResponseWriter { return w.ResponseWriter }

// begun reports whether the reply to w has begun, after which it can no longer become another.
func begun(w http.ResponseWriter) bool {
	rec, ok := w.(*recorder)
	return ok && rec.status != 0
}

// logRequests logs every reply once it is done; static files only where debugging is on.
func (s *Server) logRequests(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		start := time.Now()
		rec := &recorder{ResponseWriter: w}
		defer func() {
			level := slog.LevelInfo
			if strings.HasPrefix(r.URL.Path, static.Prefix) {
				level = slog.LevelDebug
			}
			s.log.LogAttrs(r.Context(), level, "request",
				slog.String("method", r.Method),
				slog.String("path", r.URL.Path),
				slog.Int("status", rec.status),
				slog.Int("bytes", rec.bytes),
				slog.Duration("took", time.Since(start)),
			)
		}()
		next.ServeHTTP(rec, r)
	})
}
