package main

import (
	"bufio"
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"fettle/web/access"
)

// passphrase sets the passphrase, which it reads from the terminal without showing it, or from standard
// input. It is no flag: those stand in the shell's history, and in the system's list of processes.
func (p program) passphrase(ctx context.Context, args []string) error {
	set := flags("passphrase")
	data := p.dataFlag(set)
	rest, err := p.parse(set, args)
	switch {
	case err != nil:
		return err
	case len(rest) > 0:
		return usageError{"call fettle passphrase [-data FOLDER]; the passphrase itself is asked for"}
	}
	typed, err := p.readPassphrase(ctx)
	if err != nil {
		return err
	}
	if weak := access.Weakness(typed); weak != "" {
		return usageError{weak}
	}
	hash, err := access.Hash(typed, rand.Reader)
	if err != nil {
		return err
	}
	kept, err := data.openOrMake(ctx)
	if err != nil {
		return err
	}
	defer kept.Close()
	if err := kept.SetPassphrase(ctx, hash); err != nil {
		return err
	}
	fmt.Fprintln(p.stdout, "The passphrase is set. Devices that were let in before have to sign in again.")
	return nil
}

func (p program) readPassphrase(ctx context.Context) (string, error) {
	file, ok := p.stdin.(*os.File)
	if !ok || !term.IsTerminal(int(file.Fd())) {
		line, err := bufio.NewReader(io.LimitReader(p.stdin, 64<<10)).ReadString('\n')
		if err != nil && !errors.Is(err, io.EOF) {
			return "", err
		}
		return strings.TrimRight(line, "\r\n"), nil
	}
	first, err := p.askUnseen(ctx, file, "Passphrase, which is not shown: ")
	if err != nil {
		return "", err
	}
	if weak := access.Weakness(first); weak != "" {
		return "", usageError{weak}
	}
	second, err := p.askUnseen(ctx, file, "Once more: ")
	if err == nil && first != second {
		err = usageError{"the two are not the same; nothing was changed"}
	}
	return first, err
}

// askUnseen reads a line of the terminal without showing it. When ctx ends meanwhile, the terminal shows
// again what is typed.
func (p program) askUnseen(ctx context.Context, terminal *os.File, question string) (typed string, err error) {
	// The state is changed here and not where the line is read: else it could change after it was put back.
	fd := int(terminal.Fd())
	before, err := term.MakeRaw(fd)
	if err != nil {
		return "", err
	}
	defer func() {
		err = errors.Join(err, term.Restore(fd, before))
		fmt.Fprintln(p.stderr)
	}()
	fmt.Fprint(p.stderr, question)
	type answer struct {
		line string
		err  error
	}
	read := make(chan answer, 1)
	go func() {
		line, err := term.NewTerminal(unheard{terminal}, "").ReadPassword("")
		read <- answer{line, err}
	}()
	select {
	case a := <-read:
		if errors.Is(a.err, io.EOF) { // Ctrl-C and Ctrl-D too
			return "", errGivenUp
		}
		return a.line, a.err
	case <-ctx.Done():
		return "", errGivenUp
	}
}

var errGivenUp = errors.New("given up; nothing was changed")

// unheard takes what a line editor would write to the terminal.
type unheard struct{ io.Reader }

func (unheard) Write(text []byte) (int, error) { return len(text), nil }
