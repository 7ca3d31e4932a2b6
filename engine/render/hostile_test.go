package render_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/render/bbcode"
	"example.org/takeup/engine/render/html"
	"example.org/takeup/engine/render/markdown"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"
	xhtml "golang.org/x/net/html"
	"pgregory.net/rapid"
)

// The readers used here are not ours: goldmark for Markdown (CommonMark with
// GitHub's extensions), golang.org/x/net/html for HTML5.

// In Markdown no text of a page becomes a link, a picture, HTML or a line struck
// through, and a paragraph of plain text stays one paragraph with its letters.
func TestMarkdownTextIsText(t *testing.T) {
	md := goldmark.New(goldmark.WithExtensions(extension.GFM))
	rapid.Check(t, func(rt *rapid.T) {
		d := pages().Draw(rt, "page")
		src := []byte(markdown.Render(d))
		_ = ast.Walk(md.Parser().Parse(text.NewReader(src)), func(n ast.Node, _ bool) (ast.WalkStatus, error) {
			switch n.Kind().String() {
			case "Link", "AutoLink", "Image", "RawHTML", "HTMLBlock", "Strikethrough", "Table", "TaskCheckBox", "CodeBlock":
				rt.Errorf("%s in\n%s", n.Kind(), src)
			}
			return ast.WalkContinue, nil
		})
	})
}

func TestMarkdownParagraphKeepsItsLetters(t *testing.T) {
	md := goldmark.New(goldmark.WithExtensions(extension.GFM))
	rapid.Check(t, func(rt *rapid.T) {
		s := document.Clean(texts.Draw(rt, "text"))
		var out bytes.Buffer
		if err := md.Convert([]byte(markdown.Render(document.New("", document.Paragraph(document.Plain(s))))), &out); err != nil {
			rt.Fatal(err)
		}
		want := strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == ' ' }), " ")
		body, ok := strings.CutPrefix(strings.TrimSuffix(out.String(), "</p>\n"), "<p>")
		if !ok && want != "" || xhtml.UnescapeString(body) != want {
			rt.Errorf("got %q, want %q", out.String(), want)
		}
	})
}

// Whatever a page says, its HTML holds the elements our template writes and no
// attribute that runs or loads anything.
func TestHTMLTextIsText(t *testing.T) {
	allowed := map[string]bool{}
	for _, e := range strings.Fields("html head meta title style body main h1 h2 h3 h4 p strong em code aside span " +
		"ul ol li div b svg rect dl dt dd table thead tbody tr th td br small pre figure figcaption hr") {
		allowed[e] = true
	}
	attrs := regexp.MustCompile(`^(lang|charset|http-equiv|content|name|class|viewbox|preserveaspectratio|aria-hidden|width|height|tabindex|scope|data-head)$`)
	rapid.Check(t, func(rt *rapid.T) {
		page, err := html.Render(pages().Draw(rt, "page"))
		if err != nil {
			rt.Fatal(err)
		}
		for z := xhtml.NewTokenizer(bytes.NewReader(page)); ; {
			switch z.Next() {
			case xhtml.ErrorToken:
				return
			case xhtml.CommentToken:
				rt.Errorf("comment %q", z.Raw())
			case xhtml.StartTagToken, xhtml.SelfClosingTagToken:
				tok := z.Token()
				if !allowed[tok.Data] {
					rt.Errorf("element %s", tok.Data)
				}
				for _, a := range tok.Attr {
					if !attrs.MatchString(a.Key) {
						rt.Errorf("attribute %s of %s", a.Key, tok.Data)
					}
				}
			}
		}
	})
}

func TestBBCodeIsTheSafeSubset(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		post := bbcode.Render(pages().Draw(rt, "page"))
		if err := bbcode.Check(post); err != nil {
			rt.Errorf("%v in\n%s", err, post)
		}
	})
	if err := bbcode.Check(bbcode.Render(load(t))); err != nil {
		t.Error(err)
	}
}

// The reader must refuse what it is there to refuse.
func TestBBCodeReaderIsStrict(t *testing.T) {
	for _, bad := range []string{
		"[b]open", "[b][i]x[/b][/i]", "[/b]", "[url=x]y[/url]", "[color=red]x[/color]", "[*]no list", "a [ b",
		"[list]\n[*]a\n[list]\n[*]b\n[list]\n[*]c\n[/list]\n[/list]\n[/list]", " indented", "[code]\n" + strings.Repeat("x", 71) + "\n[/code]",
		"[code]\n[b]x[/b]\n[/code]", "a\n\n\nb", "[b][/b]",
	} {
		if bbcode.Check(bad) == nil {
			t.Errorf("%q was accepted", bad)
		}
	}
}
