package access_test

import (
	"bytes"
	"crypto/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fettle/web/access"
)

// The tests of the reference implementation of argon2, test.c, version 0x13, argon2id: "password" or
// "differentpassword" with "somesalt" or "diffsalt".
func TestHashesOfTheReferenceImplementation(t *testing.T) {
	for _, tc := range []struct{ passphrase, hash string }{
		{"password", "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc"},
		{"password", "$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4"},
		{"password", "$argon2id$v=19$m=256,t=2,p=2$c29tZXNhbHQ$bQk8UB/VmZZF4Oo79iDXuL5/0ttZwg2f/5U52iv1cDc"},
		{"password", "$argon2id$v=19$m=65536,t=1,p=1$c29tZXNhbHQ$9qWtwbpyPd3vm1rB1GThgPzZ3/ydHL92zKL+15XZypg"},
		{"differentpassword", "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$C4TWUs9rDEvq7w3+J4umqA32aWKB1+DSiRuBfYxFj94"},
		{"password", "$argon2id$v=19$m=65536,t=2,p=1$ZGlmZnNhbHQ$vfMrBczELrFdWP0ZsfhWsRPaHppYdP3MVEMIVlqoFBw"},
	} {
		is, err := access.Matches(tc.hash, tc.passphrase)
		require.NoError(t, err)
		require.True(t, is, tc.hash)
		is, err = access.Matches(tc.hash, tc.passphrase+"x")
		require.NoError(t, err)
		require.False(t, is, tc.hash)
	}
}

func TestHashIsSaltedAndCostly(t *testing.T) {
	const passphrase = "four words that do not belong"
	one, err := access.Hash(passphrase, rand.Reader)
	require.NoError(t, err)
	other, err := access.Hash(passphrase, rand.Reader)
	require.NoError(t, err)
	require.NotEqual(t, one, other)
	// RFC 9106 section 4, second recommended option: 64 MiB, 3 passes, 4 lanes.
	require.True(t, strings.HasPrefix(one, "$argon2id$v=19$m=65536,t=3,p=4$"), one)
	// 16 bytes of salt and 32 of hash, in base64 without padding: 22 and 43 letters.
	parts := strings.Split(one, "$")
	require.Len(t, parts[4], 22)
	require.Len(t, parts[5], 43)
	is, err := access.Matches(one, passphrase)
	require.NoError(t, err)
	require.True(t, is)
	_, err = access.Hash(passphrase, bytes.NewReader(make([]byte, 15)))
	require.ErrorContains(t, err, "salt", "half a salt is none")
}

// One passphrase, however a keyboard makes its accents and a telephone its spaces.
func TestSamePassphraseTypedOtherwise(t *testing.T) {
	hash, err := access.Hash("  Fräs\u00e9  maschine", rand.Reader)
	require.NoError(t, err)
	for typed, want := range map[string]bool{
		"Fräs\u00e9 maschine ":       true,
		"Fra\u0308se\u0301 maschine": true,
		"Fräsé maschine\n":           true,
		"fräsé maschine":             false,
		"Fräsémaschine":              false,
	} {
		is, err := access.Matches(hash, typed)
		require.NoError(t, err)
		require.Equal(t, want, is, "%q", typed)
	}
}

func TestHashThatIsNone(t *testing.T) {
	for _, hash := range []string{
		"", "password", "$argon2id$", "$argon2i$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=16$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=19$m=256,t=0,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=19$m=256,t=2,p=0$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=19$m=256,t=2,p=300$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=19$m=4294967295,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=19$m=256,t=4294967295,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$", "$argon2id$v=19$m=256,t=2,p=1$$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4",
		"$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65", "$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$*",
	} {
		is, err := access.Matches(hash, "password")
		require.ErrorContains(t, err, "set it anew with fettle passphrase", hash)
		require.False(t, is)
	}
}

func TestWeakness(t *testing.T) {
	for _, good := range []string{
		"anvil tulip comet ledger", // four words
		"kJ8#vv!2pQx0",             // 12 characters
		"日本語の長い合言葉です、はい",           // any script
		"🔧🔩🪛⚙️🛠️ turning day",      // signs
		strings.Repeat("Zwölf Boxkämpfer jagen ", 3)[:70],
		"grandfather's password tin",
		strings.Repeat("x1y2", 31) + "abcd", // 128 characters
	} {
		require.Empty(t, access.Weakness(good), good)
	}
	for bad, say := range map[string]string{
		"":                             "at least 12 characters",
		"elevenchars":                  "at least 12 characters, such as four words that do not belong together; this has 11",
		"six      more":                "this has 8", // spaces count once
		"\tanvil tulip comet ledger":   "printable",
		"anvil tulip\x00comet":         "printable",
		"anvil tulip comet \xff":       "printable",
		strings.Repeat("ab ?", 33):     "at most 128",
		"passwordpassword":             "first to be guessed",
		"Password123456":               "first to be guessed",
		"123456789012":                 "first to be guessed",
		"qwertyuiop[]12":               "first to be guessed",
		"aaaaaaaaaaaaa":                "first to be guessed",
		"abcabcabcabcab":               "first to be guessed",
		"fettle-fettle-2026":           "first to be guessed",
		"correct horse battery staple": "first to be guessed",
		"zyxwvutsrqponm":               "first to be guessed",
		"1qaz2wsx3edc":                 "first to be guessed",
		"------------":                 "first to be guessed",
		"Letmein Letmein!":             "first to be guessed",
	} {
		require.Contains(t, access.Weakness(bad), say, "%q", bad)
	}
}

func FuzzPassphrase(f *testing.F) {
	f.Add("anvil tulip comet ledger")
	f.Add("éé\u0301 \xff")
	f.Add("123123")
	f.Fuzz(func(t *testing.T, passphrase string) { _ = access.Weakness(passphrase) })
}

func FuzzMatches(f *testing.F) {
	f.Add("$argon2id$v=19$m=8,t=1,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4")
	f.Add("$argon2id$v=19$m=-1,t=1,p=1$c29tZXNhbHQ$")
	f.Fuzz(func(t *testing.T, hash string) {
		if strings.Contains(hash, "m=8,t=1,") || !strings.HasPrefix(hash, "$argon2id$v=19$m=") {
			_, _ = access.Matches(hash, "password") // never panics; one that is right takes 8 KiB
		}
	})
}
