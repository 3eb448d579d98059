package sim

import (
	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// A Model is a panel ready to be solved. It is read-only and may be shared.
type Model struct {
	Panel *panel.Panel
	Net   *parts.Net
	plan  *circuit.Plan
	ends  []circuit.Ends // of every branch
	// sensors lists, for each node, the elements that look at it.
	sensors [][]int32
	watch   *circuit.Watch // those nodes
	holders []int          // elements that are parts.Holder
}

// New assembles p, whose drawing package check has passed.
func New(p *panel.Panel) *Model {
	return Of(p, parts.Assemble(p))
}

// Of makes the model of a panel from its network, already assembled.
func Of(p *panel.Panel, net *parts.Net) *Model {
	ends := make([]circuit.Ends, len(net.Branches))
	for i := range net.Branches {
		ends[i] = net.Branches[i].Ends
	}
	m := &Model{Panel: p, Net: net, plan: circuit.NewPlan(len(net.Nodes), ends), ends: ends, sensors: make([][]int32, len(net.Nodes))}
	for i := range net.Elements {
		if _, ok := net.Elements[i].Element.(parts.Holder); ok {
			m.holders = append(m.holders, i)
		}
		for _, n := range net.Elements[i].Sense {
			m.sensors[n] = append(m.sensors[n], int32(i))
		}
	}
	var sensed []circuit.Node
	for n, list := range m.sensors {
		if len(list) > 0 {
			sensed = append(sensed, circuit.Node(n))
		}
	}
	m.watch = m.plan.Watch(sensed)
	return m
}

// Cold gives the panel without power having been applied yet: every element in
// mode 0, every input at rest, nothing solved.
func (m *Model) Cold() *Machine {
	n := m.Net
	x := &Machine{
		Model:  m,
		states: make([]parts.State, len(n.Elements)),
		inputs: make([]float64, len(n.Elements)),
		held:   make([]hold, len(n.Elements)),
		forced: make([]bool, len(n.Branches)),
		due:    make([]pending, len(n.Elements)),
		wishes: make([]wish, len(n.Elements)),

		attention: newAttention(len(n.Elements)),
	}
	leak := make([]float64, len(n.Nodes))
	leakAC := make([]complex128, len(n.Nodes))
	for i := range n.Nodes {
		leak[i], leakAC[i] = n.Nodes[i].Leak, n.Nodes[i].LeakAC
	}
	dc := make([]circuit.Value, len(n.Branches))
	ac := make([]circuit.ACValue, len(n.Branches))
	for i := range n.Branches {
		dc[i], ac[i] = n.Branches[i].DC, n.Branches[i].AC
	}
	for i := range n.Elements {
		x.inputs[i] = n.Elements[i].Rest
		x.attention.modes ^= mix(i, 0)
		n.Elements[i].Element.Stamp(x.states[i], x.inputs[i], values{dc, ac})
	}
	x.dc = m.plan.DC(leak, dc)
	if n.Frequency > 0 {
		x.ac = &alternating{net: m.plan.AC(leakAC, ac), plan: m.ends, latest: make([]int32, len(ac))}
	}
	return x
}

// values collects stamps before the first factorisation.
type values struct {
	dc []circuit.Value
	ac []circuit.ACValue
}

func (v values) DC(branch int, value circuit.Value)   { v.dc[branch] = value }
func (v values) AC(branch int, value circuit.ACValue) { v.ac[branch] = value }
