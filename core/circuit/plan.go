package circuit

import (
	"fmt"
	"slices"
)

// A Node is one continuous piece of metal, by index.
type Node int32

// Earth is the reference: every voltage is measured against it.
const Earth Node = 0

// Ends says which two nodes a branch joins. A branch's current and its EMF
// count positive from A to B.
type Ends struct{ A, B Node }

// A Plan is how a network of fixed shape will be eliminated: the order, the
// elimination tree and where each number goes. It holds no values, never
// changes once made, and may be shared by any number of DC and AC systems.
//
// # Shape
//
// Each node but Earth is a vertex of the tree, numbered so that a subtree is
// one run of numbers and a parent comes after its children (postorder). Earth
// has the last number. The members of vertex t are the vertices t is still
// joined to when it is eliminated, Earth last; the lowest is its parent. All
// of them but Earth are its ancestors.
type Plan struct {
	nodes int
	ends  []Ends

	at     []int32 // node -> vertex
	node   []int32 // vertex -> node
	vertex []vertex

	mem    []int32
	slot   []int32 // beside mem: which member of the parent that is; the first is the parent itself and has none
	kid    []int32
	own    []own
	lower  []int32 // branch -> the vertex that meets it first; -1 when A == B
	pairs  int     // of all vertices
	widest int     // most members of any vertex
}

// vertex says where the plan keeps what belongs to one vertex: all in one place, for
// most of it is needed together.
type vertex struct {
	parent      int32 // Earth for a root
	mem, memEnd int32 // its members: mem[mem:memEnd], ascending
	pair        int32 // where the pairs among its m members begin, m(m−1)/2 of them, row by row
	kid, kidEnd int32 // its children
	own, ownEnd int32 // the branches that it is first to meet
}

// members of vertex t, ascending.
func (p *Plan) members(t int32) []int32 {
	v := &p.vertex[t]
	return p.mem[v.mem:v.memEnd]
}

// kids are the children of vertex t.
func (p *Plan) kids(t int32) []int32 {
	v := &p.vertex[t]
	return p.kid[v.kid:v.kidEnd]
}

// own is a branch as its lower vertex sees it.
type own struct {
	branch int32
	slot   int32 // member index of the far end
	flip   bool  // the branch runs from the member to the vertex
}

// NewPlan orders the elimination of a network of the given number of nodes,
// Earth included, and branches. A branch from a node to itself is allowed and
// carries no current; several branches may join the same two nodes.
//
// It panics when a branch ends outside the nodes: a caller's bug.
func NewPlan(nodes int, branches []Ends) *Plan {
	if nodes < 1 {
		panic(fmt.Sprintf("circuit: a network of %d nodes has no Earth", nodes))
	}
	for i, e := range branches {
		if e.A < 0 || e.B < 0 || int(e.A) >= nodes || int(e.B) >= nodes {
			panic(fmt.Sprintf("circuit: branch %d joins nodes %d and %d, and there are %d nodes", i, e.A, e.B, nodes))
		}
	}
	p := &Plan{nodes: nodes, ends: slices.Clone(branches)}
	seq, left := order(nodes, p.ends)
	p.number(seq, left)
	p.join(left, seq)
	p.place()
	p.owners()
	return p
}

// number gives every node its vertex number, in postorder of the tree.
func (p *Plan) number(seq []int32, left [][]int32) {
	n := p.nodes
	turn := make([]int32, n) // node -> place in the elimination order
	for i, v := range seq {
		turn[v] = int32(i)
	}
	top := make([]int32, n) // node -> parent node
	first, next := make([]int32, n), make([]int32, n)
	for i := len(seq) - 1; i >= 0; i-- { // so that a child list runs in elimination order
		v, best := seq[i], int32(Earth)
		for _, j := range left[i] {
			if best == int32(Earth) || turn[j] < turn[best] {
				best = j
			}
		}
		top[v] = best
		next[v], first[best] = first[best], v
	}
	p.at, p.node, p.vertex = make([]int32, n), make([]int32, n), make([]vertex, n)
	count := int32(0)
	for v := first[Earth]; v != 0; { // walk down first children, number on the way up
		for first[v] != 0 {
			v = first[v]
		}
		for {
			p.at[v], p.node[count] = count, v
			count++
			if next[v] != 0 {
				v = next[v]
				break
			}
			if v = top[v]; v == int32(Earth) {
				break
			}
		}
		if v == int32(Earth) {
			break
		}
	}
	p.at[Earth], p.node[count] = count, int32(Earth)
	for v := 1; v < n; v++ {
		p.vertex[p.at[v]].parent = p.at[top[v]]
	}
	p.vertex[count].parent = count
}

// join turns the neighbours left at elimination into sorted lists of members.
func (p *Plan) join(left [][]int32, seq []int32) {
	earth := int32(p.nodes - 1)
	for i, v := range seq {
		p.vertex[p.at[v]].memEnd = int32(len(left[i])) + 1 // for now, how many
	}
	mems, pairs := int32(0), int32(0)
	for t := range p.vertex {
		v := &p.vertex[t]
		m := v.memEnd
		p.widest = max(p.widest, int(m))
		v.mem, v.memEnd, v.pair = mems, mems+m, pairs
		mems, pairs = mems+m, pairs+m*(m-1)/2
	}
	p.mem, p.pairs = make([]int32, mems), int(pairs)
	for i, v := range seq {
		list := p.members(p.at[v])
		for x, j := range left[i] {
			list[x] = p.at[j]
		}
		list[len(list)-1] = earth
		slices.Sort(list)
	}
}

// place finds children, and where each member stands in the parent's front.
func (p *Plan) place() {
	earth := int32(p.nodes - 1)
	for t := range earth {
		p.vertex[p.vertex[t].parent].kidEnd++ // for now, how many
	}
	kids := int32(0)
	for t := range p.vertex {
		v := &p.vertex[t]
		kids += begin(kids, &v.kid, &v.kidEnd)
	}
	p.kid = make([]int32, kids)
	p.slot = make([]int32, len(p.mem))
	for t := range earth {
		v := &p.vertex[t]
		up := &p.vertex[v.parent]
		p.kid[up.kidEnd] = t
		up.kidEnd++
		if v.parent == earth {
			continue
		}
		over := p.members(v.parent)
		x := int32(0)
		for i := v.mem + 1; i < v.memEnd; i++ {
			for over[x] != p.mem[i] {
				x++
			}
			p.slot[i] = x
		}
	}
}

// owners hands every branch to the end that is eliminated first.
func (p *Plan) owners() {
	p.lower = make([]int32, len(p.ends))
	for i, e := range p.ends {
		p.lower[i] = -1
		if e.A != e.B {
			p.lower[i] = min(p.at[e.A], p.at[e.B])
			p.vertex[p.lower[i]].ownEnd++ // for now, how many
		}
	}
	owned := int32(0)
	for t := range p.vertex {
		v := &p.vertex[t]
		owned += begin(owned, &v.own, &v.ownEnd)
	}
	p.own = make([]own, owned)
	for i, e := range p.ends {
		t := p.lower[i]
		if t < 0 {
			continue
		}
		far := max(p.at[e.A], p.at[e.B])
		x, _ := slices.BinarySearch(p.members(t), far)
		v := &p.vertex[t]
		p.own[v.ownEnd] = own{branch: int32(i), slot: int32(x), flip: p.at[e.B] == t}
		v.ownEnd++
	}
}

// begin makes an empty run at the given place, to be filled by moving its end, and
// tells how many it will have: its end counted them.
func begin(at int32, first, end *int32) (many int32) {
	many = *end
	*first, *end = at, at
	return many
}
