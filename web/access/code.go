package access

import (
	"crypto/subtle"
	"encoding/base32"
	"fmt"
	"io"
	"strings"
	"sync"
	"time"
)

// CodeLife is how long a pairing code works.
const CodeLife = 10 * time.Minute

// Code is one that lets one device in, once.
type Code struct {
	Text    string // XXXX-XXXX-XXXX-XXXX, of A to Z and 2 to 7
	Expires time.Time
	under   string // hash of the passphrase when it was made
}

// codes keeps the one that is valid. It is nowhere else: a restart of the program voids it.
type codes struct {
	mu    sync.Mutex
	valid Code
}

// make gives a new code; one that was there is void.
func (c *codes) make(under string, random io.Reader, now time.Time) (Code, error) {
	bits := make([]byte, 10) // 80 bits: 16 letters
	if _, err := io.ReadFull(random, bits); err != nil {
		return Code{}, fmt.Errorf("pairing code: %w", err)
	}
	text := base32.StdEncoding.EncodeToString(bits)
	text = text[:4] + "-" + text[4:8] + "-" + text[8:12] + "-" + text[12:]
	c.mu.Lock()
	defer c.mu.Unlock()
	c.valid = Code{text, now.Add(CodeLife), under}
	return c.valid, nil
}

// now gives the code that is valid, if one is.
func (c *codes) now(now time.Time) (Code, bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.valid, now.Before(c.valid.Expires)
}

// redeem takes the code away when text is it, however it is spaced. Of many at once, one has it.
func (c *codes) redeem(text string, now time.Time) (Code, bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	was := c.valid
	if !now.Before(was.Expires) || subtle.ConstantTimeCompare([]byte(bare(text)), []byte(bare(was.Text))) != 1 {
		return Code{}, false
	}
	c.valid = Code{}
	return was, true
}

// bare is a code as it counts: typed with or without its hyphens, in capitals or not.
func bare(text string) string {
	return strings.ToUpper(strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == '-' || r == ' ' }), ""))
}
