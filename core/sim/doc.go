// Package sim finds the operating state of a panel: the Net of package parts,
// under a condition, with faults, as voltages and the states of its devices.
//
// # Replay
//
// Memory matters: a seal-in does not come back by itself. So a state is always
// reached the way a plant reaches it: cold, power on, the steps of the
// condition, then the fault (or the fault first, then all the rest).
//
// # Events
//
// Elements change one at a time, in order of the times their data state, and the
// network is solved again after each; only electronics on the same fixed time
// change together. Electronics that take no time change at once, together while
// that helps and otherwise the lowest index first, which settles any network of
// diodes and current limits (Murty's least-index rule for linear
// complementarity, 1974).
// A state that comes back is an answer too: a Cycle, which people call
// chattering or hiccup.
package sim
