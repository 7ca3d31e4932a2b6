package prose

import (
	"regexp"
	"strings"
	"sync"
	"unicode/utf8"

	"example.org/takeup/engine/document"
)

// maxPost bounds the bytes of a post that are read; nobody writes more about one
// fault, and a larger file is most likely the wrong one.
const maxPost = 32 << 10

// washer holds what the cleaning of a text needs.
type washer struct {
	quoteMark, quotedLine    *regexp.Regexp // quotes of other people, as boards and mail mark them
	script, tag, bbTag, link *regexp.Regexp // markup: it goes, the words in it stay
	bullets, marks, emoji    *regexp.Regexp
	entity, typed            *strings.Replacer
}

// wash is built on first use: most runs of the program read no prose. Angle and
// square brackets hold a tag only when a letter or a slash follows at once:
// "clearance < 3 mm" is no tag.
var wash = sync.OnceValue(func() washer {
	return washer{
		quoteMark:  regexp.MustCompile(`(?i)(\[quote[^\]]{0,200}\]|<blockquote[^>]{0,200}>)|\[/quote\]|</blockquote>`),
		quotedLine: regexp.MustCompile(`(?m)^[ \t]*(?:>|&gt;).*$`),
		script:     regexp.MustCompile(`(?is)<(script|style)\b.*?(?:</(?:script|style)\s*>|$)`),
		tag:        regexp.MustCompile(`<[/!a-zA-Z][^<>]{0,400}>`),
		bbTag:      regexp.MustCompile(`(?i)\[/?(?:b|i|u|s|url|img|code|list|size|color|colour|font|center|left|right|email|spoiler|hr|\*)(?:=[^\]]{0,400})?\]`),
		link:       regexp.MustCompile(`(?i)\b(?:https?://|www\.)\S+`),
		entity:     strings.NewReplacer("&nbsp;", " ", "&lt;", "<", "&gt;", ">", "&quot;", `"`, "&#39;", "'", "&amp;", "&"),
		typed:      strings.NewReplacer("\r\n", "\n", "\r", "\n", "’", "'", "‘", "'", "`", "'", "´", "'", "“", `"`, "”", `"`, "–", " - ", "—", " - ", "…", "...", "\u00a0", " ", "½", " 1/2", "¼", " 1/4", "¾", " 3/4"),
		bullets:    regexp.MustCompile(`(?m)^[ \t]*[-*•+#]+[ \t]+`),
		marks:      regexp.MustCompile(`\*\*|__|~~|\*`),
		emoji:      regexp.MustCompile(`(?i)[:;8]-?[)(dp|/]+(?:\s|$)|[\x{1F000}-\x{1FAFF}\x{2600}-\x{27BF}\x{FE0F}]`),
	}
})

// clean returns the words of a post: no control characters, no markup, no quotes
// of others, typographic signs as people type them. Lines stay. It also reports
// whether the post is longer than is read.
func clean(post string) (text string, cut bool) {
	if cut = len(post) > maxPost; cut {
		post = post[:maxPost]
		for len(post) > 0 && !utf8.RuneStart(post[len(post)-1]) {
			post = post[:len(post)-1]
		}
	}
	w := wash()
	s := document.CleanLines(w.typed.Replace(post))
	s = w.unquoted(s)
	s = w.quotedLine.ReplaceAllString(s, "")
	s = w.script.ReplaceAllString(s, " ")
	s = w.tag.ReplaceAllString(s, " ")
	s = w.bbTag.ReplaceAllString(s, " ")
	s = w.entity.Replace(s)
	s = w.link.ReplaceAllString(s, " ")
	s = w.bullets.ReplaceAllString(s, "\n")
	s = w.emoji.ReplaceAllString(s, ". ")
	return document.CleanLines(w.marks.ReplaceAllString(s, "")), cut
}

// unquoted cuts out what stands between the marks of a quote, quotes in quotes
// included. A quote that is never closed goes to the end.
func (w washer) unquoted(s string) string {
	var b strings.Builder
	depth, at := 0, 0
	for _, m := range w.quoteMark.FindAllStringSubmatchIndex(s, -1) {
		if depth == 0 {
			b.WriteString(s[at:m[0]])
		}
		if m[2] >= 0 {
			depth++
		} else {
			depth = max(0, depth-1)
		}
		at = m[1]
		b.WriteByte('\n')
	}
	if depth == 0 {
		b.WriteString(s[at:])
	}
	return b.String()
}
