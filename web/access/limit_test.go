package access_test

import (
	"net/netip"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/web/access"
)

var noon = time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC)

func address(last byte) netip.Addr { return netip.AddrFrom4([4]byte{192, 0, 2, last}) }

func TestFailuresOfOneAddressAreLimited(t *testing.T) {
	a := access.NewAttempts(access.PassphraseLimits)
	for range 5 {
		_, err := a.Take(address(1), noon)
		require.NoError(t, err)
	}
	_, err := a.Take(address(1), noon)
	var limit *access.LimitError
	require.ErrorAs(t, err, &limit)
	require.Equal(t, 2*time.Minute, limit.Wait)
	_, err = a.Take(address(2), noon)
	require.NoError(t, err, "another may")
	_, err = a.Take(address(1), noon.Add(2*time.Minute-1))
	require.ErrorAs(t, err, &limit)
	require.EqualValues(t, 1, limit.Wait)
	_, err = a.Take(address(1), noon.Add(2*time.Minute))
	require.NoError(t, err)
	_, err = a.Take(address(1), noon.Add(2*time.Minute))
	require.ErrorAs(t, err, &limit, "one, and no more")
}

// OWASP ASVS 4.0.3, 2.2.1: at most 100 in an hour. Here 20 at once and one a minute, at noon the first: 20,
// and one at each of the minutes 1 to 60.
func TestFailuresInAllAreLimited(t *testing.T) {
	a := access.NewAttempts(access.PassphraseLimits)
	taken := 0
	for second := range 3601 {
		for n := range byte(20) {
			if _, err := a.Take(netip.AddrFrom4([4]byte{198, 51, byte(second), n}), noon.Add(time.Duration(second)*time.Second)); err == nil {
				taken++
			}
		}
	}
	require.Equal(t, 80, taken)
	require.LessOrEqual(t, a.Remembered(), 25, "what is over is forgotten")
}

func TestSuccessIsNoFailure(t *testing.T) {
	a := access.NewAttempts(access.PassphraseLimits)
	for range 100 {
		giveBack, err := a.Take(address(1), noon)
		require.NoError(t, err)
		giveBack()
	}
}

// Many at once find as few tries as many in a row.
func TestManyAtOnceAreLimited(t *testing.T) {
	a := access.NewAttempts(access.PassphraseLimits)
	var taken atomic.Int32
	var all sync.WaitGroup
	for range 200 {
		all.Go(func() {
			if _, err := a.Take(address(1), noon); err == nil {
				taken.Add(1)
			}
		})
	}
	all.Wait()
	require.EqualValues(t, 5, taken.Load())
}

// Who has one address of IPv6 has 2^64.
func TestAddressesOfOneNetworkAreOne(t *testing.T) {
	a := access.NewAttempts(access.PassphraseLimits)
	for _, from := range []string{"2001:db8::1", "2001:db8::2", "2001:db8::ffff:1", "2001:db8::3", "2001:db8::4"} {
		_, err := a.Take(netip.MustParseAddr(from), noon)
		require.NoError(t, err)
	}
	_, err := a.Take(netip.MustParseAddr("2001:db8::5"), noon)
	require.Error(t, err)
	_, err = a.Take(netip.MustParseAddr("2001:db8:0:1::1"), noon)
	require.NoError(t, err)

	b := access.NewAttempts(access.Limits{Each: access.Rate{Burst: 1, Every: time.Minute}, All: access.Rate{Burst: 9, Every: time.Minute}})
	_, err = b.Take(address(1), noon)
	require.NoError(t, err)
	_, err = b.Take(netip.MustParseAddr("::ffff:192.0.2.1"), noon)
	require.Error(t, err, "the same, said in IPv6")
	_, err = b.Take(netip.Addr{}, noon)
	require.NoError(t, err)
	_, err = b.Take(netip.Addr{}, noon)
	require.Error(t, err, "no address is one too")
}
