package web

import (
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/netip"
	"strconv"
	"strings"

	"fettle/web/access"
)

// hosts are the values of the Host header that are answered.
type hosts struct {
	known map[string]bool // in lower case
	port  string          // that browsers leave out: of HTTP or of HTTPS
	any   bool            // every address of this computer is listened on
}

// hostsOf gives the names under which a server that listens on address is known: that address, the names
// that were given, and on a loopback address or on all of them every usual name of this computer with
// the same port. A name given without a port is known with this one and, as a proxy would pass it on,
// with none.
func hostsOf(address string, names []string, tls bool) (hosts, error) {
	host, port, err := net.SplitHostPort(address)
	if err != nil {
		return hosts{}, err
	}
	ip, errIP := netip.ParseAddr(host)
	all := errIP == nil && ip.IsUnspecified()
	if host == "" || port == "" || port == "0" {
		return hosts{}, errors.New("host and port must both be known")
	}
	h := hosts{known: map[string]bool{}, port: "80", any: all}
	if tls {
		h.port = "443"
	}
	own := []string{host}
	if all {
		own = nil
	}
	if all || access.IsLoopbackName(host) {
		own = append(own, "localhost", "127.0.0.1", "::1")
	}
	for _, name := range own {
		h.add(name, port)
	}
	for _, name := range names {
		if err := h.addNamed(name, port); err != nil {
			return hosts{}, err
		}
	}
	return h, nil
}

func (h *hosts) add(name, port string) {
	h.known[strings.ToLower(net.JoinHostPort(name, port))] = true
	if port == h.port {
		h.known[strings.ToLower(strings.TrimSuffix(net.JoinHostPort(name, ""), ":"))] = true
	}
}

// addNamed adds a name that the owner gave.
func (h *hosts) addNamed(name, port string) error {
	host, given, err := net.SplitHostPort(name)
	if err != nil {
		host, given = strings.Trim(name, "[]"), ""
	}
	_, errIP := netip.ParseAddr(host)
	_, errPort := strconv.ParseUint(given, 10, 16)
	if host == "" || errIP != nil && strings.ContainsAny(host, ":/?#@[] \t*") || given != "" && errPort != nil {
		return fmt.Errorf("%q is no name of a computer; give one such as workshop.local, or workshop.local:8270", name)
	}
	if given != "" {
		h.add(host, given)
		return nil
	}
	h.add(host, port)
	h.add(host, h.port)
	return nil
}

// knows reports whether r was meant for this server.
func (h hosts) knows(r *http.Request) bool {
	return h.known[strings.ToLower(r.Host)] || h.any && h.arrivedAt(r)
}

// arrivedAt reports whether r asks for the very address that its connection came in by. A name that was
// made to point here is no address, and this one may be another tomorrow.
func (h hosts) arrivedAt(r *http.Request) bool {
	at, ok := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
	if !ok {
		return false
	}
	host, port, err := net.SplitHostPort(r.Host)
	if err != nil {
		host, port = strings.Trim(r.Host, "[]"), h.port
	}
	asked, errAsked := netip.ParseAddrPort(net.JoinHostPort(host, port))
	local, errLocal := netip.ParseAddrPort(at.String())
	return errAsked == nil && errLocal == nil && asked.Port() == local.Port() &&
		asked.Addr().Unmap() == local.Addr().Unmap().WithZone("")
}

// checkHost answers only requests that were meant for this server. A page elsewhere whose name was
// made to point at this computer would otherwise pass for one of ours.
func (s *Server) checkHost(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !s.hosts.knows(r) {
			s.fail(w, r, refusal{
				status: http.StatusMisdirectedRequest,
				title:  "Not the address of this program",
				say:    "Fettle answers only at the addresses that it printed when it was started. Open one of those.",
			})
			return
		}
		next.ServeHTTP(w, r)
	})
}
