package sim

import "halfsplit/core/circuit"

// Least conductances, in siemens, that count as a connection when asking what a
// piece of metal hangs on.
const (
	Bonded = 1e-6 // more than insulation: 1 MΩ, a thousandth of a terminal's
	Stiff  = 1e-4 // a meter of 10 MΩ moves nothing by more than a thousandth
)

// kneeAmps is the current below which a passive voltage drop (a transmitter at its
// lift-off, a diode at its knee) holds nothing: a meter of 10 MΩ on 24 V draws 2.4 µA
// and would move it.
const kneeAmps = 20e-6

// knee says whether a branch is such a drop.
func (x *Machine) knee(k int, v circuit.Value) bool { return v.E < 0 && x.dc.I(k) < kneeAmps }

// Knees says whether the panel has any: what a meter shows near them only the
// network with the meter in it tells.
func (x *Machine) Knees() bool {
	for k := range x.Model.Net.Branches {
		if v := x.dc.Value(k); v.E < 0 && x.knee(k, v) {
			return true
		}
	}
	return false
}

// Islands labels every node with the lowest node it is joined to by branches of
// at least the given conductance and by links; a passive drop that carries nothing
// joins nothing. Node 0's island is what earth
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
		if x.knee(k, v) {
			continue // its slope at the mains frequency holds nothing either
		}
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
