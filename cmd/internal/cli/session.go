package cli

import (
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"example.org/takeup/cmd/internal/term"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/render/bbcode"
	"example.org/takeup/engine/render/data"
	"example.org/takeup/engine/render/html"
	"example.org/takeup/engine/render/markdown"
	"example.org/takeup/engine/render/plain"
	"example.org/takeup/engine/render/terminal"
	"example.org/takeup/engine/source"
)

// session is what every command shares: flags, streams and the terminal.
type session struct {
	pack    string
	machine string
	format  string
	width   int
	color   string

	copying bool

	facts    term.Facts
	in       io.Reader
	out, err io.Writer
}

// formats are the values of --format with what they are for.
var formats = []string{
	"terminal\tcolour and bars, the default on a terminal",
	"markdown\tto paste anywhere, the default in a pipe",
	"plain\twords alone, for mail and screen readers",
	"bbcode\ta forum post",
	"html\tone self-contained page",
	"json\tfor programs",
}

// formatNames are the formats without their descriptions.
func formatNames() []string {
	var names []string
	for _, f := range formats {
		name, _, _ := strings.Cut(f, "\t")
		names = append(names, name)
	}
	return names
}

// flags declares those that every command has. An empty format means that the
// stream decides.
func (s *session) flags(f *pflag.FlagSet) {
	f.StringVar(&s.pack, "pack", "", "`folder` with knowledge/ and rules/ in place of the built-in ones")
	f.StringVar(&s.machine, "machine", "", "machine sheet `file` in place of the case's own")
	f.StringVar(&s.format, "format", "", strings.Join(formatNames(), ", ")+" (terminal on a terminal, else markdown)")
	f.IntVar(&s.width, "width", 0, "`columns` to lay the page out for (40 or more)")
	f.StringVar(&s.color, "color", term.Auto, "always, auto or never")
	f.SortFlags = false
}

// settle checks the flags that need no file and fills in the format.
func (s *session) settle() error {
	if s.format == "" {
		s.format = "markdown"
		if s.facts.Stdout.Terminal {
			s.format = "terminal"
		}
	}
	if !slices.Contains(formatNames(), s.format) {
		hint := source.DidYouMean(s.format, formatNames())
		if hint == "" {
			hint = "known: " + strings.Join(formatNames(), ", ")
		}
		return wrong("unknown format %q", s.format).with(hint)
	}
	if s.width != 0 && s.width < term.Narrowest {
		return wrong("--width is %d, want %d or more", s.width, term.Narrowest)
	}
	if _, err := s.facts.Colour(s.color, s.facts.Stdout); err != nil {
		return wrong("%s", err)
	}
	return s.canCopy()
}

// show prints a page in the format asked for, or its value as JSON.
func (s *session) show(page document.Document, value any) error {
	if s.format == "json" {
		return data.Write(s.out, value)
	}
	text, err := s.render(s.format, page)
	if err != nil {
		return &failure{code: internal, message: err.Error()}
	}
	if _, err = io.WriteString(s.out, text); err == nil && s.copying {
		text, err = s.render(s.pasted(), page)
		s.copyText(text)
	}
	return err
}

// give prints a text that is no page.
func (s *session) give(text string) error {
	_, err := io.WriteString(s.out, text)
	if err == nil && s.copying {
		s.copyText(text)
	}
	return err
}

// render lays a page out. Only the terminal and plain text have a width: the
// other formats are laid out where they are read.
func (s *session) render(format string, page document.Document) (string, error) {
	width := s.facts.Width(s.width)
	switch format {
	case "markdown":
		return markdown.Render(page), nil
	case "plain":
		return plain.Render(page, width), nil
	case "bbcode":
		return bbcode.Render(page), nil
	case "html":
		text, err := html.Render(page)
		return string(text), err
	}
	colour, err := s.facts.Colour(s.color, s.facts.Stdout)
	if err != nil {
		return "", err
	}
	return terminal.Render(page, terminal.Options{Width: width, Colour: colour})
}
