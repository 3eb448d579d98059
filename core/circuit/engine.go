package circuit

import (
	"fmt"
	"slices"
)

// term is a branch's value, real or complex.
type term[T float64 | complex128] struct{ g, e, j T }

// engine is the part that DC and AC share. It eliminates the whole network at
// every Solve, links included, by planning it anew when there are links.
type engine[T float64 | complex128] struct {
	plan    *Plan
	leak    []T
	val     []term[T]
	ends    []Ends // of the links
	links   []term[T]
	v       []T // by node
	base    *engine[T]
	product func(a, b T) T
	invert  func(T) (T, bool)
}

func newEngine[T float64 | complex128](p *Plan, leak []T, branches int, product func(a, b T) T, invert func(T) (T, bool)) engine[T] {
	if len(leak) != p.nodes || branches != len(p.ends) {
		panic(fmt.Sprintf("circuit: %d leaks and %d values for a plan of %d nodes and %d branches", len(leak), branches, p.nodes, len(p.ends)))
	}
	return engine[T]{plan: p, leak: slices.Clone(leak), val: make([]term[T], branches), v: make([]T, p.nodes), product: product, invert: invert}
}

func (s *engine[T]) set(branch int, t term[T]) { s.val[branch] = t }

func (s *engine[T]) link(a, b Node, t term[T]) int {
	if a < 0 || b < 0 || int(a) >= s.plan.nodes || int(b) >= s.plan.nodes {
		panic(fmt.Sprintf("circuit: a link joins nodes %d and %d, and there are %d nodes", a, b, s.plan.nodes))
	}
	s.ends, s.links = append(s.ends, Ends{a, b}), append(s.links, t)
	return len(s.links) - 1
}

// Solve brings the voltages up to date with the values and links. Its error is
// a *SingularError; voltages and currents then mean nothing until a Solve
// succeeds or Revert.
func (s *engine[T]) Solve() error {
	v, err := s.voltages(Ends{}, 0)
	s.v = v
	return err
}

// V is the voltage of a node to Earth, in volts.
func (s *engine[T]) V(n Node) T { return s.v[n] }

// I is the current of a branch from A to B, in amperes.
func (s *engine[T]) I(branch int) T { return s.current(s.plan.ends[branch], s.val[branch]) }

// LinkI is the current of a link from a to b, in amperes.
func (s *engine[T]) LinkI(link int) T { return s.current(s.ends[link], s.links[link]) }

func (s *engine[T]) current(e Ends, t term[T]) T {
	if e.A == e.B {
		return 0
	}
	return s.product(t.g, s.v[e.A]-s.v[e.B]+t.e) + t.j
}

// Z is the impedance, in ohms, seen between two nodes with every source at
// rest, all present branches and links in place.
func (s *engine[T]) Z(a, b Node) T {
	if a == b {
		return 0
	}
	rest := s.clone()
	for i := range rest.val {
		rest.val[i].e, rest.val[i].j = 0, 0
	}
	for i := range rest.links {
		rest.links[i].e, rest.links[i].j = 0, 0
	}
	v, _ := rest.voltages(Ends{b, a}, 1)
	return v[a] - v[b]
}

// Checkpoint makes the present solved state the one that Revert returns to.
func (s *engine[T]) Checkpoint() { s.base = nil; b := s.clone(); s.base = &b }

// Revert returns to the checkpoint, bit for bit, and drops all links made since.
func (s *engine[T]) Revert() { b := s.base; *s = b.clone(); s.base = b }

func (s *engine[T]) clone() engine[T] {
	c := *s
	c.val, c.v = slices.Clone(s.val), slices.Clone(s.v)
	c.ends, c.links = slices.Clone(s.ends), slices.Clone(s.links)
	return c
}

// voltages solves the network with current j driven through probe.
func (s *engine[T]) voltages(probe Ends, j T) ([]T, error) {
	p, val := s.plan, s.val
	if len(s.links) > 0 || probe.A != probe.B {
		ends := append(append(slices.Clone(p.ends), s.ends...), probe)
		val = append(append(slices.Clone(val), s.links...), term[T]{j: j})
		p = NewPlan(p.nodes, ends)
	}
	n := int32(p.nodes)
	type edge struct{ g, h T }
	pairs := make([]edge, p.pairAt[n])
	ratio, free := make([]T, len(p.mem)), make([]T, n)
	col := make([]edge, p.widest)
	var err error
	for t := int32(0); t < n-1; t++ {
		m := int(p.memAt[t+1] - p.memAt[t])
		clear(col)
		for _, o := range p.own[p.ownAt[t]:p.ownAt[t+1]] {
			b := val[o.branch]
			h := s.product(b.g, b.e) + b.j
			if o.flip {
				h = -h
			}
			col[o.slot].g += b.g
			col[o.slot].h += h
		}
		col[m-1].g += s.leak[p.node[t]]
		mine := pairs[p.pairAt[t]:p.pairAt[t+1]]
		for _, k := range p.kid[p.kidAt[t]:p.kidAt[t+1]] {
			slot, x := p.slot[p.memAt[k]:p.memAt[k+1]], p.pairAt[k]
			for a := range slot {
				for b := a + 1; b < len(slot); b++ {
					into := &col[slot[b]-1]
					if a > 0 {
						into = &mine[pair(m, int(slot[a])-1, int(slot[b])-1)]
					}
					into.g += pairs[x].g
					into.h += pairs[x].h
					x++
				}
			}
		}
		var sum, h T
		for _, e := range col[:m] {
			sum += e.g
			h += e.h
		}
		inv, ok := s.invert(sum)
		if (!ok || h-h != 0) && err == nil {
			err = &SingularError{Node(p.node[t])}
		}
		r := ratio[p.memAt[t]:p.memAt[t+1]]
		for i := range r {
			r[i] = s.product(col[i].g, inv)
		}
		free[t] = -s.product(h, inv)
		for i := range r {
			for j := i + 1; j < m; j++ {
				e := &mine[pair(m, i, j)]
				e.g += s.product(r[i], col[j].g)
				e.h += s.product(r[i], col[j].h) - s.product(col[i].h, r[j])
			}
		}
	}
	v := make([]T, n)
	for t := n - 2; t >= 0; t-- {
		sum := free[t]
		for i := p.memAt[t]; i < p.memAt[t+1]; i++ {
			sum += s.product(ratio[i], v[p.mem[i]])
		}
		v[t] = sum
	}
	out := make([]T, n)
	for t, x := range v {
		out[p.node[t]] = x
	}
	return out, err
}

// pair is the place of edge (i, j), i < j, among the pairs of m members.
func pair(m, i, j int) int { return i*m - i*(i+1)/2 + j - i - 1 }
