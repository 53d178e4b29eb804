package web

import (
	"net/http"

	"fettle/web/access"
)

// contentPolicy lets a page use what this program serves, and nothing else: no inline script or style,
// no frame, no form that goes elsewhere.
const contentPolicy = "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; object-src 'none'"

// strictTransport has a browser ask by TLS alone for a year. Names below ours are not ours to speak for.
const strictTransport = "max-age=31536000"

// securityHeaders sets what every reply carries.
//
// The referrer policy is same-origin, which tells other sites nothing, and not no-referrer: under that
// one browsers send "Origin: null" with our own forms, and cross-origin protection could not
// tell them from a stranger's wherever Sec-Fetch-Site is not sent.
func (s *Server) securityHeaders(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		header := w.Header()
		header.Set("Content-Security-Policy", contentPolicy)
		header.Set("X-Content-Type-Options", "nosniff")
		header.Set("X-Frame-Options", "DENY")
		header.Set("Referrer-Policy", "same-origin")
		header.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()")
		header.Set("Cross-Origin-Opener-Policy", "same-origin")
		header.Set("Cross-Origin-Resource-Policy", "same-origin")
		header.Set("Cache-Control", "no-store")
		// Of localhost it would hold for every other program that answers there.
		if s.site.tls && !access.IsLoopbackName(access.Hostname(r.Host)) {
			header.Set("Strict-Transport-Security", strictTransport)
		}
		next.ServeHTTP(w, r)
	})
}
