package data

import (
	"bytes"
	"encoding/json"
	"io"
	"strconv"
)

// digits is how many significant digits a number keeps. No probability here is
// known better, and the seventh differs between processors.
const digits = 6

// Write writes v as indented JSON and a line feed. Not-a-number and infinity are
// errors, as they are for encoding/json.
func Write(w io.Writer, v any) error {
	b, err := Marshal(v)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	if err := json.Indent(&out, b, "", "  "); err != nil {
		return err
	}
	out.WriteByte('\n')
	_, err = w.Write(out.Bytes())
	return err
}

// WriteLine writes v as JSON on one line, for streams of one record per line.
func WriteLine(w io.Writer, v any) error {
	b, err := Marshal(v)
	if err != nil {
		return err
	}
	_, err = w.Write(append(b, '\n'))
	return err
}

// Marshal returns v as JSON on one line, without a line feed.
func Marshal(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false) // for programs and people, not for pages
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return round(bytes.TrimRight(b.Bytes(), "\n")), nil
}

// round shortens the numbers of a valid JSON text. Whole numbers stay: they are
// counts and versions.
func round(in []byte) []byte {
	out := make([]byte, 0, len(in))
	for i := 0; i < len(in); {
		n := tokenLen(in[i:])
		token := in[i : i+n]
		if startsNumber(token[0]) && bytes.ContainsAny(token, ".eE") {
			token = shorten(token)
		}
		out = append(out, token...)
		i += n
	}
	return out
}

// tokenLen is the length of the string or number that b begins with, else 1.
func tokenLen(b []byte) int {
	n := 1
	switch {
	case b[0] == '"':
		for b[n] != '"' {
			if b[n] == '\\' {
				n++
			}
			n++
		}
		n++
	case startsNumber(b[0]):
		for n < len(b) && (startsNumber(b[n]) || b[n] == '.' || b[n] == '+' || b[n]|0x20 == 'e') {
			n++
		}
	}
	return n
}

func startsNumber(c byte) bool { return c == '-' || c >= '0' && c <= '9' }

// shorten rounds half to even, as strconv does, and has no more digits than the
// rounded number needs.
func shorten(number []byte) []byte {
	f, err := strconv.ParseFloat(string(number), 64)
	if err != nil {
		return number // too large for a float64: not ours to change
	}
	f, _ = strconv.ParseFloat(strconv.FormatFloat(f, 'g', digits, 64), 64)
	if f == 0 {
		return []byte("0") // no minus sign in front of nothing
	}
	short, _ := json.Marshal(f) // a finite float64 cannot fail
	return short
}
