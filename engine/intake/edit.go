package intake

import (
	"errors"
	"fmt"

	"example.org/takeup/engine/source"
)

// Edit is one change to a case file. Part is title, machine, history, signs,
// readings or done; ID the entry in it. Value is YAML on one line, as source.Quote
// makes it; an empty one takes the entry out. In done the ID is the check and any
// value adds it; title has no ID.
type Edit struct {
	Part  string `json:"part"`
	ID    string `json:"id,omitempty"`
	Value string `json:"value,omitempty"`
}

// Apply makes the edits in the text of a case, one after the other. Every byte
// outside the touched entries stays as it is. What is to be taken out and is not
// there is no error.
func Apply(text []byte, edits []Edit) ([]byte, error) {
	for _, e := range edits {
		next, err := e.apply(text)
		if errors.Is(err, source.ErrNotThere) {
			continue
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", e.place(), err)
		}
		text = next
	}
	return text, nil
}

func (e Edit) place() string {
	if e.ID == "" {
		return e.Part
	}
	return e.Part + " " + e.ID
}

func (e Edit) apply(text []byte) ([]byte, error) {
	switch {
	case e.Part == "title":
		return source.SetTop(text, "title", e.Value)
	case e.Part == "done" && e.Value == "":
		return source.DropItem(text, e.Part, e.ID)
	case e.Part == "done":
		return source.AddItem(text, e.Part, e.ID, keys)
	case e.Value == "":
		return source.DropEntry(text, e.Part, e.ID)
	}
	return source.SetEntry(text, e.Part, e.ID, e.Value, keys)
}

// Undo returns the edits that bring the touched entries back to what they are in
// the text now, in the order in which they are to be made.
func Undo(text []byte, edits []Edit) []Edit {
	root, _ := source.Parse("", text)
	var back []Edit
	for _, e := range edits {
		undo := Edit{Part: e.Part, ID: e.ID}
		if was, ok := entry(root, e); ok {
			undo.Value = was
		}
		if undo.Value != "" && e.Part == "done" {
			continue // it was there before
		}
		back = append([]Edit{undo}, back...)
	}
	return back
}

// entry is the text of an entry as YAML on one line. Keys and values below it
// are not put back: no question touches them.
func entry(root *source.Node, e Edit) (string, bool) {
	if root == nil {
		return "", false
	}
	n := root.Field(e.Part)
	if n != nil && e.ID != "" {
		if n.Kind() == source.List {
			for _, item := range n.Items() {
				if t, ok := item.Scalar(); ok && t.Value == e.ID {
					return e.ID, true
				}
			}
			return "", false
		}
		n = n.Field(e.ID)
	}
	if n == nil {
		return "", false
	}
	if n.Kind() == source.List {
		var all []string
		for _, item := range n.Items() {
			t, _ := item.Scalar()
			all = append(all, t.Value)
		}
		return source.QuoteAll(all), true
	}
	t, ok := n.Scalar()
	return source.Quote(t.Value), ok
}
