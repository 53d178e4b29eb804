package web

import (
	"cmp"
	"crypto/rand"
	"errors"
	"io"
	"net/http"

	"fettle/plan/machine"
	"fettle/plan/order"
	"fettle/plan/unit"
	"fettle/plan/upgrade"
	"fettle/store"
	"fettle/web/form"
	"fettle/web/ui"
)

// buyView is what has to be got for all that is planned on a machine.
type buyView struct {
	Title    string      `json:"title"`
	Machine  string      `json:"machine"`
	Units    string      `json:"units"`
	Saved    string      `json:"saved"`
	Revision int64       `json:"revision"`
	Drafts   bool        `json:"drafts"` // are counted as well
	Stale    *buyStale   `json:"changed_meanwhile,omitempty"`
	Empty    string      `json:"empty,omitempty"`
	Upgrades []ui.Link   `json:"upgrades"` // that are counted
	Lines    []buyLine   `json:"lines"`
	Sums     []buySum    `json:"sums"`
	Unpriced string      `json:"unpriced,omitempty"`
	Cuts     []cutLine   `json:"cut_list"`
	Bars     []barGroup  `json:"bars"`
	Offcuts  []offcutRow `json:"offcuts"`
	Currency ui.Field    `json:"currency"`
	Findings []string    `json:"findings,omitempty"`

	unreadable bool
	window     string
	path       string
	machineURL string
}

// buyStale is what somebody else noted since this page was opened.
type buyStale struct {
	Revision int64            `json:"revision"`
	Theirs   []planDifference `json:"theirs"`
}

func (s *Server) buyShow(w http.ResponseWriter, r *http.Request) error {
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	sh, revision, err := s.store.Shopping(r.Context(), m.ID)
	if err != nil {
		return err
	}
	view, err := buyOf(m, sh, drafts(r))
	if err != nil {
		return err
	}
	view.Revision, view.window, view.Saved = revision, rand.Text(), "saved "+hour(m.Changed, s.now())
	return s.reply(w, r, http.StatusOK, view)
}

// buySave keeps what was noted of the list, and shows what it comes to.
func (s *Server) buySave(w http.ResponseWriter, r *http.Request) error {
	f, err := form.Read(r)
	if err != nil {
		return err
	}
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	was, revision, err := s.store.Shopping(r.Context(), m.ID)
	if err != nil {
		return err
	}
	typed := planFormOf(f)
	sh, err := shoppingTyped(was, f)
	if err != nil {
		return err
	}
	view, err := buyOf(m, sh, drafts(r))
	if err != nil {
		return err
	}
	sh.Marks = view.called(sh.Marks)
	view.window, view.Revision = typed.window, typed.revision
	if !sameShopping(sh, was) {
		revision, err = s.writers.save(view.path, typed, func(revision int64) (int64, error) {
			return s.store.SaveShopping(r.Context(), m.ID, revision, sh)
		})
	}
	switch stale := (*store.StaleError[store.Shopping])(nil); {
	case errors.As(err, &stale):
		view.changedMeanwhile(stale.Current, stale.Revision, sh)
		return s.reply(w, r, http.StatusConflict, view)
	case err != nil:
		return err
	}
	view.Revision, view.Saved = revision, "saved "+hour(s.now(), s.now())
	switch {
	case view.unreadable:
		return s.reply(w, r, http.StatusUnprocessableEntity, view)
	case wantsJSON(r) || isPart(r) && !typed.whole:
		return s.reply(w, r, http.StatusOK, view)
	}
	goTo(w, r, view.path+view.query())
	return nil
}

// buyFile and cutFile give the lists as files.
func (s *Server) buyFile(w http.ResponseWriter, r *http.Request) error {
	return s.listFile(w, r, "buy-list", func(to io.Writer, b *buying) error { return order.WriteBuyCSV(to, b.list) })
}

func (s *Server) cutFile(w http.ResponseWriter, r *http.Request) error {
	return s.listFile(w, r, "cut-list", func(to io.Writer, b *buying) error { return order.WriteCutCSV(to, b.blanks) })
}

func (s *Server) listFile(w http.ResponseWriter, r *http.Request, name string, write func(io.Writer, *buying) error) error {
	m, err := s.machine(r)
	if err != nil {
		return err
	}
	sh, _, err := s.store.Shopping(r.Context(), m.ID)
	if err != nil {
		return err
	}
	b, err := buyingOf(m, sh, drafts(r))
	if err != nil {
		return err
	}
	f := file{kind: "text/csv; charset=utf-8", name: fileName(m.Name) + "-" + name + ".csv"}
	if err := write(&f.body, b); err != nil {
		return err
	}
	return s.send(w, r, f)
}

// drafts reports whether drafts are to be counted as well.
func drafts(r *http.Request) bool { return r.URL.Query().Get("drafts") == "yes" }

func (v *buyView) query() string {
	if v.Drafts {
		return "?drafts=yes"
	}
	return ""
}

// buying is what has to be got, worked out.
type buying struct {
	needs    []order.Need
	blanks   []order.Blank
	groups   []order.Group
	list     order.List
	own      []order.Owned
	problems map[string]string // by the field
	findings []string
}

// buyingOf works out what has to be got for the upgrades that are planned, and for the drafts too where
// they count, each as if it were planned last.
func buyingOf(m store.Stored, sh store.Shopping, drafts bool) (*buying, error) {
	b := &buying{problems: map[string]string{}}
	p, err := m.Build("")
	if err != nil {
		return nil, err
	}
	b.findings = p.Findings
	for _, u := range m.Upgrades {
		switch {
		case u.State == upgrade.Planned:
			b.need(p, u.ID)
		case u.State == upgrade.Draft && drafts:
			with, err := m.Build(u.ID)
			if err != nil {
				return nil, err
			}
			b.need(with, u.ID)
		}
	}
	shop := order.Workshop{System: order.Metric}
	if p.Units == unit.Inch {
		shop.System = order.Inch
	}
	b.own = b.owned(sh.Offcuts, p.Units)
	shop.Owned = b.own
	b.blanks = order.CutList(b.needs, shop)
	if b.groups, err = order.Bars(b.blanks, shop); err != nil {
		return nil, err
	}
	b.list = order.BuyList(b.needs, b.groups, b.marks(sh))
	return b, nil
}

func (b *buying) need(p *machine.Plan, id string) {
	site := p.Site(id)
	if site == nil {
		return
	}
	mk := site.Make(p.Result)
	label := site.Kind.About().Label + ", " + lowered(site.Layout.Label)
	if len(mk.Parts)+len(mk.Buy) > 0 {
		b.needs = append(b.needs, order.Need{Upgrade: id, Label: label, Parts: mk.Parts, Bought: mk.Buy, Steps: mk.Steps})
	}
}

// marks reads what was noted. What cannot be read is a problem at its field, and counts as not said.
func (b *buying) marks(sh store.Shopping) []order.Mark {
	needed := map[string]int{}
	for _, l := range order.BuyList(b.needs, b.groups, nil).Lines {
		needed[l.Key] = l.Quantity
	}
	var marks []order.Mark
	for _, m := range sh.Marks {
		price, err := order.ParsePrice(m.Price, currencyOf(sh.Currency))
		if err != nil {
			b.problems["price."+m.Key] = sentence(err.Error())
		}
		quantity := needed[m.Key]
		if m.Quantity != "" {
			n, ok := wholeNumber(m.Quantity)
			if !ok {
				b.problems["got."+m.Key] = "Give a whole number of pieces, or leave it blank for as many as are needed."
			}
			quantity = n
		}
		marks = append(marks, order.Mark{Key: m.Key, Called: m.Called, State: cmp.Or(m.State, order.ToGet), Quantity: quantity, Price: price, Note: m.Note})
	}
	return marks
}
