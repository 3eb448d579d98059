package trace

import (
	"halfsplit/core/circuit"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A Base is the healthy panel in one condition, ready for experiments. Its
// Machine is at its checkpoint between calls. Not safe for concurrent use.
type Base struct {
	Model   *sim.Model
	Cond    sim.Condition
	Machine *sim.Machine
	Healthy []parts.Status // by device
	cold    *sim.Machine   // before power, for faults that were there first
	ready   *sim.Machine   // powered up, before any step
	used    *sim.Machine   // by the experiment under way

	watching [][]int    // devices of each element
	devices  []int      // buffer
	found    []Affected // buffer
	sorted   []Affected // buffer
	frames   []float64  // ohms from each frame to earth
	earthy   []bool     // branches that belong to the protective earth
	earthing *earthing
	links    [][]int32 // branches at each node
	volts    []float64 // of every node, DC
	voltsAC  []complex128
	amps     []float64 // of every branch, healthy, from A to B
	ampsAC   []float64 // signed by their part in phase with the mains
	// conducts is the healthy conductance of every branch, S, direct or
	// alternating, whichever is more.
	conducts []float64
}

// New settles the healthy panel in the condition.
func New(m *sim.Model, c sim.Condition) *Base {
	b := &Base{Model: m, Cond: c, Machine: m.Replay(c, sim.Running, nil)}
	b.Machine.Checkpoint()
	b.Healthy = make([]parts.Status, len(m.Net.Devices))
	for i := range b.Healthy {
		b.Healthy[i] = b.Machine.Status(i)
	}
	for _, f := range m.Net.Frames {
		b.frames = append(b.frames, b.Machine.DC().Z(f.Node, circuit.Earth))
	}
	b.watching = make([][]int, len(m.Net.Elements))
	for i, d := range m.Net.Devices {
		b.watching[d.Element] = append(b.watching[d.Element], i)
	}
	b.links = adjacency(m.Net)
	b.earthy = earthConductors(m.Net)
	b.amps, b.ampsAC = currents(b.Machine)
	b.conducts = make([]float64, len(m.Net.Branches))
	for k := range b.conducts {
		b.conducts[k] = conductance(b.Machine, k)
	}
	b.volts = make([]float64, len(m.Net.Nodes))
	b.voltsAC = make([]complex128, len(m.Net.Nodes))
	for n := range b.volts {
		b.volts[n], b.voltsAC[n] = b.Machine.V(circuit.Node(n)), b.Machine.VAC(circuit.Node(n))
	}
	b.earthing = newEarthing(b)
	return b
}

// Enter makes one experiment: the panel with a fault, at rest. Leave ends it.
func (b *Base) Enter(changes []parts.Change, onset sim.Onset) *sim.Machine {
	if onset == sim.Start {
		return b.start(changes)
	}
	b.used = b.Machine
	b.Machine.Apply(changes)
	b.Machine.Settle()
	return b.Machine
}

// start is the panel started with a fault in it. It goes on from the healthy panel
// powered up, before any step, which is where a start from cold comes by, unless
// the fault joins something or something then holds a state it could not have
// reached: that is replayed from cold.
func (b *Base) start(changes []parts.Change) *sim.Machine {
	if b.ready == nil {
		b.ready, b.cold = b.Model.Cold(), b.Model.Cold()
		b.ready.PowerUp(b.Cond)
		b.ready.Checkpoint()
		b.cold.Prime()
	}
	if !b.joins(changes) {
		b.used = b.ready
		b.ready.Apply(changes)
		b.ready.Settle()
		if !b.ready.Holds() && b.ready.Cycle() == nil {
			b.ready.Do(b.Cond.Steps)
			return b.ready
		}
		b.ready.Revert()
	}
	b.used = b.cold
	b.cold.Apply(changes)
	b.cold.Enter(b.Cond)
	return b.cold
}

// joins says whether a fault makes anything conduct better than in the healthy
// panel: a short may blow a fuse in the milliseconds before the relays are in.
func (b *Base) joins(changes []parts.Change) bool {
	for _, c := range changes {
		if c.What == parts.AddLink || c.What == parts.SetBranch && c.G > b.conducts[c.Branch] {
			return true
		}
	}
	return false
}

// Leave returns to the healthy panel.
func (b *Base) Leave() {
	if b.used != nil {
		b.used.Revert()
		b.used = nil
	}
}

// Remembers says whether the order of fault and start can matter: the condition
// has steps, after which something may hold itself.
func (b *Base) Remembers() bool { return len(b.Cond.Steps) > 0 }

// V is the healthy direct voltage of a node to earth.
func (b *Base) V(n circuit.Node) float64 { return b.volts[n] }

// VAC is the healthy alternating voltage of a node to earth.
func (b *Base) VAC(n circuit.Node) complex128 { return b.voltsAC[n] }

func adjacency(net *parts.Net) [][]int32 {
	at := make([][]int32, len(net.Nodes))
	for k := range net.Branches {
		e := net.Branches[k].Ends
		at[e.A] = append(at[e.A], int32(k))
		at[e.B] = append(at[e.B], int32(k))
	}
	return at
}

// earthConductors marks rail feet and the clamps and bodies of wires with an end
// on the protective earth.
func earthConductors(net *parts.Net) []bool {
	earthy := make([]bool, len(net.Branches))
	wires := map[string]bool{}
	for _, e := range net.Ends {
		if net.Nodes[e.Metal].Earthing || e.Place.Pole == parts.Earth {
			wires[e.No] = true
		}
	}
	for _, e := range net.Ends {
		if wires[e.No] {
			earthy[e.Clamp] = true
		}
	}
	for k := range net.Branches {
		br := &net.Branches[k]
		if br.Role == parts.RoleFoot || br.Role == parts.RoleSource && (net.Nodes[br.Ends.A].Earthing || net.Nodes[br.Ends.B].Earthing) || br.Role == parts.RoleWire && wires[br.Thing] {
			earthy[k] = true
		}
	}
	return earthy
}

// currents reads every branch, from A to B: direct, and the part of the
// alternating one in phase with the mains.
func currents(x *sim.Machine) (amps, ampsAC []float64) {
	n := len(x.Model.Net.Branches)
	amps, ampsAC = make([]float64, n), make([]float64, n)
	for k := range n {
		amps[k] = x.DC().I(k)
		if x.AC() != nil {
			ampsAC[k] = real(x.AC().I(k))
		}
	}
	return amps, ampsAC
}
