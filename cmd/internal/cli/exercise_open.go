package cli

import (
	"strings"

	"example.org/takeup/engine/practice"
	"example.org/takeup/engine/report"
)

// stages without words lists the depths.
func (l *exercise) stages(words string) (bool, error) {
	if words != "" {
		return false, l.openAs(words)
	}
	var all []report.Word
	for _, g := range l.tutor.Catalog.Stages {
		all = append(all, report.Word{ID: g.ID, Kind: "stage", Name: g.Name})
	}
	l.offer(l.sensible(all))
	return false, nil
}

// openAs opens the stage that some words mean. What takes longer than a moment is
// asked about first, as it is when a check wants it: the list says its minutes,
// words do not.
func (l *exercise) openAs(words string) error {
	found := report.Naming(l.sensible(report.Find(l.tutor.Catalog, nil, words, "stage")), words)
	if len(found) == 1 {
		if _, minutes := l.at.Opens(found[0].ID); minutes > practice.ShortOpening {
			l.opening = found[0].ID
			l.say(l.tutor.OpenThat(l.opening, l.at))
			return nil
		}
	}
	return l.search(words, "stage")
}

// unshut takes the answer to whether to open, for a check or for a look around.
func (l *exercise) unshut(typed string) (over bool, err error) {
	check, stage := l.shut, l.opening
	l.shut, l.opening = "", ""
	switch strings.ToLower(typed) {
	case "y", "yes":
		if c, ok := l.tutor.Catalog.Check(check); ok {
			stage = c.Stage
		}
		m, err := l.at.Open(stage)
		if err := l.replied(m, err); err != nil || m.Kind == "" || check == "" {
			return false, err
		}
		m, err = l.at.Do(check)
		return false, l.replied(m, err)
	case "n", "no":
		l.say(report.StaysShut)
		return false, nil
	}
	return l.turn(typed)
}

// how tells how a check is done and what its results mean; without words, of the
// last that was done. Reading takes no time.
func (l *exercise) how(words string) (bool, error) {
	if words == "" && len(l.at.Now.Done) > 0 {
		words = l.at.Now.Done[len(l.at.Now.Done)-1]
	}
	if words == "" {
		l.say(report.SayWhat)
		return false, nil
	}
	found := report.Naming(report.Find(l.tutor.Catalog, l.tutor.Phrases, words, "check"), words)
	switch len(found) {
	case 0:
		l.say(report.NotFound(words))
	case 1:
		l.page(l.tutor.How(found[0].ID))
	default:
		for i := range found {
			found[i].Kind = "how"
		}
		l.offer(found[:min(mostOffered, len(found))])
	}
	return false, nil
}
