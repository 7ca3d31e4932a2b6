package prose

import (
	"regexp"
	"strings"
	"unicode/utf8"

	"example.org/takeup/engine/document"
)

// maxPost bounds the bytes of a post that are read; nobody writes more about one
// clutch, and a larger file is most likely the wrong one.
const maxPost = 32 << 10

var (
	// Quotes of other people, in the ways boards and mail mark them.
	quotedBlock = regexp.MustCompile(`(?is)\[quote[^\]]*\].*?(?:\[/quote\]|$)|<blockquote[^>]*>.*?(?:</blockquote>|$)`)
	quotedLine  = regexp.MustCompile(`(?m)^[ \t]*(?:>|&gt;).*$`)
	// Markup goes, the words in it stay. Angle and square brackets hold a tag only
	// when a letter or a slash follows at once: "clearance < 3 mm" is no tag.
	script  = regexp.MustCompile(`(?is)<(script|style)\b.*?(?:</(?:script|style)\s*>|$)`)
	tag     = regexp.MustCompile(`<[/!a-zA-Z][^<>]{0,400}>`)
	bbTag   = regexp.MustCompile(`\[/?(?:b|i|u|s|url|img|code|list|size|color|colour|font|center|left|right|email|spoiler|hr|\*)(?:=[^\]]{0,400})?\]`)
	link    = regexp.MustCompile(`(?i)\b(?:https?://|www\.)\S+`)
	entity  = strings.NewReplacer("&nbsp;", " ", "&lt;", "<", "&gt;", ">", "&quot;", `"`, "&#39;", "'", "&amp;", "&")
	typed   = strings.NewReplacer("\r\n", "\n", "\r", "\n", "’", "'", "‘", "'", "`", "'", "´", "'", "“", `"`, "”", `"`, "–", " - ", "—", " - ", "…", "...", "\u00a0", " ", "½", " 1/2", "¼", " 1/4", "¾", " 3/4")
	bullets = regexp.MustCompile(`(?m)^[ \t]*[-*•+#]+[ \t]+`)
	marks   = regexp.MustCompile(`\*\*|__|~~|\*`)
	emoji   = regexp.MustCompile(`(?i)[:;8]-?[)(dp|/]+(?:\s|$)|[\x{1F000}-\x{1FAFF}\x{2600}-\x{27BF}\x{FE0F}]`)
)

// clean returns the words of a post: no control characters, no markup, no quotes
// of others, typographic signs as people type them. Lines stay.
func clean(post string) string {
	if len(post) > maxPost {
		post = post[:maxPost]
		for len(post) > 0 && !utf8.RuneStart(post[len(post)-1]) {
			post = post[:len(post)-1]
		}
	}
	s := document.CleanLines(typed.Replace(post))
	s = quotedBlock.ReplaceAllString(s, "\n")
	s = quotedLine.ReplaceAllString(s, "")
	s = script.ReplaceAllString(s, " ")
	s = tag.ReplaceAllString(s, " ")
	s = bbTag.ReplaceAllString(s, " ")
	s = entity.Replace(s)
	s = link.ReplaceAllString(s, " ")
	s = bullets.ReplaceAllString(s, "\n")
	s = emoji.ReplaceAllString(s, ". ")
	return document.CleanLines(marks.ReplaceAllString(s, ""))
}
