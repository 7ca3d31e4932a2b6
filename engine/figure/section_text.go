package figure

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"example.org/takeup/engine/document"
)

// The drawing in characters: the hub at the left, the basket at the right, one line
// for each part in the order in which they go in.
const (
	innerRail, innerHeld = "┃", "┣"
	outerRail, outerHeld = "┃", "┫"
	between              = 12 // characters from rail to rail
	labelWidth           = 35 // so that a line fits a narrow terminal, margins included
)

// profiles are what lies between the rails, by shape; a plate held at one side
// reaches that rail.
var profiles = map[string]string{
	"lined":       "  ▒▒▒▒▒▒▒▒━━",
	"lined short": "     ▒▒▒▒▒━━",
	"plate":       "━━━━━━━━━━  ",
	"ring":        " ══         ",
	"cone":        " ╲╲         ",
	"cap":         "━━████████  ",
	"unseen":      "     ?      ",
	"missing":     " · · · · ·  ",
}

// text draws the section in characters, at most 56 wide; what is wrong has a mark in
// front.
func (s Section) text() string {
	var lines []string
	inner, outer := clip(s.Inner), clip(s.Outer)
	head := fmt.Sprintf("    %-*s%s", between+2-utf8.RuneCountInString(outer), inner, outer)
	lines = append(lines, strings.TrimRight(head, " "))
	for i, l := range s.Layers {
		left, right := innerRail, outerRail
		if l.Mark == Fine || l.Mark == Wrong {
			if l.Side == "inner" {
				left = innerHeld
			}
			if l.Side == "outer" {
				right = outerHeld
			}
		}
		mark := " "
		if l.Mark == Wrong || l.Mark == Missing {
			mark = ">"
		}
		label := l.words()
		if size := l.size(); size != "" {
			label += ", " + size
		}
		for k, part := range document.WrapText(document.Plain(label), labelWidth) {
			if k == 0 {
				lines = append(lines, fmt.Sprintf("%s%2d %s%s%s %s", mark, i+1, left, l.profile(), right, part))
				continue
			}
			lines = append(lines, fmt.Sprintf("    %s%*s%s   %s", innerRail, between, "", outerRail, part))
		}
	}
	return strings.Join(lines, "\n")
}

// clip keeps the name of a drum over its rail.
func clip(name string) string {
	if lines := document.Chop(document.Clean(name), between/2); len(lines) > 0 {
		return lines[0]
	}
	return ""
}

func (l Layer) profile() string {
	if l.Mark == Missing || l.Mark == Unseen {
		return profiles[string(l.Mark)]
	}
	if p, ok := profiles[strings.TrimSpace(l.Shape+" "+l.Draw)]; ok {
		return p
	}
	if p, ok := profiles[l.Shape]; ok {
		return p
	}
	return profiles["unseen"]
}
