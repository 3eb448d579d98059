// Package netlist writes the circuit of a panel a second time, from its document
// alone, for a simulator that is not ours.
//
// It imports the document and the units it is written in, and nothing else of
// the core: what each kind of part is to electricity is written down here anew,
// from the standards and from what the document says, so that a slip in the
// catalogue shows as a voltage that differs.
//
// The circuit is linear. Where a part has states (a relay in or out, a supply
// limiting, a diode conducting) they are handed in as Frozen; what must be true
// in each state comes back as Claims, to be checked on whatever solution the
// circuit is given.
//
// # Choices
//
// Some figures are choices of the model, not facts: what a joint measures, what a
// supply leaves across its output. They stand in choices.go as data, restated.
package netlist
