package access

import (
	"crypto/subtle"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"strings"

	"golang.org/x/crypto/argon2"
	"golang.org/x/text/unicode/norm"
)

// cost is what one argon2id hash takes.
type cost struct {
	memoryKiB uint32
	passes    uint32
	lanes     uint8
}

// usual is the second recommended option of RFC 9106 section 4, that for computers short of memory: 64 MiB,
// 3 passes, 4 lanes. It is above the least that OWASP's Password Storage Cheat Sheet names (19 MiB, 2
// passes), takes 0.3 s of processor time on a small computer, and one hash is made at a time.
var usual = cost{memoryKiB: 64 << 10, passes: 3, lanes: 4}

// most is what a stored hash may ask for: a data file that was tampered with shall not take all memory.
var most = cost{memoryKiB: 1 << 20, passes: 16, lanes: 64}

const (
	saltBytes = 16 // RFC 9106 section 4
	hashBytes = 32
)

// Hash gives the argon2id hash of a passphrase with a salt from random, in the form
// $argon2id$v=19$m=…,t=…,p=…$salt$hash that other programs read too.
func Hash(passphrase string, random io.Reader) (string, error) {
	salt := make([]byte, saltBytes)
	if _, err := io.ReadFull(random, salt); err != nil {
		return "", fmt.Errorf("salt: %w", err)
	}
	return usual.hash(passphrase, salt), nil
}

func (c cost) hash(passphrase string, salt []byte) string {
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, c.memoryKiB, c.passes, c.lanes,
		base64.RawStdEncoding.EncodeToString(salt), base64.RawStdEncoding.EncodeToString(c.key(passphrase, salt, hashBytes)))
}

func (c cost) key(passphrase string, salt []byte, length uint32) []byte {
	return argon2.IDKey([]byte(same(passphrase)), salt, c.passes, c.memoryKiB, c.lanes, length)
}

// same gives one form to a passphrase however a keyboard makes its accents, as NIST SP 800-63B 5.1.1.2 asks,
// and with single spaces between words alone: telephones add one at the end (OWASP ASVS 4.0.3, 2.1.3).
func same(passphrase string) string {
	return strings.Join(strings.Fields(norm.NFKC.String(passphrase)), " ")
}

// Matches reports whether the passphrase is the one of the hash. It returns an error for what is no
// argon2id hash, or one that would take too much.
func Matches(hash, passphrase string) (bool, error) {
	c, salt, want, err := parse(hash)
	if err != nil {
		return false, err
	}
	return subtle.ConstantTimeCompare(want, c.key(passphrase, salt, uint32(len(want)))) == 1, nil
}

var errHash = errors.New("the stored passphrase cannot be read; set it anew with fettle passphrase")

func parse(hash string) (c cost, salt, key []byte, err error) {
	parts := strings.Split(hash, "$")
	if len(parts) != 6 || parts[0] != "" || parts[1] != "argon2id" || parts[2] != fmt.Sprintf("v=%d", argon2.Version) {
		return c, nil, nil, errHash
	}
	if _, err := fmt.Sscanf(parts[3], "m=%d,t=%d,p=%d", &c.memoryKiB, &c.passes, &c.lanes); err != nil {
		return c, nil, nil, errHash
	}
	salt, errSalt := base64.RawStdEncoding.Strict().DecodeString(parts[4])
	key, errKey := base64.RawStdEncoding.Strict().DecodeString(parts[5])
	if errSalt != nil || errKey != nil || len(salt) < 8 || len(key) < 16 || len(key) > 64 ||
		c.passes < 1 || c.lanes < 1 || c.memoryKiB < 8 ||
		c.memoryKiB > most.memoryKiB || c.passes > most.passes || c.lanes > most.lanes {
		return c, nil, nil, errHash
	}
	return c, salt, key, nil
}
