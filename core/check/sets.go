package check

import (
	"halfsplit/core/circuit"
	"halfsplit/core/parts"
)

// sets are disjoint sets of nodes: each node's parent, the root its own.
type sets []circuit.Node

func newSets(n int) sets {
	s := make(sets, n)
	for i := range s {
		s[i] = circuit.Node(i)
	}
	return s
}

func (s sets) find(n circuit.Node) circuit.Node {
	for s[n] != n {
		s[n] = s[s[n]]
		n = s[n]
	}
	return n
}

// join puts the set of b into that of a, whose root stays.
func (s sets) join(a, b circuit.Node) { s[s.find(b)] = s.find(a) }

// sets joins the nodes that edges of the given roles join.
func (g *graph) sets(roles map[parts.Role]bool) sets {
	s := newSets(len(g.net.Nodes))
	for i := range g.edges {
		if e := &g.edges[i]; roles[e.role] {
			s.join(e.a, e.b)
		}
	}
	return s
}
