package sim

import "halfsplit/core/circuit"

// Least conductances, in siemens, that count as a connection when asking what a
// piece of metal hangs on.
const (
	Bonded = 1e-6 // more than insulation: 1 MΩ, a thousandth of a terminal's
	Stiff  = 1e-4 // a meter of 10 MΩ moves nothing by more than a thousandth
)

// Islands labels every node with the lowest node it is joined to by branches of
// at least the given conductance and by links. Node 0's island is what earth
// holds.
func (x *Machine) Islands(least float64) []circuit.Node {
	parent := make([]circuit.Node, len(x.Model.Net.Nodes))
	for i := range parent {
		parent[i] = circuit.Node(i)
	}
	find := func(n circuit.Node) circuit.Node {
		for parent[n] != n {
			parent[n] = parent[parent[n]]
			n = parent[n]
		}
		return n
	}
	join := func(a, b circuit.Node) {
		a, b = find(a), find(b)
		if a < b {
			parent[b] = a
		} else {
			parent[a] = b
		}
	}
	for k := range x.Model.Net.Branches {
		v := x.dc.Value(k)
		y := complex128(0)
		if x.ac != nil {
			y = x.ac.value(k).Y
		}
		if v.G >= least || v.J != 0 || real(y) >= least {
			join(x.Model.Net.Branches[k].Ends.A, x.Model.Net.Branches[k].Ends.B)
		}
	}
	for _, l := range x.links {
		join(l.A, l.B)
	}
	for i := range parent {
		parent[i] = find(circuit.Node(i))
	}
	return parent
}
