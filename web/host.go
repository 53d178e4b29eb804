package web

import (
	"errors"
	"net"
	"net/http"
	"net/netip"
	"strings"
)

// hosts are the values of the Host header that are answered, in lower case.
type hosts map[string]bool

// hostsOf gives the names under which a server that listens on address is known: that address, and on
// a loopback address every usual name of this computer with the same port.
func hostsOf(address string) (hosts, error) {
	host, port, err := net.SplitHostPort(address)
	if err != nil {
		return nil, err
	}
	if host == "" || port == "" || port == "0" {
		return nil, errors.New("host and port must both be known")
	}
	names := []string{host}
	if ip, err := netip.ParseAddr(host); host == "localhost" || err == nil && ip.IsLoopback() {
		names = append(names, "localhost", "127.0.0.1", "::1")
	}
	known := hosts{}
	for _, name := range names {
		known[strings.ToLower(net.JoinHostPort(name, port))] = true
		if port == "80" { // browsers leave the usual port out
			known[strings.ToLower(strings.TrimSuffix(net.JoinHostPort(name, ""), ":"))] = true
		}
	}
	return known, nil
}

// checkHost answers only requests that were meant for this server. A page elsewhere whose name was
// made to point at this computer would otherwise pass for one of ours.
func (s *Server) checkHost(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !s.hosts[strings.ToLower(r.Host)] {
			s.fail(w, r, refusal{
				status: http.StatusMisdirectedRequest,
				title:  "Not the address of this program",
				say:    "Fettle answers only at the address that it printed when it was started. Open that address.",
			})
			return
		}
		next.ServeHTTP(w, r)
	})
}
