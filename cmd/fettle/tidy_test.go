package main

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/store"
)

// A photo that no entry shows and a file that was never finished, both a week old, are told, and lie
// there until they are asked to go; one of today may be on its way into an entry, and is neither.
func TestTidyRemovesOnlyWhenAsked(t *testing.T) {
	data := t.TempDir()
	s, err := store.Open(t.Context(), data, time.Now)
	require.NoError(t, err)
	require.NoError(t, s.Close())
	lay := func(content string, age time.Duration) (path, sum string) {
		hash := sha256.Sum256([]byte(content))
		sum = hex.EncodeToString(hash[:])
		path = filepath.Join(data, "photos", sum[:2], sum)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o700))
		require.NoError(t, os.WriteFile(path, []byte(content), 0o600))
		at := time.Now().Add(-age)
		require.NoError(t, os.Chtimes(path, at, at))
		return path, sum
	}
	const week = 7 * 24 * time.Hour
	old, sum := lay("left over", week)
	fresh, freshSum := lay("on its way", time.Minute)
	begun := filepath.Join(data, "photos", ".unfinished-1")
	require.NoError(t, os.WriteFile(begun, []byte("half"), 0o600))
	require.NoError(t, os.Chtimes(begun, time.Now().Add(-week), time.Now().Add(-week)))

	stdout, stderr, code := call(t, nil, "tidy", "-data", data)
	require.Zero(t, code, stderr)
	require.Contains(t, stdout, "no entry of a log shows photo "+sum)
	require.Contains(t, stdout, "never finished: "+begun)
	require.Contains(t, stdout, "2 files that no log needs; fettle tidy -remove removes them for good")
	require.NotContains(t, stdout, freshSum)
	require.FileExists(t, old)
	require.FileExists(t, begun)

	stdout, stderr, code = call(t, nil, "tidy", "-data", data, "-remove")
	require.Zero(t, code, stderr)
	require.Contains(t, stdout, "no entry of a log shows photo "+sum, "what goes is told")
	require.Contains(t, stdout, "removed: 1 photos, 1 unfinished files")
	require.NoFileExists(t, old)
	require.NoFileExists(t, begun)
	require.FileExists(t, fresh)

	stdout, _, code = call(t, nil, "tidy", "-data", data, "-remove")
	require.Zero(t, code)
	require.Equal(t, "no file of a photo is left over\n", stdout)
	_, stderr, code = call(t, nil, "tidy", "-data", data, "now")
	require.Equal(t, 2, code)
	require.Contains(t, stderr, "call fettle tidy")
	_, stderr, code = call(t, nil, "tidy", "-data", t.TempDir())
	require.Equal(t, 2, code)
	require.Contains(t, stderr, "holds no machines")
}
