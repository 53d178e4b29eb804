package web

import "github.com/go-chi/chi/v5"

// partsRoutes lists the addresses of an upgrade's parts, below /machines/{machine}/upgrades/{upgrade}/parts.
func (s *Server) partsRoutes(r chi.Router) {
	r.Get("/", s.handle(s.partsShow))
	r.Post("/", s.handle(s.partsSave))
	r.Get("/{file}", s.handle(s.partsFile))
}
