package source

import (
	"strings"
	"unicode/utf8"
)

// value looks at what follows a key or a dash.
func (r *rescan) value(n, column, indent int, s string, afterKey bool) {
	switch c := s[0]; {
	case c == '\'' || c == '"':
		r.quoted(n, column, s, afterKey)
	case c == '[' || c == '{':
		r.inFlow(n, column, s)
	case c == '|' || c == '>':
		r.inBlock, r.block, r.content = true, indent, 0
		if strings.ContainsAny(s[:min(3, len(s))], "123456789") {
			r.content = indent + 1 // an explicit indicator: anything deeper will do
		}
	case strings.ContainsRune("@`%", rune(c)):
		r.report(CodeStart, n, column, 1, "a value cannot start with "+string(c), "put the value in quotes")
	case c == '&' || c == '*':
		r.report(CodeAnchor, n, column, 1, "a leading "+string(c)+" starts a YAML anchor or alias, not a value", "put the value in quotes")
	case afterKey || column > indent+1:
		r.plain(n, column, s)
	}
}

// plain looks for a second colon, which ends a key and not a value.
func (r *rescan) plain(n, column int, s string) {
	if i := strings.Index(s, " #"); i >= 0 {
		s = s[:i]
	}
	i := strings.Index(s, ": ")
	if i < 0 && strings.HasSuffix(strings.TrimRight(s, " "), ":") {
		i = strings.LastIndexByte(s, ':')
	}
	if i >= 0 {
		r.report(CodeColon, n, column+utf8.RuneCountInString(s[:i]), 1,
			"a colon and a blank inside an unquoted value", "put the whole value in quotes")
	}
}

// quoted checks a quoted value. A value may go on over several lines, but a line
// that looks like a key before the quote ends means that the end was forgotten.
func (r *rescan) quoted(n, column int, s string, afterKey bool) {
	rest, ok := r.closing(n, column, s)
	if r.found != nil {
		return
	}
	if !ok {
		r.report(CodeQuote, n, column, utf8.RuneCountInString(s), "quote without end", "close it with "+s[:1])
		return
	}
	rest = strings.TrimLeft(rest, " ")
	isKey := !afterKey && strings.HasPrefix(rest, ":")
	if rest != "" && rest[0] != '#' && !isKey {
		r.report(CodeAfter, n, column+utf8.RuneCountInString(s)-utf8.RuneCountInString(rest), utf8.RuneCountInString(rest),
			"text after the closing quote", quoteHint(s[0]))
	}
}

func quoteHint(quote byte) string {
	if quote == '"' {
		return `write a quote inside double quotes as \"`
	}
	return "write an apostrophe inside single quotes twice, or use double quotes"
}

// closing returns what follows the closing quote on this line, or ok with
// nothing when the quote ends properly on a later line.
func (r *rescan) closing(n, column int, s string) (rest string, ok bool) {
	quote := s[0]
	if i, found := r.scanQuote(n, column, s, quote, 1); found {
		return s[i:], true
	}
	for next := n + 1; next <= len(r.d.starts) && r.found == nil; next++ {
		line := r.d.line(next)
		if r.key.MatchString(strings.TrimLeft(line, " -")) {
			return "", false
		}
		if _, found := r.scanQuote(next, 1, line, quote, 0); found {
			r.resume = next + 1
			return "", true
		}
	}
	return "", false
}

// scanQuote returns the byte offset behind the closing quote, looking from an
// offset on, and reports an escape that YAML 1.2 section 5.7 does not know.
func (r *rescan) scanQuote(n, column int, s string, quote byte, from int) (int, bool) {
	for i := from; i < len(s); i++ {
		switch {
		case quote == '"' && s[i] == '\\':
			if i+1 < len(s) && !strings.ContainsRune("0abt\tnvfre \"/\\N_LPxuU", rune(s[i+1])) {
				r.report(CodeEscape, n, column+utf8.RuneCountInString(s[:i]), 2, "unknown escape in double quotes",
					`write \\ for a backslash, or use single quotes`)
			}
			i++
		case quote == '\'' && strings.HasPrefix(s[i:], "''"):
			i++
		case s[i] == quote:
			return i + 1, true
		}
	}
	return 0, false
}

// inFlow follows brackets, skipping quotes; flow collections may span lines.
func (r *rescan) inFlow(n, column int, s string) {
	at, counted := column, 0
	for i := 0; i < len(s); i++ {
		at += utf8.RuneCountInString(s[counted:i]) // not from the start each time: lines can be long
		counted = i
		switch c := s[i]; {
		case (c == '\'' || c == '"') && startsItem(s[:i]):
			end, ok := r.scanQuote(n, at, s[i:], c, 1)
			if !ok {
				r.report(CodeQuote, n, at, 1, "quote without end", "close it with "+string(c))
				return
			}
			i += end - 1
			if r.afterQuoted(n, at+utf8.RuneCountInString(s[counted:i+1]), c, s[i+1:]) {
				return
			}
		case strings.ContainsRune("@`%", rune(c)) && startsItem(s[:i]):
			r.report(CodeStart, n, at, 1, "a value cannot start with "+string(c), "put the value in quotes")
			return
		case c == '#' && (i == 0 || s[i-1] == ' '):
			return
		case c == '[' || c == '{':
			r.flow = append(r.flow, r.d.pos(n, at))
			r.closers = append(r.closers, c+2) // in ASCII, "]" and "}" come two after
		case c == ']' || c == '}':
			r.closeFlow(n, at, c)
		}
		if r.found != nil || len(r.flow) == 0 {
			r.afterFlow(n, at+1, s[min(i+1, len(s)):])
			return
		}
	}
}

// afterQuoted checks that a quoted item inside brackets ends with its quote.
func (r *rescan) afterQuoted(n, column int, quote byte, rest string) bool {
	trimmed := strings.TrimLeft(rest, " ")
	if trimmed == "" || strings.ContainsRune(",]}:#", rune(trimmed[0])) {
		return false
	}
	r.report(CodeAfter, n, column+len(rest)-len(trimmed), utf8.RuneCountInString(trimmed),
		"text after the closing quote", quoteHint(quote))
	return true
}

// closeFlow matches a closing bracket with the last open one.
func (r *rescan) closeFlow(n, column int, c byte) {
	last := len(r.flow) - 1
	if want := r.closers[last]; c != want {
		r.report(CodeBracket, n, column, 1, "expected "+string(want)+", found "+string(c), "brackets close in the order they open")
		return
	}
	r.flow, r.closers = r.flow[:last], r.closers[:last]
}

// afterFlow looks behind the last closing bracket, where only a comment may stand,
// or a colon if the brackets were a key.
func (r *rescan) afterFlow(n, column int, rest string) {
	trimmed := strings.TrimLeft(rest, " ")
	if trimmed == "" || trimmed[0] == '#' || trimmed[0] == ':' {
		return
	}
	r.report(CodeAfter, n, column+len(rest)-len(trimmed), utf8.RuneCountInString(trimmed),
		"text after the closing bracket", "put the whole value in quotes")
}

// startsItem tells whether a quote after s begins a value, rather than being an
// apostrophe inside a word.
func startsItem(s string) bool {
	s = strings.TrimRight(s, " ")
	return s == "" || strings.ContainsRune("[{,:", rune(s[len(s)-1]))
}
