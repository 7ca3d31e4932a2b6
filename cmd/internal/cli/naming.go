package cli

import (
	"errors"
	"strconv"
	"strings"

	"example.org/takeup/engine/practice"
	"example.org/takeup/engine/report"
)

// naming is an answer in the making: what was named, what is still to be asked.
type naming struct {
	forecast practice.Forecast
	sure     []bool // whether a share was given
	reason   string
	reasoned bool
}

// name reads "steels warped 70, hub notched 20 because it creeps only hot".
func (l *exercise) name(text string) (over bool, err error) {
	if strings.TrimSpace(text) == "" {
		l.say(report.NameWhat)
		return false, nil
	}
	n := &naming{}
	said, reason, reasoned := cutFold(text, " because ")
	n.reason, n.reasoned = strings.TrimSpace(reason), reasoned
	for _, part := range strings.Split(said, ",") {
		words, share, sure := shareOf(part)
		if words == "" {
			continue
		}
		found := report.Naming(report.Find(l.tutor.Catalog, nil, words, "cause"), words)
		if len(found) != 1 {
			l.ambiguous(words, found)
			return false, nil
		}
		n.forecast = append(n.forecast, practice.Share{Cause: found[0].ID, Probability: share})
		n.sure = append(n.sure, sure)
	}
	if len(n.forecast) == 0 {
		l.say(report.NameWhat)
		return false, nil
	}
	l.naming = n
	return l.ready()
}

// ambiguous offers the causes that fit, or says that none does.
func (l *exercise) ambiguous(words string, found []report.Word) {
	if len(found) == 0 {
		l.say(report.NoCause(words))
		return
	}
	l.offer(found[:min(mostOffered, len(found))])
}

// nameOn takes what was still missing.
func (l *exercise) nameOn(typed string) (over bool, err error) {
	n := l.naming
	for i := range n.sure {
		if n.sure[i] {
			continue
		}
		p, ok := percent(typed)
		if !ok {
			l.naming = nil
			l.say(report.NoPercent)
			return false, nil
		}
		n.forecast[i].Probability, n.sure[i] = p, true
		return l.ready()
	}
	n.reason, n.reasoned = typed, true
	return l.ready()
}

// ready names the cause, or asks for what is missing.
func (l *exercise) ready() (over bool, err error) {
	n := l.naming
	for i, sure := range n.sure {
		if !sure {
			l.say(l.tutor.HowSure(n.forecast[i].Cause))
			return false, nil
		}
	}
	if !n.reasoned {
		l.say(report.WhyThat)
		return false, nil
	}
	l.naming = nil
	switch err := l.at.Name(n.forecast, n.reason); {
	case errors.Is(err, practice.ErrTooSure):
		l.say(report.TooMuch)
		return false, nil
	case err != nil:
		var refused *practice.MoveError
		if !errors.As(err, &refused) {
			return false, err
		}
		l.say(l.tutor.Refused(refused, l.at))
		return false, nil
	}
	return true, nil
}

// shareOf cuts a percentage off the end of some words.
func shareOf(part string) (words string, share float64, sure bool) {
	fields := strings.Fields(strings.ReplaceAll(part, "%", " "))
	if len(fields) == 0 {
		return "", 0, false
	}
	if p, ok := percent(fields[len(fields)-1]); ok {
		return strings.Join(fields[:len(fields)-1], " "), p, true
	}
	return strings.Join(fields, " "), 0, false
}

// percent reads 70, 70 % or 70 percent as 0.7.
func percent(text string) (float64, bool) {
	text = strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(strings.TrimSpace(text), "percent"), "%"))
	x, err := strconv.ParseFloat(strings.ReplaceAll(text, ",", "."), 64)
	if err != nil || !(x >= 0 && x <= 100) {
		return 0, false
	}
	return x / 100, true
}

// cutFold is strings.Cut for a separator in any case.
func cutFold(text, sep string) (before, after string, found bool) {
	if i := strings.Index(strings.ToLower(text), sep); i >= 0 {
		return text[:i], text[i+len(sep):], true
	}
	return text, "", false
}
