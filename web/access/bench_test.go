package access_test

import (
	"crypto/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/web/access"
)

// What one attempt to sign in costs, and so how fast passphrases can be guessed by whoever has the hash.
func BenchmarkMatches(b *testing.B) {
	hash, err := access.Hash("anvil tulip comet ledger", rand.Reader)
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		_, err := access.Matches(hash, "anvil tulip comet ledgers")
		require.NoError(b, err)
	}
}
