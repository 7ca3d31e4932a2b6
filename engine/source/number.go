package source

import (
	"reflect"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"
)

// plain fills a bool, int or float64. Quoted numbers are text and refused.
func (d *decoder) plain(n *yaml.Node, v reflect.Value, name string) {
	expected, set := "a number", setFloat
	switch v.Kind() {
	case reflect.Bool:
		expected, set = "yes or no", setBool
	case reflect.Int:
		expected, set = "a whole number", setInt
	}
	if n.Kind != yaml.ScalarNode {
		d.wrongKind(n, name, expected)
		return
	}
	code, hint := set(n.Value, v)
	if code == "" && n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0 {
		code, hint = CodeNumber, "remove the quotes"
		if v.Kind() == reflect.Bool {
			code = CodeYesNo
		}
		v.SetZero()
	}
	if code != "" {
		p := d.ps.Errorf(code, d.doc.nodePos(n), d.doc.length(n), "%sexpected %s, found %q", prefix(name), expected, shorten(n.Value))
		p.Hint = hint
	}
}

// setBool, setInt and setFloat return the code of what is wrong, or "".
func setBool(s string, v reflect.Value) (code, hint string) {
	switch s {
	case "yes", "true":
		v.SetBool(true)
		return "", ""
	case "no", "false":
		v.SetBool(false)
		return "", ""
	}
	return CodeYesNo, "write yes or no"
}

// setInt takes decimal digits and a sign, none of YAML's other bases or its
// underscores.
func setInt(s string, v reflect.Value) (code, hint string) {
	if short, ok := leadingZero(s); ok {
		return CodeLeadingZero, "write " + short
	}
	digits := strings.TrimLeft(s, "+-")
	if digits == "" || len(s)-len(digits) > 1 || strings.Trim(digits, "0123456789") != "" {
		return CodeNumber, ""
	}
	i, err := strconv.Atoi(s)
	if err != nil {
		return CodeRange, "the number is too large"
	}
	v.SetInt(int64(i))
	return "", ""
}

// setFloat takes what a person calls a number: no infinity, no hexadecimal, and a
// decimal comma gets a hint instead of a second meaning.
func setFloat(s string, v reflect.Value) (code, hint string) {
	if short, ok := leadingZero(s); ok {
		return CodeLeadingZero, "write " + short
	}
	if strings.Trim(s, "0123456789.eE+-") != "" || !strings.ContainsAny(s, "0123456789") {
		if strings.Count(s, ",") == 1 && strings.Trim(s, "0123456789,-+") == "" {
			hint = "write " + strings.Replace(s, ",", ".", 1)
		}
		return CodeNumber, hint
	}
	f, err := strconv.ParseFloat(s, 64)
	switch {
	case err == nil:
		v.SetFloat(f)
		return "", ""
	case err.(*strconv.NumError).Err == strconv.ErrRange:
		return CodeRange, "the number is too large"
	}
	return CodeNumber, ""
}

// leadingZero tells numbers such as 010, which YAML 1.1 reads as eight and a
// person as ten, and returns them without the zeros.
func leadingZero(s string) (short string, ok bool) {
	digits := strings.TrimLeft(s, "+-")
	if len(digits) < 2 || digits[0] != '0' || digits[1] < '0' || digits[1] > '9' {
		return "", false
	}
	short = strings.TrimLeft(digits, "0")
	if short == "" || short[0] < '0' || short[0] > '9' {
		short = "0" + short
	}
	return s[:len(s)-len(digits)] + short, true
}

// shorten keeps a message on one line when the value is not.
func shorten(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:37]) + "..."
	}
	return s
}
