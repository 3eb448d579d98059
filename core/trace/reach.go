package trace

import (
	"slices"
	"strings"

	"halfsplit/core/circuit"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A web is what hangs together in a panel when every contact may close: the ways
// from any metal to the sources of the panel, but for those that open isolating
// points part. Metal that conductors alone bond to earth ends a way: it is held at
// earth, whatever comes over a load.
type web struct {
	net    *parts.Net
	links  [][]int32 // branches at each node
	joined map[circuit.Node][]circuit.Node
	earth  []bool                 // held at earth
	cut    []int32                // by branch: 1 + the point that opens it; 0 without
	feeds  map[circuit.Node][]int // feeding elements with this node as an output
	inputs map[int][]circuit.Node // of such an element, where it is fed itself
	keeps  map[circuit.Node][]int // elements that keep something when isolated, at their nodes
	line   []bool                 // elements that are sources with a line conductor
	off    []bool                 // elements that are sources switched off

	seen  []int // by node: the last walk that met it
	walks int
}

// newWeb draws the web of a machine's present state. A return that is bonded to
// earth is held there as long as it is not touched itself: returns says that it is
// the target, and then only the protective earth ends a way.
func newWeb(b *Base, x *sim.Machine, points []Point, returns bool) *web {
	net := b.Model.Net
	w := &web{net: net, links: b.links, joined: map[circuit.Node][]circuit.Node{}, earth: make([]bool, len(net.Nodes)),
		cut: make([]int32, len(net.Branches)), feeds: map[circuit.Node][]int{}, inputs: map[int][]circuit.Node{}, off: make([]bool, len(net.Elements)), line: make([]bool, len(net.Elements)), keeps: map[circuit.Node][]int{},
		seen: make([]int, len(net.Nodes))}
	for i, p := range points {
		for _, k := range p.branches {
			w.cut[k] = int32(i) + 1
		}
	}
	for _, e := range x.Links() {
		w.joined[e.A], w.joined[e.B] = append(w.joined[e.A], e.B), append(w.joined[e.B], e.A)
	}
	if returns {
		for n := range net.Nodes {
			w.earth[n] = n == int(circuit.Earth) || net.Nodes[n].Earthing
		}
	} else {
		w.holdAtEarth(x)
	}
	w.findFeeds(x)
	return w
}

// holdAtEarth marks the metal that wires, clamps, jumpers and rail feet bond to
// earth in the present state.
func (w *web) holdAtEarth(x *sim.Machine) {
	w.earth[circuit.Earth] = true
	for queue := []circuit.Node{circuit.Earth}; len(queue) > 0; queue = queue[1:] {
		for _, k := range w.links[queue[0]] {
			br := &w.net.Branches[k]
			n := other(br.Ends, queue[0])
			if !w.earth[n] && conductance(x, int(k)) > 1.0/frameOhms && (bonds[br.Role] || br.Role == parts.RoleSource && w.net.Nodes[n].Earthing) {
				w.earth[n] = true
				queue = append(queue, n)
			}
		}
	}
}

// bonds are the roles of conductors that nothing but a fault opens.
var bonds = map[parts.Role]bool{parts.RoleWire: true, parts.RoleClamp: true, parts.RoleJumper: true, parts.RoleFoot: true}

// findFeeds lists the outputs of what feeds: the poles of sources, and of what is
// fed itself (a supply, a transmitter that drives its loop) the ends of its source,
// with its inputs, which nothing else joins to them.
func (w *web) findFeeds(x *sim.Machine) {
	byRef := map[string]int{}
	for i := range w.net.Elements {
		e := &w.net.Elements[i]
		if e.Kind == nil {
			continue
		}
		if owner, _, inner := strings.Cut(e.Ref, " "); inner {
			if e.Kind.Drives { // what its primary sees
				w.inputs[byRef[owner]] = append(w.inputs[byRef[owner]], e.Sense...)
			}
			continue
		}
		byRef[e.Ref] = i
		if e.Kind.Keeps != "" {
			for _, n := range e.Sense {
				w.keeps[n] = append(w.keeps[n], i)
			}
		}
		w.off[i] = e.Kind.Source && len(e.Kind.Positions) > 1 && x.Input(i) == e.Kind.Positions[1].Value
	}
	for _, p := range w.net.Places {
		ref, _, _ := strings.Cut(p.Name, ":")
		if e, ok := byRef[ref]; ok && w.net.Elements[e].Kind.Source && (p.Feed || p.Return) {
			w.feeds[p.Node] = append(w.feeds[p.Node], e)
			w.line[e] = w.line[e] || p.Pole == parts.Line
		}
	}
	for k := range w.net.Branches {
		br := &w.net.Branches[k]
		e, ok := byRef[br.Thing]
		if !ok || br.Role != parts.RoleSource || w.net.Elements[e].Kind.Source {
			continue
		}
		for _, n := range []circuit.Node{br.Ends.A, br.Ends.B} {
			w.feeds[n] = append(w.feeds[n], e)
		}
		for _, n := range w.net.Elements[e].Sense {
			if n != br.Ends.A && n != br.Ends.B {
				w.inputs[e] = append(w.inputs[e], n)
			}
		}
	}
}

// A walk is what was met on all ways from some metal.
type walk struct {
	sources []int // elements that are sources of their own and switched on, ascending
	keeps   []int // elements that keep something when isolated, ascending
	hops    []int // by point: how many branches away it is; -1 where no way leads over it
}

// from walks every way from the given metal, past no open point. over says whether
// a supply that is fed from elsewhere leads on to what feeds it.
func (w *web) from(nodes []circuit.Node, points []Point, open func(point int) bool, over bool) walk {
	w.walks++
	out := walk{hops: make([]int, len(points))}
	for i := range out.hops {
		out.hops[i] = -1
	}
	met, keeps := map[int]bool{}, map[int]bool{}
	type step struct {
		n    circuit.Node
		hops int
	}
	var queue []step
	push := func(n circuit.Node, hops int) {
		if w.seen[n] != w.walks && !w.earth[n] {
			w.seen[n] = w.walks
			queue = append(queue, step{n, hops})
		}
	}
	for _, n := range nodes {
		push(n, 0)
	}
	for ; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		for _, e := range w.feeds[at.n] {
			if met[e] || w.isOff(e, points, open) {
				continue
			}
			met[e] = true
			if over {
				for _, n := range w.inputs[e] {
					push(n, at.hops+1)
				}
			}
		}
		for _, e := range w.keeps[at.n] {
			keeps[e] = true
		}
		for _, k := range w.links[at.n] {
			if c := int(w.cut[k]) - 1; c >= 0 {
				if out.hops[c] < 0 {
					out.hops[c] = at.hops
				}
				if open(c) {
					continue
				}
			}
			push(other(w.net.Branches[k].Ends, at.n), at.hops+1)
		}
		for _, n := range w.joined[at.n] {
			push(n, at.hops+1)
		}
	}
	for e := range w.net.Elements {
		if met[e] && w.net.Elements[e].Kind.Source {
			out.sources = append(out.sources, e)
		}
		if keeps[e] {
			out.keeps = append(out.keeps, e)
		}
	}
	return out
}

// met says that the last walk came to one of the nodes.
func (w *web) met(nodes ...circuit.Node) bool {
	return slices.ContainsFunc(nodes, func(n circuit.Node) bool { return w.seen[n] == w.walks })
}

// isOff says that a source is switched off, by the condition or by its own
// isolator.
func (w *web) isOff(e int, points []Point, open func(int) bool) bool {
	if w.off[e] {
		return true
	}
	for i := range points {
		if points[i].Element == e && open(i) {
			return true
		}
	}
	return false
}
