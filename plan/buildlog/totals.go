package buildlog

import (
	"iter"
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

// Sum adds the hours and the costs of entries.
func Sum(entries iter.Seq[Entry]) Totals {
	var t Totals
	costs := map[string]int64{}
	for e := range entries {
		t.Entries++
		spent, errHours := ParseHours(e.Hours)
		price, errPrice := e.Price()
		if errHours != nil || errPrice != nil {
			t.Unread++
		}
		if errHours == nil {
			t.Spent += spent
		}
		if errPrice == nil && price.Known() {
			costs[price.Currency] += price.Minor
		}
	}
	for code, minor := range costs {
		t.Costs = append(t.Costs, order.Price{Minor: minor, Currency: code})
	}
	slices.SortFunc(t.Costs, func(a, b order.Price) int { return strings.Compare(a.Currency, b.Currency) })
	return t
}
