package freeze

import (
	"encoding/binary"
	"fmt"
	"hash/fnv"
	"reflect"
)

// shape is how values of a type are written.
type shape struct {
	kind   reflect.Kind
	name   string // of a type, for its print
	elem   *shape // slices and pointers
	fields []field
	least  int // bytes that a value takes at least
}

type field struct {
	at   int
	name string
	*shape
}

// shapes finds the shapes of types, each once: types may contain themselves.
type shapes map[reflect.Type]*shape

func (all shapes) of(t reflect.Type) (*shape, error) {
	if s := all[t]; s != nil {
		return s, nil
	}
	s := &shape{kind: t.Kind(), name: t.String(), least: 1}
	all[t] = s
	var err error
	switch s.kind {
	case reflect.String, reflect.Bool, reflect.Int:
	case reflect.Float64:
		s.least = 8
	case reflect.Slice, reflect.Pointer:
		s.elem, err = all.of(t.Elem())
	case reflect.Struct:
		err = all.fields(t, s)
	default:
		err = fmt.Errorf("freeze: %s is none of the kinds that are written", t)
	}
	return s, err
}

func (all shapes) fields(t reflect.Type, s *shape) error {
	s.least = 0
	for i := range t.NumField() {
		f := t.Field(i)
		if !f.IsExported() {
			continue
		}
		of, err := all.of(f.Type)
		if err != nil {
			return fmt.Errorf("%w (field %s of %s)", err, f.Name, t)
		}
		s.fields = append(s.fields, field{i, f.Name, of})
		s.least += of.least
	}
	if s.least == 0 {
		return fmt.Errorf("freeze: %s has no exported field", t)
	}
	return nil
}

// print is a fingerprint of the shape: data of one is not read as another.
func (s *shape) print() [8]byte {
	h := fnv.New64a()
	seen := map[*shape]bool{}
	var add func(s *shape)
	add = func(s *shape) {
		fmt.Fprintf(h, "%s %s\n", s.name, s.kind)
		if seen[s] {
			return
		}
		seen[s] = true
		if s.elem != nil {
			add(s.elem)
		}
		for _, f := range s.fields {
			fmt.Fprintf(h, "%s\n", f.name)
			add(f.shape)
		}
	}
	add(s)
	var out [8]byte
	binary.BigEndian.PutUint64(out[:], h.Sum64())
	return out
}
