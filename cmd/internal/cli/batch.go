package cli

import (
	"fmt"
	"os"
	"runtime/debug"

	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/render/data"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/source"
)

// newBatch reads cases by the thousand. A line that is wrong becomes an error on
// its own line, and the rest goes on.
func newBatch(s *session) *cobra.Command {
	b := &batch{session: s}
	c := &cobra.Command{
		Use:   "batch [FILE]",
		Short: "Rank the causes of many cases, one JSON object a line",
		Long: "Reads one case a line from FILE or stdin, each a JSON object with the keys of a case file, and writes one\n" +
			"JSON object a line in the same order: the likeliest causes, or with --full what diagnose gives as JSON.\n" +
			"A line that cannot be used gives an object with \"error\"; the exit code is then 1.",
		Example: "  takeup batch cases.jsonl > ranked.jsonl\n" +
			"  takeup batch --top 1 < cases.jsonl",
		RunE: func(_ *cobra.Command, args []string) error {
			if err := count(args, 0, 1, "one file or none"); err != nil {
				return err
			}
			if b.top < 1 {
				return wrong("--top is %d, want 1 or more", b.top)
			}
			return b.run(args)
		},
	}
	c.Flags().IntVar(&b.top, "top", 5, "how many `causes` to give")
	c.Flags().BoolVar(&b.full, "full", false, "give the whole answer with its reasons (much slower)")
	return c
}

// batch is one run.
type batch struct {
	*session
	top    int
	full   bool
	name   string
	engine *engine.Engine
}

// ranked is the short answer to one line.
type ranked struct {
	Schema   int             `json:"schema"`
	Line     int             `json:"line"`
	Title    string          `json:"title"`
	Causes   []engine.Ranked `json:"causes"`
	Unlisted float64         `json:"unlisted"`
}

// whole is the long one.
type whole struct {
	Line int `json:"line"`
	report.Result
}

// refused is a line that gave no answer.
type refused struct {
	Schema   int             `json:"schema"`
	Line     int             `json:"line"`
	Error    string          `json:"error"`
	Problems source.Problems `json:"problems,omitempty"`
}

func (b *batch) run(args []string) error {
	in := b.in
	b.name = "stdin"
	if len(args) == 1 {
		b.name = args[0]
		f, err := os.Open(b.name)
		if err != nil {
			return wrong("%s", err)
		}
		defer f.Close()
		in = f
	}
	var err error
	if b.engine, err = b.open(); err != nil {
		return err
	}
	// This run may be long: the garbage that a short one leaves lying is collected,
	// not too often, since little of it lives.
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	bad, err := inOrder(in, b.out, b.line)
	if err != nil {
		return wrong("%s: %s", b.name, err)
	}
	if bad > 0 {
		return &failure{code: findings, message: fmt.Sprintf("%s without an answer", lines(bad))}
	}
	return nil
}

func lines(n int) string {
	if n == 1 {
		return "one line"
	}
	return fmt.Sprintf("%d lines", n)
}

// line answers one line; false means that it was refused.
func (b *batch) line(n int, text []byte) (out []byte, ok bool) {
	defer func() {
		if fault := recover(); fault != nil {
			out, ok = encode(refused{Schema: report.Schema, Line: n, Error: fmt.Sprintf("fault of the program: %v", fault)}), false
		}
	}()
	if text == nil {
		return encode(refused{Schema: report.Schema, Line: n, Error: fmt.Sprintf("longer than %d MB", source.MaxBytes>>20)}), false
	}
	c, ps := intake.Parse(&source.File{Name: b.name, Text: unescaped(text)}, b.engine.Catalog, source.Load)
	if ps.HasErrors() {
		return encode(refused{report.Schema, n, ps[0].Message, at(n, ps)}), false
	}
	c.File = ""
	value, err := b.value(n, c)
	if err != nil {
		return encode(refused{Schema: report.Schema, Line: n, Error: err.Error()}), false
	}
	return encode(value), true
}

func (b *batch) value(n int, c *intake.Case) (any, error) {
	if b.full {
		d, err := b.engine.Diagnose(c, engine.Bench{})
		if err != nil {
			return nil, err
		}
		return whole{n, answerOf(b.engine, d).Result()}, nil
	}
	r, err := b.engine.Rank(c)
	if err != nil {
		return nil, err
	}
	return ranked{report.Schema, n, c.Title, r.Causes[:min(b.top, len(r.Causes))], r.Unlisted}, nil
}

// at moves the problems of a line to where it stands in the input.
func at(n int, ps source.Problems) source.Problems {
	for i := range ps {
		ps[i].Pos.Line = n
		for k := range ps[i].Related {
			ps[i].Related[k].Pos.Line = n
		}
	}
	return ps
}

// encode is one line of output.
func encode(v any) []byte {
	text, err := data.Marshal(v)
	if err != nil {
		text, _ = data.Marshal(refused{Schema: report.Schema, Error: err.Error()})
	}
	return append(text, '\n')
}
