package web

import (
	"fmt"
	"net/http"

	"github.com/go-chi/chi/v5"

	"fettle/plan/axis"
	"fettle/store"
)

func axisURL(machine int64, key string) string {
	return fmt.Sprintf("/machines/%d/axes/%s", machine, key)
}

// axis reads the machine and finds the axis that the path names in it.
func (s *Server) axis(r *http.Request) (store.Stored, *axis.Axis, error) {
	m, err := s.machine(r)
	if err != nil {
		return m, nil, err
	}
	key := chi.URLParam(r, "axis")
	for i := range m.Axes {
		if m.Axes[i].Key == key {
			return m, &m.Axes[i], nil
		}
	}
	return m, nil, fmt.Errorf("axis %s: %w", key, store.ErrNotFound)
}
