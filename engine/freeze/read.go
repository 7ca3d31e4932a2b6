package freeze

import (
	"errors"
	"math"
	"reflect"
)

// Read fills in the value that a pointer leads to. The error says that the data
// was written from other types, or is damaged; the value is then of no use.
func Read(data string, into any) error {
	v := reflect.ValueOf(into).Elem()
	s, err := shapes{}.of(v.Type())
	if err != nil {
		return err
	}
	print := s.print()
	if len(data) < len(print) || data[:len(print)] != string(print[:]) {
		return errors.New("freeze: the data was written from other types")
	}
	r := reader{data: data, at: len(print)}
	r.value(s, v)
	if r.broken || r.at != len(data) {
		return errors.New("freeze: the data is damaged")
	}
	return nil
}

// reader stands somewhere in the data. Once broken it reads zeroes.
type reader struct {
	data   string
	at     int
	broken bool
	room   []string // for short lists of strings
}

func (r *reader) value(s *shape, v reflect.Value) {
	switch s.kind {
	case reflect.String:
		v.SetString(r.text())
	case reflect.Bool:
		v.SetBool(r.byte() == 1)
	case reflect.Int:
		n := r.number()
		v.SetInt(int64(n>>1) ^ -int64(n&1)) // as encoding/binary writes signed numbers
	case reflect.Float64:
		v.SetFloat(r.float())
	case reflect.Slice:
		r.slice(s, v)
	case reflect.Pointer:
		if r.number() == 1 {
			v.Set(reflect.New(v.Type().Elem()))
			r.value(s.elem, v.Elem())
		}
	case reflect.Struct:
		for _, f := range s.fields {
			r.value(f.shape, v.Field(f.at))
		}
	}
}

func (r *reader) slice(s *shape, v reflect.Value) {
	n := r.number()
	if n > uint64((len(r.data)-r.at)/s.elem.least) {
		r.broken = true
	}
	if n == 0 || r.broken {
		return
	}
	if list, ok := v.Addr().Interface().(*[]string); ok {
		*list = r.texts(int(n))
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), int(n), int(n)))
	for i := 0; i < int(n) && !r.broken; i++ {
		r.value(s.elem, v.Index(i))
	}
}

// texts reads a list of strings into a part of a longer one.
func (r *reader) texts(n int) []string {
	const long = 256
	if n > len(r.room) {
		r.room = make([]string, max(n, long))
	}
	list := r.room[:n:n]
	r.room = r.room[n:]
	for i := range list {
		list[i] = r.text()
	}
	return list
}

func (r *reader) text() string {
	n := r.number()
	if n&1 == 0 {
		return r.cut(n / 2)
	}
	if n/2 >= uint64(r.at) { // a string stands before its repetitions
		r.broken = true
		return ""
	}
	before := r.at
	r.at = int(n / 2)
	first := r.number()
	s := ""
	if r.broken = r.broken || first&1 == 1; !r.broken {
		s = r.cut(first / 2)
	}
	r.at = before
	return s
}

// cut takes the next n bytes.
func (r *reader) cut(n uint64) string {
	if n > uint64(len(r.data)-r.at) {
		r.broken = true
		return ""
	}
	s := r.data[r.at : r.at+int(n)]
	r.at += int(n)
	return s
}

func (r *reader) byte() byte {
	if r.at == len(r.data) {
		r.broken = true
		return 0
	}
	r.at++
	return r.data[r.at-1]
}

// number reads what encoding/binary calls a uvarint.
func (r *reader) number() uint64 {
	var n uint64
	for shift := 0; shift < 64; shift += 7 {
		b := r.byte()
		n |= uint64(b&0x7f) << shift
		if b < 0x80 {
			return n
		}
	}
	r.broken = true
	return 0
}

func (r *reader) float() float64 {
	bytes := r.cut(8)
	var bits uint64
	for i := range len(bytes) {
		bits |= uint64(bytes[i]) << (8 * i)
	}
	return math.Float64frombits(bits)
}
