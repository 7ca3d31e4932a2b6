package bbcode

import (
	"fmt"
	"regexp"
	"strings"

	"example.org/takeup/engine/document"
)

// Check reads a post as the strictest board would, for tests. It accepts the tags
// that phpBB, vBulletin and XenForo share, closed in order, lists at most one in
// another; lines of code of at most 70 columns; no leading blank outside of code;
// never two empty lines; no empty pair of tags. The error names the first slip.
func Check(post string) error {
	bbTag := regexp.MustCompile(`\[(/?)(\*|b|i|quote|code|list|list=1)\]`)
	var open []string
	lists := 0
	inCode := func() bool { return len(open) > 0 && open[len(open)-1] == "code" }
	for i, line := range strings.Split(post, "\n") {
		code := inCode()
		if !code && strings.HasPrefix(line, " ") {
			return fmt.Errorf("line %d begins with a blank", i+1)
		}
		if code && document.Width(line) > 70 {
			return fmt.Errorf("line %d of code is %d wide", i+1, document.Width(line))
		}
		for _, m := range bbTag.FindAllStringSubmatch(line, -1) {
			name, _, _ := strings.Cut(m[2], "=")
			switch {
			case name == "*":
				if len(open) == 0 || open[len(open)-1] != "list" {
					return fmt.Errorf("line %d: [*] outside of a list", i+1)
				}
			case m[1] == "/":
				if len(open) == 0 || open[len(open)-1] != name {
					return fmt.Errorf("line %d: [/%s] closes %v", i+1, name, open)
				}
				open = open[:len(open)-1]
				lists -= btoi(name == "list")
			case inCode():
				return fmt.Errorf("line %d: tag in code", i+1)
			default:
				open = append(open, name)
				lists += btoi(name == "list")
			}
		}
		if rest := bbTag.ReplaceAllString(line, ""); strings.ContainsAny(rest, "[]") {
			return fmt.Errorf("line %d: stray bracket in %q", i+1, line)
		}
		if lists > 2 {
			return fmt.Errorf("line %d: lists nested twice", i+1)
		}
	}
	if len(open) > 0 {
		return fmt.Errorf("%v not closed", open)
	}
	if m := regexp.MustCompile(`\[(b|i|quote)\]\s*\[/`).FindString(post); m != "" {
		return fmt.Errorf("empty %s", m)
	}
	if outside := regexp.MustCompile(`(?s)\[code\].*?\[/code\]`).ReplaceAllString(post, "code"); strings.Contains(outside, "\n\n\n") {
		return fmt.Errorf("two empty lines")
	}
	return nil
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}
