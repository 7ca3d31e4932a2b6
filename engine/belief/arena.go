package belief

// arena hands out short slices of a few long ones: a program has hundreds of
// lists, and neither growing them one by one nor one long list that grows as a
// whole is cheap.
type arena[T any] struct{ room []T }

// chunk is the length of a long slice; what needs more gets one of its own.
const chunk = 1024

// take returns a slice of n zeroes.
func (a *arena[T]) take(n int) []T { return a.reserve(n)[:n] }

// reserve returns an empty slice with room for n.
func (a *arena[T]) reserve(n int) []T {
	if n > chunk {
		return make([]T, 0, n)
	}
	if cap(a.room)-len(a.room) < n {
		a.room = make([]T, 0, chunk)
	}
	at := len(a.room)
	a.room = a.room[:at+n]
	return a.room[at : at : at+n]
}

// settle takes back what the slice reserved last did not need.
func (a *arena[T]) settle(list []T) []T {
	if unused := cap(list) - len(list); unused > 0 && cap(list) <= chunk {
		a.room = a.room[:len(a.room)-unused]
	}
	return list[:len(list):len(list)]
}
