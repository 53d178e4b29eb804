package web

import (
	"bytes"
	"context"
	"io"
	"net/url"
	"strings"

	"github.com/a-h/templ"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"
)

// markdown writes an entry's text. HTML is not read as such: a "<b>" that was typed is shown as typed.
// A picture is a link to it, so that nothing is fetched from elsewhere; a link leads to the web or writes a
// letter, and everything else is its words alone. A line ends where it was ended.
var markdown = goldmark.New(
	goldmark.WithParser(parser.NewParser(
		parser.WithBlockParsers(
			util.Prioritized(parser.NewSetextHeadingParser(), 100),
			util.Prioritized(parser.NewThematicBreakParser(), 200),
			util.Prioritized(parser.NewListParser(), 300),
			util.Prioritized(parser.NewListItemParser(), 400),
			util.Prioritized(parser.NewCodeBlockParser(), 500),
			util.Prioritized(parser.NewATXHeadingParser(), 600),
			util.Prioritized(parser.NewFencedCodeBlockParser(), 700),
			util.Prioritized(parser.NewBlockquoteParser(), 800),
			util.Prioritized(parser.NewParagraphParser(), 1000),
		),
		parser.WithInlineParsers(
			util.Prioritized(parser.NewCodeSpanParser(), 100),
			util.Prioritized(parser.NewLinkParser(), 200),
			util.Prioritized(parser.NewAutoLinkParser(), 300),
			util.Prioritized(parser.NewEmphasisParser(), 500),
		),
		parser.WithParagraphTransformers(parser.DefaultParagraphTransformers()...),
	)),
	goldmark.WithExtensions(extension.Linkify, extension.Strikethrough,
		extension.NewTable(extension.WithTableCellAlignMethod(extension.TableCellAlignAttribute))), // not as a style
	goldmark.WithRendererOptions(html.WithHardWraps(), renderer.WithNodeRenderers(util.Prioritized(ownNodes{}, 100))),
)

// formatted gives an entry's text as its page shows it.
func formatted(text string) templ.Component {
	return templ.ComponentFunc(func(_ context.Context, w io.Writer) error {
		var body bytes.Buffer
		if err := markdown.Convert([]byte(text), &body); err != nil {
			return err
		}
		_, err := body.WriteTo(w)
		return err
	})
}

// ownNodes writes what the library would write otherwise.
type ownNodes struct{}

func (ownNodes) RegisterFuncs(r renderer.NodeRendererFuncRegisterer) {
	r.Register(ast.KindHeading, writeHeading)
	r.Register(ast.KindLink, func(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		return writeLink(w, string(n.(*ast.Link).Destination), entering)
	})
	r.Register(ast.KindImage, func(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		return writeLink(w, string(n.(*ast.Image).Destination), entering)
	})
	r.Register(ast.KindAutoLink, func(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		link := n.(*ast.AutoLink)
		to := string(link.URL(source))
		if link.AutoLinkType == ast.AutoLinkEmail && !strings.HasPrefix(strings.ToLower(to), "mailto:") {
			to = "mailto:" + to
		}
		if !entering {
			return ast.WalkContinue, nil
		}
		if _, err := writeLink(w, to, true); err != nil {
			return ast.WalkStop, err
		}
		if _, err := w.Write(util.EscapeHTML(link.Label(source))); err != nil {
			return ast.WalkStop, err
		}
		return writeLink(w, to, false)
	})
}

// writeHeading puts every heading of a text below the entry's own, whatever its level.
func writeHeading(w util.BufWriter, _ []byte, _ ast.Node, entering bool) (ast.WalkStatus, error) {
	tag := "<h4>"
	if !entering {
		tag = "</h4>\n"
	}
	_, err := w.WriteString(tag)
	return ast.WalkContinue, err
}

func writeLink(w util.BufWriter, to string, entering bool) (ast.WalkStatus, error) {
	if !leadsOut(to) {
		return ast.WalkContinue, nil // its words alone
	}
	tag := "</a>"
	if entering {
		tag = `<a href="` + string(util.EscapeHTML(util.URLEscape([]byte(to), false))) + `" rel="noopener noreferrer nofollow">`
	}
	_, err := w.WriteString(tag)
	return ast.WalkContinue, err
}

// leadsOut tells whether an address is one that a link may lead to.
func leadsOut(to string) bool {
	u, err := url.Parse(to)
	if err != nil {
		return false
	}
	switch u.Scheme {
	case "http", "https":
		return u.Host != ""
	case "mailto":
		return true
	}
	return false
}
