package parts

import "halfsplit/core/circuit"

// Driven marks the branches of the circuits in which something drives a current
// whatever stands in the way: nobody opens those. A branch belongs to such a circuit
// when a closed way, over no metal twice, leads through it and the source; a wire that
// earths the circuit at one point does not. Contacts count as closed, and the
// protective earth joins nothing.
//
// Source: biconnected components, Hopcroft & Tarjan, Comm. ACM 16 (1973), 372-378.
func (n *Net) Driven() []bool {
	driven := make([]bool, len(n.Branches))
	var at [][]int32
	for i := range n.Elements { // in most panels there is none
		if k := n.Elements[i].Kind; k == nil || !k.Drives {
			continue
		}
		for b := range n.Branches {
			if br := &n.Branches[b]; br.Role == RoleSource && br.Thing == n.Elements[i].Ref && !driven[b] {
				if at == nil {
					at = n.branchesAt()
				}
				n.driveFrom(b, at, driven)
			}
		}
	}
	return driven
}

// branchesAt lists the branches at every node but those of the protective earth.
func (n *Net) branchesAt() [][]int32 {
	at := make([][]int32, len(n.Nodes))
	for b := range n.Branches {
		for _, m := range []circuit.Node{n.Branches[b].Ends.A, n.Branches[b].Ends.B} {
			if m != circuit.Earth && !n.Nodes[m].Earthing {
				at[m] = append(at[m], int32(b))
			}
		}
	}
	return at
}

// driveFrom marks the biconnected component of branch first, given the branches at
// every node. A walk in depth begins over that branch, so the component is what lies on
// the stack above it when the walk comes back.
func (n *Net) driveFrom(first int, at [][]int32, driven []bool) {
	far := func(b int32, m circuit.Node) circuit.Node {
		if e := n.Branches[b].Ends; e.A == m {
			return e.B
		}
		return n.Branches[b].Ends.A
	}
	type visit struct {
		node circuit.Node
		over int32 // the branch it was come by
		next int   // in at
		size int   // of the stack before over
	}
	var stack []int32
	number, low, count := make([]int, len(n.Nodes)), make([]int, len(n.Nodes)), 0
	enter := func(m circuit.Node) { count++; number[m], low[m] = count, count }
	root := n.Branches[first].Ends.A
	enter(root)
	enter(n.Branches[first].Ends.B)
	walk := []visit{{node: n.Branches[first].Ends.B, over: int32(first)}}
	stack = append(stack, int32(first))
	for len(walk) > 0 {
		v := &walk[len(walk)-1]
		if v.next < len(at[v.node]) {
			b := at[v.node][v.next]
			v.next++
			m := far(b, v.node)
			switch {
			case b == v.over || m == circuit.Earth || n.Nodes[m].Earthing || number[m] > number[v.node]:
			case number[m] > 0:
				stack = append(stack, b)
				low[v.node] = min(low[v.node], number[m])
			default:
				walk = append(walk, visit{node: m, over: b, size: len(stack)})
				stack = append(stack, b)
				enter(m)
			}
			continue
		}
		done := *v
		walk = walk[:len(walk)-1]
		if len(walk) == 0 {
			break
		}
		up := &walk[len(walk)-1]
		if low[done.node] >= number[up.node] { // a component of its own hangs there
			stack = stack[:done.size]
		} else {
			low[up.node] = min(low[up.node], low[done.node])
		}
	}
	for _, b := range stack {
		driven[b] = true
	}
}
