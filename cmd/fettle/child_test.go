package main

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"math/rand/v2"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestMain lets the test's own program be the program, in a process that can be killed.
func TestMain(m *testing.M) {
	if os.Getenv("FETTLE_TEST_PROGRAM") != "" {
		main()
	}
	os.Exit(m.Run())
}

// child is the program in a process of its own.
type child struct {
	*exec.Cmd
	url    string
	client *http.Client
	said   *bytes.Buffer // on standard error; to be read when it has ended
}

// serveApart starts the program, by a command that may do something before, and waits for its address.
func serveApart(t *testing.T, command *exec.Cmd) *child {
	t.Helper()
	c := &child{Cmd: command, said: &bytes.Buffer{}, client: &http.Client{Transport: &http.Transport{}, CheckRedirect: func(*http.Request, []*http.Request) error {
		return http.ErrUseLastResponse
	}}}
	c.Env = append(os.Environ(), "FETTLE_TEST_PROGRAM=1")
	c.Stderr = c.said
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	t.Cleanup(func() { _ = c.Process.Kill(); _ = c.Wait() }) // has ended, unless the test failed
	lines := bufio.NewScanner(out)
	if !lines.Scan() {
		_ = c.Wait()
		t.Fatalf("the program ended before it printed its address: %s", c.said)
	}
	address, ok := strings.CutPrefix(lines.Text(), "Fettle is at ")
	require.True(t, ok, lines.Text())
	c.url = strings.TrimSuffix(address, "/")
	go func() { _, _ = io.Copy(io.Discard, out) }() // so that the program never waits for its reader
	return c
}

func theProgram(t *testing.T, args ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	return exec.Command(self, args...)
}

// send gives the answer to a request, or an error where none came.
func (c *child) send(method, path, contentType string, body []byte) (status int, answer []byte, err error) {
	r, err := http.NewRequest(method, c.url+path, bytes.NewReader(body))
	if err != nil {
		return 0, nil, err
	}
	r.Header.Set("Content-Type", contentType)
	if contentType != formType {
		r.Header.Set("Accept", "application/json")
	}
	reply, err := c.client.Do(r)
	if err != nil {
		return 0, nil, err
	}
	defer reply.Body.Close()
	answer, err = io.ReadAll(reply.Body)
	return reply.StatusCode, answer, err
}

const formType = "application/x-www-form-urlencoded"

// sendEntry sends an entry as a new one, or as a change of the one with its revision.
func (c *child) sendEntry(w written) (status int, answer []byte, err error) {
	path := "/machines/1/log"
	if w.revision > 0 {
		path += "/" + w.key
	}
	form := url.Values{"key": {w.key}, "revision": {fmt.Sprint(w.revision)}, "at": {"2026-03-01T12:00"}, "text": {w.text}, "photo": w.photos}
	return c.send(http.MethodPost, path, formType, []byte(form.Encode()))
}

func (c *child) sendPhoto(key string, file []byte) (status int, answer []byte, err error) {
	return c.send(http.MethodPost, "/machines/1/log/"+key+"/photos", "image/jpeg", file)
}

// written is an entry of the log as somebody wrote it.
type written struct {
	key, text string
	photos    []string // SHA-256
	revision  int64
}

// noise is a photo of about 100 KB, and another one each time.
func noise(r *rand.Rand) []byte {
	img := image.NewGray(image.Rect(0, 0, 320, 240))
	for i := range img.Pix {
		img.Pix[i] = byte(r.Uint32())
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: 95}); err != nil {
		panic(err)
	}
	return out.Bytes()
}

// saysOf is the sentence of an error as JSON.
func saysOf(t *testing.T, answer []byte) string {
	t.Helper()
	var page struct{ Say string }
	require.NoError(t, json.Unmarshal(answer, &page), "%s", answer)
	return page.Say
}

func sha256Of(file []byte) string {
	sum := sha256.Sum256(file)
	return hex.EncodeToString(sum[:])
}
