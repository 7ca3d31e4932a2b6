package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"

	"example.org/takeup/cmd/internal/term"
	"example.org/takeup/engine/source"
)

// The exit codes.
const (
	done     = 0
	findings = 1
	usage    = 2
	internal = 3
)

// Main runs the command line of the process and returns its exit code.
func Main() int {
	// A run is short and ends before its garbage matters, so that none is collected.
	// The limit turns the collector on again should a run ever become large.
	debug.SetGCPercent(-1)
	debug.SetMemoryLimit(256 << 20)
	facts := term.Read(os.Stdin, os.Stdout, os.Stderr, os.Getenv)
	return runWith(os.Stdin, os.Args[1:], facts, os.Stdout, os.Stderr)
}

// run is runWith without anything to read on stdin.
func run(args []string, facts term.Facts, stdout, stderr io.Writer) (code int) {
	return runWith(strings.NewReader(""), args, facts, stdout, stderr)
}

// runWith is Main with everything it touches given by the caller.
func runWith(stdin io.Reader, args []string, facts term.Facts, stdout, stderr io.Writer) (code int) {
	defer func() {
		if fault := recover(); fault != nil {
			fmt.Fprintf(stderr, "takeup: fault of the program: %v\n%s", fault, debug.Stack())
			code = internal
		}
	}()
	s := &session{facts: facts, in: stdin, out: stdout, err: stderr}
	root := newRoot(s)
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(stderr)
	return s.exit(root.Execute())
}

// failure is an error with its exit code and at most one hint. An empty message
// says that everything has been printed already.
type failure struct {
	code    int
	message string
	hint    string
}

// Error returns the message.
func (f *failure) Error() string { return f.message }

// wrong is a mistake of use.
func wrong(format string, args ...any) *failure {
	return &failure{code: usage, message: fmt.Sprintf(format, args...)}
}

// with adds the hint; an empty one is no hint.
func (f *failure) with(hint string) *failure {
	f.hint = hint
	return f
}

// exit prints what is left to say and returns the exit code. An error that is
// not ours comes from cobra and is about usage.
func (s *session) exit(err error) int {
	if err == nil {
		return done
	}
	f := &failure{}
	if !errors.As(err, &f) {
		f = wrong("%s", err).with("")
	}
	if f.message != "" {
		fmt.Fprintf(s.err, "error: %s\n", f.message)
	}
	if f.hint != "" {
		fmt.Fprintf(s.err, "hint: %s\n", f.hint)
	}
	return f.code
}

// none refuses arguments and suggests the command that was meant.
func none(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	var names []string
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() {
			names = append(names, sub.Name())
		}
	}
	hint := source.DidYouMean(args[0], names)
	if hint == "" {
		hint = "known here: " + strings.Join(names, ", ")
	}
	return wrong("unknown command %q for %s", args[0], c.CommandPath()).with(hint)
}
