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
	parts    []named
	reason   string
	reasoned bool
}

// named is one cause of an answer. Words stand for it until it is known which of
// several is meant; which lists these once they were asked for.
type named struct {
	words string
	which []report.Word
	cause string
	share float64
	sure  bool // whether a share was given
}

// name reads "steels warped 70, hub notched 20 because it creeps only hot".
func (l *exercise) name(text string) (over bool, err error) {
	n := &naming{}
	said, reason, reasoned := cutFold(text, " because ")
	n.reason, n.reasoned = strings.TrimSpace(reason), reasoned
	for _, part := range strings.Split(said, ",") {
		words, share, sure := shareOf(part)
		if oddPercent(words) {
			l.say(report.NoPercent)
			return false, nil
		}
		if words != "" {
			n.parts = append(n.parts, named{words: words, share: share, sure: sure})
		}
	}
	if len(n.parts) == 0 {
		l.say(report.NameWhat)
		return false, nil
	}
	l.naming = n
	return l.ready()
}

// nameOn takes what was still missing.
func (l *exercise) nameOn(typed string) (over bool, err error) {
	n := l.naming
	for i := range n.parts {
		p := &n.parts[i]
		switch {
		case p.cause == "":
			return l.meant(p, typed)
		case !p.sure:
			var ok bool
			if p.share, ok = percent(typed); !ok {
				l.naming = nil
				l.say(report.NoPercent)
				return false, nil
			}
			p.sure = true
			return l.ready()
		}
	}
	n.reason, n.reasoned = typed, true
	return l.ready()
}

// meant takes the number of the cause that some words meant. Anything else is a
// line of its own, and nothing is named.
func (l *exercise) meant(p *named, typed string) (over bool, err error) {
	if k, err := strconv.Atoi(typed); err == nil && k >= 1 && k <= len(p.which) {
		p.cause = p.which[k-1].ID
		return l.ready()
	}
	l.naming = nil
	if typed == "" {
		l.say(report.NotNamed)
		return false, nil
	}
	return l.turn(typed)
}

// ready names the cause, or asks for what is missing.
func (l *exercise) ready() (over bool, err error) {
	n := l.naming
	sum := 0.0
	for i := range n.parts {
		p := &n.parts[i]
		if p.cause == "" && !l.known(p) {
			return false, nil
		}
		if !p.sure {
			l.say(l.tutor.HowSure(p.cause))
			return false, nil
		}
		sum += p.share
	}
	if sum > 1+1e-9 { // before anybody gives a reason for it
		l.naming = nil
		l.say(report.TooMuch)
		return false, nil
	}
	if !n.reasoned {
		l.say(report.WhyThat)
		return false, nil
	}
	l.naming = nil
	var f practice.Forecast
	for _, p := range n.parts {
		f = append(f, practice.Share{Cause: p.cause, Probability: p.share})
	}
	if err := l.at.Name(f, n.reason); err != nil {
		var refused *practice.MoveError
		if !errors.As(err, &refused) {
			return false, err
		}
		l.say(l.tutor.Refused(refused, l.at))
		return false, nil
	}
	return true, nil
}

// known finds the cause that some words stand for. Where several fit it asks
// which; where none does the answer is dropped.
func (l *exercise) known(p *named) bool {
	found := report.Naming(report.Find(l.tutor.Catalog, nil, p.words, "cause"), p.words)
	switch len(found) {
	case 0:
		l.naming = nil
		l.say(report.NoCause(p.words))
		return false
	case 1:
		p.cause = found[0].ID
		return true
	}
	p.which = found[:min(mostOffered, len(found))]
	l.offer(p.which)
	l.say(report.WhichOf(p.words))
	return false
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

// oddPercent reports whether some words end in a number: one that is no percentage,
// or it would have been cut off.
func oddPercent(words string) bool {
	_, err := strconv.ParseFloat(words[strings.LastIndexByte(words, ' ')+1:], 64)
	return err == nil
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
