package freeze

import (
	"encoding/binary"
	"math"
	"reflect"
)

// Write returns the value that a pointer leads to as bytes. The error names a
// type that cannot be written.
func Write(from any) ([]byte, error) {
	v := reflect.ValueOf(from).Elem()
	s, err := shapes{}.of(v.Type())
	if err != nil {
		return nil, err
	}
	print := s.print()
	w := writer{out: print[:], seen: map[string]int{}}
	w.value(s, v)
	return w.out, nil
}

type writer struct {
	out  []byte
	seen map[string]int // where a string was written first
}

func (w *writer) value(s *shape, v reflect.Value) {
	switch s.kind {
	case reflect.String:
		w.text(v.String())
	case reflect.Bool:
		w.out = append(w.out, 0)
		if v.Bool() {
			w.out[len(w.out)-1] = 1
		}
	case reflect.Int:
		w.out = binary.AppendVarint(w.out, v.Int())
	case reflect.Float64:
		w.out = binary.LittleEndian.AppendUint64(w.out, math.Float64bits(v.Float()))
	case reflect.Slice:
		w.number(v.Len())
		for i := range v.Len() {
			w.value(s.elem, v.Index(i))
		}
	case reflect.Pointer:
		if v.IsNil() {
			w.number(0)
			return
		}
		w.number(1)
		w.value(s.elem, v.Elem())
	case reflect.Struct:
		for _, f := range s.fields {
			w.value(f.shape, v.Field(f.at))
		}
	}
}

// text writes a string, or where it stands already: a length counted double, or
// a place counted double and one more.
func (w *writer) text(s string) {
	if at, again := w.seen[s]; again {
		w.number(2*at + 1)
		return
	}
	w.seen[s] = len(w.out)
	w.number(2 * len(s))
	w.out = append(w.out, s...)
}

func (w *writer) number(n int) { w.out = binary.AppendUvarint(w.out, uint64(n)) }
