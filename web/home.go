package web

import "net/http"

// homeView is the first page.
type homeView struct {
	Title string `json:"title"`
	Say   string `json:"say"`
}

func (s *Server) home(w http.ResponseWriter, r *http.Request) error {
	return s.reply(w, r, http.StatusOK, homeView{
		Title: "Machines",
		Say:   "If I change this, what else has to change, by how much, and will it all still fit and hold?",
	})
}
