package circuit

import "math"

// An ACValue is what a branch does at mains frequency: it carries
// Y·(V(A) − V(B) + E) + J amperes from A to B. The zero ACValue is an open.
type ACValue struct {
	Y complex128 // admittance, siemens
	E complex128 // source in series, volts rms; drives current from A to B
	J complex128 // source in parallel, amperes rms from A to B
}

// An AC is a network under alternating current of one frequency. It is not
// safe for concurrent use, not even for reading; Clone it instead.
type AC struct{ engine[complex128] }

// AC fills the plan with values, one a branch, and leak, the admittance of each
// node to Earth in siemens (not zero for any node but Earth, whose entry is
// ignored). Both are copied. It panics when a length is wrong.
func (p *Plan) AC(leak []complex128, values []ACValue) *AC {
	s := &AC{newEngine(p, leak, len(values), mul, inverse)}
	for i, v := range values {
		s.Set(i, v)
	}
	return s
}

// mul is a·b; each product is rounded before it is added, so that no
// processor fuses the two.
func mul(a, b complex128) complex128 {
	return complex(float64(real(a)*real(b))-float64(imag(a)*imag(b)), float64(real(a)*imag(b))+float64(imag(a)*real(b)))
}

// inverse is 1/y, and whether that is a number.
func inverse(y complex128) (complex128, bool) {
	d := float64(real(y)*real(y)) + float64(imag(y)*imag(y))
	return complex(real(y)/d, -imag(y)/d), d > 0 && d <= 1e300
}

// Set gives a branch a new value, which takes effect at the next Solve.
func (s *AC) Set(branch int, v ACValue) { s.set(branch, term[complex128]{v.Y, v.E, v.J}) }

// Value returns the value last given to a branch.
func (s *AC) Value(branch int) ACValue { t := s.val[branch]; return ACValue{t.g, t.e, t.j} }

// Link adds a branch that is not in the plan and returns its index, counted
// from 0 since the last Revert. It takes effect at the next Solve.
func (s *AC) Link(a, b Node, v ACValue) int { return s.link(a, b, term[complex128]{v.Y, v.E, v.J}) }

// SetLink gives a link a new value, which takes effect at the next Solve.
func (s *AC) SetLink(link int, v ACValue) { s.links[link] = term[complex128]{v.Y, v.E, v.J} }

// Clone returns an independent copy that shares the plan.
func (s *AC) Clone() *AC { return &AC{s.clone()} }

// Moved calls f, in ascending order, for each node whose voltage differs from
// that at the checkpoint by more than bound, in volts rms.
func (s *AC) Moved(bound float64, f func(n Node)) {
	for n := range s.v {
		d := s.v[n] - s.base.v[n]
		if math.Hypot(real(d), imag(d)) > bound {
			f(Node(n))
		}
	}
}
