package access_test

import (
	"context"
	"net"
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/web/access"
)

func TestWhoIsHere(t *testing.T) {
	for _, tc := range []struct {
		name              string
		reach             access.Reach
		peer, local, host string
		header            string
		want              bool
	}{
		{"the owner", access.Network, "127.0.0.1:40000", "127.0.0.1:8270", "localhost:8270", "", true},
		{"by number", access.Network, "127.0.0.1:40000", "127.0.0.1:8270", "127.0.0.1:8270", "", true},
		{"by IPv6", access.Network, "[::1]:40000", "[::1]:8270", "[::1]:8270", "", true},
		{"IPv4 on a socket of IPv6", access.Network, "[::ffff:127.0.0.1]:40000", "[::ffff:127.0.0.1]:8270", "LOCALHOST:8270", "", true},
		{"usual port", access.Network, "[::1]:40000", "[::1]:80", "[::1]", "", true},
		{"a phone", access.Network, "192.0.2.23:40000", "192.0.2.7:8270", "192.0.2.7:8270", "", false},
		{"a phone that says localhost", access.Network, "192.0.2.23:40000", "192.0.2.7:8270", "localhost:8270", "", false},
		{"a packet routed to our loopback", access.Network, "192.0.2.23:40000", "127.0.0.1:8270", "localhost:8270", "", false},
		{"a forged sender", access.Network, "127.0.0.1:40000", "192.0.2.7:8270", "localhost:8270", "", false},
		{"this computer by its network address", access.Network, "192.0.2.7:40000", "192.0.2.7:8270", "192.0.2.7:8270", "", false},
		{"a name made to point here", access.Network, "127.0.0.1:40000", "127.0.0.1:8270", "rebound.example:8270", "", false},
		{"a name that begins like ours", access.Network, "127.0.0.1:40000", "127.0.0.1:8270", "localhost.example:8270", "", false},
		{"a proxy here", access.Network, "127.0.0.1:40000", "127.0.0.1:8270", "localhost:8270", "X-Forwarded-For", false},
		{"a proxy here, standard", access.Network, "127.0.0.1:40000", "127.0.0.1:8270", "localhost:8270", "Forwarded", false},
		{"a proxy here, in short", access.Network, "127.0.0.1:40000", "127.0.0.1:8270", "localhost:8270", "X-Real-Ip", false},
		{"no ends known", access.Network, "", "", "localhost:8270", "", false},
		{"listening here alone", access.ThisComputer, "127.0.0.1:40000", "127.0.0.1:8270", "127.0.0.1:8270", "", true},
		{"listening here alone, a proxy", access.ThisComputer, "127.0.0.1:40000", "127.0.0.1:8270", "127.0.0.1:8270", "Via", false},
		{"behind a proxy that does not tell", access.Fronted, "127.0.0.1:40000", "127.0.0.1:8270", "127.0.0.1:8270", "", false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			r := httptest.NewRequest(http.MethodGet, "/", nil)
			r.RemoteAddr, r.Host = tc.peer, tc.host
			if tc.local != "" {
				at, err := net.ResolveTCPAddr("tcp", tc.local)
				require.NoError(t, err)
				r = r.WithContext(context.WithValue(r.Context(), http.LocalAddrContextKey, net.Addr(at)))
			}
			if tc.header != "" {
				r.Header.Set(tc.header, "192.0.2.23")
			}
			require.Equal(t, tc.want, tc.reach.IsHere(r))
		})
	}
}
