package document

import "strings"

// Inline reads the markup of this project's own wording: **strong**, *emphasis*
// and `code`, not nested. A mark without its partner stays as it stands. Never
// give it text from a user's file: compose Inline and Plain with Join instead.
func Inline(s string) Text {
	var out Text
	plain := ""
	for s = Clean(s); s != ""; {
		body, style, n := marked(s)
		if n == 0 {
			n = max(1, strings.IndexAny(s, "*`"))
			if !strings.ContainsAny(s, "*`") {
				n = len(s)
			}
			plain += s[:n]
			s = s[n:]
			continue
		}
		out = append(append(out, Plain(plain)...), Span{Text: body, Style: style})
		plain, s = "", s[n:]
	}
	return append(out, Plain(plain)...)
}

// marked returns the marked text s begins with and its length with marks, or 0.
func marked(s string) (body string, style Style, n int) {
	for _, m := range []struct {
		mark  string
		style Style
	}{{"**", StyleStrong}, {"`", StyleCode}, {"*", StyleEmphasis}} {
		rest, ok := strings.CutPrefix(s, m.mark)
		if !ok {
			continue
		}
		body, _, ok = strings.Cut(rest, m.mark)
		if ok && body != "" && strings.TrimSpace(body) == body {
			return body, m.style, len(body) + 2*len(m.mark)
		}
	}
	return "", "", 0
}
