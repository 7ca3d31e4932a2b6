package unit

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"
)

// Quantity is a value in SI base units (metres, kilograms, seconds, kelvin,
// radians and their products), with the text it was read from and the symbol of
// the unit in that text ("" for a plain number).
type Quantity struct {
	SI   float64   `json:"si"`
	Dim  Dimension `json:"-"`
	Text string    `json:"text"`
	Unit string    `json:"unit,omitempty"`
}

// Error says what is wrong with a quantity. Offset and Length count runes of the
// text that was read.
type Error struct {
	Offset, Length int
	Message, Hint  string
}

// Error returns the message, followed by the hint if there is one.
func (e *Error) Error() string {
	if e.Hint == "" {
		return e.Message
	}
	return e.Message + " (" + e.Hint + ")"
}

// maxRunes bounds the text of a quantity; nobody writes forty characters of one.
const maxRunes = 64

// maxValue bounds numbers before conversion. Past it a number is a typing slip,
// and products of such numbers could overflow later.
const maxValue = 1e15

// Parse reads a number and its unit, or a number alone as a plain number. The
// decimal sign is a point or a comma; fractions ("1/4 in", "2 1/2 in") are
// understood. The error is an *Error.
func Parse(text string) (Quantity, error) {
	s := scanner{text: []rune(normal(text))}
	q, err := s.quantity()
	if err != nil {
		return Quantity{}, err
	}
	q.Text = strings.TrimSpace(text)
	return q, nil
}

// ParseAs is Parse for a known dimension: another one is an error that names
// both, and a bare number is an error that says which units fit.
func ParseAs(text string, dim Dimension) (Quantity, error) {
	q, err := Parse(text)
	if err != nil || q.Dim == dim {
		return q, err
	}
	found := q.Dim.withArticle()
	if q.Unit == "" {
		found = "a number without unit"
	}
	expected := dim.withArticle()
	if ex := dim.example(); ex != "" {
		expected += fmt.Sprintf(" such as %q", ex)
	}
	return Quantity{}, &Error{
		Offset:  0,
		Length:  max(1, utf8.RuneCountInString(strings.TrimSpace(text))),
		Message: "expected " + expected + ", found " + found,
		Hint:    mismatch(q, dim),
	}
}

// mismatch is the hint for a quantity of the wrong dimension.
func mismatch(q Quantity, dim Dimension) string {
	switch {
	case q.Unit == "":
		return fitting(dim)
	case q.Dim == Mass && dim == Force && q.Unit != "g":
		return "for a force write " + q.Unit + "f"
	case q.Dim == Force && dim == Torque:
		return "a torque is force times arm: " + fitting(dim)
	}
	return ""
}

// fitting lists the units of a dimension.
func fitting(dim Dimension) string {
	var symbols []string
	for _, u := range Units(dim) {
		if u.Symbol != "%" {
			symbols = append(symbols, u.Symbol)
		}
	}
	if len(symbols) == 0 {
		return ""
	}
	return "units that fit: " + strings.Join(symbols, ", ")
}

// scanner reads one quantity from normalised runes.
type scanner struct {
	text []rune
	at   int
}

// fail marks the runes from offset to end.
func (s *scanner) fail(offset, end int, message, hint string) error {
	return &Error{offset, max(1, end-offset), message, hint}
}

// quantity reads the number first; whatever is left must be one unit.
func (s *scanner) quantity() (Quantity, error) {
	s.blanks()
	start := s.at
	if s.at == len(s.text) {
		return Quantity{}, s.fail(0, 1, "expected a number and a unit, found nothing", "")
	}
	if len(s.text) > maxRunes {
		return Quantity{}, s.fail(0, len(s.text), "too long for a quantity", "")
	}
	value, err := s.number()
	if err != nil {
		return Quantity{}, err
	}
	if math.Abs(value) > maxValue {
		return Quantity{}, s.fail(start, s.at, "number too large", "")
	}
	s.blanks()
	word := trim(s.text[s.at:])
	if len(word) == 0 {
		return Quantity{SI: value}, nil
	}
	u := find(word)
	if u == nil {
		return Quantity{}, s.unknown(word)
	}
	return Quantity{SI: u.ToSI(value), Dim: u.Dim, Unit: u.Symbol}, nil
}

// unknown explains a text after the number that is no unit.
func (s *scanner) unknown(word []rune) error {
	end := s.at + len(word)
	if hint, ok := twoMeanings(word); ok {
		return s.fail(s.at, end, fmt.Sprintf("%q can mean two units", string(word)), hint)
	}
	if (word[0] == '-' || word[0] == '…' || word[0] == '.') && strings.ContainsAny(string(word), "0123456789") {
		return s.fail(s.at, end, "expected one value, found a range", "write one quantity")
	}
	return s.fail(s.at, end, fmt.Sprintf("unknown unit %q", string(word)), suggest(word))
}

func (s *scanner) blanks() {
	for s.at < len(s.text) && s.text[s.at] == ' ' {
		s.at++
	}
}
