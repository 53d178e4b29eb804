package main

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"io"
	"math/big"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fettle/store"
	"fettle/web/access"
)

const passphrase = "anvil tulip comet ledger"

// setPassphrase calls fettle passphrase with typed on its standard input.
func setPassphrase(t *testing.T, data, typed string) (stdout, stderr string, code int) {
	t.Helper()
	var out, errs bytes.Buffer
	p := program{env: func(string) string { return "" }, stdin: strings.NewReader(typed), stdout: &out, stderr: &errs}
	code = p.run(t.Context(), []string{"passphrase", "-data", data})
	return out.String(), errs.String(), code
}

func hashIn(t *testing.T, data string) string {
	t.Helper()
	kept, err := store.Open(t.Context(), data, time.Now)
	require.NoError(t, err)
	defer kept.Close()
	hash, err := kept.Passphrase(t.Context())
	require.NoError(t, err)
	return hash
}

func TestPassphraseFromStandardInput(t *testing.T) {
	for typed, want := range map[string]string{
		passphrase:                    "",
		passphrase + "\r\n":           "",
		passphrase + "\nanother line": "",
		"":                            "at least 12 characters",
		"short\n":                     "at least 12 characters",
		"passwordpassword\n":          "first to be guessed",
		strings.Repeat("x y ", 1<<15): "at most 128",
	} {
		data := filepath.Join(t.TempDir(), "data")
		stdout, stderr, code := setPassphrase(t, data, typed)
		require.NotContains(t, stdout+stderr, passphrase)
		if want != "" {
			require.Equal(t, 2, code)
			require.Contains(t, stderr, want)
			require.NoDirExists(t, data, "nothing is made for what is not taken")
			continue
		}
		require.Zero(t, code, stderr)
		require.Contains(t, stdout, "The passphrase is set.")
		is, err := access.Matches(hashIn(t, data), passphrase)
		require.NoError(t, err)
		require.True(t, is, "%q", typed)
	}
}

func TestPassphraseIsKeptWhereNoOtherUserReads(t *testing.T) {
	data := filepath.Join(t.TempDir(), "data")
	_, _, code := setPassphrase(t, data, passphrase)
	require.Zero(t, code)
	state, err := os.Stat(data)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o700), state.Mode().Perm())
}

// noFollow keeps redirects as they come.
func noFollow(tlsConfig *tls.Config) *http.Client {
	return &http.Client{
		Transport:     &http.Transport{TLSClientConfig: tlsConfig},
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	}
}

func status(t *testing.T, client *http.Client, r *http.Request) (int, http.Header) {
	t.Helper()
	reply, err := client.Do(r)
	require.NoError(t, err)
	_, err = io.Copy(io.Discard, reply.Body)
	require.NoError(t, err)
	require.NoError(t, reply.Body.Close())
	return reply.StatusCode, reply.Header
}

func get(t *testing.T, address string) *http.Request {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, address, nil)
	require.NoError(t, err)
	return r
}

// With a passphrase the whole computer is listened at: here nobody is asked, and by an address of the
// network everybody is.
func TestServesTheNetwork(t *testing.T) {
	data := t.TempDir()
	_, _, code := setPassphrase(t, data, passphrase)
	require.Zero(t, code)
	run := start(t, nil, "-listen", "0.0.0.0:0", "-host", "workshop.example", "-data", data)
	require.True(t, strings.HasPrefix(run.url, "http://localhost:"), run.url)
	client := noFollow(nil)
	port := strings.TrimSuffix(run.url[strings.LastIndex(run.url, ":")+1:], "/")
	here := "http://127.0.0.1:" + port + "/"
	is, _ := status(t, client, get(t, here))
	require.Equal(t, http.StatusOK, is)

	rebound := get(t, here)
	rebound.Host = "rebound.example:" + port
	is, _ = status(t, client, rebound)
	require.Equal(t, http.StatusMisdirectedRequest, is)

	passedOn := get(t, here)
	passedOn.Header.Set("X-Forwarded-For", "192.0.2.23")
	is, _ = status(t, client, passedOn)
	require.Equal(t, http.StatusSeeOther, is)

	named := get(t, here)
	named.Host = "workshop.example:" + port
	is, header := status(t, client, named)
	require.Equal(t, http.StatusSeeOther, is)
	require.Equal(t, "/signin?then=%2F", header.Get("Location"))
	form := url.Values{"passphrase": {passphrase}}
	signin, err := http.NewRequestWithContext(t.Context(), http.MethodPost, here+"signin", strings.NewReader(form.Encode()))
	require.NoError(t, err)
	signin.Host = named.Host
	signin.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	is, header = status(t, client, signin)
	require.Equal(t, http.StatusSeeOther, is)
	cookie, err := http.ParseSetCookie(header.Get("Set-Cookie"))
	require.NoError(t, err)
	named.AddCookie(cookie)
	is, _ = status(t, client, named)
	require.Equal(t, http.StatusOK, is)

	for _, address := range networkAddresses(t) {
		is, _ := status(t, client, get(t, "http://"+net.JoinHostPort(address.String(), port)+"/"))
		require.Equal(t, http.StatusSeeOther, is, address)
	}

	// A new passphrase counts at once.
	_, _, code = setPassphrase(t, data, "ledger comet tulip anvil")
	require.Zero(t, code)
	is, _ = status(t, client, named)
	require.Equal(t, http.StatusSeeOther, is)
	require.Zero(t, run.stop())
}

// networkAddresses are those of IPv4 that this computer has beside loopback, which may be none.
func networkAddresses(t *testing.T) (some []netip.Addr) {
	t.Helper()
	all, err := ownAddresses()
	require.NoError(t, err)
	for _, a := range all {
		if a.Is4() && !a.IsLoopback() && a.IsGlobalUnicast() {
			some = append(some, a)
		}
	}
	return some
}

// certificate makes one that is signed by itself, and a pool that trusts it.
func certificate(t *testing.T) (cert, key string, pool *x509.CertPool) {
	t.Helper()
	private, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	require.NoError(t, err)
	template := &x509.Certificate{SerialNumber: big.NewInt(1), NotAfter: time.Now().Add(time.Hour), DNSNames: []string{"localhost", "workshop.example"}}
	body, err := x509.CreateCertificate(rand.Reader, template, template, private.Public(), private)
	require.NoError(t, err)
	secret, err := x509.MarshalPKCS8PrivateKey(private)
	require.NoError(t, err)
	cert, key = filepath.Join(t.TempDir(), "cert.pem"), filepath.Join(t.TempDir(), "key.pem")
	require.NoError(t, os.WriteFile(cert, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: body}), 0o600))
	require.NoError(t, os.WriteFile(key, pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: secret}), 0o600))
	parsed, err := x509.ParseCertificate(body)
	require.NoError(t, err)
	pool = x509.NewCertPool()
	pool.AddCert(parsed)
	return cert, key, pool
}

// OWASP ASVS 4.0.3, 9.1.1 to 9.1.3: TLS for everything, of version 1.2 and above alone.
func TestServesWithTLS(t *testing.T) {
	cert, key, pool := certificate(t)
	run := start(t, nil, "-listen", "localhost:0", "-cert", cert, "-key", key, "-data", t.TempDir())
	require.True(t, strings.HasPrefix(run.url, "https://127.0.0.1:") || strings.HasPrefix(run.url, "https://[::1]:"), run.url)
	at := strings.TrimSuffix(strings.TrimPrefix(run.url, "https://"), "/")
	address := get(t, run.url)
	is, _ := status(t, noFollow(&tls.Config{RootCAs: pool, ServerName: "localhost"}), address)
	require.Equal(t, http.StatusOK, is)

	for version, want := range map[uint16]bool{tls.VersionTLS10: false, tls.VersionTLS11: false, tls.VersionTLS12: true, tls.VersionTLS13: true} {
		c, err := tls.Dial("tcp", at, &tls.Config{RootCAs: pool, ServerName: "localhost", MinVersion: version, MaxVersion: version})
		require.Equal(t, want, err == nil, tls.VersionName(version))
		if err == nil {
			for _, insecure := range tls.InsecureCipherSuites() {
				require.NotEqual(t, insecure.ID, c.ConnectionState().CipherSuite)
			}
			require.NoError(t, c.Close())
		}
	}
	for _, insecure := range tls.InsecureCipherSuites() {
		c, err := tls.Dial("tcp", at, &tls.Config{RootCAs: pool, ServerName: "localhost", MaxVersion: tls.VersionTLS12, CipherSuites: []uint16{insecure.ID}})
		require.Error(t, err, insecure.Name)
		require.Nil(t, c)
	}
	// Plainly asked, the program gives no page.
	is, _ = status(t, noFollow(nil), get(t, "http://"+at+"/"))
	require.Equal(t, http.StatusBadRequest, is)
	require.Zero(t, run.stop())
}

// pipes is a listener of connections that a test makes.
type pipes struct{ waiting chan net.Conn }

func (p pipes) Accept() (net.Conn, error) {
	c, ok := <-p.waiting
	if !ok {
		return nil, net.ErrClosed
	}
	return c, nil
}
func (pipes) Close() error   { return nil }
func (pipes) Addr() net.Addr { return &net.TCPAddr{} }

// pipe is a connection from an address.
type pipe struct {
	net.Conn
	from   netip.AddrPort
	closed bool
}

func (p *pipe) RemoteAddr() net.Addr { return net.TCPAddrFromAddrPort(p.from) }
func (p *pipe) Close() error         { p.closed = true; return nil }

// come gives b so many connections of an address, and then one of this computer. It gives those that came
// through.
func come(t *testing.T, b *bounded, from string, n int) (through []net.Conn) {
	t.Helper()
	waiting := b.Listener.(pipes).waiting
	for range n {
		waiting <- &pipe{from: netip.MustParseAddrPort(from)}
	}
	waiting <- &pipe{from: netip.MustParseAddrPort("127.0.0.1:1")}
	for {
		c, err := b.Accept()
		require.NoError(t, err)
		if addressOf(c.RemoteAddr()).IsLoopback() {
			return through
		}
		through = append(through, c)
	}
}

func TestConnectionsOfTheNetworkAreBounded(t *testing.T) {
	b := &bounded{Listener: pipes{make(chan net.Conn, 1000)}, from: map[netip.Addr]int{}}
	greedy := come(t, b, "192.0.2.1:1", 40)
	require.Len(t, greedy, 32, "of one address")
	others := 0
	for i := range byte(250) {
		others += len(come(t, b, netip.AddrPortFrom(netip.AddrFrom4([4]byte{198, 51, 100, i}), 1).String(), 1))
	}
	require.Equal(t, 256-32, others, "in all; this computer's own came through all the while")

	// One that ends makes room for one, however often it is closed.
	require.NoError(t, greedy[0].Close())
	require.NoError(t, greedy[0].Close())
	require.Len(t, come(t, b, "192.0.2.1:1", 2), 1)
	require.Empty(t, come(t, b, "192.0.2.9:1", 2))
}

func TestConnectionThatIsDroppedIsClosed(t *testing.T) {
	b := &bounded{Listener: pipes{make(chan net.Conn, 1000)}, from: map[netip.Addr]int{}, all: mostConnections}
	one := &pipe{from: netip.MustParseAddrPort("192.0.2.1:1")}
	b.Listener.(pipes).waiting <- one
	require.Empty(t, come(t, b, "192.0.2.1:1", 0))
	require.True(t, one.closed)
}
