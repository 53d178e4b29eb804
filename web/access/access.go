package access

import (
	"context"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"time"

	"fettle/store"
)

// SessionLife is how long a device is let in: after that it signs in again, used or not (OWASP ASVS
// 4.0.3, 3.3.2).
const SessionLife = 30 * 24 * time.Hour

// seenEvery is how fine the time that a device was last seen is: a page is not to cost a write.
const seenEvery = time.Minute

// Errors of an attempt to sign in, beside [*LimitError].
var (
	ErrWrong        = errors.New("wrong passphrase or code")
	ErrNoPassphrase = errors.New("no passphrase is set")
)

// Options is what a guard is made of. All of it is needed.
type Options struct {
	Store  *store.Store
	Log    *slog.Logger
	Now    func() time.Time
	Random io.Reader // of tokens, codes and salts
	Reach  Reach
	TLS    bool // the program answers with TLS: cookies are kept to it
}

// Guard knows who asks. It may be used by many requests at once.
type Guard struct {
	Options
	passphrases, pairing attempts
	codes                codes
	hashing              chan struct{} // holds one while a hash is made: each takes 64 MiB
}

// New makes a guard.
func New(options Options) *Guard {
	return &Guard{Options: options, passphrases: attempts{limits: passphraseLimits}, pairing: attempts{limits: codeLimits},
		hashing: make(chan struct{}, 1)}
}

// Visitor is who asks. The zero Visitor is a stranger.
type Visitor struct {
	Here   bool         // the owner, at this computer
	Device store.Device // else, the device that is let in
}

// IsKnown reports whether the visitor may see the machines.
func (v Visitor) IsKnown() bool { return v.Here || v.Device.ID != 0 }

// Manages reports whether the visitor may let devices in and shut them out: not one that came by a code,
// so that a phone that was lost lets nobody in.
func (v Visitor) Manages() bool { return v.Here || v.Device.Way == store.ByPassphrase }

// Visitor tells who makes the request, as of now.
func (g *Guard) Visitor(r *http.Request) (Visitor, error) {
	if g.Reach.isHere(r) {
		return Visitor{Here: true}, nil
	}
	cookie, err := r.Cookie(g.cookieName())
	if err != nil || len(cookie.Value) != base64.RawURLEncoding.EncodedLen(tokenBytes) {
		return Visitor{}, nil
	}
	d, err := g.Store.DeviceOf(r.Context(), sha256.Sum256([]byte(cookie.Value)))
	if errors.Is(err, store.ErrNotFound) {
		return Visitor{}, nil
	}
	if err == nil && g.Now().Sub(d.Seen) >= seenEvery {
		if err := g.Store.SeeDevice(r.Context(), d.ID); err != nil { // the page matters more
			g.Log.WarnContext(r.Context(), "device not noted as seen", "device", d.ID, "err", err)
		}
	}
	return Visitor{Device: d}, err
}

// SignIn lets the device that sent r in when the passphrase is right, and gives it its cookie. It returns
// [ErrWrong], [ErrNoPassphrase] or a [*LimitError].
func (g *Guard) SignIn(w http.ResponseWriter, r *http.Request, passphrase, name string) error {
	giveBack, err := g.attempt(r, &g.passphrases, "passphrase")
	if err != nil {
		return err
	}
	hash, err := g.Store.Passphrase(r.Context())
	switch {
	case err != nil:
		giveBack()
		return err
	case hash == "":
		giveBack()
		return ErrNoPassphrase
	}
	right, err := g.matches(r.Context(), hash, passphrase)
	if err != nil {
		return err
	}
	if !right {
		g.Log.WarnContext(r.Context(), "sign-in refused", "peer", Peer(r), "by", "passphrase")
		return ErrWrong
	}
	giveBack()
	return g.letIn(w, r, hash, store.Device{Name: name, Way: store.ByPassphrase})
}

// matches hashes one passphrase at a time.
func (g *Guard) matches(ctx context.Context, hash, passphrase string) (bool, error) {
	select {
	case g.hashing <- struct{}{}:
		defer func() { <-g.hashing }()
		return Matches(hash, passphrase)
	case <-ctx.Done():
		return false, ctx.Err()
	}
}

// NewCode makes a pairing code, and voids the one before. It returns [ErrNoPassphrase].
func (g *Guard) NewCode(ctx context.Context) (Code, error) {
	hash, err := g.Store.Passphrase(ctx)
	if err != nil {
		return Code{}, err
	}
	if hash == "" {
		return Code{}, ErrNoPassphrase
	}
	return g.codes.make(hash, g.Random, g.Now())
}

// Code gives the pairing code that is valid, if one is.
func (g *Guard) Code() (Code, bool) { return g.codes.now(g.Now()) }

// Pair lets the device that sent r in when the code is the one that is valid, and gives it its cookie. The
// code is used up. It returns [ErrWrong] or a [*LimitError].
func (g *Guard) Pair(w http.ResponseWriter, r *http.Request, code, name string) error {
	giveBack, err := g.attempt(r, &g.pairing, "code")
	if err != nil {
		return err
	}
	redeemed, ok := g.codes.redeem(code, g.Now())
	if !ok {
		g.Log.WarnContext(r.Context(), "sign-in refused", "peer", Peer(r), "by", "code")
		return ErrWrong
	}
	giveBack()
	return g.letIn(w, r, redeemed.under, store.Device{Name: name, Way: store.ByCode})
}

func (g *Guard) attempt(r *http.Request, at *attempts, by string) (giveBack func(), err error) {
	giveBack, err = at.take(Peer(r), g.Now())
	if err != nil {
		g.Log.WarnContext(r.Context(), "sign-in refused", "peer", Peer(r), "by", by, "err", err)
	}
	return giveBack, err
}

// letIn gives the device a new token, never one that it had or brought.
func (g *Guard) letIn(w http.ResponseWriter, r *http.Request, under string, d store.Device) error {
	before, err := g.Visitor(r)
	if err != nil {
		return err
	}
	token, err := g.newToken()
	if err != nil {
		return err
	}
	d.Expires = g.Now().Add(SessionLife)
	d.ID, err = g.Store.AddDevice(r.Context(), under, sha256.Sum256([]byte(token)), d, before.Device.ID)
	if errors.Is(err, store.ErrNotFound) { // the passphrase was changed meanwhile
		return ErrWrong
	}
	if err != nil {
		return err
	}
	http.SetCookie(w, g.cookie(token, int(SessionLife.Seconds())))
	g.Log.InfoContext(r.Context(), "signed in", "peer", Peer(r), "by", d.Way, "device", d.ID)
	return nil
}

// SignOut ends the session of the device that sent r, here and there.
func (g *Guard) SignOut(w http.ResponseWriter, r *http.Request) error {
	v, err := g.Visitor(r)
	if err != nil {
		return err
	}
	http.SetCookie(w, g.cookie("", -1))
	if v.Device.ID == 0 {
		return nil
	}
	return g.ShutOut(r.Context(), v.Device.ID)
}

// ShutOut ends the session of a device. It returns [store.ErrNotFound] for one that is not let in.
func (g *Guard) ShutOut(ctx context.Context, id int64) error {
	if err := g.Store.ShutOut(ctx, id); err != nil {
		return err
	}
	g.Log.InfoContext(ctx, "shut out", "device", id)
	return nil
}

const tokenBytes = 32 // 256 bits

func (g *Guard) newToken() (string, error) {
	bits := make([]byte, tokenBytes)
	if _, err := io.ReadFull(g.Random, bits); err != nil {
		return "", fmt.Errorf("session token: %w", err)
	}
	return base64.RawURLEncoding.EncodeToString(bits), nil
}

// cookieName begins with __Host- where it can, by which browsers keep other hosts and plain pages from
// setting it.
func (g *Guard) cookieName() string {
	if g.TLS {
		return "__Host-fettle"
	}
	return "fettle"
}

func (g *Guard) cookie(value string, maxAge int) *http.Cookie {
	return &http.Cookie{Name: g.cookieName(), Value: value, Path: "/", MaxAge: maxAge,
		HttpOnly: true, SameSite: http.SameSiteLaxMode, Secure: g.TLS}
}
