package access

import (
	"io"
	"net/http"
	"net/netip"
	"time"
)

// What tests need of the inside.
var (
	PassphraseLimits = passphraseLimits
	CodeLimits       = codeLimits
)

// IsHere is isHere.
func (reach Reach) IsHere(r *http.Request) bool { return reach.isHere(r) }

// Attempts are attempts.
type Attempts struct{ attempts }

// NewAttempts gives some that are limited.
func NewAttempts(limits Limits) *Attempts { return &Attempts{attempts{limits: limits}} }

// Take is take.
func (a *Attempts) Take(from netip.Addr, now time.Time) (func(), error) { return a.take(from, now) }

// Remembered tells how many addresses something is counted of.
func (a *Attempts) Remembered() int { return len(a.each) }

// Codes are codes.
type Codes struct{ codes }

// Make is make.
func (c *Codes) Make(random io.Reader, now time.Time) (Code, error) {
	return c.make("hash", random, now)
}

// Redeem is redeem.
func (c *Codes) Redeem(text string, now time.Time) bool {
	_, ok := c.redeem(text, now)
	return ok
}
