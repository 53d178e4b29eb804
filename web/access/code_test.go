package access_test

import (
	"bytes"
	"crypto/rand"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/web/access"
)

// RFC 4648 section 10: "foobar" and "fooba" are MZXW6YTBOI and MZXW6YTB in base32, here 10 bytes of both.
func TestCodeIsTheRandomBits(t *testing.T) {
	var c access.Codes
	code, err := c.Make(strings.NewReader("foobafooba and more"), noon)
	require.NoError(t, err)
	require.Equal(t, "MZXW-6YTB-MZXW-6YTB", code.Text)
	require.Equal(t, noon.Add(10*time.Minute), code.Expires)
	_, err = c.Make(bytes.NewReader(make([]byte, 9)), noon)
	require.ErrorContains(t, err, "pairing code")
}

func TestCodeWorksOnceWithinItsTime(t *testing.T) {
	make_ := func(c *access.Codes) string {
		code, err := c.Make(rand.Reader, noon)
		require.NoError(t, err)
		return code.Text
	}
	var c access.Codes
	require.False(t, c.Redeem("", noon), "there is none yet")

	text := make_(&c)
	require.False(t, c.Redeem("", noon))
	require.False(t, c.Redeem(text[:18], noon))
	require.False(t, c.Redeem(text+"A", noon))
	require.True(t, c.Redeem(" "+strings.ToLower(strings.ReplaceAll(text, "-", " "))+" ", noon), "however it is typed")
	require.False(t, c.Redeem(text, noon), "once")
	require.False(t, c.Redeem("", noon), "nothing is no code that is used up")

	text = make_(&c)
	require.True(t, c.Redeem(text, noon.Add(10*time.Minute-1)))
	text = make_(&c)
	require.False(t, c.Redeem(text, noon.Add(10*time.Minute)), "late")

	old, text := make_(&c), make_(&c)
	require.NotEqual(t, old, text)
	require.False(t, c.Redeem(old, noon), "a newer one voids it")
	require.True(t, c.Redeem(text, noon))
}

func TestOneOfManyHasTheCode(t *testing.T) {
	for range 50 {
		var c access.Codes
		code, err := c.Make(rand.Reader, noon)
		require.NoError(t, err)
		var had atomic.Int32
		var all sync.WaitGroup
		for range 32 {
			all.Go(func() {
				if c.Redeem(code.Text, noon) {
					had.Add(1)
				}
			})
		}
		all.Wait()
		require.EqualValues(t, 1, had.Load())
	}
}
