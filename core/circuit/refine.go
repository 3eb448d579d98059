package circuit

import "math"

// maxResidual is the residual current at a node, over the sum of the magnitudes
// it is left from, above which a solution is refined.
const maxResidual = 1e-12

// refine checks Kirchhoff's current law at every node and, where it fails by
// more than maxResidual, sends the residual through the network once. The
// better of the two solutions stands. It is called only after some vertex was
// weak, costs the whole network, and expects no links.
func (s *system[T]) refine() {
	l, earth := &s.links, int32(s.plan.nodes-1)
	before := s.residual()
	if before > maxResidual {
		for t := range earth {
			s.pass(t)
			l.driven = append(l.driven, t)
		}
		l.everywhere = true
		s.epoch++
		l.hi[earth], l.lo[earth] = 0, 0
		if after := s.residual(); !(after < before) {
			s.undrive()
			s.epoch++
		}
	}
	clear(l.hi)
	clear(l.lo)
}

// residual leaves at each vertex the charge that Kirchhoff's current law has
// over, and returns the largest of them over the magnitudes it is left from.
// Each branch takes from one end what it gives to the other, to the last bit, or
// the voltage of floating metal would drift.
func (s *system[T]) residual() (worst float64) {
	p, l := s.plan, &s.links
	l.grow(p.nodes)
	earth := int32(p.nodes - 1)
	scale := make([]float64, p.nodes)
	for t := earth - 1; t >= 0; t-- {
		v, y := s.volt(t), s.leak[p.node[t]]
		s.add(t, -s.mul(y, v))
		scale[t] = float64(s.size(y) * s.size(v))
	}
	for i, e := range p.ends {
		if e.A == e.B {
			continue
		}
		a, b, v := p.at[e.A], p.at[e.B], s.val[i]
		va, vb := s.volts[a].x, s.volts[b].x
		c := s.mul(v.g, va-vb+v.e) + v.j
		m := float64(s.size(v.g)*(s.size(va)+s.size(vb)+s.size(v.e))) + s.size(v.j)
		s.add(a, -c)
		s.add(b, c)
		scale[a], scale[b] = scale[a]+m, scale[b]+m
	}
	for t := range earth {
		switch r := s.size(l.hi[t]+l.lo[t]) / scale[t]; {
		case r > worst:
			worst = r
		case scale[t] > 0 && r-r != 0:
			worst = math.Inf(1)
		}
	}
	return worst
}
