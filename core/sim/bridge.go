package sim

import (
	"slices"

	"halfsplit/core/circuit"
	"halfsplit/core/parts"
)

// Bridged lets the panel settle with a resistance between two nodes, such as a
// meter's, has read what there is to be read, and takes the resistance away: then
// voltages, states, log and cycle are those of before. It costs what the resistance
// moves, where Revert would give up the whole experiment; the machine must have a
// checkpoint.
func (x *Machine) Bridged(a, b circuit.Node, ohms float64, read func()) {
	if !x.undo.on {
		panic("sim: Bridged without a Checkpoint")
	}
	states, atRest := len(x.undo.states), x.attention.atRest
	log, cycle, err, now := x.log, x.cycle, x.err, x.now
	restless := slices.Clone(x.attention.restless)
	x.log = x.bridged[:0]

	x.Apply([]parts.Change{parts.Join(a, b, ohms)})
	x.Settle()
	read()

	x.unlink()
	for i := len(x.undo.states) - 1; i >= states; i-- {
		e := x.undo.states[i]
		x.put(e.element, e.state)
	}
	x.undo.states = x.undo.states[:states]
	for _, i := range restless { // may want again what the bridge kept them from
		x.touch(int(i))
	}
	x.solve()
	x.bridged, x.log = x.log, log
	x.cycle, x.err, x.now, x.attention.atRest = cycle, err, now, atRest
}

// unlink takes the last link away.
func (x *Machine) unlink() {
	last := len(x.links) - 1
	x.touchEnds(x.links[last])
	x.links = x.links[:last]
	x.dc.Unlink()
	if x.ac != nil {
		x.ac.unlink()
	}
}
