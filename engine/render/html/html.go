package html

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"strings"

	"example.org/takeup/engine/document"
	"github.com/yuin/goldmark"
)

//go:embed page.css
var css string

//go:embed page.tmpl
var source string

// page is what the template sees.
type page struct {
	Title string
	CSS   template.CSS
	Doc   document.Document
	Prose template.HTML
}

// Render returns the page as an HTML file in UTF-8. The error is that of the
// template and means a fault in this package.
func Render(d document.Document) ([]byte, error) {
	d = d.Clean()
	return execute(page{Title: d.Title, Doc: d})
}

// Prose returns Markdown written in this project as an HTML file with the same
// look. Raw HTML in it is dropped and links to scripts are emptied; pictures are
// not loaded, because the file forbids it.
func Prose(title string, markdown []byte) ([]byte, error) {
	var body bytes.Buffer
	if err := goldmark.Convert(markdown, &body); err != nil {
		return nil, fmt.Errorf("%s: %w", title, err)
	}
	// goldmark has escaped the text, and it leaves raw HTML out unless told to
	// keep it.
	return execute(page{Title: document.Clean(title), Prose: template.HTML(body.String())})
}

func execute(p page) ([]byte, error) {
	// Parsed anew each time: a process renders one page, and a template that has
	// been executed could not be shared safely by one that wants to change it.
	t, err := template.New("page").Funcs(template.FuncMap{
		"percent": percent,
		"tone":    tone,
		"trusted": trusted,
		"right":   right,
		"cells":   cells,
	}).Parse(source)
	if err != nil {
		return nil, err
	}
	p.CSS = template.CSS(css)
	var b bytes.Buffer
	if err := t.Execute(&b, p); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// percent is a share as a length on a bar 100 long.
func percent(share float64) string { return fmt.Sprintf("%.1f", share*100) }

// tone is the class of a note.
func tone(t document.Tone) string { return strings.ToLower(t.Label()) }

// trusted returns the SVG of f if it holds nothing but a drawing, else nothing.
func trusted(f *document.Figure) template.HTML {
	if f.SVG == "" || document.CheckSVG(string(f.SVG)) != nil {
		return ""
	}
	return template.HTML(f.SVG)
}

func right(g *document.Grid, i int) bool {
	return i < len(g.Align) && g.Align[i] == document.Right
}

// cells is the row cut or filled to the width of the head.
func cells(g *document.Grid, row []string) []string {
	out := make([]string, len(g.Head))
	copy(out, row)
	return out
}
