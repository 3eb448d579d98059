package diagnose

import (
	"slices"

	"halfsplit/core/circuit"
	"halfsplit/core/parts"
)

// zones are the pieces of a panel that act on each other through nothing but
// elements: metal joined by anything but a source or the protective earth is one
// zone, such as the 24 V side of a supply, or the mains.
type zones struct {
	of      []int32   // by node; noZone for earth
	fed     []bool    // by zone: a source's terminal is in it
	touched [][]int32 // by element: the zones it has a branch in or looks at
	written [][]int32 // by element: its branches
	faults  [][]int32 // by fault: the zones it alters; none for one in the protective earth alone
}

const noZone = -1

func newZones(net *parts.Net, faults []*parts.Mode) *zones {
	z := &zones{of: make([]int32, len(net.Nodes))}
	count := label(net, z.of, func(k int32) bool { return net.Branches[k].Role != parts.RoleSource })
	z.written = make([][]int32, len(net.Elements))
	for i := range net.Elements {
		el := &net.Elements[i]
		el.Element.Stamp(parts.State{}, el.Rest, recorder{&z.written[i]})
	}
	for i := range net.Elements {
		var list []int32
		for _, n := range net.Elements[i].Sense {
			list = z.join(list, n)
		}
		for _, k := range z.written[i] {
			list = z.join(z.join(list, net.Branches[k].Ends.A), net.Branches[k].Ends.B)
		}
		z.touched = append(z.touched, list)
	}
	z.fed = make([]bool, count)
	for _, p := range net.Places {
		if t := z.of[p.Node]; t != noZone && (p.Return || p.Feed) {
			z.fed[t] = true
		}
	}
	for _, m := range faults {
		var list []int32
		for i := range m.Changes {
			switch c := &m.Changes[i]; c.What {
			case parts.SetBranch:
				list = z.join(z.join(list, net.Branches[c.Branch].Ends.A), net.Branches[c.Branch].Ends.B)
			case parts.AddLink:
				list = z.join(z.join(list, c.Ends.A), c.Ends.B)
			default:
				for _, t := range z.touched[c.Element] {
					list = include(list, t)
				}
			}
		}
		z.faults = append(z.faults, list)
	}
	return z
}

// label numbers what hangs together through branches that may be passed, and gives
// how many pieces there are.
func label(net *parts.Net, of []int32, pass func(k int32) bool) int {
	reached := make([]bool, len(net.Nodes))
	at := adjacent(net, pass)
	count := int32(0)
	for n := range net.Nodes {
		of[n] = noZone
	}
	for n := range net.Nodes {
		if reached[n] || grounded(net, circuit.Node(n)) {
			continue
		}
		at.walk(circuit.Node(n), reached, func(m circuit.Node) { of[m] = count })
		count++
	}
	return int(count)
}

// join adds the zone of a node to a list.
func (z *zones) join(list []int32, n circuit.Node) []int32 {
	if z.of[n] == noZone {
		return list
	}
	return include(list, z.of[n])
}

func include(list []int32, t int32) []int32 {
	if slices.Contains(list, t) {
		return list
	}
	return append(list, t)
}

// recorder notes which branches an element writes.
type recorder struct{ list *[]int32 }

func (r recorder) DC(branch int, _ circuit.Value)   { *r.list = append(*r.list, int32(branch)) }
func (r recorder) AC(branch int, _ circuit.ACValue) { *r.list = append(*r.list, int32(branch)) }

func grounded(net *parts.Net, n circuit.Node) bool {
	return n == circuit.Earth || net.Nodes[n].Earthing
}

// neighbourhood is which branches lead where.
type neighbourhood struct {
	net *parts.Net
	at  [][]int32
}

// adjacent lists the branches that may be passed, by node.
func adjacent(net *parts.Net, pass func(k int32) bool) neighbourhood {
	at := make([][]int32, len(net.Nodes))
	for k := range net.Branches {
		if e := net.Branches[k].Ends; pass(int32(k)) {
			at[e.A] = append(at[e.A], int32(k))
			at[e.B] = append(at[e.B], int32(k))
		}
	}
	return neighbourhood{net, at}
}

// walk visits every node reached from one that has not been reached before, not
// into the protective earth.
func (h neighbourhood) walk(from circuit.Node, reached []bool, visit func(circuit.Node)) {
	if reached[from] {
		return
	}
	reached[from] = true
	for stack := []circuit.Node{from}; len(stack) > 0; {
		n := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		visit(n)
		for _, k := range h.at[n] {
			other := h.net.Branches[k].Ends.A
			if other == n {
				other = h.net.Branches[k].Ends.B
			}
			if !reached[other] && !grounded(h.net, other) {
				reached[other] = true
				stack = append(stack, other)
			}
		}
	}
}
