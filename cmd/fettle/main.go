// Command fettle serves Fettle's pages to this computer, and runs what can be done without them.
//
//	fettle [-listen HOST:PORT] [-data FOLDER]    serve
//	fettle passphrase                            set what lets other computers in
//	fettle plan FILE                             work a machine's file out
//	fettle bench METHOD KEY=VALUE ...            one of the bench figures
//	fettle export, import                        machines as files
//	fettle backup, restore                       all of them, with their photos, as one file
//	fettle tidy                                  photos that no entry of a log shows
//	fettle help                                  list the commands
//
// It exits 0 when all went well, 1 when something failed, and 2 when it was not called rightly.
package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second signal ends the program at once
	p := program{env: os.Getenv, stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr}
	os.Exit(p.run(ctx, os.Args[1:]))
}

// program is what the commands see of the world.
type program struct {
	env            func(string) string // value of an environment variable, or ""
	stdin          io.Reader
	stdout, stderr io.Writer
}
