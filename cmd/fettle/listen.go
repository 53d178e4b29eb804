package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/netip"
	"sync"
)

// isOpen reports whether other computers reach what listens at address. localhost is taken at its word
// here, and looked at by listenAt.
func isOpen(address string) (bool, error) {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return false, usageError{fmt.Sprintf("-listen %s: give HOST:PORT, such as %s", address, defaultListen)}
	}
	ip, err := netip.ParseAddr(host)
	switch {
	case host == "localhost":
		return false, nil
	case host == "":
		return true, nil
	case err != nil:
		return false, usageError{fmt.Sprintf("-listen %s: give an address of this computer in numbers, or 0.0.0.0 for all of them; "+
			"a name it is asked for by is given with -host", address)}
	}
	return !ip.IsLoopback(), nil
}

// listenAt listens at address, at one of this computer alone when that is what was asked for.
func listenAt(ctx context.Context, address string) (net.Listener, error) {
	others, err := isOpen(address)
	if err != nil {
		return nil, err
	}
	var config net.ListenConfig
	listener, err := config.Listen(ctx, "tcp", address)
	if err != nil {
		return nil, fmt.Errorf("is Fettle running already? %w", err)
	}
	// What localhost means is up to the hosts file of this computer.
	if !others && !addressOf(listener.Addr()).IsLoopback() {
		return nil, errors.Join(usageError{fmt.Sprintf("-listen %s is not this computer alone; give %s", address, defaultListen)}, listener.Close())
	}
	return &bounded{Listener: listener, from: map[netip.Addr]int{}}, nil
}

// How many connections the network may hold at once: each costs memory and a place in the system's tables,
// whether or not anything is ever sent.
const (
	mostConnections = 256
	mostOfOne       = 32
)

// bounded drops connections beyond those. This computer's own always come through, so that nobody keeps the
// owner out.
type bounded struct {
	net.Listener
	mu   sync.Mutex
	from map[netip.Addr]int
	all  int
}

func (b *bounded) Accept() (net.Conn, error) {
	for {
		c, err := b.Listener.Accept()
		if err != nil {
			return nil, err
		}
		from := addressOf(c.RemoteAddr())
		if from.IsLoopback() {
			return c, nil
		}
		if b.take(from) {
			return &counted{Conn: c, release: sync.OnceFunc(func() { b.release(from) })}, nil
		}
		c.Close() // there is nobody to tell
	}
}

func (b *bounded) take(from netip.Addr) bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.all >= mostConnections || b.from[from] >= mostOfOne {
		return false
	}
	b.all++
	b.from[from]++
	return true
}

func (b *bounded) release(from netip.Addr) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.all--
	if b.from[from]--; b.from[from] == 0 {
		delete(b.from, from)
	}
}

// counted is a connection that is counted until it is closed.
type counted struct {
	net.Conn
	release func()
}

func (c *counted) Close() error {
	c.release()
	return c.Conn.Close()
}

func addressOf(at net.Addr) netip.Addr {
	if tcp, ok := at.(*net.TCPAddr); ok {
		return tcp.AddrPort().Addr().Unmap()
	}
	return netip.Addr{}
}

// ownAddresses lists the addresses that this computer has now.
func ownAddresses() (all []netip.Addr, err error) {
	addresses, err := net.InterfaceAddrs()
	for _, a := range addresses {
		if prefix, err := netip.ParsePrefix(a.String()); err == nil { // of another kind, there is nothing to show
			all = append(all, prefix.Addr())
		}
	}
	return all, err
}
