package source

import (
	"strings"
	"testing"
)

// rescanText runs the second look at a text, which normally only a refused text
// gets.
func rescanText(text string) *Problem {
	r := newRescan(newDocument("f", text))
	for n := 1; n <= len(r.d.starts) && r.found == nil; n++ {
		r.line(n)
	}
	if r.found == nil {
		r.end()
	}
	return r.found
}

// The second look must find nothing in a text that the YAML library accepts, or
// it would blame an innocent line when something else is wrong.
func TestRescanAcceptsValidText(t *testing.T) {
	for _, text := range []string{
		goodSample,
		string(rulesText(3)),
		"a:\n- b\n- c: d\n  e: f\n-\n  - g\n",
		"a:\n  b:\n  - c: d\n    e:\n    - f\n  g: h\ni:\n# comment\n- j\n",
		"a: it's fine, isn't it\nb: [it's, 'x]', \"y}\"]\n",
		"a: x:y http://example.org\nb: 12:30\n'c d': e\n\"f: g\": h\n",
		"a: plain text\n  that goes on\nb: 1\n",
		"a: {b: [c,\n  d], e: f}\ng: |+\n\n    x: [\n\nh: >2\n   y\n",
		"- - a\n  - b\n- 'c''d' # e: f: g\n",
		"a: \"b\n  c: not a key\"\n",
	} {
		root, ps := Parse("f", []byte(text))
		if root == nil {
			t.Fatalf("%s is not valid: %v", text, ps)
		}
		// A quoted value whose second line looks like a key is the one thing
		// that is more often a mistake than meant.
		if p := rescanText(text); p != nil && !strings.Contains(text, "not a key") {
			t.Errorf("%s\nfinds %v", text, p)
		}
	}
}

// Every line of a rule file is damaged in every usual way; when the YAML library
// refuses the result, the line blamed is the damaged one. Wrong
// indentation may show only on the line that follows.
func TestRescanBlamesTheRightLine(t *testing.T) {
	damages := map[string]func(string) string{
		"tab":        func(s string) string { return "\t" + strings.TrimLeft(s, " ") },
		"blank":      func(s string) string { return " " + s },
		"no blank":   func(s string) string { return strings.TrimPrefix(s, " ") },
		"no colon":   func(s string) string { return strings.Replace(s, ": ", " ", 1) },
		"quote":      func(s string) string { return strings.Replace(s, ": ", ": \"", 1) },
		"apostrophe": func(s string) string { return strings.Replace(s, ": ", ": 'it's ", 1) },
		"no bracket": func(s string) string { return strings.Replace(s, "}", "", 1) },
		"reserved":   func(s string) string { return strings.Replace(s, ": ", ": @", 1) },
		"escape":     func(s string) string { return strings.Replace(s, ": ", `: "\q"`, 1) },
	}
	lines := strings.Split(strings.TrimRight(string(rulesText(3)), "\n"), "\n")
	seen := map[string]int{}
	for name, damage := range damages {
		for i, line := range lines {
			broken := append([]string(nil), lines...)
			broken[i] = damage(line)
			text := strings.Join(broken, "\n")
			root, ps := Parse("f", []byte(text))
			if root != nil {
				continue // still valid, perhaps with another meaning
			}
			seen[name]++
			late := name == "blank" || name == "no blank"
			if got := ps[0].Pos.Line - (i + 1); ps[0].Code == CodeSyntax || got != 0 && !(late && got == 1) {
				t.Errorf("%s on line %d %q: %v", name, i+1, broken[i], ps[0])
			}
		}
	}
	for name := range damages {
		if seen[name] == 0 {
			t.Errorf("%s: no line became invalid", name)
		}
	}
}
