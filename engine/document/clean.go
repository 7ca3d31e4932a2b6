package document

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Clean makes s safe to print on one line: escape sequences, control characters,
// text-direction overrides and invisible characters go, line breaks and tabs
// become a blank, bytes that are not UTF-8 become U+FFFD. Other characters,
// markup included, stay: that is for the renderer to escape. Clean is idempotent.
func Clean(s string) string { return clean(s, false) }

// CleanLines is Clean for text of several lines: line feeds stay, tabs become
// four blanks, blanks at line ends and blank lines at both ends go.
func CleanLines(s string) string {
	s = strings.ReplaceAll(s, "\r\n", "\n")
	lines := strings.Split(clean(s, true), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Trim(strings.Join(lines, "\n"), "\n")
}

func clean(s string, keepLines bool) string {
	if isClean(s) {
		return s // the usual case: no copy
	}
	var b strings.Builder
	for i := 0; i < len(s); {
		if n := escapeLen(s[i:]); n > 0 {
			i += n
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		i += n
		switch {
		case r == '\n' || r == '\u2028' || r == '\u2029' || r == '\u0085' || r == '\r':
			b.WriteByte(lineBreak(keepLines))
		case r == '\t':
			b.WriteString(tab(keepLines))
		case !dropped(r):
			b.WriteRune(r) // an invalid byte decodes as U+FFFD
		}
	}
	return b.String()
}

func lineBreak(keep bool) byte {
	if keep {
		return '\n'
	}
	return ' '
}

func tab(keepLines bool) string {
	if keepLines {
		return "    "
	}
	return " "
}

func isClean(s string) bool {
	for _, r := range s {
		if r < ' ' || r == utf8.RuneError || r == '\u2028' || r == '\u2029' || dropped(r) {
			return false
		}
	}
	return true
}

// dropped reports characters that nobody sees and that change how others look:
// controls, direction marks (Unicode Standard Annex 9), zero-width blanks, the
// soft hyphen, annotation marks and language tags. The two joiners stay, since
// scripts and emoji need them.
func dropped(r rune) bool {
	switch {
	case r < ' ' || r >= 0x7f && r < 0xa0:
		return true
	case r < 0xad: // the rest of ASCII and Latin-1 up to the soft hyphen
		return false
	case r == 0x200c || r == 0x200d:
		return false
	}
	return unicode.Is(unicode.Cf, r)
}

// escapeLen returns the length of the escape sequence s starts with, or 0. An
// unfinished one ends with the text. The forms are those of ECMA-48: CSI ends
// at a byte 0x40 to 0x7e; OSC, DCS, SOS, PM and APC run to BEL or ST.
func escapeLen(s string) int {
	kind, n := escapeStart(s)
	switch kind {
	case 0:
		return n
	case '[':
		return csiLen(s, n)
	case ']', 'P', 'X', '^', '_':
		return stringLen(s, n)
	}
	for n < len(s) && s[n] >= 0x20 && s[n] < 0x30 { // intermediate bytes, then one final
		n++
	}
	if n < len(s) && s[n] >= 0x30 && s[n] < 0x7f {
		n++
	}
	return n
}

// escapeStart returns the seven-bit form of the introducer and the bytes it took.
// ESC followed by something that introduces nothing gives kind 1.
func escapeStart(s string) (kind byte, n int) {
	if s[0] == 0x1b {
		if len(s) > 1 && strings.IndexByte("[]PX^_", s[1]) >= 0 {
			return s[1], 2
		}
		return 1, 1
	}
	// U+0080 to U+009F are the eight-bit forms: code minus 0x40 after ESC.
	if len(s) > 1 && s[0] == 0xc2 && strings.IndexByte("[]PX^_", s[1]-0x40) >= 0 {
		return s[1] - 0x40, 2
	}
	return 0, 0
}

func csiLen(s string, n int) int {
	for n < len(s) && s[n] >= 0x20 && s[n] < 0x40 {
		n++
	}
	if n < len(s) && s[n] >= 0x40 && s[n] < 0x7f {
		n++
	}
	return n
}

func stringLen(s string, n int) int {
	for ; n < len(s); n++ {
		switch {
		case s[n] == 0x07:
			return n + 1
		case s[n] == 0x1b && n+1 < len(s) && s[n+1] == '\\':
			return n + 2
		case s[n] == 0xc2 && n+1 < len(s) && s[n+1] == 0x9c:
			return n + 2
		case s[n] == '\n': // no terminal goes on over a line end we would print
			return n
		}
	}
	return n
}
