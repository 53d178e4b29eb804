package store_test

import (
	"context"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/store"
)

const day = 24 * time.Hour

// turned gives a store whose clock a test turns on.
func turned(t *testing.T) (s *store.Store, now *time.Time) {
	t.Helper()
	at := noon
	s, err := store.Open(t.Context(), t.TempDir(), func() time.Time { return at })
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, s.Close()) })
	return s, &at
}

func token(n byte) (t store.Token) {
	t[0] = n
	return t
}

func TestDevicesAreLetInAndShutOut(t *testing.T) {
	s, now := turned(t)
	require.NoError(t, s.SetPassphrase(t.Context(), "hash"))
	phone, err := s.AddDevice(t.Context(), "hash", token(1), store.Device{Name: "Phone", Way: store.ByCode, Expires: noon.Add(30 * day)}, 0)
	require.NoError(t, err)
	*now = noon.Add(time.Hour)
	desk, err := s.AddDevice(t.Context(), "hash", token(2), store.Device{Name: "Desk", Way: store.ByPassphrase, Expires: noon.Add(day)}, 0)
	require.NoError(t, err)

	got, err := s.DeviceOf(t.Context(), token(1))
	require.NoError(t, err)
	require.Equal(t, store.Device{ID: phone, Name: "Phone", Way: store.ByCode, Paired: noon, Seen: noon, Expires: noon.Add(30 * day)}, got)
	require.NoError(t, s.SeeDevice(t.Context(), phone))
	got, err = s.DeviceOf(t.Context(), token(1))
	require.NoError(t, err)
	require.Equal(t, noon.Add(time.Hour), got.Seen)

	require.Equal(t, []string{"Desk", "Phone"}, names(t, s), "the latest first")
	_, err = s.DeviceOf(t.Context(), token(3))
	require.ErrorIs(t, err, store.ErrNotFound)

	*now = noon.Add(day).Add(-time.Millisecond)
	_, err = s.DeviceOf(t.Context(), token(2))
	require.NoError(t, err)
	*now = noon.Add(day)
	_, err = s.DeviceOf(t.Context(), token(2))
	require.ErrorIs(t, err, store.ErrNotFound, "its time is over")
	require.Equal(t, []string{"Phone"}, names(t, s))

	require.NoError(t, s.ShutOut(t.Context(), phone))
	_, err = s.DeviceOf(t.Context(), token(1))
	require.ErrorIs(t, err, store.ErrNotFound)
	require.ErrorIs(t, s.ShutOut(t.Context(), phone), store.ErrNotFound)
	require.NoError(t, s.ShutOut(t.Context(), desk))
}

func names(t *testing.T, s *store.Store) (names []string) {
	t.Helper()
	all, err := s.Devices(t.Context())
	require.NoError(t, err)
	for _, d := range all {
		names = append(names, d.Name)
	}
	return names
}

// A device that signs in again is one device, and what is over is not kept.
func TestDeviceTakesThePlaceOfTheOneItWas(t *testing.T) {
	folder := t.TempDir()
	at := noon
	s, err := store.Open(t.Context(), folder, func() time.Time { return at })
	require.NoError(t, err)
	defer s.Close()
	require.NoError(t, s.SetPassphrase(t.Context(), "hash"))
	d := store.Device{Name: "Phone", Way: store.ByCode, Expires: noon.Add(day)}
	before, err := s.AddDevice(t.Context(), "hash", token(1), d, 0)
	require.NoError(t, err)
	_, err = s.AddDevice(t.Context(), "hash", token(2), d, before)
	require.NoError(t, err)
	_, err = s.DeviceOf(t.Context(), token(1))
	require.ErrorIs(t, err, store.ErrNotFound)
	at = noon.Add(2 * day)
	d.Expires = noon.Add(3 * day)
	_, err = s.AddDevice(t.Context(), "hash", token(3), d, 0)
	require.NoError(t, err)
	require.Equal(t, "1", ask(t, filepath.Join(folder, store.FileName), `SELECT count(*) FROM device`))
	_, err = s.AddDevice(t.Context(), "hash", token(3), d, 0)
	require.ErrorIs(t, err, store.ErrTaken, "two devices never share a token")
}

func TestNewPassphraseShutsEverybodyOut(t *testing.T) {
	s := open(t, t.TempDir())
	d := store.Device{Name: "Phone", Way: store.ByCode, Expires: noon.Add(day)}
	hash, err := s.Passphrase(t.Context())
	require.NoError(t, err)
	require.Empty(t, hash)
	_, err = s.AddDevice(t.Context(), "", token(1), d, 0)
	require.ErrorIs(t, err, store.ErrNotFound, "nobody is let in where there is no passphrase")

	require.NoError(t, s.SetPassphrase(t.Context(), "old"))
	_, err = s.AddDevice(t.Context(), "old", token(1), d, 0)
	require.NoError(t, err)
	require.NoError(t, s.SetPassphrase(t.Context(), "new"))
	hash, err = s.Passphrase(t.Context())
	require.NoError(t, err)
	require.Equal(t, "new", hash)
	_, err = s.DeviceOf(t.Context(), token(1))
	require.ErrorIs(t, err, store.ErrNotFound)
	_, err = s.AddDevice(t.Context(), "old", token(2), d, 0)
	require.ErrorIs(t, err, store.ErrNotFound, "one that proved itself by the old one, and is late")
	require.Empty(t, names(t, s))
}

// Of many that change the passphrase and sign in at once, none is in by a passphrase that is not the last.
func TestPassphraseIsChangedWhileDevicesSignIn(t *testing.T) {
	s := open(t, t.TempDir())
	require.NoError(t, s.SetPassphrase(t.Context(), "old"))
	var all sync.WaitGroup
	for i := range byte(8) {
		all.Go(func() {
			d := store.Device{Name: "late", Way: store.ByPassphrase, Expires: noon.Add(day)}
			// Refused or not, as it comes.
			_, _ = s.AddDevice(context.Background(), "old", token(i), d, 0)
		})
	}
	var err error
	all.Go(func() { err = s.SetPassphrase(context.Background(), "new") })
	all.Wait()
	require.NoError(t, err)
	require.Empty(t, names(t, s))
}
