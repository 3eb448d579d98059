package circuit

import "fmt"

// A Value is what a branch does under direct current: it carries
// G·(V(A) − V(B) + E) + J amperes from A to B. The zero Value is an open.
type Value struct {
	G float64 // conductance, siemens; not negative
	E float64 // source in series, volts; drives current from A to B
	J float64 // source in parallel, amperes from A to B
}

// A SingularError says that a network could not be solved: a value is NaN or
// infinite, or the conductances about a node do not add up to more than zero.
type SingularError struct {
	Node Node // where elimination first failed
}

func (e *SingularError) Error() string {
	return fmt.Sprintf("circuit: node %d cannot be solved: a conductance or source about it is not a number, infinite or negative; give every branch a finite G >= 0 and every node a leak > 0", e.Node)
}

// A DC is a network under direct current. It is not safe for concurrent use,
// not even for reading; Clone it instead.
type DC struct{ engine[float64] }

// DC fills the plan with values, one a branch, and leak, the conductance of
// each node to Earth in siemens (more than zero for every node but Earth, whose
// entry is ignored). Both are copied. It panics when a length is wrong.
func (p *Plan) DC(leak []float64, values []Value) *DC {
	s := &DC{newEngine(p, leak, len(values), func(a, b float64) float64 { return a * b }, func(g float64) (float64, bool) { return 1 / g, g > 0 && g <= 1e300 })}
	for i, v := range values {
		s.Set(i, v)
	}
	return s
}

// Set gives a branch a new value, which takes effect at the next Solve.
func (s *DC) Set(branch int, v Value) { s.set(branch, term[float64]{v.G, v.E, v.J}) }

// Value returns the value last given to a branch.
func (s *DC) Value(branch int) Value { t := s.val[branch]; return Value{t.g, t.e, t.j} }

// Link adds a branch that is not in the plan and returns its index, counted
// from 0 since the last Revert. It takes effect at the next Solve.
func (s *DC) Link(a, b Node, v Value) int { return s.link(a, b, term[float64]{v.G, v.E, v.J}) }

// SetLink gives a link a new value, which takes effect at the next Solve.
func (s *DC) SetLink(link int, v Value) { s.links[link] = term[float64]{v.G, v.E, v.J} }

// Clone returns an independent copy that shares the plan.
func (s *DC) Clone() *DC { return &DC{s.clone()} }

// Moved calls f, in ascending order, for each node whose voltage differs from
// that at the checkpoint by more than bound, in volts.
func (s *DC) Moved(bound float64, f func(n Node)) {
	for n := range s.v {
		if d := s.v[n] - s.base.v[n]; d > bound || -d > bound {
			f(Node(n))
		}
	}
}
