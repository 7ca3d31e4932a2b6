package source

import (
	"fmt"
	"reflect"
	"strings"
)

// maxFields bounds the fields of a struct, so that "given" needs no allocation.
const maxFields = 64

// shape is the field table of a struct type.
type shape struct {
	fields []field
	pos    int // index of the Pos field, or -1
}

type field struct {
	name     string
	index    int
	required bool
}

// find returns the number of the field with that key, or -1. Structs are small:
// a walk beats a map.
func (s *shape) find(name string) int {
	for i := range s.fields {
		if s.fields[i].name == name {
			return i
		}
	}
	return -1
}

// names lists the keys in the order of the struct, which is the order people are
// meant to write them in.
func (s *shape) names() []string {
	names := make([]string, len(s.fields))
	for i, f := range s.fields {
		names[i] = f.name
	}
	return names
}

// shape returns the field table of t, built once per file.
func (d *document) shape(t reflect.Type) *shape {
	d.mu.Lock()
	defer d.mu.Unlock()
	s := d.shapes[t]
	if s == nil {
		s = newShape(t)
		d.shapes[t] = s
	}
	return s
}

// newShape panics on a field it cannot use: that is found by the first test that
// decodes the type, and never depends on a file.
func newShape(t reflect.Type) *shape {
	s := &shape{pos: -1}
	for i := range t.NumField() {
		f := t.Field(i)
		tag, ok := f.Tag.Lookup("yaml")
		name, option, _ := strings.Cut(tag, ",")
		switch {
		case name == "-" && f.Name == "Pos" && f.Type == posType:
			s.pos = i
		case name == "-" || !f.IsExported() && !ok:
		case name == "" || !f.IsExported() || option != "" && option != "required":
			panic(fmt.Sprintf("source: field %s of %s needs a tag such as yaml:\"name\" or yaml:\"name,required\"", f.Name, t))
		default:
			s.fields = append(s.fields, field{name, i, option == "required"})
		}
	}
	if len(s.fields) > maxFields {
		panic(fmt.Sprintf("source: %s has more than %d fields", t, maxFields))
	}
	return s
}
