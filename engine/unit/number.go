package unit

import (
	"fmt"
	"strconv"
	"strings"
)

// number reads a sign, then a decimal, a fraction, or a whole number and a
// fraction.
func (s *scanner) number() (float64, error) {
	sign := 1.0
	if c := s.peek(0); c == '-' || c == '+' {
		if c == '-' {
			sign = -1
		}
		s.at++
		s.blanks()
	}
	start := s.at
	if value, ok, err := s.fraction(); ok || err != nil {
		return sign * value, err
	}
	digits, err := s.decimal()
	if err != nil {
		return 0, err
	}
	if whole := !strings.ContainsAny(digits, ".e"); whole {
		before := s.at
		s.blanks()
		if value, ok, err := s.fraction(); ok || err != nil {
			w, _ := strconv.ParseFloat(digits, 64)
			return sign * (w + value), err
		}
		s.at = before
	}
	value, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return 0, s.fail(start, s.at, "number too large", "")
	}
	return sign * value, nil
}

// fraction reads "1/4". Not ok leaves the scanner where it was: "1/min" is no
// fraction.
func (s *scanner) fraction() (value float64, ok bool, err error) {
	start := s.at
	top := s.run()
	if top == "" || s.peek(0) != '/' {
		s.at = start
		return 0, false, nil
	}
	s.at++
	bottom := s.run()
	if bottom == "" {
		s.at = start
		return 0, false, nil
	}
	t, errTop := strconv.ParseFloat(top, 64)
	b, errBottom := strconv.ParseFloat(bottom, 64)
	if errTop != nil || errBottom != nil || b == 0 || s.peek(0) == '/' || isPoint(s.peek(0)) {
		return 0, false, s.fail(start, s.at, "not a fraction: "+string(s.text[start:s.at]), `write for example "1/4"`)
	}
	return t / b, true, nil
}

// decimal reads digits with at most one decimal sign, groups of thousands
// divided by blanks, and a small exponent, and returns them as Go writes them.
func (s *scanner) decimal() (string, error) {
	start := s.at
	var b strings.Builder
	whole := s.run()
	b.WriteString(whole)
	for whole != "" && len(whole) <= 3 && s.group() {
		b.WriteString(string(s.text[s.at+1 : s.at+4]))
		s.at += 4
	}
	if point := s.peek(0); isPoint(point) && (whole != "" || isDigit(s.peek(1))) {
		s.at++
		part := s.run()
		if err := s.separators(start, whole, part, point); err != nil {
			return "", err
		}
		if whole == "" {
			b.WriteByte('0')
		}
		if part != "" {
			b.WriteString("." + part)
		}
	}
	if b.Len() == 0 {
		return "", s.noNumber()
	}
	if c := s.peek(0); (whole == "0" || whole == "00") && b.Len() <= 2 && (c == 'x' || c == 'X') {
		return "", s.fail(start, len(s.text), "hexadecimal numbers are not used here", "")
	}
	if err := s.exponent(&b, start); err != nil {
		return "", err
	}
	return b.String(), nil
}

// separators refuses what can be read as thousands: several signs, or a comma
// before exactly three digits. "0,125" is clear, since thousands never start
// with a zero.
func (s *scanner) separators(start int, whole, part string, point rune) error {
	if isPoint(s.peek(0)) && isDigit(s.peek(1)) {
		for isPoint(s.peek(0)) || isDigit(s.peek(0)) {
			s.at++
		}
		return s.fail(start, s.at, "more than one decimal sign or separator", "write thousands without separator and one decimal point")
	}
	if point == ',' && len(part) == 3 && len(whole) <= 3 && whole != "" && whole[0] != '0' {
		message := fmt.Sprintf("%q can mean two numbers", string(s.text[start:s.at]))
		return s.fail(start, s.at, message, fmt.Sprintf("write %s.%s or %s%s", whole, part, whole, part))
	}
	return nil
}

// exponent reads "e-3". Two digits are enough for any workshop.
func (s *scanner) exponent(b *strings.Builder, start int) error {
	if c := s.peek(0); c != 'e' && c != 'E' {
		return nil
	}
	next := s.peek(1)
	if !isDigit(next) && !((next == '-' || next == '+') && isDigit(s.peek(2))) {
		return nil
	}
	s.at++
	sign := ""
	if !isDigit(next) {
		sign = string(next)
		s.at++
	}
	digits := s.run()
	if n, err := strconv.Atoi(digits); err != nil || n > 15 {
		return s.fail(start, s.at, "exponent too large", "")
	}
	b.WriteString("e" + sign + digits)
	return nil
}

// noNumber tells a unit without number from a word.
func (s *scanner) noNumber() error {
	rest := trim(s.text[s.at:])
	word, _, _ := strings.Cut(string(rest), " ")
	if u := find(rest); u != nil {
		return s.fail(s.at, s.at+len(rest), fmt.Sprintf("expected a number before %q", u.Symbol), "")
	}
	return s.fail(s.at, s.at+len([]rune(word)), fmt.Sprintf("expected a number, found %q", word), `write for example "2.5 mm"`)
}

// run reads digits.
func (s *scanner) run() string {
	start := s.at
	for isDigit(s.peek(0)) {
		s.at++
	}
	return string(s.text[start:s.at])
}

// group tells whether a blank and exactly three digits follow, as in "12 000".
func (s *scanner) group() bool {
	return s.peek(0) == ' ' && isDigit(s.peek(1)) && isDigit(s.peek(2)) && isDigit(s.peek(3)) &&
		!isDigit(s.peek(4)) && s.peek(4) != '/'
}

// peek returns the rune i places on, or 0 past the end.
func (s *scanner) peek(i int) rune {
	if s.at+i < len(s.text) {
		return s.text[s.at+i]
	}
	return 0
}

func isDigit(r rune) bool { return '0' <= r && r <= '9' }
func isPoint(r rune) bool { return r == '.' || r == ',' }
