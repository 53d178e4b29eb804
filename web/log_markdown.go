package web

import (
	"bytes"
	"context"
	"io"
	"net/url"
	"strconv"
	"strings"

	"github.com/a-h/templ"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// markdowns write an entry's text. HTML is not read as such: a "<b>" that was typed is shown as typed.
// A picture is a link to it, so that nothing is fetched from elsewhere; a link leads to the web or writes a
// letter, and everything else is its words alone. A line ends where it was ended. There is one for each level
// that the headings of a text can have on a page, whatever they have in the text.
var markdowns = map[int]goldmark.Markdown{2: markdownAt(2), 3: markdownAt(3), 4: markdownAt(4)}

func markdownAt(level int) goldmark.Markdown {
	return goldmark.New(
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
		goldmark.WithExtensions(extension.Linkify, extension.Strikethrough),
		goldmark.WithParserOptions(
			parser.WithParagraphTransformers(util.Prioritized(tables{extension.NewTableParagraphTransformer()}, 200)),
			parser.WithASTTransformers(util.Prioritized(extension.NewTableASTTransformer(), 0))),
		goldmark.WithRendererOptions(html.WithHardWraps(), renderer.WithNodeRenderers(util.Prioritized(ownNodes{"h" + strconv.Itoa(level)}, 100),
			util.Prioritized(extension.NewTableHTMLRenderer(extension.WithTableCellAlignMethod(extension.TableCellAlignAttribute)), 500))), // not as a style
	)
}

// tables are those whose cells are written. The library fills each row up to the width of the head, so that
// a hundred kilobytes, half of it head and half of it short rows, would become a gigabyte; in a table that
// somebody wrote, a cell takes at least a character.
type tables struct{ parser.ParagraphTransformer }

func (t tables) Transform(node *ast.Paragraph, reader text.Reader, pc parser.Context) {
	lines, columns, length := node.Lines(), 0, 0
	for i := range lines.Len() {
		line := lines.At(i)
		length += line.Len()
		value := bytes.Trim(line.Value(reader.Source()), " \t\r\n|")
		if len(bytes.Trim(value, "-:| \t")) == 0 { // below a head
			columns = max(columns, bytes.Count(value, []byte("|"))+1)
		}
	}
	if columns*lines.Len() <= length {
		t.ParagraphTransformer.Transform(node, reader, pc)
	}
}

// formatted gives an entry's text as a page shows it, with headings of a level.
func formatted(text string, level int) templ.Component {
	return templ.ComponentFunc(func(_ context.Context, w io.Writer) error {
		var body bytes.Buffer
		if err := markdowns[level].Convert([]byte(text), &body); err != nil {
			return err
		}
		_, err := body.WriteTo(w)
		return err
	})
}

// ownNodes writes what the library would write otherwise.
type ownNodes struct{ heading string }

func (n ownNodes) RegisterFuncs(r renderer.NodeRendererFuncRegisterer) {
	r.Register(ast.KindHeading, n.writeHeading)
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

func (n ownNodes) writeHeading(w util.BufWriter, _ []byte, _ ast.Node, entering bool) (ast.WalkStatus, error) {
	tag := "<" + n.heading + ">"
	if !entering {
		tag = "</" + n.heading + ">\n"
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
