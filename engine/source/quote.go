package source

import (
	"fmt"
	"regexp"
	"strings"

	"gopkg.in/yaml.v3"
)

// plainWord is text that means itself wherever a value may stand, without quotes.
var plainWord = regexp.MustCompile(`^[\p{L}\p{N}./][\p{L}\p{N} ._/°·µ²%+'()-]*$`)

// Quote writes text as a YAML value on one line: plain where that is safe, else
// in double quotes. Control characters and line breaks become blanks; bytes that
// are not UTF-8 become U+FFFD.
func Quote(text string) string {
	text = strings.TrimSpace(strings.Map(func(r rune) rune {
		if hidden(r) && r != '\ufffd' {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "\ufffd")))
	if plainWord.MatchString(text) && isText(text) {
		return text
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case badRune(r):
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// QuoteAll writes texts as a YAML list on one line.
func QuoteAll(texts []string) string {
	quoted := make([]string, len(texts))
	for i, t := range texts {
		quoted[i] = Quote(t)
	}
	return "[" + strings.Join(quoted, ", ") + "]"
}

// isText tells whether YAML reads the text as it stands: as itself, and not as
// null, which would be nothing at all. Numbers are read as they are written.
func isText(text string) bool {
	var n yaml.Node
	err := yaml.Unmarshal([]byte(text), &n)
	return err == nil && n.Kind == yaml.DocumentNode && n.Content[0].Kind == yaml.ScalarNode && !isNull(n.Content[0]) && n.Content[0].Value == text
}
