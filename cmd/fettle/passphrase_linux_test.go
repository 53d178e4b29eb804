package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
	"golang.org/x/term"
)

// terminal gives the two ends of one: where a person sits, and where the program reads.
func terminal(t *testing.T) (person, program *os.File) {
	t.Helper()
	person, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrPermission) {
		t.Skip("no terminals here: ", err)
	}
	require.NoError(t, err)
	t.Cleanup(func() { person.Close() })
	require.NoError(t, unix.IoctlSetPointerInt(int(person.Fd()), unix.TIOCSPTLCK, 0))
	n, err := unix.IoctlGetInt(int(person.Fd()), unix.TIOCGPTN)
	require.NoError(t, err)
	program, err = os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|unix.O_NOCTTY, 0)
	require.NoError(t, err)
	t.Cleanup(func() { program.Close() })
	return person, program
}

// questions is written to by the program; each question is told to asked.
type questions struct {
	asked   chan string
	written bytes.Buffer
}

func (q *questions) Write(text []byte) (int, error) {
	q.written.Write(text)
	if bytes.HasSuffix(text, []byte(": ")) {
		q.asked <- string(text)
	}
	return len(text), nil
}

func echoes(t *testing.T, f *os.File) bool {
	t.Helper()
	is, err := unix.IoctlGetTermios(int(f.Fd()), unix.TCGETS)
	require.NoError(t, err)
	return is.Lflag&unix.ECHO != 0
}

// On a terminal the passphrase is asked for twice, and not shown.
func TestPassphraseIsTypedUnseen(t *testing.T) {
	for _, tc := range []struct {
		name, first, second string
		code                int
		say                 string
	}{
		{"same", passphrase, passphrase, 0, ""},
		{"not the same", passphrase, passphrase + "s", 2, "the two are not the same; nothing was changed"},
		{"weak", "short", "", 2, "at least 12 characters"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			person, reads := terminal(t)
			data := t.TempDir()
			q := &questions{asked: make(chan string)}
			var out bytes.Buffer
			p := program{env: func(string) string { return "" }, stdin: reads, stdout: &out, stderr: q}
			ended := make(chan int, 1)
			go func() { ended <- p.run(t.Context(), []string{"passphrase", "-data", data}); close(q.asked) }()
			answers := []string{tc.first, tc.second}
			for range q.asked {
				require.False(t, echoes(t, reads), "what is typed is not shown")
				_, err := person.WriteString(answers[0] + "\r") // what the key Enter sends
				require.NoError(t, err)
				answers = answers[1:]
			}
			require.Equal(t, tc.code, <-ended)
			require.Contains(t, q.written.String(), tc.say)
			require.NotContains(t, out.String()+q.written.String(), passphrase)
			require.True(t, echoes(t, reads), "the terminal shows again what is typed")
			require.Equal(t, tc.code == 0, hashIn(t, data) != "")
		})
	}
}

// Stopped half way, by a signal or by Ctrl-C, the terminal is as it was.
func TestPassphraseGivenUp(t *testing.T) {
	for name, stop := range map[string]func(person *os.File, cancel func()){
		"signal": func(_ *os.File, cancel func()) { cancel() },
		"Ctrl-C": func(person *os.File, _ func()) { person.WriteString("half\x03") },
	} {
		t.Run(name, func(t *testing.T) {
			person, reads := terminal(t)
			require.True(t, term.IsTerminal(int(reads.Fd())))
			ctx, cancel := context.WithCancel(t.Context())
			defer cancel()
			q := &questions{asked: make(chan string, 1)}
			p := program{env: func(string) string { return "" }, stdin: reads, stdout: q, stderr: q}
			data := t.TempDir()
			ended := make(chan int, 1)
			go func() { ended <- p.run(ctx, []string{"passphrase", "-data", data}) }()
			<-q.asked
			stop(person, cancel)
			require.Equal(t, 1, <-ended)
			require.Contains(t, q.written.String(), "nothing was changed")
			require.True(t, echoes(t, reads))
		})
	}
}
