package circuit

// An ACValue is what a branch does at mains frequency: it carries
// Y·(V(A) − V(B) + E) + J amperes from A to B. The zero ACValue is an open.
type ACValue struct {
	Y complex128 // admittance, siemens; real part not negative
	E complex128 // source in series, volts rms; drives current from A to B
	J complex128 // source in parallel, amperes rms from A to B
}

// An AC is a network under alternating current of one frequency.
// Voltages are found as they are read, so even reading is not safe for
// concurrent use; the Plan may be shared.
//
// V, I, LinkI, Z, Moved and Checkpoint belong to the last Solve and panic when a
// value or a link has changed since: a caller's bug.
type AC struct{ s *system[complex128] }

// AC fills the plan with values, one a branch, and leak, the admittance of each
// node to Earth in siemens (real part more than zero for every node but Earth,
// whose entry is ignored). Both are copied. It panics when a length is wrong.
func (p *Plan) AC(leak []complex128, values []ACValue) *AC {
	s := &AC{newSystem(complexKernel, p, leak, len(values))}
	for i, v := range values {
		s.Set(i, v)
	}
	return s
}

// Set gives a branch a new value, which takes effect at the next Solve.
func (s *AC) Set(branch int, v ACValue) { s.s.set(branch, term[complex128]{v.Y, v.E, v.J}) }

// Value returns the value last given to a branch.
func (s *AC) Value(branch int) ACValue {
	t := s.s.val[branch]
	return ACValue{t.g, t.e, t.j}
}

// Link adds a branch that is not in the plan: a short, a meter, a wire landed
// elsewhere. It takes effect at the next Solve and is removed by Revert. It
// returns the link's index; a network without links starts again at 0. A link
// from a node to itself carries no current.
func (s *AC) Link(a, b Node, v ACValue) int {
	return s.s.addLink(a, b, term[complex128]{v.Y, v.E, v.J})
}

// SetLink gives a link a new value, which takes effect at the next Solve.
func (s *AC) SetLink(link int, v ACValue) { s.s.setLink(link, term[complex128]{v.Y, v.E, v.J}) }

// Unlink takes the last link away, which takes effect at the next Solve. It panics
// where that is one of the checkpoint's, or there is none.
func (s *AC) Unlink() { s.s.unlink() }

// Solve brings the network up to date with its values and links. The first
// costs the whole network, later ones the way from each changed branch to the
// root of the elimination tree.
//
// Without links the outcome is the same, bit for bit, however the values came
// about. Its error is a *SingularError, and then what is read means nothing
// until a Solve succeeds or Revert.
func (s *AC) Solve() error { return s.s.solve() }

// V is the voltage of a node to Earth, in volts rms.
func (s *AC) V(n Node) complex128 { return s.s.voltage(n) }

// I is the current of a branch from A to B, in amperes rms.
func (s *AC) I(branch int) complex128 { return s.s.current(branch) }

// VBetween is the magnitude of the voltage between two nodes, in volts rms.
func (s *AC) VBetween(a, b Node) float64 { return modulus(s.s.across(Ends{a, b})) }

// Amps is the magnitude of the current of a branch, in amperes rms.
func (s *AC) Amps(branch int) float64 { return modulus(s.s.current(branch)) }

// LinkI is the current of a link from a to b, in amperes rms.
func (s *AC) LinkI(link int) complex128 { return s.s.linkCurrent(link) }

// Z is the Thevenin impedance between two nodes, in ohms: all present branches and
// links in place, every source at rest. 0 when a == b.
func (s *AC) Z(a, b Node) complex128 { return s.s.impedance(a, b) }

// Checkpoint makes the present solved state, links included, the base that
// Revert returns to and Moved compares with. There is one base: a later
// Checkpoint replaces it. It panics after a failed Solve.
func (s *AC) Checkpoint() { s.s.checkpoint() }

// Revert returns to the checkpoint bit for bit, at a cost that grows with what
// changed since, and removes the links made since. It panics when there is no
// checkpoint.
func (s *AC) Revert() { s.s.revert() }

// Moved lists, in no order, the nodes whose voltage differs from that at the
// checkpoint by more than bound, in volts rms: all of them, or with a Watch those
// watched and some of the others. The cost follows the number of such nodes. The
// list is good until the next Moved or Look.
func (s *AC) Moved(w *Watch, bound float64) []Node { return s.s.nodes(s.s.moved(w, bound)) }

// Look lists, in no order, the watched nodes, and some others, whose voltage is
// more than bound from where the last Look had it, or the Checkpoint, or 0 V before
// the first. It costs what moved since the last Look; a node that creeps by less
// than bound each time may be told late or not at all, where Moved would tell it.
// The list is good until the next Moved or Look.
func (s *AC) Look(w *Watch, bound float64) []Node { return s.s.nodes(s.s.look(w, bound)) }

// Solved says whether voltages can be read: nothing has changed since Solve.
func (s *AC) Solved() bool { return s.s.solved && s.s.err == nil }
