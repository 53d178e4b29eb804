package web

import (
	"maps"
	"net/http"
	"slices"

	"fettle/plan/axis"
	"fettle/web/form"
)

// axisAnswer keeps the answer to a question of an axis. It changes nothing else there; so it builds on
// whatever stands now.
func (s *Server) axisAnswer(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, a, err := s.axis(r)
	if err != nil {
		return err
	}
	arrangement, _ := axis.ArrangementNamed(a.Arrangement)
	asked := slices.ContainsFunc(arrangement.Questions, func(q axis.Question) bool { return q.Key == f.Value("question") })
	if !asked || !slices.Contains(answers, f.Value("answer")) {
		return badRequest("Answer one of the questions with yes or no.")
	}
	answered := *a
	answered.Answers = maps.Clone(a.Answers)
	answered.Answers[f.Value("question")] = f.Value("answer")
	if _, err := s.store.SaveAxis(r.Context(), m.ID, m.AxisRevisions[a.Key], answered); err != nil {
		return err
	}
	goTo(w, r, machineURL(m.ID)+"#questions")
	return nil
}

// answers are those that a question takes; "" takes one back.
var answers = []string{"yes", "no", ""}
