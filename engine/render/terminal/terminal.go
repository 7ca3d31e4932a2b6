package terminal

import (
	"strings"

	"example.org/takeup/engine/document"
	"github.com/charmbracelet/glamour"
)

const (
	narrowest  = 40  // columns; a terminal below this gets this
	widestText = 100 // columns; longer lines are tiring to read
)

// Options says what the terminal can do.
type Options struct {
	Width  int  // columns, at least 40
	Colour bool // whether escape sequences for colour and weight are wanted
}

// Render returns the page as text for a terminal: no line is wider than
// opt.Width columns or ends with a blank, and without Colour there is no escape
// sequence. The error is glamour's and means a fault in this package.
func Render(d document.Document, opt Options) (string, error) {
	width := max(opt.Width, narrowest)
	margin := strings.Repeat(" ", 2)
	if width < 60 {
		margin = ""
	}
	inner := width - 2*len(margin)
	r, err := glamour.NewTermRenderer(
		glamour.WithStyles(style(min(inner, widestText), opt.Colour)),
		glamour.WithWordWrap(0), // neither wrap nor pad
	)
	if err != nil {
		return "", err
	}
	out, err := r.Render(markdown(d.Clean(), page{inner, opt.Colour}))
	if err != nil {
		return "", err
	}
	return restore(out, margin), nil
}
