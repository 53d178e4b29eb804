package web

import "github.com/go-chi/chi/v5"

// planRoutes lists the addresses of one upgrade's page, below /machines/{machine}/upgrades/{upgrade}.
func (s *Server) planRoutes(r chi.Router) {
	r.Get("/", s.handle(s.planShow))
	r.Post("/", s.handle(s.planSave))
	r.Get("/range", s.handle(s.planRange))
	r.Post("/add", s.handle(s.planAdd))
	r.Post("/back-to-draft", s.handle(s.planBackToDraft))
	r.Post("/drop", s.handle(s.planDrop))
	r.Get("/dropped", s.handle(s.planDropped))
	r.Post("/restore", s.handle(s.planRestore))
}
