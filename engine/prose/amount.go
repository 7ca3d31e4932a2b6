package prose

import (
	"strconv"
	"strings"

	"example.org/takeup/engine/unit"
)

// amounts joins numbers and their units into one token each.
func (l *Lexicon) amounts(text string, in []token) []token {
	var out []token
	for i := 0; i < len(in); {
		a, n := readAmount(in[i:])
		if n == 0 {
			out = append(out, in[i])
			i++
			continue
		}
		if k := len(out) - 1; k >= 0 && lang().about[out[k].word] {
			a.loose = true
		}
		out = append(out, token{start: in[i].start, end: in[i+n-1].end, word: "#", stem: "#", amount: &a})
		i += n
	}
	return out
}

// readAmount reads a number, a range or a number in words, with its unit. A word
// that is also a number ("one") needs a unit to count as one.
func readAmount(ts []token) (amount, int) {
	if a, n := halfOf(ts); n > 0 {
		return a, n
	}
	low, n := readNumber(ts)
	if n == 0 {
		return amount{}, 0
	}
	if list, used := readList(ts); used > 0 {
		return list, used
	}
	a := amount{value: low.value, loose: low.loose}
	digits := low.text
	if high, m, gap := readUpper(ts[n:]); m > 0 {
		a.upper, n = high, n+gap+m
	}
	u, m := readUnit(ts[n:])
	if m == 0 {
		if low.words && low.value < 1000 {
			return amount{}, 0
		}
		a.text = digits
		return a, n
	}
	a.unit, a.dim = u.Symbol, u.Dim
	if a.class() == "{distance}" && pointedThousands(ts[0].word) { // "54.000 km"
		a.value *= 1000
		digits = strconv.FormatFloat(a.value, 'f', -1, 64)
	}
	if digits != "" {
		a.text = digits + " " + u.Symbol
	}
	if a.upper != "" {
		a.upper += " " + u.Symbol
	}
	return a, n + m
}

// halfOf reads "half an inch". Half an hour is a manner of speaking.
func halfOf(ts []token) (amount, int) {
	if len(ts) < 3 || ts[0].word != "half" || ts[1].word != "an" && ts[1].word != "a" {
		return amount{}, 0
	}
	u, m := readUnit(ts[2:])
	if m == 0 || u.Dim != unit.Length {
		return amount{}, 0
	}
	return amount{value: 0.5, text: "0.5 " + u.Symbol, unit: u.Symbol, dim: u.Dim}, 2 + m
}

// pointedThousands reports whether a number has a point where others put a comma.
func pointedThousands(w string) bool {
	whole, rest, ok := strings.Cut(w, ".")
	return ok && len(rest) == 3 && len(whole) > 0 && len(whole) <= 3 && whole != "0"
}

// readList reads "2.93, 2.95 and 2.94 mm": three figures or more of like size, the
// unit behind the last or behind each.
func readList(ts []token) (amount, int) {
	var texts []string
	var first number
	for i := 0; i < len(ts); {
		n, used := digitsOf(ts[i:])
		if used == 0 || len(texts) > 0 && (n.value > 2*first.value || first.value > 2*n.value) {
			return amount{}, 0
		}
		if len(texts) == 0 {
			first = n
		}
		texts, i = append(texts, n.text), i+used
		u, m := readUnit(ts[i:])
		switch i += m; {
		case i < len(ts) && ts[i].mark == ',':
			i++
			if i < len(ts) && ts[i].word == "and" {
				i++
			}
		case i < len(ts) && (ts[i].word == "and" || ts[i].mark == '/'):
			i++
		case m == 0 || len(texts) < 3:
			return amount{}, 0
		default:
			for k := range texts {
				texts[k] += " " + u.Symbol
			}
			return amount{value: first.value, unit: u.Symbol, dim: u.Dim, text: texts[0], more: texts[1:]}, i
		}
	}
	return amount{}, 0
}

// readUpper reads the upper end of "2-3", "2 to 3" or "2 or 3".
func readUpper(ts []token) (text string, n, gap int) {
	if len(ts) < 2 || ts[0].mark != '-' && ts[0].word != "to" && ts[0].word != "or" {
		return "", 0, 0
	}
	high, n := readNumber(ts[1:])
	if n == 0 || high.words {
		return "", 0, 0
	}
	return high.text, n, 1
}

// number is a number as read, with its digits as a case writes them.
type number struct {
	value float64
	text  string
	words bool
	loose bool
}

func readNumber(ts []token) (number, int) {
	if len(ts) == 0 {
		return number{}, 0
	}
	if n, used := digitsOf(ts); used > 0 {
		return n, used
	}
	return wordsOf(ts)
}

// digitsOf reads "1,500", "2.4", "2,4", "1/4", "38k" and "38 thousand".
func digitsOf(ts []token) (number, int) {
	w := ts[0].word
	if w == "" || w[0] < '0' || w[0] > '9' {
		return number{}, 0
	}
	if strings.Contains(w, "/") {
		q, err := unit.Parse(w)
		if err != nil {
			return number{}, 0
		}
		return number{value: q.SI, text: w}, 1
	}
	v, err := strconv.ParseFloat(plainDigits(w), 64)
	if err != nil {
		return number{}, 0
	}
	used := 1
	if len(w) <= 3 && len(ts) > 1 && len(ts[1].word) == 3 && ts[1].start == ts[0].end+1 { // "75 000"
		if more, err := strconv.Atoi(ts[1].word); err == nil {
			return number{value: v*1000 + float64(more), text: strconv.FormatFloat(v*1000+float64(more), 'f', -1, 64)}, 2
		}
	}
	if len(ts) > 1 {
		switch ts[1].word {
		case "k", "thousand":
			v, used = v*1000, 2
		case "hundred":
			v, used = v*100, 2
		}
	}
	return number{value: v, text: strconv.FormatFloat(v, 'f', -1, 64)}, used
}

// plainDigits takes the commas of thousands out and turns a decimal comma into
// a point: three digits after a comma are thousands.
func plainDigits(w string) string {
	parts := strings.Split(w, ",")
	thousands := len(parts) > 1
	for _, p := range parts[1:] {
		thousands = thousands && len(p) == 3
	}
	if thousands {
		return strings.Join(parts, "")
	}
	return strings.Replace(w, ",", ".", 1)
}

// wordsOf reads "three", "two hundred", "a couple of thousand", "half an". What
// is no figure ("a few hundred") is read and marked loose with no digits.
func wordsOf(ts []token) (number, int) {
	total, used, sure := 0.0, 0, true
	for i, t := range ts {
		v, isNumber := lang().numbers[t.word]
		switch {
		case isNumber && used == i:
			total += v
		case lang().vague[t.word] && used == i:
			total, sure = total+1, false
		case (t.word == "hundred" || t.word == "thousand") && i > 0 && used == i:
			total *= map[string]float64{"hundred": 100, "thousand": 1000}[t.word]
		case t.word == "of" && used == i && i > 0:
		case (t.word == "a" || t.word == "an") && used == i && i+1 < len(ts) && counts(ts[i+1].word):
			if ts[i+1].word == "hundred" || ts[i+1].word == "thousand" {
				total = 1
			}
		default:
			return finish(total, used, sure)
		}
		used = i + 1
	}
	return finish(total, used, sure)
}

func counts(w string) bool {
	return w == "couple" || w == "few" || w == "hundred" || w == "thousand" || w == "dozen" || w == "half"
}

func finish(total float64, used int, sure bool) (number, int) {
	if used == 0 || total == 0 {
		return number{}, 0
	}
	n := number{value: total, words: true, loose: !sure}
	if sure {
		n.text = strconv.FormatFloat(total, 'f', -1, 64)
	}
	return n, used
}

// readUnit reads a unit of up to two words. Letters that are words as well ("in",
// "a") are units only where a number stands right before them without a blank.
func readUnit(ts []token) (unit.Unit, int) {
	if len(ts) == 0 || ts[0].word == "" {
		return unit.Unit{}, 0
	}
	if len(ts) > 1 && ts[1].word != "" {
		switch two := ts[0].word + " " + ts[1].word; two {
		case "ft lb", "ft lbs", "foot pounds", "foot lbs", "lb ft", "deg c", "degrees c", "degrees celsius", "deg f", "degrees f", "newton metres", "newton meters", "n m":
			if u, ok := unit.Find(strings.NewReplacer("degrees", "deg", "celsius", "C", "deg c", "deg C", "deg f", "deg F", "foot lbs", "ft-lbs").Replace(two)); ok {
				return u, 2
			}
		}
	}
	w := ts[0].word
	if w == "in" && (len(ts) == 1 || ts[1].mark != 0) {
		w = "inch" // nothing follows that something could be in
	}
	if to, listed := lang().unitWords[w]; listed {
		w = to
	}
	if w == "" || len(w) == 1 && w != "N" {
		return unit.Unit{}, 0
	}
	u, ok := unit.Find(w)
	if !ok {
		return unit.Unit{}, 0
	}
	return u, 1
}

// class is the kind of amount as phrases name it: a length on the road is a
// distance.
func (a amount) class() string {
	switch {
	case a.unit == "":
		return "{number}"
	case a.dim == unit.Length && (a.unit == "km" || a.unit == "mi"):
		return "{distance}"
	case a.dim == unit.Length:
		return "{length}"
	case a.dim == unit.Time:
		return "{time}"
	case a.dim == unit.Temperature:
		return "{temperature}"
	case a.dim == unit.Torque:
		return "{torque}"
	case a.dim == unit.Rotation:
		return "{speed}"
	case a.dim == unit.Angle:
		return "{angle}"
	}
	return "{other}"
}
