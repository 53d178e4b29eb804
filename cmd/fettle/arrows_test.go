package main

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// pkg is what the go tool tells about one of our packages.
type pkg struct {
	ImportPath   string
	Dir          string
	GoFiles      []string
	Imports      []string
	TestImports  []string
	XTestImports []string
}

func packages(t *testing.T) []pkg {
	t.Helper()
	out := golist(t, "-json=ImportPath,Dir,GoFiles,Imports,TestImports,XTestImports", "fettle/...")
	var all []pkg
	for stream := json.NewDecoder(strings.NewReader(out)); ; {
		var p pkg
		err := stream.Decode(&p)
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		all = append(all, p)
	}
	require.NotEmpty(t, all)
	return all
}

func golist(t *testing.T, args ...string) string {
	t.Helper()
	list := exec.CommandContext(t.Context(), "go", append([]string{"list"}, args...)...)
	var faults strings.Builder
	list.Stderr = &faults
	out, err := list.Output()
	require.NoError(t, err, faults.String())
	return string(out)
}

// Which top-level folders a folder may import, beside itself.
var arrows = map[string][]string{
	"cmd":        {"web", "store", "plan"},
	"web":        {"store", "plan", "static"},
	"store":      {"plan", "migrations"},
	"plan":       {},
	"static":     {},
	"migrations": {},
}

// The rooms of plan, from the inmost: a room may import those of its own line and of the lines above.
var rooms = [][]string{
	{"plan/table", "plan/unit"},
	{"plan/sheet"},
	{"plan", "plan/axis", "plan/bearing", "plan/chain", "plan/dial", "plan/drive", "plan/fastener", "plan/fit", "plan/joint", "plan/material",
		"plan/part", "plan/reading", "plan/screw", "plan/slide", "plan/thread"},
	{"plan/upgrade"},
	{"plan/machine"},
	{"plan/preset"},
	{"plan/bench", "plan/buildlog", "plan/drawing", "plan/exchange", "plan/order"},
	{"plan/demo"},
}

// What a folder must not reach itself. The standard library reaches os in many places: only direct
// imports count.
var closed = map[string][]string{
	"plan": {"os", "os/exec", "os/signal", "net", "net/http", "database/sql", "io/ioutil", "log", "log/slog",
		"path/filepath", "plugin", "runtime", "syscall", "testing", "unsafe"},
	"web":   {"database/sql", "github.com/mattn/go-sqlite3"},
	"store": {"net/http", "github.com/go-chi/chi/v5", "github.com/a-h/templ"},
}

// Calls by which plan would depend on when or where it runs.
var impure = map[string][]string{
	"time": {"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker", "Local"},
	// A generator is given its source; these draw from the program's own.
	"rand": {"ExpFloat64", "Float32", "Float64", "Int", "Int32", "Int32N", "Int64", "Int64N", "IntN", "N",
		"NormFloat64", "Perm", "Shuffle", "Uint32", "Uint32N", "Uint64", "Uint64N", "UintN", "Seed", "Intn", "Read"},
}

func folder(importPath string) string {
	rest, _ := strings.CutPrefix(importPath, "fettle/")
	top, _, _ := strings.Cut(rest, "/")
	return top
}

func rank(importPath string) int {
	return slices.IndexFunc(rooms, func(line []string) bool {
		return slices.Contains(line, strings.TrimPrefix(importPath, "fettle/"))
	})
}

func TestArrows(t *testing.T) {
	for _, p := range packages(t) {
		top := folder(p.ImportPath)
		allowed, known := arrows[top]
		require.True(t, known, "%s: %s is not one of the top-level folders", p.ImportPath, top)
		for _, imported := range p.Imports {
			if strings.HasPrefix(imported, "fettle/") && folder(imported) != top {
				require.Contains(t, allowed, folder(imported), "%s imports %s", p.ImportPath, imported)
			}
			require.NotContains(t, closed[top], imported, "%s imports %s", p.ImportPath, imported)
		}
	}
}

func TestRoomsOfPlan(t *testing.T) {
	for _, p := range packages(t) {
		if folder(p.ImportPath) != "plan" {
			continue
		}
		own := rank(p.ImportPath)
		require.GreaterOrEqual(t, own, 0, "%s: give the room its line in this test", p.ImportPath)
		for _, imported := range p.Imports {
			if folder(imported) == "plan" && strings.HasPrefix(imported, "fettle/") {
				require.LessOrEqual(t, rank(imported), own, "%s imports %s", p.ImportPath, imported)
			}
		}
		for _, name := range p.GoFiles {
			requirePure(t, filepath.Join(p.Dir, name))
		}
	}
}

func requirePure(t *testing.T, file string) {
	t.Helper()
	files := token.NewFileSet()
	tree, err := parser.ParseFile(files, file, nil, parser.SkipObjectResolution)
	require.NoError(t, err)
	ast.Inspect(tree, func(n ast.Node) bool {
		if call, ok := n.(*ast.SelectorExpr); ok {
			if from, ok := call.X.(*ast.Ident); ok {
				require.NotContains(t, impure[from.Name], call.Sel.Name, "%s: %s.%s",
					files.Position(n.Pos()), from.Name, call.Sel.Name)
			}
		}
		return true
	})
}

// Components show what they are given: they neither fetch nor keep.
func TestComponentsKnowNoStore(t *testing.T) {
	for _, p := range packages(t) {
		if strings.HasPrefix(p.ImportPath, "fettle/web/ui") || strings.HasPrefix(p.ImportPath, "fettle/web/form") {
			for _, imported := range p.Imports {
				require.NotEqual(t, "store", folder(imported), "%s imports %s", p.ImportPath, imported)
			}
		}
	}
}

func TestOnlyBrowsertestDrivesTheBrowser(t *testing.T) {
	for _, p := range packages(t) {
		for _, imported := range slices.Concat(p.Imports, p.TestImports, p.XTestImports) {
			if strings.HasPrefix(imported, "github.com/chromedp/") {
				require.Equal(t, "fettle/web/browsertest", p.ImportPath)
			}
		}
	}
}

// A module in the binary is something that users run: each is named here on purpose.
func TestLinkedModules(t *testing.T) {
	may := []string{
		"fettle",
		"codeberg.org/go-pdf/fpdf",
		"github.com/a-h/templ",
		"github.com/bep/imagemeta",     // what a photo's Exif says
		"github.com/ebitengine/purego", // of heic
		"github.com/gen2brain/heic",
		"github.com/go-chi/chi/v5",
		"github.com/mattn/go-sqlite3",
		"github.com/tetratelabs/wazero", // of heic: runs its decoder, shut in
		"github.com/yuin/goldmark",      // the log's Markdown
		"golang.org/x/crypto",           // argon2id
		"golang.org/x/image",            // WebP
		"golang.org/x/sync",             // bounds what pictures take at once
		"golang.org/x/sys",              // of wazero, x/crypto and x/term
		"golang.org/x/term",             // a passphrase that is typed unseen
		"golang.org/x/text",             // of imagemeta; the passphrase's normal form
		"rsc.io/qr",
	}
	out := golist(t, "-deps", "-f", "{{with .Module}}{{.Path}}{{end}}", "fettle/cmd/fettle")
	linked := slices.Compact(slices.Sorted(slices.Values(strings.Fields(out))))
	require.Contains(t, linked, "fettle")
	require.Subset(t, may, linked)
}
