package circuit

// maxResidual is the residual current at a node, over the sum of the magnitudes
// it is left from, above which a solution is refined.
const maxResidual = 1e-12

// refine checks Kirchhoff's current law at every node and, where it fails by
// more than maxResidual, sends the residual through the network once. It is
// called only after some vertex was weak, costs the whole network, and expects
// no links.
func (s *system[T]) refine() {
	p, l := s.plan, &s.links
	earth := int32(p.nodes - 1)
	left := make([]T, p.nodes)
	scale := make([]float64, p.nodes)
	for t := earth - 1; t >= 0; t-- {
		v, y := s.volt(t), s.leak[p.node[t]]
		left[t] = -s.mul(y, v)
		scale[t] = float64(s.size(y) * s.size(v))
	}
	for i, e := range p.ends {
		if e.A == e.B {
			continue
		}
		a, b, v := p.at[e.A], p.at[e.B], s.val[i]
		c := s.mul(v.g, s.volts[a].x-s.volts[b].x+v.e) + v.j
		m := float64(s.size(v.g)*(s.size(s.volts[a].x)+s.size(s.volts[b].x)+s.size(v.e))) + s.size(v.j)
		left[a], left[b] = left[a]-c, left[b]+c
		scale[a], scale[b] = scale[a]+m, scale[b]+m
	}
	within := true
	for t := range earth {
		within = within && s.size(left[t]) <= float64(maxResidual*scale[t])
	}
	if within {
		return
	}
	l.grow(p.nodes)
	for t := range earth {
		s.add(t, left[t])
	}
	for t := range earth {
		s.pass(t)
		l.driven = append(l.driven, t)
	}
	l.hi[earth], l.lo[earth] = 0, 0
	l.everywhere = true
	s.epoch++
}
