package terminal

import "strings"

// Stand-ins are characters of the private use area: first + c stands for the
// ASCII character c or the no-break space, and nothing for no character at all.
const (
	first   = '\uE000'
	last    = '\uE0FF'
	nothing = '\uE001'
	noBreak = '\u00A0'
)

// conceal replaces whatever Markdown or glamour could act on: all of ASCII but
// letters and digits, and the no-break space. A stand-in that was already in the
// text, which no font agrees upon anyway, becomes U+FFFD.
func conceal(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= first && r <= last:
			return '\uFFFD'
		case r == noBreak || r < 0x80 && !letterOrDigit(r):
			return first + r
		}
		return r
	}, s)
}

func letterOrDigit(r rune) bool {
	return r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z'
}

// restore takes glamour's output, in which each block is one line, and puts the
// stand-ins back, margin before every line and one empty line between blocks.
func restore(out, margin string) string {
	var b strings.Builder
	for _, block := range strings.Split(out, "\n") {
		if bare(block) {
			continue
		}
		if b.Len() > 0 {
			b.WriteByte('\n')
		}
		for _, line := range strings.Split(reveal(block), "\n") {
			if line = trim(line); !bare(line) {
				b.WriteString(margin + line)
			}
			b.WriteByte('\n')
		}
	}
	return b.String()
}

// trim drops the blanks at the end of a line, also those before the sequences
// that end a style.
func trim(line string) string {
	line = strings.TrimRight(line, " ")
	i := strings.LastIndex(line, "\x1b[")
	if i < 0 || strings.IndexByte(line[i:], 'm') != len(line)-1-i {
		return line // it ends with text
	}
	return trim(line[:i]) + line[i:]
}

// bare reports whether a line holds nothing but blanks and escape sequences.
func bare(line string) bool {
	for line != "" {
		if strings.HasPrefix(line, "\x1b[") {
			_, line, _ = strings.Cut(line, "m")
			continue
		}
		if line[0] != ' ' {
			return false
		}
		line = line[1:]
	}
	return true
}

func reveal(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == nothing:
			return -1
		case r >= first && r <= last:
			return r - first
		}
		return r
	}, s)
}
