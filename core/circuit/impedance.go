package circuit

// probe is what 1 A between two nodes leaves on its way: the charge q[i] at vertex
// at[i] when elimination gets there.
type probe[T number] struct {
	at []int32
	q  []T
}

// impedance is what is seen between two nodes with every source at rest: the
// voltage that 1 A puts across them is Σ q²/sum over the vertices, for DC a sum of
// positives, which loses no digits.
func (s *system[T]) impedance(a, b Node) T {
	s.ready()
	if a == b {
		return 0
	}
	s.update() // a checkpoint with links, returned to
	s.charge(Ends{a, b})
	var z T
	for i, t := range s.probe.at {
		q := s.probe.q[i]
		z += s.mul(s.mul(q, q), s.inverse(s.pivotOf(t).sum))
	}
	return z
}

// charge finds the charge that each vertex gets to pass on when 1 A flows in at
// e.A and out at e.B.
func (s *system[T]) charge(e Ends) {
	p, pr := s.plan, &s.probe
	s.grow()
	a, b := p.at[e.A], p.at[e.B]
	s.hi[a], s.hi[b] = 1, -1
	pr.at, pr.q = pr.at[:0], pr.q[:0]
	from := [2]int32{a, b}
	for _, t := range s.climb(from[:]) {
		pr.at, pr.q = append(pr.at, t), append(pr.q, s.spread(t))
	}
	s.hi[p.nodes-1], s.lo[p.nodes-1] = 0, 0
}

func (s *system[T]) grow() {
	if s.hi == nil {
		s.hi, s.lo = make([]T, s.plan.nodes), make([]T, s.plan.nodes)
	}
}
