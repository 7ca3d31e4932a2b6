package plan

import "slices"

// nothing returns the value of the best way on from n that asks no question,
// and leaves its actions in b.order.seq; what follows them is a service.
func (b *board) nothing(n *node) float64 {
	b.horn(n)
	if b.shared {
		return b.updating(n)
	}
	value, stop := b.walk(n, b.order.seq)
	if kept := b.prune(n); len(kept) < len(b.order.seq) && len(kept) != stop {
		if v, s := b.walk(n, kept); v < value {
			b.order.seq, b.order.pruned, value, stop = kept, b.order.seq, v, s
		}
	}
	b.order.seq = b.order.seq[:stop]
	return value
}

// walk adds up the value of doing seq in order and finds the best place to
// give up (CACM 1995: the place k with the least sum, the rest of the
// probability times the price of service added). Actions share no fault.
func (b *board) walk(n *node, seq []int) (value float64, stop int) {
	copy(b.order.opened, n.open)
	spent, rest := 0.0, n.mass
	value = rest * b.p.ServiceMinutes
	for k, i := range seq {
		spent += rest*b.reach(i) + b.order.mass[i]*b.cured[i]
		rest -= b.order.mass[i]
		if v := spent + rest*b.p.ServiceMinutes; v < value {
			value, stop = v, k+1
		}
	}
	return value, stop
}

// reach returns the minutes of action i with the openings it still needs.
func (b *board) reach(i int) float64 {
	minutes := b.always[i]
	for s := b.p.Actions[i].Stage; s != Outside && !b.order.opened[s]; s = b.p.Stages[s].Parent {
		b.order.opened[s] = true
		minutes += b.p.Stages[s].Minutes
	}
	return minutes
}

// prune returns the actions of b.order.seq without those that cost more where
// they stand than the service and the later looks they save. It matters when
// repair times differ, for then the best set need not be a prefix. The next call
// overwrites the list.
func (b *board) prune(n *node) []int {
	o := &b.order
	later := b.p.ServiceMinutes
	rest := n.mass
	for _, i := range o.seq {
		rest -= o.mass[i]
	}
	kept := o.pruned[:0]
	for k := len(o.seq) - 1; k >= 0; k-- {
		i := o.seq[k]
		rest += o.mass[i]
		if o.mass[i]*(later-b.cured[i]) > rest*b.always[i] {
			kept = append(kept, i)
			later += b.always[i]
		}
	}
	slices.Reverse(kept)
	o.pruned = kept
	return kept
}

// updating values the order when actions share faults: it walks on while the
// next action is as likely to cure as planned and orders the rest anew when
// not ("updating greedy", within a factor of 4 of the optimum and in practice
// a few per cent; Langseth & Jensen 2003). Only the first b.anew orders are
// made, for they cost most; after that the order stays and its value is exact.
func (b *board) updating(n *node) float64 {
	at := b.copy(n)
	defer b.give(at)
	spent, value, stop, orders := 0.0, n.mass*b.p.ServiceMinutes, 0, 0
	seq := make([]int, 0, len(b.order.seq))
	head := append([]int{}, b.order.head...)
	for k := 0; k < len(b.order.seq); k++ {
		i := b.order.seq[k]
		if orders < b.anew && b.success(at, i) < b.order.mass[i]*(1-slack) {
			b.horn(at)
			orders++
			k = -1
			continue
		}
		spent += b.try(at, i)
		seq = append(seq, i)
		if v := spent + at.mass*b.p.ServiceMinutes; v < value {
			value, stop = v, len(seq)
		}
	}
	b.order.seq, b.order.head = seq[:stop], head
	return value
}
