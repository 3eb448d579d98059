package circuit

import "slices"

// widen hands the network over to a system that has the links as branches.
func (s *system[T]) widen() error {
	w, err := s.broaden()
	if err != nil {
		return err
	}
	s.links.wide = w
	for i := range s.links.list {
		s.links.list[i].i = w.current(len(s.val) + i)
	}
	return nil
}

// broaden solves the network with its links as branches of a plan of their own:
// exact whatever the links do, at the cost of the whole panel.
func (s *system[T]) broaden() (*system[T], error) {
	p, l := s.plan, &s.links
	ends := l.wideEnds[:0]
	same := l.spare != nil && l.spare.err == nil && len(l.wideEnds) == len(l.list)
	for i := range l.list {
		same = same && l.wideEnds[i] == l.list[i].ends
		ends = append(ends, l.list[i].ends)
	}
	l.wideEnds = ends
	if !same {
		l.spare = newSystem(s.kernel, NewPlan(p.nodes, append(slices.Clone(p.ends), ends...)), s.leak, len(p.ends)+len(ends))
	}
	w := l.spare
	for i, v := range s.val {
		w.set(i, v)
	}
	for i := range l.list {
		w.set(len(s.val)+i, l.list[i].val)
	}
	return w, w.solve()
}
