package sim

import "halfsplit/core/parts"

// A journal remembers what an experiment changed, so that Revert costs what the
// experiment cost.
type journal struct {
	states   []stateEntry
	links    int
	branches []branchEntry
}

type stateEntry struct {
	element int
	state   parts.State
	input   float64
	held    hold
}

type branchEntry struct {
	branch int
	forced bool
}

func (j *journal) state(x *Machine, element int) {
	j.states = append(j.states, stateEntry{element, x.states[element], x.inputs[element], x.held[element]})
}

func (j *journal) input(x *Machine, element int) { j.state(x, element) }

func (j *journal) branch(x *Machine, branch int) {
	j.branches = append(j.branches, branchEntry{branch, x.forced[branch]})
}

// Prime solves the unpowered panel as it stands and makes it the checkpoint, for
// replays from cold.
func (x *Machine) Prime() {
	x.solve()
	x.Checkpoint()
}

// Checkpoint makes the present settled state the one Revert returns to.
func (x *Machine) Checkpoint() {
	x.undo.states, x.undo.branches = x.undo.states[:0], x.undo.branches[:0]
	x.undo.links = len(x.links)
	x.dc.Checkpoint()
	if x.ac != nil {
		x.ac.Checkpoint()
	}
}

// Revert returns to the last Checkpoint, bit for bit.
func (x *Machine) Revert() {
	for i := len(x.undo.states) - 1; i >= 0; i-- {
		e := x.undo.states[i]
		x.states[e.element], x.inputs[e.element], x.held[e.element] = e.state, e.input, e.held
	}
	for i := len(x.undo.branches) - 1; i >= 0; i-- {
		e := x.undo.branches[i]
		x.forced[e.branch] = e.forced
	}
	x.undo.states, x.undo.branches = x.undo.states[:0], x.undo.branches[:0]
	x.links = x.links[:x.undo.links]
	for i := range x.due {
		x.due[i].on = false
	}
	x.log, x.cycle, x.err, x.now = x.log[:0], nil, nil, 0
	x.dc.Revert()
	if x.ac != nil {
		x.ac.Revert()
	}
}
