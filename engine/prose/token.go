package prose

import (
	"strings"
	"unicode"

	"github.com/kljensen/snowball/english"

	"example.org/takeup/engine/unit"
)

// token is one word, number or mark of a sentence.
type token struct {
	start, end int    // bytes of the cleaned text
	word       string // lower case, without apostrophes
	stem       string // what is compared; "" for a mark
	mark       rune   // , : ( ) or -, else 0
	amount     *amount
	also       []string // other stems it can stand for: "does" before "not" for "doesnt", "isnt" for "not"

	filler bool // says nothing by itself
	role   role
	roleAt int // tokens of the idiom that gave the role
	chunk  int // between commas and joining words
	part   int // between words that set one thing against another
}

// amount is a number with or without a unit.
type amount struct {
	text  string // as it is written in a case: "1500 mi"
	dim   unit.Dimension
	unit  string   // "" for a bare number
	value float64  // in that unit
	more  []string // further values of a list with one unit: "2.9, 2.8 and 3.0 mm"
	upper string   // the upper end of a range, "" for one value
	loose bool     // "about", or a number in words that is none ("a few hundred")
}

// sentence is the tokens up to a full stop.
type sentence struct {
	tokens   []token
	question bool // ends with a question mark
}

// split cuts a cleaned text into sentences. A line break ends a sentence where
// the next line starts anew: after a short line, before a capital or a bullet.
func (l *Lexicon) split(text string) []sentence {
	var out []sentence
	start := 0
	flush := func(end int, question bool) {
		if ts := l.tokens(text, start, end); len(ts) > 0 {
			out = append(out, sentence{tokens: ts, question: question})
		}
		start = end
	}
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c == '\n' && breaksHere(text, start, i):
			flush(i, false)
		case c == ';':
			flush(i, false)
			start = i + 1
		case c == '?' || c == '!' || c == '.' && endsSentence(text, i):
			question := c == '?'
			for i+1 < len(text) && strings.IndexByte("?!.", text[i+1]) >= 0 {
				i++
				question = question || text[i] == '?'
			}
			flush(i+1, question)
		}
	}
	flush(len(text), false)
	return labelled(out)
}

// labelled joins a short question that only names a thing with its answer, as
// people fill in a list: "Lever feel? Gritty."
func labelled(in []sentence) []sentence {
	var out []sentence
	for i := 0; i < len(in); i++ {
		s := in[i]
		if s.question && i+1 < len(in) && len(s.tokens) <= 5 && !lang().openers[s.tokens[0].word] {
			if first := in[i+1].tokens[0].word; !lang().answerNo[first] && !lang().answerYes[first] {
				s = sentence{tokens: append(s.tokens, in[i+1].tokens...), question: in[i+1].question}
				i++
			}
		}
		out = append(out, s)
	}
	return out
}

// breaksHere tells a new line from a line that was only too long.
func breaksHere(text string, start, i int) bool {
	line := text[:i]
	line = line[strings.LastIndexByte(line, '\n')+1:]
	next := strings.TrimLeft(text[i:], " \t")
	if strings.HasPrefix(next, "\n\n") || strings.TrimSpace(next) == "" || len(line) < 60 {
		return true
	}
	r := rune(strings.TrimLeft(next, "\n ")[0])
	return unicode.IsUpper(r) || unicode.IsDigit(r)
}

// endsSentence tells a full stop from a decimal point and from abbreviations.
func endsSentence(text string, i int) bool {
	if i+1 < len(text) && !unicode.IsSpace(rune(text[i+1])) && text[i+1] != '.' {
		return false
	}
	before := text[:i]
	word := strings.ToLower(before[strings.LastIndexFunc(before, func(r rune) bool { return !unicode.IsLetter(r) })+1:])
	if word == "no" { // "no. 3", and not "judder: no."
		return !nextDigit(strings.TrimLeft(text[i+1:], " "))
	}
	return !lang().abbreviated[word]
}

// tokens reads the words of text[start:end].
func (l *Lexicon) tokens(text string, start, end int) []token {
	var out []token
	for i := start; i < end; {
		r := rune(text[i])
		switch n := wordLen(text[i:end]); {
		case n > 0:
			out = l.word(out, text, i, i+n)
			i += n
		case strings.ContainsRune(",:()-/=", r):
			out = append(out, token{start: i, end: i + 1, mark: r})
			i++
		default:
			i++
		}
	}
	return longForms(l.amounts(text, out))
}

// longForms lets "does not" be found as "doesnt", and the "not" of "is not square" in
// "isnt square".
func longForms(ts []token) []token {
	for i := range ts {
		if i+1 < len(ts) && ts[i+1].word == "not" {
			if short, ok := lang().short[ts[i].word]; ok {
				ts[i].also = append(ts[i].also, short)
			}
		}
		if lang().nots[ts[i].word] {
			ts[i].also = append(ts[i].also, "not")
		}
		if ts[i].word == "cannot" {
			ts[i].also = append(ts[i].also, "cant")
		}
	}
	return ts
}

// wordLen is the length of the word or number at the start of s. A point or
// comma between digits belongs to the number; an apostrophe between letters to
// the word.
func wordLen(s string) int {
	n := 0
	digits := false
	for i, r := range s {
		switch {
		case unicode.IsLetter(r) || r == '°' || r == '%' || r == 'µ' || r == '²':
			if digits && !ordinal(s[i:]) { // "3mm" is two tokens
				return i
			}
			digits = false
		case unicode.IsDigit(r):
			if i > 0 && !digits { // "v2", "ma2", "20w50" stay one word
				n = i + 1
				continue
			}
			digits = true
		case (r == '.' || r == ',') && digits && nextDigit(s[i+1:]):
		case r == '/' && digits && nextDigit(s[i+1:]):
		case r == '\'' && i > 0 && !digits && nextLetter(s[i+1:]):
		default:
			return n
		}
		n = i + len(string(r))
	}
	return n
}

func ordinal(s string) bool {
	s = strings.ToLower(s[:min(3, len(s))])
	for _, o := range []string{"st", "nd", "rd", "th"} {
		if strings.HasPrefix(s, o) && (len(s) == 2 || !unicode.IsLetter(rune(s[2]))) {
			return true
		}
	}
	return strings.HasPrefix(s, "w") && len(s) > 1 && unicode.IsDigit(rune(s[1])) || s == "w" // 10w40, 20w
}

func nextDigit(s string) bool  { return s != "" && s[0] >= '0' && s[0] <= '9' }
func nextLetter(s string) bool { return s != "" && unicode.IsLetter(rune(s[0])) }

// word adds a word with its stem. A hyphen inside a word is a mark and is
// dropped when letters stand on both sides: "free-play" reads "free play".
func (l *Lexicon) word(out []token, text string, start, end int) []token {
	if n := len(out); n > 1 && out[n-1].mark == '-' && out[n-1].end == start && out[n-2].end == out[n-1].start && out[n-2].mark == 0 {
		if unicode.IsLetter(rune(text[start])) {
			out = out[:n-1]
		}
	}
	w := strings.ToLower(strings.ReplaceAll(text[start:end], "'", ""))
	if strings.HasSuffix(strings.ToLower(text[start:end]), "'s") && !lang().shortened[w] {
		w = strings.TrimSuffix(w, "s")
	}
	t := token{start: start, end: end, word: w}
	t.word, t.stem = l.known(w)
	t.filler = lang().fillers[t.word] || l.little[t.word]
	return append(out, t)
}

// stem is the common form of the words of one family: slips, slipping, slipped.
func stem(word string) string {
	if s, ok := lang().irregular[word]; ok {
		return s
	}
	return english.Stem(word, false)
}
