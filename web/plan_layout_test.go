package web_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"fettle/plan/demo"
)

var update = flag.Bool("update", false, "write the golden files anew")

// The layout alone: elements, ids, classes and names, without any text; of neighbours of one sort the
// first stands for all.
func TestPlanLayout(t *testing.T) {
	b := benchOf(t, demo.Lathe())
	for name, amount := range map[string]string{"asked": "17", "unreadable": "much", "blank": ""} {
		t.Run(name, func(t *testing.T) {
			page := b.post(b.path, b.form("amount", amount)).Body.String()
			root, err := html.Parse(strings.NewReader(page))
			require.NoError(t, err)
			var out strings.Builder
			outline(&out, root, 0)
			file := "testdata/plan-" + name + ".golden.html"
			if *update {
				require.NoError(t, os.MkdirAll("testdata", 0o755))
				require.NoError(t, os.WriteFile(file, []byte(out.String()), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			require.Equal(t, string(want), out.String())
		})
	}
}

func outline(out *strings.Builder, n *html.Node, depth int) {
	last := ""
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if c.Type != html.ElementNode {
			continue
		}
		tag := tagOf(c)
		if tag == last {
			continue
		}
		last = tag
		fmt.Fprintf(out, "%s%s\n", strings.Repeat("  ", depth), tag)
		if c.Data != "svg" { // drawings have goldens of their own
			outline(out, c, depth+1)
		}
	}
}

// tagOf is an element without what differs from one figure to the next.
func tagOf(n *html.Node) string {
	tag := n.Data
	for _, a := range n.Attr {
		switch {
		case a.Key == "id" && (strings.HasPrefix(a.Val, "k-") || strings.HasPrefix(a.Val, "c-")), strings.Contains(a.Val, "."): // a figure, or an input of this kind of upgrade
		case strings.Contains("|id|class|name|type|method|role|aria-live|hx-trigger|hx-swap|hx-sync|open|", "|"+a.Key+"|"):
			tag += fmt.Sprintf(" %s=%q", a.Key, a.Val)
		}
	}
	return "<" + tag + ">"
}
