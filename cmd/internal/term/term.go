package term

import (
	"fmt"
	"os"
	"strconv"

	xterm "golang.org/x/term"
)

// Widths in columns.
const (
	Default   = 80 // where nothing says otherwise, as in a pipe
	Narrowest = 40 // pages are not laid out for less
	Widest    = 1000
)

// Stream is what is known of one of the three standard streams.
type Stream struct {
	Terminal bool `json:"terminal"`
	Columns  int  `json:"columns"` // 0 if unknown or not a terminal
}

// Facts is everything the decisions of this package rest on. An environment
// variable that is not set and one that is set to nothing are the same here, as
// NO_COLOR and its kin ask for.
type Facts struct {
	Stdin  Stream `json:"stdin"`
	Stdout Stream `json:"stdout"`
	Stderr Stream `json:"stderr"`

	Columns    string `json:"columns"`     // COLUMNS
	Term       string `json:"term"`        // TERM
	NoColor    string `json:"no_color"`    // NO_COLOR
	ForceColor string `json:"force_color"` // CLICOLOR_FORCE, else FORCE_COLOR
	Accessible string `json:"accessible"`  // ACCESSIBLE
}

// Read gathers the facts. getenv is os.Getenv, or a stand-in for tests.
func Read(stdin, stdout, stderr *os.File, getenv func(string) string) Facts {
	f := Facts{
		Stdin: stream(stdin), Stdout: stream(stdout), Stderr: stream(stderr),
		Columns:    getenv("COLUMNS"),
		Term:       getenv("TERM"),
		NoColor:    getenv("NO_COLOR"),
		ForceColor: getenv("CLICOLOR_FORCE"),
		Accessible: getenv("ACCESSIBLE"),
	}
	if f.ForceColor == "" {
		f.ForceColor = getenv("FORCE_COLOR")
	}
	return f
}

func stream(file *os.File) Stream {
	fd := int(file.Fd())
	if !xterm.IsTerminal(fd) {
		return Stream{}
	}
	columns, _, err := xterm.GetSize(fd)
	if err != nil {
		columns = 0 // some serial lines do not know their size
	}
	return Stream{Terminal: true, Columns: columns}
}

// Width returns the columns to lay a page out for, from 40 to 1000: asked, from
// --width, where it is not 0; else COLUMNS where it is a positive number; else
// those of the terminal behind stdout; else 80.
func (f Facts) Width(asked int) int {
	width := asked
	if width <= 0 {
		width, _ = strconv.Atoi(f.Columns)
	}
	if width <= 0 {
		width = f.Stdout.Columns
	}
	if width <= 0 {
		width = Default
	}
	return min(max(width, Narrowest), Widest)
}

// The values of --color.
const (
	Auto   = "auto"
	Always = "always"
	Never  = "never"
)

// Colour reports whether to write colour to the stream; decide for stdout and
// stderr separately. The first of these that applies decides: mode "always" or
// "never", from --color; NO_COLOR (no-color.org); CLICOLOR_FORCE or FORCE_COLOR;
// TERM=dumb; whether the stream is a terminal. An empty mode is "auto", any other
// is an error that names the three.
func (f Facts) Colour(mode string, to Stream) (bool, error) {
	switch mode {
	case Always:
		return true, nil
	case Never:
		return false, nil
	case Auto, "":
	default:
		return false, fmt.Errorf("--color is %q, want auto, always or never", mode)
	}
	switch {
	case f.NoColor != "":
		return false, nil
	case f.ForceColor != "":
		return true, nil
	case f.Term == "dumb":
		return false, nil
	}
	return to.Terminal, nil
}

// CanAsk reports whether questions make sense: somebody is there to read them on
// stderr and to type the answer. noInput is --no-input.
func (f Facts) CanAsk(noInput bool) bool {
	return !noInput && f.Stdin.Terminal && f.Stderr.Terminal
}

// PlainWords reports whether the reader asked for output that a screen reader can
// speak: ACCESSIBLE is set.
func (f Facts) PlainWords() bool { return f.Accessible != "" }
