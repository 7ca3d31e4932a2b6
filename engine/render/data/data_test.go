package data

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestMarshal(t *testing.T) {
	type inner struct {
		P float64 `json:"probability"`
		A string  `json:"a"`
	}
	for _, c := range []struct {
		name string
		in   any
		want string
	}{
		{"order of the struct, six digits", inner{1.0 / 3, "x"}, `{"probability":0.333333,"a":"x"}`},
		{"large", 123456789.25, "123457000"},
		{"small", 1.23456789e-9, "1.23457e-9"},
		{"whole numbers stay", []any{1, 123456789, uint64(math.MaxUint64)}, "[1,123456789,18446744073709551615]"},
		{"no noise", 0.1 + 0.2, "0.3"},
		{"below zero", -2.0000001, "-2"},
		{"zero without a sign", -1e-320 * 1e-10, "0"},
		{"numbers in text stay", inner{0, `1.23456789 "0.123456789" \`}, `{"probability":0,"a":"1.23456789 \"0.123456789\" \\"}`},
		{"no html escapes", "<a & b>", `"<a & b>"`},
		{"number in a key", map[string]float64{"1.23456789": 1.23456789}, `{"1.23456789":1.23457}`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Marshal(c.in)
			if err != nil || string(got) != c.want {
				t.Errorf("got %s, %v, want %s", got, err, c.want)
			}
		})
	}
}

func TestNotANumberIsAnError(t *testing.T) {
	for _, f := range []float64{math.NaN(), math.Inf(1)} {
		if err := Write(new(bytes.Buffer), f); err == nil {
			t.Errorf("%v was written", f)
		}
	}
}

func TestWrite(t *testing.T) {
	var b, line bytes.Buffer
	v := struct {
		X float64 `json:"x"`
	}{0.12345678}
	if err := Write(&b, v); err != nil {
		t.Fatal(err)
	}
	if err := WriteLine(&line, v); err != nil {
		t.Fatal(err)
	}
	if b.String() != "{\n  \"x\": 0.123457\n}\n" || line.String() != "{\"x\":0.123457}\n" {
		t.Errorf("got %q and %q", b.String(), line.String())
	}
}

// Rounding moves a number by at most half a unit in its sixth digit, and a second
// time by nothing; the text stays valid JSON.
func TestRounding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64().Draw(t, "f")
		s := rapid.String().Draw(t, "s")
		b, err := Marshal([]any{f, s})
		if err != nil {
			t.Fatal(err)
		}
		var got []any
		if err := json.Unmarshal(b, &got); err != nil {
			t.Fatalf("%s: %v", b, err)
		}
		if g := got[0].(float64); math.Abs(g-f) > 5.0001e-6*math.Abs(f) && math.Abs(f) > 1e-300 {
			t.Errorf("%v became %v", f, g)
		}
		if want := strings.ToValidUTF8(s, "\ufffd"); got[1] != want {
			t.Errorf("%q became %q", want, got[1])
		}
		again, err := Marshal(got)
		if err != nil || !bytes.Equal(again, b) {
			t.Errorf("%s became %s, %v", b, again, err)
		}
	})
}
