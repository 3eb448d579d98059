package sim

import "halfsplit/core/parts"

// A journal remembers what an experiment changed, so that Revert costs what the
// experiment cost.
type journal struct {
	on       bool // there is a checkpoint to return to
	states   []stateEntry
	links    int
	modes    uint64
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
	if !j.on {
		return
	}
	j.states = append(j.states, stateEntry{element, x.states[element], x.inputs[element], x.held[element]})
}

func (j *journal) branch(x *Machine, branch int) {
	if !j.on {
		return
	}
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
	x.undo.links, x.undo.modes, x.undo.on = len(x.links), x.attention.modes, true
	x.attention.how = lost
	if x.attention.atRest {
		x.attention.how = anchored
		x.findTender()
	}
	x.attention.forget()
	x.attention.rest()
	x.dc.Checkpoint()
	if x.ac != nil {
		x.AC().Checkpoint()
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
	a := &x.attention
	for _, list := range [][]int32{a.differ, a.restless, a.touched} {
		for _, i := range list {
			x.due[i].on = false
			x.wishes[i] = wish{state: x.states[i]}
		}
	}
	a.forget()
	a.rest()
	a.modes, a.atRest = x.undo.modes, a.how == anchored
	x.log, x.cycle, x.err, x.now = x.log[:0], nil, nil, 0
	x.dc.Revert()
	if x.ac != nil {
		x.ac.revert()
	}
}
