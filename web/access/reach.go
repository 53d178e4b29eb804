package access

import (
	"net"
	"net/http"
	"net/netip"
	"strings"
)

// Reach is from where the program can be asked.
type Reach int

const (
	// ThisComputer: it listens at a loopback address, which the network does not lead to.
	ThisComputer Reach = iota
	// Network: other computers reach it too. A request is of this computer when both ends of its connection
	// are loopback addresses and it asks for a loopback name: the first cannot be had from the network, and a
	// page elsewhere whose name was made to point here (DNS rebinding) asks by that name.
	Network
	// Fronted: it listens at a loopback address, and is known by names beside this computer's own: another
	// program here passes the requests of others on. To us they all look as if made here: nobody is believed to be.
	Fronted
)

// passing are the headers of proxies. Not every proxy tells of itself, which is why [Fronted] is for the
// owner to say; one that does is never taken for the owner.
var passing = []string{"Forwarded", "Via", "X-Forwarded-For", "X-Forwarded-Host", "X-Real-Ip"}

// isHere reports whether r was made at this computer.
func (reach Reach) isHere(r *http.Request) bool {
	for _, name := range passing {
		if r.Header.Get(name) != "" {
			return false
		}
	}
	switch reach {
	case ThisComputer:
		return true
	case Network:
		local, ok := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
		return ok && addressOf(local.String()).IsLoopback() && Peer(r).IsLoopback() && IsLoopbackName(Hostname(r.Host))
	default:
		return false
	}
}

// Peer is the address at the other end of the connection, which may be a proxy's; none where it cannot
// be told.
func Peer(r *http.Request) netip.Addr { return addressOf(r.RemoteAddr) }

func addressOf(text string) netip.Addr {
	at, err := netip.ParseAddrPort(text)
	if err != nil {
		return netip.Addr{}
	}
	return at.Addr().Unmap()
}

// IsLoopbackName reports whether a host's name or address, without a port, is this computer's own.
func IsLoopbackName(host string) bool {
	address, err := netip.ParseAddr(host)
	return strings.EqualFold(host, "localhost") || err == nil && address.IsLoopback()
}

// Hostname is the Host header without its port and its brackets.
func Hostname(host string) string {
	if name, _, err := net.SplitHostPort(host); err == nil {
		return name
	}
	if n := len(host); n > 1 && host[0] == '[' && host[n-1] == ']' {
		return host[1 : n-1]
	}
	return host
}
