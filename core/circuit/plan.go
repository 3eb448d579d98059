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
	parent []int32 // vertex -> vertex; Earth for a root

	memAt, mem []int32 // members of t: mem[memAt[t]:memAt[t+1]], ascending
	slot       []int32 // beside mem: which member of the parent that is; the first is the parent itself and has none
	pairAt     []int32 // the pairs among t's members: m(m−1)/2 of them from pairAt[t], row by row
	kidAt, kid []int32 // children of t
	ownAt      []int32 // branches that t is first to meet: own[ownAt[t]:ownAt[t+1]]
	own        []own
	lower      []int32 // branch -> the vertex that meets it first; -1 when A == B
	widest     int     // most members of any vertex
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
	p.members(left, seq)
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
	p.at, p.node, p.parent = make([]int32, n), make([]int32, n), make([]int32, n)
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
		p.parent[p.at[v]] = p.at[top[v]]
	}
	p.parent[count] = count
}

// members turns the neighbours left at elimination into sorted vertex lists.
func (p *Plan) members(left [][]int32, seq []int32) {
	n := int32(p.nodes)
	earth := n - 1
	p.memAt, p.pairAt = make([]int32, n+1), make([]int32, n+1)
	for i, v := range seq {
		p.memAt[p.at[v]+1] = int32(len(left[i])) + 1
	}
	for t := int32(0); t < n; t++ {
		m := p.memAt[t+1]
		p.widest = max(p.widest, int(m))
		p.memAt[t+1] += p.memAt[t]
		p.pairAt[t+1] = p.pairAt[t] + m*(m-1)/2
	}
	p.mem = make([]int32, p.memAt[n])
	for i, v := range seq {
		t := p.at[v]
		list := p.mem[p.memAt[t]:p.memAt[t+1]]
		for x, j := range left[i] {
			list[x] = p.at[j]
		}
		list[len(list)-1] = earth
		slices.Sort(list)
	}
}

// place finds children, and where each member stands in the parent's front.
func (p *Plan) place() {
	n := int32(p.nodes)
	earth := n - 1
	p.kidAt = make([]int32, n+1)
	for t := int32(0); t < earth; t++ {
		p.kidAt[p.parent[t]+1]++
	}
	for t := int32(0); t < n; t++ {
		p.kidAt[t+1] += p.kidAt[t]
	}
	p.kid = make([]int32, p.kidAt[n])
	fill := slices.Clone(p.kidAt[:n])
	p.slot = make([]int32, len(p.mem))
	for t := int32(0); t < earth; t++ {
		up := p.parent[t]
		p.kid[fill[up]] = t
		fill[up]++
		if up == earth {
			continue
		}
		over := p.mem[p.memAt[up]:p.memAt[up+1]]
		x := int32(0)
		for i := p.memAt[t] + 1; i < p.memAt[t+1]; i++ {
			for over[x] != p.mem[i] {
				x++
			}
			p.slot[i] = x
		}
	}
}

// owners hands every branch to the end that is eliminated first.
func (p *Plan) owners() {
	n := p.nodes
	p.lower = make([]int32, len(p.ends))
	p.ownAt = make([]int32, n+1)
	for i, e := range p.ends {
		p.lower[i] = -1
		if e.A != e.B {
			p.lower[i] = min(p.at[e.A], p.at[e.B])
			p.ownAt[p.lower[i]+1]++
		}
	}
	for t := 0; t < n; t++ {
		p.ownAt[t+1] += p.ownAt[t]
	}
	p.own = make([]own, p.ownAt[n])
	fill := slices.Clone(p.ownAt[:n])
	for i, e := range p.ends {
		t := p.lower[i]
		if t < 0 {
			continue
		}
		far := max(p.at[e.A], p.at[e.B])
		x, _ := slices.BinarySearch(p.mem[p.memAt[t]:p.memAt[t+1]], far)
		p.own[fill[t]] = own{branch: int32(i), slot: int32(x), flip: p.at[e.B] == t}
		fill[t]++
	}
}
