package circuit

// impedance is what is seen between two nodes with every source at rest.
func (s *system[T]) impedance(a, b Node) T {
	s.ready()
	if a == b {
		return 0
	}
	l := &s.links
	if l.wide != nil {
		return l.wide.impedance(a, b)
	}
	probe := &l.probe
	probe.at, probe.q = s.charge(Ends{a, b}, probe.at[:0], probe.q[:0])
	at, q := probe.at, probe.q
	z := s.mutual(at, q, at, q)
	if len(l.list) == 0 {
		return z
	}
	s.unify()
	l.rhs = l.rhs[:0]
	l.side = l.side[:0]
	for i := range l.list {
		k := &l.list[i]
		m := s.mutual(k.at, k.q, at, q)
		l.side = append(l.side, m)
		l.rhs = append(l.rhs, s.mul(k.val.g, m))
	}
	if s.settle() {
		seen := z
		for i, m := range l.side {
			seen -= s.mul(m, l.rhs[i])
		}
		if s.size(seen)*maxLoss >= s.size(z) {
			return seen
		}
	}
	w, err := s.broaden()
	if err != nil {
		panic("circuit: " + err.Error()) // the same network has just been solved
	}
	return w.impedance(a, b)
}
