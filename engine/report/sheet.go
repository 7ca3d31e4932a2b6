package report

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
)

// sheetHead stands at the top of an empty machine sheet.
const sheetHead = `# A machine sheet: one machine's own numbers, from its service manual.
# Take the # away before each line you know the figure of and put your own in its
# place; the figures here are invented and fit no machine. Leave the rest as it is:
# what is not known is not guessed. Name the file in a case: machine: FILE
title: my machine
`

// MachineSheet is an empty machine sheet in YAML with every word of the
// vocabulary, what it is for and how it is written. As it stands it is valid and
// says nothing; lines of explanation begin with ##, lines to be filled in with #.
func MachineSheet(cat *catalog.Catalog) string {
	var b strings.Builder
	b.WriteString(sheetHead)
	for _, group := range sheetGroups(cat) {
		fmt.Fprintf(&b, "\n## %s\n", strings.ToUpper(group))
		for _, f := range cat.Machine {
			if f.Group == group {
				b.WriteString(sheetWord(f))
			}
		}
	}
	return b.String()
}

// sheetGroups lists the groups of the machine words as they first appear.
func sheetGroups(cat *catalog.Catalog) []string {
	var out []string
	seen := map[string]bool{}
	for _, f := range cat.Machine {
		if !seen[f.Group] {
			seen[f.Group] = true
			out = append(out, f.Group)
		}
	}
	return out
}

// sheetWord explains one word and shows how it is written.
func sheetWord(f catalog.Fact) string {
	var b strings.Builder
	note := capital(f.Name) + "."
	if f.Question != "" {
		note = f.Question
	}
	if f.How != "" {
		note += " " + f.How
	}
	for _, line := range wrapped(note, 86) {
		b.WriteString("## " + line + "\n")
	}
	for _, o := range f.Choices {
		fmt.Fprintf(&b, "##   %s: %s\n", o.ID, o.Name)
	}
	fmt.Fprintf(&b, "# %s: %s\n", f.ID, exampleOf(f))
	return b.String()
}

// exampleOf is a value that the word takes.
func exampleOf(f catalog.Fact) string {
	switch {
	case f.Example != "":
		return f.Example
	case f.Kind == string(fact.YesNo):
		return "yes"
	case f.Kind == string(fact.Choices):
		return "[" + f.Choices[0].ID + "]"
	case len(f.Choices) > 0:
		return f.Choices[0].ID
	}
	return "unknown"
}

// wrapped breaks a text at blanks.
func wrapped(text string, width int) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len(line)+1+len(word) > width {
			out = append(out, line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(out, line)
}
