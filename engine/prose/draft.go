package prose

import (
	"bytes"
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/source"
)

// reasons word why something found was left out, in a comment of the draft.
var reasons = map[string]string{
	Asked:       "a question, not an observation",
	OtherOne:    "about another machine",
	Planned:     "planned, not done",
	Supposed:    "said with an if",
	Former:      "as it used to be",
	Contrary:    "the post says both yes and no",
	Incomplete:  "no single figure with its unit",
	NotThisKind: "follows from another entry",
	Impossible:  "cannot be true, check the figure and its unit",
	Denied:      "said not to be so",
	Heard:       "somebody's guess",
	Unclear:     "yes or no, read it yourself",
}

// whys word why an entry is not sure.
func whys(e Entry) string {
	switch e.Why {
	case "about":
		return "the figure is not exact"
	case "before":
		return "the sentence before says when"
	case "unit":
		return "the unit is taken from another figure in the post"
	case "several":
		return "the post gives several figures"
	}
	return "the writer is not sure"
}

// Draft writes a reading as a case file. Each entry ends with the words it comes
// from; what is uncertain, left out or not understood stands in comments.
func (r *Reading) Draft() []byte {
	text, _ := r.draft()
	return text
}

// draft is Draft with the entry that stands in each line, counted from 1.
func (r *Reading) draft() ([]byte, map[int]int) {
	var b bytes.Buffer
	lines := map[int]int{}
	b.WriteString("# A draft read from a post. Compare every line with the words behind it before use.\n")
	fmt.Fprintf(&b, "title: %s\n", scalar(or(r.Title, "a post without words about a clutch")))
	for _, part := range []string{Machine, History, Signs, Readings} {
		r.part(&b, part, lines)
	}
	r.comments(&b)
	return b.Bytes(), lines
}

// admit leaves out what a case cannot hold, such as a free play of five metres:
// a draft has to open as it stands.
func (r *Reading) admit(cat *catalog.Catalog) {
	for range r.Entries { // each round drops one entry at least
		text, lines := r.draft()
		_, ps := intake.Parse(&source.File{Name: "draft", Text: text}, cat, nil)
		wrong := map[int]bool{}
		for _, p := range ps {
			if at, ok := lines[p.Pos.Line]; ok && p.Severity == source.Error {
				wrong[at] = true
			}
		}
		if len(wrong) == 0 {
			return
		}
		var kept []Entry
		for i, e := range r.Entries {
			if wrong[i] {
				r.LeftOut = append(r.LeftOut, Omission{e.ID, e.Quotes[0], Impossible})
				continue
			}
			kept = append(kept, e)
		}
		r.Entries = kept
	}
}

func or(s, instead string) string {
	if s == "" {
		return instead
	}
	return s
}

func (r *Reading) part(b *bytes.Buffer, part string, lines map[int]int) {
	first := true
	for i, e := range r.Entries {
		if e.Part != part {
			continue
		}
		if first {
			fmt.Fprintf(b, "\n%s:\n", part)
			first = false
		}
		line := fmt.Sprintf("  %s: %s", e.ID, e.yaml())
		note := quoted(e.Quotes)
		if !e.Sure {
			note = "uncertain, " + whys(e) + ": " + note
		}
		lines[bytes.Count(b.Bytes(), []byte("\n"))+1] = i
		fmt.Fprintf(b, "%-40s # %s\n", line, note)
	}
}

// yaml writes the values of an entry; sets are lists even when they hold one.
func (e Entry) yaml() string {
	if len(e.Values) == 1 && !e.Set {
		return e.Values[0]
	}
	return "[" + strings.Join(e.Values, ", ") + "]"
}

// comments lists what did not become an entry.
func (r *Reading) comments(b *bytes.Buffer) {
	if len(r.Vague) > 0 {
		b.WriteString("\n# Brought up without saying when or how:\n")
		for _, m := range r.Vague {
			fmt.Fprintf(b, "#   %s (%s)\n", quoted([]string{m.Quote}), m.Question)
		}
	}
	if len(r.LeftOut) > 0 {
		b.WriteString("\n# Found and left out:\n")
		for _, o := range r.LeftOut {
			fmt.Fprintf(b, "#   %s: %s (%s)\n", o.ID, quoted([]string{o.Quote}), reasons[o.Reason])
		}
	}
	if r.Cut {
		fmt.Fprintf(b, "\n# The post is longer than the %d kB that are read; the rest is missing here.\n", maxPost>>10)
	}
	if len(r.Unread) > 0 {
		b.WriteString("\n# Not understood:\n")
		for _, s := range r.Unread {
			fmt.Fprintf(b, "#   %s\n", quoted([]string{s}))
		}
	}
}

// quoted puts words of the post in quotation marks, on one line.
func quoted(list []string) string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = `"` + strings.ReplaceAll(document.Clean(s), `"`, "'") + `"`
	}
	return strings.Join(out, ", ")
}

// scalar is a text as YAML writes it on one line.
func scalar(s string) string {
	n := yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: document.Clean(s), Style: yaml.DoubleQuotedStyle}
	out, err := yaml.Marshal(&n)
	if err != nil {
		return `""`
	}
	return strings.Join(strings.Fields(string(out)), " ")
}
