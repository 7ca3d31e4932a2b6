package cli

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"runtime"

	"example.org/takeup/engine/source"
)

// job is one line on its way through.
type job struct {
	n    int
	text []byte // nil when the line is too long
	done chan result
}

type result struct {
	out []byte
	ok  bool
}

// inOrder runs work on the lines of a stream on all cores and writes what it
// returns in the order of the lines. Blank lines give nothing. Only a few lines
// are held at a time, however many there are. It returns how many were refused.
func inOrder(in io.Reader, to io.Writer, work func(n int, text []byte) ([]byte, bool)) (bad int, err error) {
	workers := runtime.GOMAXPROCS(0)
	jobs, queue := make(chan job, workers), make(chan job, 4*workers)
	for range workers {
		go func() {
			for j := range jobs {
				out, ok := work(j.n, j.text)
				j.done <- result{out, ok}
			}
		}()
	}
	stop, broken := make(chan struct{}), make(chan error, 1)
	go func() {
		broken <- feed(in, jobs, queue, stop)
		close(jobs)
		close(queue)
	}()
	w := bufio.NewWriter(to)
	for j := range queue {
		r := <-j.done
		if !r.ok {
			bad++
		}
		if err != nil {
			continue // drain
		}
		if _, err = w.Write(r.out); err == nil && len(queue) == 0 {
			err = w.Flush() // whoever reads along waits for nothing
		}
		if err != nil {
			close(stop)
		}
	}
	if err == nil {
		err = w.Flush()
	}
	return bad, errors.Join(err, <-broken)
}

// feed hands the lines out, first to the queue that keeps their order.
func feed(in io.Reader, jobs, queue chan<- job, stop <-chan struct{}) error {
	r := bufio.NewReaderSize(in, 1<<16)
	for n := 1; ; n++ {
		text, more, err := readLine(r)
		if err != nil {
			return err
		}
		if text == nil || len(bytes.TrimSpace(text)) > 0 {
			j := job{n, text, make(chan result, 1)}
			select {
			case queue <- j:
				jobs <- j
			case <-stop:
				return nil
			}
		}
		if !more {
			return nil
		}
	}
}

// readLine reads one line without its end; nil for one that is too long to be a
// case. more is false after the last.
func readLine(r *bufio.Reader) (text []byte, more bool, err error) {
	text = []byte{}
	for {
		part, err := r.ReadSlice('\n')
		if text != nil && len(text)+len(part) <= source.MaxBytes {
			text = append(text, part...)
		} else {
			text = nil
		}
		switch {
		case err == nil:
			return trimEnd(text), true, nil
		case errors.Is(err, io.EOF):
			return trimEnd(text), false, nil
		case !errors.Is(err, bufio.ErrBufferFull):
			return nil, false, err
		}
	}
}

// trimEnd keeps nil apart from empty.
func trimEnd(text []byte) []byte {
	if text == nil {
		return nil
	}
	return bytes.TrimRight(text, "\r\n")
}

// unescaped writes the strings of a JSON text without \u escapes: YAML, as which
// it is read, does not know the pairs that stand for one character. What is no
// JSON string stays as it is.
func unescaped(text []byte) []byte {
	if !bytes.Contains(text, []byte(`\u`)) {
		return text
	}
	var out []byte
	for i := 0; i < len(text); {
		n := 1
		if text[i] == '"' {
			n = stringLen(text[i:])
			var s string
			if json.Unmarshal(text[i:i+n], &s) == nil {
				var b bytes.Buffer
				e := json.NewEncoder(&b)
				e.SetEscapeHTML(false)
				if e.Encode(s) == nil {
					out = append(out, bytes.TrimSpace(b.Bytes())...)
					i += n
					continue
				}
			}
		}
		out = append(out, text[i:i+n]...)
		i += n
	}
	return out
}

// stringLen is the length of the JSON string that text starts with, quotes
// included.
func stringLen(text []byte) int {
	for i := 1; i < len(text); i++ {
		switch text[i] {
		case '\\':
			i++
		case '"':
			return i + 1
		}
	}
	return len(text)
}
