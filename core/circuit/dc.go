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

// A DC is a network under direct current.
// Voltages are found as they are read, so even reading is not safe for
// concurrent use; the Plan may be shared.
//
// V, I, LinkI, Z, Moved and Checkpoint belong to the last Solve and panic when a
// value or a link has changed since: a caller's bug.
type DC struct{ s *system[float64] }

// DC fills the plan with values, one a branch, and leak, the conductance of
// each node to Earth in siemens (more than zero for every node but Earth, whose
// entry is ignored). Both are copied. It panics when a length is wrong.
func (p *Plan) DC(leak []float64, values []Value) *DC {
	s := &DC{newSystem(realKernel, p, leak, len(values))}
	for i, v := range values {
		s.Set(i, v)
	}
	return s
}

// Set gives a branch a new value, which takes effect at the next Solve.
func (s *DC) Set(branch int, v Value) { s.s.set(branch, term[float64]{v.G, v.E, v.J}) }

// Value returns the value last given to a branch.
func (s *DC) Value(branch int) Value {
	t := s.s.val[branch]
	return Value{t.g, t.e, t.j}
}

// Link adds a branch that is not in the plan: a short, a meter, a wire landed
// elsewhere. It takes effect at the next Solve and is removed by Revert. It
// returns the link's index; a network without links starts again at 0. A link
// from a node to itself carries no current.
func (s *DC) Link(a, b Node, v Value) int { return s.s.addLink(a, b, term[float64]{v.G, v.E, v.J}) }

// SetLink gives a link a new value, which takes effect at the next Solve.
func (s *DC) SetLink(link int, v Value) { s.s.setLink(link, term[float64]{v.G, v.E, v.J}) }

// Unlink takes the last link away, which takes effect at the next Solve. It panics
// where that is one of the checkpoint's, or there is none.
func (s *DC) Unlink() { s.s.unlink() }

// Solve brings the network up to date with its values and links. The first
// costs the whole network, later ones the way from each changed branch to the
// root of the elimination tree.
//
// Without links the outcome is the same, bit for bit, however the values came
// about. Its error is a *SingularError, and then what is read means nothing
// until a Solve succeeds or Revert.
func (s *DC) Solve() error { return s.s.solve() }

// V is the voltage of a node to Earth, in volts.
func (s *DC) V(n Node) float64 { return s.s.voltage(n) }

// I is the current of a branch from A to B, in amperes.
func (s *DC) I(branch int) float64 { return s.s.current(branch) }

// VBetween is the voltage from b to a, in volts.
func (s *DC) VBetween(a, b Node) float64 { return s.s.across(Ends{a, b}) }

// LinkI is the current of a link from a to b, in amperes.
func (s *DC) LinkI(link int) float64 { return s.s.linkCurrent(link) }

// Z is the Thevenin resistance between two nodes, in ohms: all present branches and
// links in place, every source at rest. 0 when a == b.
func (s *DC) Z(a, b Node) float64 { return s.s.impedance(a, b) }

// Checkpoint makes the present solved state, links included, the base that
// Revert returns to and Moved compares with. There is one base: a later
// Checkpoint replaces it. It panics after a failed Solve.
func (s *DC) Checkpoint() { s.s.checkpoint() }

// Revert returns to the checkpoint bit for bit, at a cost that grows with what
// changed since, and removes the links made since. It panics when there is no
// checkpoint.
func (s *DC) Revert() { s.s.revert() }

// Moved lists, in no order, the nodes whose voltage differs from that at the
// checkpoint by more than bound, in volts: all of them, or with a Watch those
// watched and some of the others. The cost follows the number of such nodes. The
// list is good until the next Moved or Look.
func (s *DC) Moved(w *Watch, bound float64) []Node { return s.s.nodes(s.s.moved(w, bound)) }

// Look lists, in no order, the watched nodes, and some others, whose voltage is
// more than bound from where the last Look had it, or the Checkpoint, or 0 V before
// the first. It costs what moved since the last Look; a node that creeps by less
// than bound each time may be told late or not at all, where Moved would tell it.
// The list is good until the next Moved or Look.
func (s *DC) Look(w *Watch, bound float64) []Node { return s.s.nodes(s.s.look(w, bound)) }
