package web

import "github.com/go-chi/chi/v5"

// planRoutes lists the addresses of one upgrade's page, below /machines/{machine}/upgrades/{upgrade}.
func (s *Server) planRoutes(chi.Router) {}
