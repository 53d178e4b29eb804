package buildlog

import (
	"slices"
	"strings"
	"time"

	"fettle/plan/order"
)

// Totals are the sums over entries.
type Totals struct {
	Entries int
	Spent   time.Duration
	Costs   []order.Price // one a currency, by their codes; each exact
	Unread  int           // entries whose hours or cost cannot be read, and which are not in the sums
}

// Price reads what the entry cost. Nothing typed is no price, and no fault; else it returns the errors of
// order.ParsePrice.
func (e Entry) Price() (order.Price, error) {
	return order.ParsePrice(e.Cost, strings.ToUpper(strings.TrimSpace(e.Currency)))
}

// Add adds the hours and the cost of an entry, so many times: many entries say the same.
func (t *Totals) Add(e Entry, times int) {
	t.Entries += times
	spent, errHours := ParseHours(e.Hours)
	price, errPrice := e.Price()
	if errHours != nil || errPrice != nil {
		t.Unread += times
	}
	if errHours == nil {
		t.Spent += spent * time.Duration(times)
	}
	if errPrice == nil && price.Known() {
		t.addCost(order.Price{Minor: price.Minor * int64(times), Currency: price.Currency})
	}
}

func (t *Totals) addCost(p order.Price) {
	at, found := slices.BinarySearchFunc(t.Costs, p.Currency, func(c order.Price, code string) int { return strings.Compare(c.Currency, code) })
	if !found {
		t.Costs = slices.Insert(t.Costs, at, p)
		return
	}
	t.Costs[at].Minor += p.Minor
}

// Plus gives the sums over the entries of both.
func (t Totals) Plus(other Totals) Totals {
	t.Entries, t.Spent, t.Unread = t.Entries+other.Entries, t.Spent+other.Spent, t.Unread+other.Unread
	t.Costs = slices.Clone(t.Costs)
	for _, c := range other.Costs {
		t.addCost(c)
	}
	return t
}
