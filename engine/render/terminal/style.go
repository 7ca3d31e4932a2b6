package terminal

import (
	"strings"

	"github.com/charmbracelet/glamour/ansi"
)

// style returns our look. Colours are of the basic sixteen and used for accents
// only, so that the page reads on dark and on light grounds; the rest keeps the
// terminal's own colours. No colour for the document as a whole and no syntax
// colours in code: either would multiply the output and the time it takes.
func style(width int, colour bool) ansi.StyleConfig {
	s := ansi.StyleConfig{
		HorizontalRule: ansi.StylePrimitive{Prefix: "\n" + strings.Repeat("─", width) + "\n"},
	}
	if !colour {
		return s
	}
	yes := true
	accent, warning := "6", "1" // cyan, red
	bold := ansi.StylePrimitive{Bold: &yes}
	heading := ansi.StylePrimitive{Bold: &yes, Color: &accent}

	s.H1.StylePrimitive = bold
	s.H2.StylePrimitive = heading
	s.H3.StylePrimitive = bold
	s.H4.StylePrimitive = ansi.StylePrimitive{Italic: &yes, Bold: &yes}
	s.Strong = bold
	s.Emph = ansi.StylePrimitive{Italic: &yes}
	s.Code.StylePrimitive = ansi.StylePrimitive{Color: &accent}
	s.Strikethrough = ansi.StylePrimitive{Color: &accent} // the filled part of a bar
	s.LinkText = ansi.StylePrimitive{Bold: &yes, Color: &warning}
	return s
}
