package trace

import (
	"math"
	"slices"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// An earthing is the way of every frame to earth in the healthy panel. Where one
// conductor of the protective earth is altered, and nothing is joined, only the
// frames whose way leads over it can have lost their earth or become live.
type earthing struct {
	always []int32                  // frames without a way, or live already
	over   map[int][]int32          // frames by branch of their way
	at     map[circuit.Node][]int32 // frames by node
}

// newEarthing finds the ways, fewest conductors first.
func newEarthing(b *Base) *earthing {
	net := b.Model.Net
	const none = -1
	to := make([]int, len(net.Nodes)) // the branch that leads from a node towards earth
	for n := range to {
		to[n] = none
	}
	reached := make([]bool, len(net.Nodes))
	reached[circuit.Earth] = true
	for queue := []circuit.Node{circuit.Earth}; len(queue) > 0; queue = queue[1:] {
		for _, k := range b.links[queue[0]] {
			if !b.earthy[k] || b.Machine.DC().Value(int(k)).G <= 1.0/frameOhms {
				continue
			}
			if n := other(net.Branches[k].Ends, queue[0]); !reached[n] {
				reached[n], to[n] = true, int(k)
				queue = append(queue, n)
			}
		}
	}
	e := &earthing{over: map[int][]int32{}, at: map[circuit.Node][]int32{}}
	for i, f := range net.Frames {
		frame := int32(i)
		e.at[f.Node] = append(e.at[f.Node], frame)
		if !reached[f.Node] || abs(b.voltsAC[f.Node]) > touchAC/2 || math.Abs(b.volts[f.Node]) > touchDC/2 {
			e.always = append(e.always, frame)
			continue
		}
		for n := f.Node; n != circuit.Earth; n = other(net.Branches[to[n]].Ends, n) {
			e.over[to[n]] = append(e.over[to[n]], frame)
		}
	}
	return e
}

func other(e circuit.Ends, n circuit.Node) circuit.Node {
	if e.A == n {
		return e.B
	}
	return e.A
}

// below lists the frames, ascending, whose way to earth the faults alter.
func (e *earthing) below(faults []*fault.Fault) []int32 {
	list := slices.Clone(e.always)
	for _, f := range faults {
		for _, c := range f.Changes {
			if c.What == parts.SetBranch {
				list = append(list, e.over[c.Branch]...)
			}
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// suspect lists the frames, ascending, that can have become live when something
// is joined: those below the fault, and those whose voltage is far from the
// machine's checkpoint, where none of the others is above half of touchAC.
func (b *Base) suspect(x *sim.Machine, below []int32) []int32 {
	list := slices.Clone(below)
	if x != b.Machine {
		for i := range b.Model.Net.Frames {
			list = append(list, int32(i))
		}
	} else {
		for _, n := range x.Moved(touchAC / 2) {
			list = append(list, b.earthing.at[n]...)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}
