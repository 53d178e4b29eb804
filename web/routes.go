package web

import (
	"net/http"

	"github.com/go-chi/chi/v5"
	"github.com/go-chi/chi/v5/middleware"

	"fettle/static"
)

// formLimit is the largest body of a form, in bytes. A route that takes a file has a limit of its own.
const formLimit = 1 << 20

// guards stand before every route. The log stands before recover, so that a panic's 500 is logged like
// any other reply; headers stand before the refusals, so that a refusal's page is guarded like any other.
func (s *Server) guards() chi.Middlewares {
	return chi.Chain(s.logRequests, s.recoverPanics, s.securityHeaders, s.checkHost, s.refuseCrossOrigin, s.admit, middleware.GetHead)
}

// routes lists every address that the program answers.
func (s *Server) routes() http.Handler {
	r := chi.NewRouter()
	r.Use(s.guards()...)
	r.NotFound(s.handle(noSuchPage))
	r.MethodNotAllowed(s.handle(noSuchMethod(r)))

	r.Get(static.Prefix+"*", static.Handler(s.handle(noSuchPage)).ServeHTTP)

	r.Group(s.strangersRoutes)
	r.Group(func(r chi.Router) {
		r.Use(limitBody(formLimit))
		r.Get("/", s.handle(s.home))
		r.Route("/phone", s.phoneRoutes)
		r.Route("/bench", s.benchRoutes)
		r.Post("/demo/{name}", s.handle(s.demoAdd))
		r.Get("/machines/new", s.handle(s.machineNew))
		r.Post("/machines", s.handle(s.machineAdd))
		r.Get("/machines/{machine}", s.handle(s.machinePage))
		r.Post("/machines/{machine}", s.handle(s.machineEdit))
		r.Get("/machines/{machine}/figures/*", s.handle(s.figure))
		r.Get("/machines/{machine}/export", s.handle(s.machineExport))
		r.Post("/machines/{machine}/delete", s.handle(s.machineDelete))
		r.Post("/machines/{machine}/restore", s.handle(s.machineRestore))
		r.Post("/machines/{machine}/axes", s.handle(s.axisAdd))
		r.Get("/machines/{machine}/axes/{axis}", s.handle(s.sheet))
		r.Post("/machines/{machine}/axes/{axis}", s.handle(s.sheetEdit))
		r.Post("/machines/{machine}/axes/{axis}/answers", s.handle(s.axisAnswer))
		r.Post("/machines/{machine}/axes/{axis}/delete", s.handle(s.axisDelete))
		r.Post("/machines/{machine}/axes/{axis}/restore", s.handle(s.axisRestore))
		r.Get("/machines/{machine}/buy", s.handle(s.buyShow))
		r.Post("/machines/{machine}/buy", s.handle(s.buySave))
		r.Get("/machines/{machine}/buy/buy-list.csv", s.handle(s.buyFile))
		r.Get("/machines/{machine}/buy/cut-list.csv", s.handle(s.cutFile))
		s.logRoutes(r)
		r.Get("/machines/{machine}/upgrades", s.handle(s.offers))
		r.Post("/machines/{machine}/upgrades", s.handle(s.upgradeAdd))
		r.Get("/machines/{machine}/complaints", s.handle(s.complaints))
		r.Get("/machines/{machine}/ways", s.handle(s.ways))
		r.Post("/machines/{machine}/ways", s.handle(s.wayTake))
		r.Route("/machines/{machine}/upgrades/{upgrade}", func(r chi.Router) {
			s.planRoutes(r)
			r.Route("/parts", s.partsRoutes)
			r.Get("/log", s.handle(s.logShow))
			r.Get("/compare", s.handle(s.compareUpgrade))
			r.Post("/move", s.handle(s.upgradeMove))
			r.Post("/fitted", s.handle(s.upgradeFitted))
			r.Post("/not-fitted", s.handle(s.upgradeNotFitted))
		})
	})
	r.With(limitBody(uploadLimit)).Post("/import", s.handle(s.machineImport))
	r.Group(s.logUploadRoutes)
	return r
}
