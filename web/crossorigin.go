package web

import "net/http"

// refuseCrossOrigin refuses changes that another site's page asks for.
func (s *Server) refuseCrossOrigin(next http.Handler) http.Handler {
	protection := http.NewCrossOriginProtection()
	protection.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.fail(w, r, refusal{
			status: http.StatusForbidden,
			title:  "Refused",
			say:    "This change was asked for by a page that is not Fettle's. Nothing was changed.",
		})
	}))
	return protection.Handler(next)
}
