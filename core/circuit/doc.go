// Package circuit solves networks of nodes and branches: voltages and currents
// of a steady state, for direct current (DC, real) and for alternating current
// at one frequency (AC, complex), and what changes when a branch opens, shorts
// or gets a meter beside it.
//
// # Shape
//
// A network has N nodes, indexed 0 to N−1, and B branches, indexed as they were
// given. Node 0 is Earth, the reference. A branch joins two nodes and carries,
// from A to B,
//
//	current = G·(V(A) − V(B) + E) + J
//
// with G in siemens, E in volts and J in amperes; a branch with all three zero
// is open. Every node also leaks to Earth through its insulation, so nothing
// floats without a voltage and no system is singular.
//
// # Use
//
// A Plan holds what depends on the shape alone. Plan.DC and Plan.AC fill it
// with values. Set changes a branch, Link adds one that the plan does not know,
// Solve brings the voltages up to date, Checkpoint remembers a state and Revert
// returns to it bit for bit.
//
// # Method
//
// Star-mesh elimination; see RATIONALE.md.
package circuit
