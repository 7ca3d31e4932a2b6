package report

import (
	"fmt"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/takeup/engine/document"
)

// nbsp keeps a number and its unit on one line.
const nbsp = "\u00a0"

// minus is the sign of a negative number in running text.
const minus = "\u2212"

// Percent words a probability (0 to 1) as whole percent. What is neither certain
// nor impossible never reads as 0 or 100.
func Percent(p float64) string {
	switch {
	case p <= 0:
		return "0" + nbsp + "%"
	case p < 0.01:
		return "under 1" + nbsp + "%"
	case p >= 1:
		return "100" + nbsp + "%"
	case p > 0.99:
		return "over 99" + nbsp + "%"
	}
	return fmt.Sprintf("%.0f%s%%", p*100, nbsp)
}

// Decibans words a weight of evidence or log-odds with its sign and one decimal.
// The unit is a tenth of a ban, 10 log10 of the odds (Good 1950), written dban so
// that nobody takes it for a sound level.
func Decibans(d float64) string { return signed(d) + nbsp + "dban" }

// signed is a weight to one decimal; the sign of a rounded zero is dropped.
func signed(d float64) string {
	d = math.Round(d*10) / 10
	switch {
	case math.IsInf(d, 1):
		return "beyond all"
	case math.IsInf(d, -1):
		return minus + "beyond all"
	case d == 0: // also the negative zero
		return "0.0"
	case d < 0:
		return fmt.Sprintf("%s%.1f", minus, -d)
	}
	return fmt.Sprintf("+%.1f", d)
}

// Minutes words a duration in minutes; longer ones in hours too.
func Minutes(m float64) string {
	switch {
	case m < 0.5:
		return "no time"
	case m < 89.5:
		return fmt.Sprintf("%.0f%smin", m, nbsp)
	}
	return strings.TrimSuffix(fmt.Sprintf("%.1f", m/60), ".0") + nbsp + "h"
}

// Join lists words as a sentence does: "a, b and c".
func Join(words []string) string { return listed(words, "and") }

// listed joins words with commas and a last word before the last of them.
func listed(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " " + last + " " + words[n]
}

// capital raises the first letter of a sentence.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// counted is "1 check" or "3 checks".
func counted(n int, one, many string) string {
	if n == 1 {
		return "1" + nbsp + one
	}
	return fmt.Sprintf("%d%s%s", n, nbsp, many)
}

// plain, item and heading keep the pages readable: most of what they are made of
// is one of the three.
func plain(s string) document.Text { return document.Plain(s) }

func item(parts ...document.Text) document.Item { return document.NewItem(document.Join(parts...)) }

func heading(s string) document.Block { return document.Heading(2, plain(s)) }

// appendFact adds a fact unless its value is empty.
func appendFact(facts []document.Fact, label, value string) []document.Fact {
	if value == "" {
		return facts
	}
	return append(facts, document.NewFact(label, plain(value)))
}
