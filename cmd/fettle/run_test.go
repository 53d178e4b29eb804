package main

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// call runs the program with args and env and gives what it printed and its exit code.
func call(t *testing.T, env map[string]string, args ...string) (stdout, stderr string, code int) {
	t.Helper()
	var out, errs bytes.Buffer
	p := program{
		env:    func(name string) string { return env[name] },
		stdin:  strings.NewReader(""),
		stdout: &out,
		stderr: &errs,
	}
	code = p.run(t.Context(), args)
	return out.String(), errs.String(), code
}

func TestHelpListsEveryCommand(t *testing.T) {
	stdout, stderr, code := call(t, nil, "help")
	require.Zero(t, code)
	require.Empty(t, stderr)
	for _, c := range commands() {
		require.Contains(t, stdout, c.name)
		require.Contains(t, stdout, c.does)
	}
}

func TestCallsThatCannotBeMeant(t *testing.T) {
	home := map[string]string{"HOME": t.TempDir()}
	certificate := filepath.Join(t.TempDir(), "none.pem")
	for _, tc := range []struct {
		args []string
		env  map[string]string
		code int
		say  string
	}{
		{[]string{"polish"}, home, 2, `there is no command "polish"; fettle help lists the commands`},
		{[]string{"serve", "now"}, home, 2, `serve takes no "now"`},
		{[]string{"-colour"}, home, 2, "-colour"},
		{[]string{"-listen", "8270"}, home, 2, "give HOST:PORT"},
		{[]string{"-listen", "0.0.0.0:0"}, home, 2, "would let other computers in"},
		{[]string{"-listen", ":0"}, home, 2, "would let other computers in"},
		{[]string{"-listen", "[::]:0"}, home, 2, "would let other computers in"},
		{[]string{"-listen", "192.0.2.7:0"}, home, 2, "would let other computers in"},
		{[]string{"-listen", "127.0.0.1:0", "-host", "workshop.example"}, home, 2, "-host workshop.example would let other computers in"},
		{[]string{"-listen", "workshop.example:0"}, home, 2, "a name it is asked for by is given with -host"},
		{[]string{"-cert", certificate}, home, 2, "give both -cert and -key"},
		{[]string{"-cert", certificate, "-key", certificate}, home, 1, "certificate: "},
		{[]string{"passphrase", "-set", "hunter"}, home, 2, "-set"},
		{[]string{"passphrase", "hunter"}, home, 2, "the passphrase itself is asked for"},
		{nil, map[string]string{"FETTLE_LISTEN": "0.0.0.0:0", "HOME": home["HOME"]}, 2, "would let other computers in, which needs a passphrase: set one first, with fettle passphrase"},
	} {
		t.Run(strings.Join(tc.args, " "), func(t *testing.T) {
			stdout, stderr, code := call(t, tc.env, tc.args...)
			require.Equal(t, tc.code, code)
			require.Contains(t, stderr, tc.say)
			require.Empty(t, stdout)
		})
	}
}

func TestFlagsAreTold(t *testing.T) {
	stdout, stderr, code := call(t, map[string]string{"HOME": "/home/someone"}, "-h")
	require.Zero(t, code)
	require.Empty(t, stderr)
	require.Contains(t, stdout, "-listen HOST:PORT")
	require.Contains(t, stdout, defaultListen)
	require.Contains(t, stdout, "-data FOLDER")
}

func TestDataFolderThatCannotBeMade(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	_, stderr, code := call(t, nil, "-listen", "127.0.0.1:0", "-data", filepath.Join(file, "below"))
	require.Equal(t, 1, code)
	require.Contains(t, stderr, "data folder")
}

func TestDefaultData(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the places are those of Linux")
	}
	for name, tc := range map[string]struct {
		env  map[string]string
		want string
	}{
		"home":         {map[string]string{"HOME": "/home/someone"}, "/home/someone/.local/share/fettle"},
		"XDG":          {map[string]string{"HOME": "/home/someone", "XDG_DATA_HOME": "/data"}, "/data/fettle"},
		"XDG relative": {map[string]string{"HOME": "/home/someone", "XDG_DATA_HOME": "data"}, "/home/someone/.local/share/fettle"},
		"ours":         {map[string]string{"HOME": "/home/someone", "FETTLE_DATA": "shed"}, "shed"},
	} {
		t.Run(name, func(t *testing.T) {
			got, err := program{env: func(name string) string { return tc.env[name] }}.defaultData()
			require.NoError(t, err)
			require.Equal(t, tc.want, got)
		})
	}
	_, stderr, code := call(t, nil)
	require.Equal(t, 1, code)
	require.Contains(t, stderr, "name one with -data")
}

// started is a program that serves, and how to stop it.
type started struct {
	url  string
	stop func() (code int)
}

// start runs the program until its address is printed.
func start(t *testing.T, env map[string]string, args ...string) started {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	read, write := io.Pipe()
	p := program{
		env:    func(name string) string { return env[name] },
		stdin:  strings.NewReader(""),
		stdout: write,
		stderr: io.Discard,
	}
	ended := make(chan int, 1)
	go func() {
		ended <- p.run(ctx, args)
		write.Close()
	}()
	t.Cleanup(cancel)
	lines := bufio.NewScanner(read)
	require.True(t, lines.Scan(), "the program ended before it printed its address")
	url, ok := strings.CutPrefix(lines.Text(), "Fettle is at ")
	require.True(t, ok, lines.Text())
	go func() { // the rest is read so that the program never waits for its reader
		for lines.Scan() {
		}
	}()
	return started{url: url, stop: func() int { cancel(); return <-ended }}
}

func TestServeAnswersAndStops(t *testing.T) {
	data := filepath.Join(t.TempDir(), "new", "folder")
	run := start(t, map[string]string{"FETTLE_LISTEN": "127.0.0.1:0", "FETTLE_DATA": data})

	reply, err := http.Get(run.url)
	require.NoError(t, err)
	body, err := io.ReadAll(reply.Body)
	require.NoError(t, err)
	require.NoError(t, reply.Body.Close())
	require.Equal(t, http.StatusOK, reply.StatusCode)
	require.Contains(t, string(body), "Fettle")
	require.DirExists(t, data)

	require.Zero(t, run.stop())
	_, err = http.Get(run.url)
	require.Error(t, err, "nobody listens any more")
}

func TestFlagsComeBeforeTheEnvironment(t *testing.T) {
	data := filepath.Join(t.TempDir(), "flagged")
	run := start(t, map[string]string{"FETTLE_LISTEN": "0.0.0.0:1", "FETTLE_DATA": "/nowhere/at/all"},
		"serve", "-listen", "localhost:0", "-data", data)
	require.Zero(t, run.stop())
	require.DirExists(t, data)
}

func TestAddressInUse(t *testing.T) {
	first := start(t, nil, "-listen", "127.0.0.1:0", "-data", t.TempDir())
	address := strings.TrimSuffix(strings.TrimPrefix(first.url, "http://"), "/")
	_, stderr, code := call(t, nil, "-listen", address, "-data", t.TempDir())
	require.Equal(t, 1, code)
	require.Contains(t, stderr, "is Fettle running already?")
	require.Zero(t, first.stop())
}
