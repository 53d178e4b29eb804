package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/netip"
	"time"

	"fettle/store"
	"fettle/web"
)

const (
	defaultListen = "127.0.0.1:8270"
	patience      = 10 * time.Second // for replies that are under way when the program is told to stop
)

// serve listens, prints where, and answers until ctx ends.
func (p program) serve(ctx context.Context, args []string) error {
	set := flags("serve")
	listen := p.env("FETTLE_LISTEN")
	if listen == "" {
		listen = defaultListen
	}
	data, dataErr := p.defaultData()
	set.StringVar(&listen, "listen", listen, "`HOST:PORT` to answer at, on this computer; FETTLE_LISTEN sets the default")
	set.StringVar(&data, "data", data, "`FOLDER` that holds the machines; FETTLE_DATA sets the default")
	rest, err := p.parse(set, args)
	switch {
	case err != nil:
		return err
	case len(rest) > 0:
		return usageError{fmt.Sprintf("serve takes no %q; fettle serve -h lists its flags", rest[0])}
	case data == "":
		return dataErr
	}

	listener, err := listenHere(ctx, listen)
	if err != nil {
		return err
	}
	defer listener.Close()
	log := slog.New(slog.NewTextHandler(p.stderr, nil))
	kept, err := store.Open(ctx, data, time.Now)
	if err != nil {
		return err
	}
	log.Info("data folder open", "folder", data)
	server, err := web.New(web.Options{Listen: listener.Addr().String(), Log: log, Store: kept, Now: time.Now})
	if err != nil {
		return errors.Join(err, kept.Close())
	}
	fmt.Fprintf(p.stdout, "Fettle is at http://%s/\nIts data is in %s\n", listener.Addr(), data)
	// Closed when nobody is answered any more.
	return errors.Join(answer(ctx, listener, server.Handler(), log), kept.Close())
}

// listenHere listens at address, which must be one that only this computer reaches.
func listenHere(ctx context.Context, address string) (net.Listener, error) {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return nil, usageError{fmt.Sprintf("-listen %s: give HOST:PORT, such as %s", address, defaultListen)}
	}
	if ip, err := netip.ParseAddr(host); host != "localhost" && (err != nil || !ip.IsLoopback()) {
		return nil, notLoopback(address)
	}
	var config net.ListenConfig
	listener, err := config.Listen(ctx, "tcp", address)
	if err != nil {
		return nil, fmt.Errorf("is Fettle running already? %w", err)
	}
	// What localhost means is up to the hosts file of this computer.
	if at, ok := listener.Addr().(*net.TCPAddr); !ok || !at.IP.IsLoopback() {
		return nil, errors.Join(notLoopback(address), listener.Close())
	}
	return listener, nil
}

func notLoopback(address string) error {
	return usageError{fmt.Sprintf("-listen %s would let other computers in, which Fettle does not do without a passphrase, "+
		"and that it cannot ask for yet; give an address of this computer alone, such as %s", address, defaultListen)}
}

// answer serves until ctx ends, then lets the replies under way finish.
func answer(ctx context.Context, listener net.Listener, handler http.Handler, log *slog.Logger) error {
	server := &http.Server{
		Handler:           handler,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       time.Minute,
		WriteTimeout:      time.Minute,
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    64 << 10,
		ErrorLog:          slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
	served := make(chan error, 1)
	go func() { served <- server.Serve(listener) }()
	select {
	case err := <-served:
		return fmt.Errorf("serve: %w", err)
	case <-ctx.Done():
	}
	log.Info("stopping")
	ending, cancel := context.WithTimeout(context.WithoutCancel(ctx), patience)
	defer cancel()
	if err := server.Shutdown(ending); err != nil {
		return fmt.Errorf("stop: %w", err)
	}
	if err := <-served; !errors.Is(err, http.ErrServerClosed) {
		return fmt.Errorf("serve: %w", err)
	}
	return nil
}
