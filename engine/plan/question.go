package plan

// NowLaterNever is the published rule for questions: ask the best question now
// if that beats both never asking it and asking it after the best action,
// nothing being asked afterwards (the SACSO refinement in Jensen et al. 2001).
func NowLaterNever(p Problem) Step {
	b := newBoard(p)
	n := b.root()
	never := b.nothing(n)
	if len(b.order.seq) == 0 {
		return b.nowOrService(n, never)
	}
	action := b.order.seq[0]
	for _, o := range b.screen(n, never, b.active) {
		if clearly(o.value, never) && o.value < b.later(n, action, o.index) {
			return p.question(o.index)
		}
	}
	return p.action(action)
}

// later returns the value of doing an action first and asking q then.
func (b *board) later(n *node, action, q int) float64 {
	next, v := b.act(n, action)
	defer b.give(next)
	asked, _ := b.afterAnswers(next, q, len(b.levels)+1, nil)
	return v + asked
}

// nowOrService decides when no action is worth while as things stand.
func (b *board) nowOrService(n *node, never float64) Step {
	if asks := b.screen(n, never, b.active); len(asks) > 0 && clearly(asks[0].value, never) {
		return b.p.question(asks[0].index)
	}
	return b.p.service()
}
