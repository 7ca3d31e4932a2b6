package report

import (
	"fmt"

	post "example.org/takeup/engine/prose"
)

// Drafted says what a draft holds, in one line for whoever asked for it.
func Drafted(r *post.Reading, name string) string {
	unsure := 0
	for _, e := range r.Entries {
		if !e.Sure {
			unsure++
		}
	}
	text := fmt.Sprintf("wrote %s: %s", name, counted(len(r.Entries), "entry", "entries"))
	if unsure > 0 {
		text += fmt.Sprintf(", %d of them uncertain", unsure)
	}
	if n := len(r.LeftOut); n > 0 {
		text += fmt.Sprintf("; %d left out", n)
	}
	if n := len(r.Unread); n > 0 {
		text += "; " + counted(n, "sentence", "sentences") + " not understood"
	}
	return text
}
