package access

import (
	"fmt"
	"net/netip"
	"sync"
	"time"
)

// Rate is how many attempts may fail: so many at once, and one more each time that Every has passed.
type Rate struct {
	Burst int
	Every time.Duration
}

// Limits bound the attempts at one secret, for each address and in all. The total holds against whoever
// has many addresses.
type Limits struct{ Each, All Rate }

// At most 20 + 60 passphrases fail in any hour, from wherever they come; OWASP ASVS 4.0.3, 2.2.1 asks for
// less than 100.
var passphraseLimits = Limits{Each: Rate{5, 2 * time.Minute}, All: Rate{20, time.Minute}}

// A code is 80 bits: these are there to save work, and so that a wrong one typed is soon forgotten. They
// are apart from those above so that whoever guesses the passphrase does not keep a new phone out.
var codeLimits = Limits{Each: Rate{10, 30 * time.Second}, All: Rate{60, 10 * time.Second}}

// LimitError refuses an attempt because too many have failed.
type LimitError struct{ Wait time.Duration }

func (e *LimitError) Error() string {
	return fmt.Sprintf("too many failed attempts; the next is in %s", e.Wait.Round(time.Second))
}

// attempts counts those at one secret.
type attempts struct {
	limits Limits
	mu     sync.Mutex
	each   map[netip.Prefix]time.Time // when all that failed there is forgotten
	all    time.Time
}

// take counts an attempt from address as failed, before it is known to: many at once then find as few
// tries as many in a row. Where it went well, giveBack forgets it.
func (a *attempts) take(address netip.Addr, now time.Time) (giveBack func(), err error) {
	from := network(address)
	a.mu.Lock()
	defer a.mu.Unlock()
	a.forget(now)
	if wait := max(a.limits.Each.wait(a.each[from], now), a.limits.All.wait(a.all, now)); wait > 0 {
		return nil, &LimitError{wait}
	}
	a.each[from] = a.limits.Each.after(a.each[from], now)
	a.all = a.limits.All.after(a.all, now)
	return func() {
		a.mu.Lock()
		defer a.mu.Unlock()
		a.each[from] = a.each[from].Add(-a.limits.Each.Every)
		a.all = a.all.Add(-a.limits.All.Every)
	}, nil
}

// forget drops the addresses that nothing is counted of. The total bounds how many are left.
func (a *attempts) forget(now time.Time) {
	if a.each == nil {
		a.each = map[netip.Prefix]time.Time{}
	}
	for from, until := range a.each {
		if !until.After(now) {
			delete(a.each, from)
		}
	}
}

// wait tells how long until an attempt is allowed, where what failed is forgotten at until.
func (r Rate) wait(until, now time.Time) time.Duration {
	return until.Add(-time.Duration(r.Burst-1) * r.Every).Sub(now)
}

// after gives when all is forgotten once one more has failed.
func (r Rate) after(until, now time.Time) time.Time {
	if until.Before(now) {
		until = now
	}
	return until.Add(r.Every)
}

// network is what one visitor can have all addresses of: of IPv6 a whole /64.
func network(address netip.Addr) netip.Prefix {
	address = address.Unmap().WithZone("")
	bits := address.BitLen()
	if address.Is6() {
		bits = 64
	}
	from, err := address.Prefix(bits)
	if err != nil { // no address at all: one for all of those
		return netip.Prefix{}
	}
	return from
}
