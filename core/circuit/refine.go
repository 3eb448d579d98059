package circuit

import "math"

// maxResidual is the residual current at a node, over the sum of the magnitudes
// it is left from, above which a solution is refined.
const maxResidual = 1e-12

// refine checks Kirchhoff's current law at every node and, where it fails by
// more than maxResidual, sends the residual through the network once. The
// better of the two solutions stands. It is called only after some vertex was
// weak, and costs the whole network.
func (s *system[T]) refine() {
	earth := int32(s.plan.nodes - 1)
	before := s.residual()
	if before > maxResidual {
		s.drive = make([]T, s.plan.nodes)
		for t := range earth {
			s.pass(t)
		}
		s.epoch++
		s.hi[earth], s.lo[earth] = 0, 0
		if after := s.residual(); !(after < before) {
			s.drive = nil
			s.epoch++
		}
	}
	clear(s.hi)
	clear(s.lo)
}

// residual leaves at each vertex the charge that Kirchhoff's current law has
// over, and returns the largest of them over the magnitudes it is left from.
// Each branch takes from one end what it gives to the other, to the last bit, or
// the voltage of floating metal would drift.
func (s *system[T]) residual() (worst float64) {
	p := s.plan
	s.grow()
	earth := int32(p.nodes - 1)
	scale := make([]float64, p.nodes)
	for t := earth - 1; t >= 0; t-- {
		v, y := s.volt(t), s.leak[p.node[t]]
		s.add(t, -s.mul(y, v))
		scale[t] = float64(s.size(y) * s.size(v))
	}
	carry := func(e Ends, v term[T]) {
		if e.A == e.B {
			return
		}
		a, b := p.at[e.A], p.at[e.B]
		va, vb := s.volts[a].x, s.volts[b].x
		c := s.mul(v.g, va-vb+v.e) + v.j
		m := float64(s.size(v.g)*(s.size(va)+s.size(vb)+s.size(v.e))) + s.size(v.j)
		s.add(a, -c)
		s.add(b, c)
		scale[a], scale[b] = scale[a]+m, scale[b]+m
	}
	for i, e := range p.ends {
		carry(e, s.val[i])
	}
	for i := range s.links {
		carry(s.links[i].ends, s.links[i].val)
	}
	for t := range earth {
		switch r := s.size(s.hi[t]+s.lo[t]) / scale[t]; {
		case r > worst:
			worst = r
		case scale[t] > 0 && r-r != 0:
			worst = math.Inf(1)
		}
	}
	return worst
}
