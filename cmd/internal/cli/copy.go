package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/aymanbagabas/go-osc52/v2"
	"github.com/spf13/cobra"
)

// mostCopied is the length in bytes from which terminals are known to drop what
// they are asked to copy (the documentation of several names 74 994 bytes).
const mostCopied = 74994

// copyFlag adds --copy to a command whose page is meant to be pasted.
func (s *session) copyFlag(c *cobra.Command) {
	c.Flags().BoolVar(&s.copying, "copy", false, "hand the text to the clipboard of the terminal as well")
}

// canCopy refuses --copy where no terminal is there to take the text: the escape
// sequence in a pipe would be rubbish in somebody's file.
func (s *session) canCopy() error {
	if !s.copying || s.facts.Stderr.Terminal || s.facts.Stdout.Terminal {
		return nil
	}
	return wrong("--copy needs a terminal, and there is none here").with("leave it out and pipe the text into the clipboard program of your system")
}

// pasted is the format for the clipboard: the one asked for, and Markdown for
// want of a better one, since colour does not paste.
func (s *session) pasted() string {
	if s.format == "terminal" {
		return "markdown"
	}
	return s.format
}

// copyText hands a text to the terminal in the sequence OSC 52, which works over
// ssh as well, and says so. Nobody answers, so it cannot be known whether the
// terminal did it.
func (s *session) copyText(text string) {
	to := s.err
	if !s.facts.Stderr.Terminal {
		to = s.out
	}
	sequence := osc52.New(text)
	if strings.HasPrefix(s.facts.Term, "screen") {
		sequence = sequence.Screen()
	}
	_, _ = io.WriteString(to, sequence.String())
	fmt.Fprintf(s.err, "handed %d characters to the terminal's clipboard; if nothing arrives, the terminal does not allow it\n", len([]rune(text)))
	if len(text) > mostCopied {
		fmt.Fprintln(s.err, "that is more than some terminals take")
	}
}
