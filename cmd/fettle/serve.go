package main

import (
	"context"
	"crypto/tls"
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

// serving is what serve was told.
type serving struct {
	listen, data string
	hosts        []string
	cert, key    string
}

// serve listens, prints where, and answers until ctx ends.
func (p program) serve(ctx context.Context, args []string) (err error) {
	o, certificates, err := p.servingOf(args)
	if err != nil {
		return err
	}
	tuneMemory(p.env)
	kept, err := store.Open(ctx, o.data, time.Now)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, kept.Close()) }() // nobody is answered any more
	if err := o.requirePassphrase(ctx, kept); err != nil {
		return err
	}
	listener, err := listenAt(ctx, o.listen)
	if err != nil {
		return err
	}
	defer listener.Close()
	log := slog.New(slog.NewTextHandler(p.stderr, nil))
	log.Info("data folder open", "folder", o.data)
	photos, err := readyPhotos(ctx, kept, log)
	if err != nil {
		return err
	}
	server, err := web.New(web.Options{Listen: listener.Addr().String(), Log: log, Store: kept, Now: time.Now,
		Hosts: o.hosts, TLS: certificates != nil, Addresses: ownAddresses, Photos: photos})
	if err != nil {
		return err
	}
	if err := p.tellWhere(server, listener.Addr().String(), certificates != nil); err != nil {
		return err
	}
	fmt.Fprintf(p.stdout, "Its data is in %s\n", o.data)
	return answer(ctx, listener, certificates, server.Handler(), log)
}

func (p program) servingOf(args []string) (o serving, certificates []tls.Certificate, err error) {
	set := flags("serve")
	o.listen = p.env("FETTLE_LISTEN")
	if o.listen == "" {
		o.listen = defaultListen
	}
	data, dataErr := p.defaultData()
	set.StringVar(&o.listen, "listen", o.listen, "`HOST:PORT` to answer at, on this computer; FETTLE_LISTEN sets the default. "+
		"0.0.0.0:8270 lets the workshop's network in, which needs a passphrase")
	set.StringVar(&o.data, "data", data, "`FOLDER` that holds the machines; FETTLE_DATA sets the default")
	set.Func("host", "further `NAME` that this computer is asked for by, such as workshop.local; can be given again. With -listen\n"+
		"left alone it is that of a proxy on this computer, and everybody signs in", func(name string) error {
		o.hosts = append(o.hosts, name)
		return nil
	})
	set.StringVar(&o.cert, "cert", "", "`FILE` with the certificate, PEM, to answer with TLS")
	set.StringVar(&o.key, "key", "", "`FILE` with the certificate's key, PEM")
	rest, err := p.parse(set, args)
	switch {
	case err != nil:
		return o, nil, err
	case len(rest) > 0:
		return o, nil, usageError{fmt.Sprintf("serve takes no %q; fettle serve -h lists its flags", rest[0])}
	case o.data == "":
		return o, nil, dataErr
	case (o.cert == "") != (o.key == ""):
		return o, nil, usageError{"give both -cert and -key, or neither"}
	}
	if _, err := isOpen(o.listen); err != nil {
		return o, nil, err
	}
	if o.cert != "" {
		pair, err := tls.LoadX509KeyPair(o.cert, o.key)
		if err != nil {
			return o, nil, fmt.Errorf("certificate: %w", err)
		}
		certificates = []tls.Certificate{pair}
	}
	return o, certificates, nil
}

// requirePassphrase refuses to let others in while no passphrase is set. It comes before anything is
// listened at.
func (o serving) requirePassphrase(ctx context.Context, kept *store.Store) error {
	others, err := isOpen(o.listen)
	if err != nil || !others && len(o.hosts) == 0 {
		return err
	}
	hash, err := kept.Passphrase(ctx)
	if err != nil || hash != "" {
		return err
	}
	flag := "-listen " + o.listen
	if !others {
		flag = "-host " + o.hosts[0]
	}
	return usageError{fmt.Sprintf("%s would let other computers in, which needs a passphrase: set one first, with fettle passphrase", flag)}
}

// tellWhere prints the addresses of the pages, the one for this computer first.
func (p program) tellWhere(server *web.Server, listen string, withTLS bool) error {
	scheme := "http"
	if withTLS {
		scheme = "https"
	}
	if at := netip.MustParseAddrPort(listen); at.Addr().IsUnspecified() {
		listen = fmt.Sprintf("localhost:%d", at.Port())
	}
	fmt.Fprintf(p.stdout, "Fettle is at %s://%s/\n", scheme, listen)
	all, err := server.Addresses()
	for _, address := range all {
		fmt.Fprintf(p.stdout, "For other computers, which sign in: %s\n", address)
	}
	return err
}

// answer serves until ctx ends, then lets the replies under way finish.
func answer(ctx context.Context, listener net.Listener, certificates []tls.Certificate, handler http.Handler, log *slog.Logger) error {
	server := &http.Server{
		Handler:           handler,
		TLSConfig:         &tls.Config{Certificates: certificates, MinVersion: tls.VersionTLS12},
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       time.Minute,
		WriteTimeout:      time.Minute,
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    64 << 10,
		ErrorLog:          slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
	served := make(chan error, 1)
	go func() {
		if certificates == nil {
			served <- server.Serve(listener)
			return
		}
		served <- server.ServeTLS(listener, "", "")
	}()
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
