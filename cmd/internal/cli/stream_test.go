package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"testing/iotest"
	"time"

	"example.org/takeup/engine/source"
)

// Lines come out in the order in which they went in, however long each takes.
func TestStreamKeepsTheOrder(t *testing.T) {
	var in, want strings.Builder
	for n := 1; n <= 500; n++ {
		fmt.Fprintf(&in, "%d\r\n", n)
		fmt.Fprintf(&want, "%d:%d\n", n, n)
	}
	var out bytes.Buffer
	bad, err := inOrder(strings.NewReader(in.String()), &out, func(n int, text []byte) ([]byte, bool) {
		time.Sleep(time.Duration(rand.IntN(200)) * time.Microsecond)
		return fmt.Appendf(nil, "%d:%s\n", n, text), n%5 != 0
	})
	if err != nil || bad != 100 || out.String() != want.String() {
		t.Errorf("%d refused, %v\n%s", bad, err, out.String())
	}
}

// A stream without an end is read no further than a few lines ahead of what has
// been written.
func TestStreamHoldsFewLines(t *testing.T) {
	var worked atomic.Int64
	read, most := int64(0), int64(0)
	long := readerFunc(func(p []byte) (int, error) {
		read++
		if most = max(most, read-worked.Load()); read > 5000 {
			return 0, io.EOF
		}
		return copy(p, "x\n"), nil
	})
	_, err := inOrder(long, io.Discard, func(int, []byte) ([]byte, bool) {
		worked.Add(1)
		return []byte("y\n"), true
	})
	if bound := int64(5*runtime.GOMAXPROCS(0) + 20); err != nil || worked.Load() != 5000 || most > bound {
		t.Errorf("%d lines ahead, want at most %d; %d of 5000 worked on, %v", most, bound, worked.Load(), err)
	}
}

type readerFunc func([]byte) (int, error)

func (f readerFunc) Read(p []byte) (int, error) { return f(p) }

func TestStreamEnds(t *testing.T) {
	broken := errors.New("pulled out")
	work := func(int, []byte) ([]byte, bool) { return []byte("y\n"), true }
	if _, err := inOrder(io.MultiReader(strings.NewReader("a\nb"), iotest.ErrReader(broken)), io.Discard, work); !errors.Is(err, broken) {
		t.Errorf("reading: %v", err)
	}
	full := writerFunc(func([]byte) (int, error) { return 0, broken })
	if _, err := inOrder(strings.NewReader(strings.Repeat("a\n", 100000)), full, work); !errors.Is(err, broken) {
		t.Errorf("writing: %v", err)
	}
}

type writerFunc func([]byte) (int, error)

func (f writerFunc) Write(p []byte) (int, error) { return f(p) }

// A line too long to be a case is skipped whole, and the next one counts.
func TestLongLinesAreSkipped(t *testing.T) {
	var got []string
	long := strings.Repeat("x", source.MaxBytes+1)
	out := make(chan string, 3)
	_, err := inOrder(strings.NewReader("a\n"+long+"\nb"), io.Discard, func(n int, text []byte) ([]byte, bool) {
		out <- fmt.Sprintf("%d %v %d", n, text == nil, len(text))
		return nil, true
	})
	close(out)
	for s := range out {
		got = append(got, s)
	}
	if err != nil || len(got) != 3 || !strings.Contains(strings.Join(got, ","), "2 true 0") || !strings.Contains(strings.Join(got, ","), "3 false 1") {
		t.Errorf("got %q", got)
	}
}

func TestEscapesOfJSON(t *testing.T) {
	for in, want := range map[string]string{
		`{"a":"\ud83d\ude00 \u00e9"}`:  `{"a":"😀 é"}`,
		`{"a":"q\"\u0041\\","b":1}`:    `{"a":"q\"A\\","b":1}`,
		`{"a":"\u000a"}`:               `{"a":"\n"}`,
		`{"a":"no escape"}`:            `{"a":"no escape"}`,
		`{"a":"broken \ud83d"}`:        "{\"a\":\"broken \ufffd\"}",
		`{"a":"no end \u0041`:          `{"a":"no end \u0041`,
		`plain \u0041 "x\u0042" plain`: `plain \u0041 "xB" plain`,
	} {
		if got := string(unescaped([]byte(in))); got != want {
			t.Errorf("%s became %s, want %s", in, got, want)
		}
	}
}
