package web

import (
	"cmp"
	"net"
	"net/netip"
	"slices"
	"strings"

	"fettle/web/access"
)

// site is where the pages are, as people are told.
type site struct {
	tls        bool
	host, port string
	names      []string
	addresses  func() ([]netip.Addr, error)
}

func siteOf(options Options) site {
	host, port, _ := net.SplitHostPort(options.Listen) // hostsOf has read it
	t := site{tls: options.TLS, host: host, port: port, names: options.Hosts, addresses: options.Addresses}
	if t.addresses == nil {
		t.addresses = func() ([]netip.Addr, error) { return nil, nil }
	}
	return t
}

// Addresses lists the addresses by which other computers reach the pages; none where they do not.
func (s *Server) Addresses() ([]string, error) { return s.site.network() }

// network lists the addresses by which other computers reach the pages, the likeliest first: the names
// that the owner gave, then addresses in the home's network, IPv4 before IPv6, which is harder to type.
func (t site) network() (all []string, err error) {
	for _, name := range t.names {
		host, port, err := net.SplitHostPort(name)
		if err != nil { // a proxy has the usual port
			host, port = strings.Trim(name, "[]"), ""
			if !access.IsLoopbackName(t.host) {
				port = t.port
			}
		}
		all = append(all, t.url(host, port))
	}
	listened, err := netip.ParseAddr(t.host)
	switch {
	case err != nil || listened.IsLoopback():
		return all, nil
	case !listened.IsUnspecified():
		return append(all, t.url(t.host, t.port)), nil
	}
	addresses, err := t.addresses()
	if err != nil {
		return nil, err
	}
	for _, a := range likeliest(addresses) {
		if listened.Is6() || a.Is4() {
			all = append(all, t.url(a.String(), t.port))
		}
	}
	return all, nil
}

// likeliest leaves out the addresses that no other computer can ask for by a link.
func likeliest(all []netip.Addr) []netip.Addr {
	var some []netip.Addr
	for _, a := range all {
		if a = a.Unmap(); a.IsGlobalUnicast() {
			some = append(some, a)
		}
	}
	rank := func(a netip.Addr) int {
		switch {
		case a.Is4() && a.IsPrivate():
			return 0
		case a.Is4():
			return 1
		default:
			return 2
		}
	}
	slices.SortStableFunc(some, func(a, b netip.Addr) int { return cmp.Compare(rank(a), rank(b)) })
	return some
}

// url leaves out a port that goes without saying.
func (t site) url(host, port string) string {
	scheme, usual := "http", "80"
	if t.tls {
		scheme, usual = "https", "443"
	}
	at := net.JoinHostPort(host, port)
	if port == usual || port == "" {
		at = strings.TrimSuffix(net.JoinHostPort(host, ""), ":")
	}
	return scheme + "://" + at + "/"
}
