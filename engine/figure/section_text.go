package figure

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// The drawing in characters: the hub at the left, the basket at the right, one line
// for each part in the order in which they go in.
const (
	innerRail, innerHeld = "┃", "┣"
	outerRail, outerHeld = "┃", "┫"
	between              = 12 // characters from rail to rail
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

// text draws the section in characters, at most 60 wide where names allow.
func (s Section) text() string {
	var lines []string
	head := fmt.Sprintf("    %-*s%s", between+2-utf8.RuneCountInString(s.Outer), s.Inner, s.Outer)
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
		line := fmt.Sprintf("%3d %s%s%s %s", i+1, left, l.profile(), right, l.words())
		if size := l.size(); size != "" {
			line += " " + size
		}
		if l.Mark == Wrong {
			line += "  <-- wrong"
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "\n")
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
