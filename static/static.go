// Package static holds the stylesheet, the scripts and the type that pages are shown with, and
// serves them.
//
// Every file is served under one hash of them all, /static/HASH/NAME, so that a browser may keep it
// for ever: when any file changes, so does every address. Files name each other by relative
// address (the stylesheet its fonts), which is why they share one hash.
package static

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"io/fs"
	"net/http"
	"path"
	"strings"
	"time"
)

//go:embed app.css *.js htmx.LICENSE icon.svg fonts/*.woff2 fonts/OFL.txt
var embedded embed.FS

// Prefix is the path under which [Handler] expects to be mounted.
const Prefix = "/static/"

// The types are named here because the operating system's own list differs from machine to machine.
var contentTypes = map[string]string{
	".css":     "text/css; charset=utf-8",
	".js":      "text/javascript; charset=utf-8",
	".svg":     "image/svg+xml",
	".woff2":   "font/woff2",
	".txt":     "text/plain; charset=utf-8",
	".LICENSE": "text/plain; charset=utf-8",
}

var files, hash = load()

// load reads every embedded file and hashes them all, names included. It panics where a file has
// no content type: a mistake that the first test of the program finds.
func load() (map[string][]byte, string) {
	all := map[string][]byte{}
	sum := sha256.New()
	err := fs.WalkDir(embedded, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		if contentTypes[path.Ext(name)] == "" {
			return fmt.Errorf("%s: no content type", name)
		}
		body, err := embedded.ReadFile(name)
		if err != nil {
			return err
		}
		all[name] = body
		fmt.Fprintf(sum, "%s %d\n", name, len(body))
		sum.Write(body)
		return nil
	})
	if err != nil {
		panic("static: " + err.Error())
	}
	return all, hex.EncodeToString(sum.Sum(nil))[:12]
}

// URL gives the address of the file called name, such as "app.css" or "fonts/barlow-400.woff2".
// It panics for a name that is not there: names are constants in the pages.
func URL(name string) string {
	if _, ok := files[name]; !ok {
		panic("static: no file " + name)
	}
	return Prefix + hash + "/" + name
}

// Handler serves the files below [Prefix], to be kept for ever. Whatever is not a file, folders
// included, is given to missing.
func Handler(missing http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name, ok := strings.CutPrefix(r.URL.Path, Prefix+hash+"/")
		body, found := files[name]
		if !ok || !found {
			missing.ServeHTTP(w, r)
			return
		}
		header := w.Header()
		header.Set("Content-Type", contentTypes[path.Ext(name)])
		header.Set("Cache-Control", "public, max-age=31536000, immutable")
		http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(body))
	})
}
