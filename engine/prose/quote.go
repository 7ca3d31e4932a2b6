package prose

import (
	"strings"
	"unicode"

	"example.org/takeup/engine/document"
)

// quote is the words of a span as they were typed, on one line.
func (st *state) quote(s sentence, w span) string { return st.quoteTo(s, w, 90) }

// quoteTo is quote in at most n characters.
func (st *state) quoteTo(s sentence, w span, n int) string {
	w.from, w.to = max(0, w.from), min(len(s.tokens), max(w.to, w.from+1))
	text := document.Clean(st.text[s.tokens[w.from].start:s.tokens[w.to-1].end])
	return shortenTo(strings.Join(strings.Fields(text), " "), n)
}

func shortenTo(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	cut := string(r[:n-1])
	if at := strings.LastIndexByte(cut, ' '); at > len(cut)*2/3 { // between words
		cut = cut[:at]
	}
	return strings.TrimRight(cut, " ,.") + "…"
}

// longestTitle is in characters.
const longestTitle = 78

// titleOf is a sentence; of a long one, what begins with the part that holds the
// complaint at token first.
func (st *state) titleOf(s sentence, first int) string {
	title := st.quoteTo(s, span{to: len(s.tokens)}, longestTitle)
	if first >= len(s.tokens) || !strings.HasSuffix(title, "…") {
		return title
	}
	from := first
	for from > 0 && s.tokens[from-1].part == s.tokens[first].part {
		from--
	}
	for from < first && (s.tokens[from].mark != 0 || lang().contrasts[s.tokens[from].word]) {
		from++
	}
	r := []rune(st.quoteTo(s, span{from: from, to: len(s.tokens)}, longestTitle))
	r[0] = unicode.ToUpper(r[0])
	return string(r)
}

func (st *state) firstLine() string {
	line, _, _ := strings.Cut(strings.TrimSpace(st.text), "\n")
	return shortenTo(strings.Join(strings.Fields(line), " "), longestTitle)
}
