package circuit

import "slices"

// A graft is where links grow together with the plan. A link may join any two
// nodes, and the plan has no room for most pairs; so the vertices from the ends of
// the links up to where their ways to the root meet get fronts of their own, wider
// than the plan's and with other parents. The order of elimination stays the
// plan's, and so does every vertex off these two ways: a link costs what two
// changed branches cost, and is solved as exactly as a branch of the plan.
//
// It is a function of the plan and the links alone.
type graft[T number] struct {
	fronts []front[T]
	at     []int32 // by vertex on page grafted: index into fronts
	stale  bool    // the links are other ones than those grafted
	narrow []int32 // vertices whose fronts lack the plan's members yet
	slots  []int32 // scratch
}

// front is a vertex of the plan as the links have it.
type front[T number] struct {
	t, parent int32
	mem       []int32 // members, ascending, Earth last
	shift     []int32 // by member in the plan: its index in mem
	slot      []int32 // by member but the first: its index at the parent
	kid       []int32
	own       []own // links; a branch of the plan keeps its place there
	ratio     []T
	pairs     []edge[T]
}

// regraft lets the present links grow in, and leaves in pending what is to be
// eliminated anew for it.
func (s *system[T]) regraft() {
	p, g := s.plan, &s.graft
	for i := range g.fronts {
		s.page[g.fronts[i].t] = turned
		s.pending = append(s.pending, g.fronts[i].t)
	}
	g.fronts, g.stale = g.fronts[:0], false
	if g.at == nil {
		g.at = make([]int32, p.nodes)
	}
	for i := range s.links {
		if e := s.links[i].ends; e.A != e.B {
			a, b := p.at[e.A], p.at[e.B]
			f := s.plant(min(a, b))
			f.mem = append(f.mem, max(a, b))
			f.own = append(f.own, own{branch: int32(i), flip: b < a})
		}
	}
	for len(g.narrow) > 0 { // children first
		low := 0
		for i, t := range g.narrow {
			if t < g.narrow[low] {
				low = i
			}
		}
		t := g.narrow[low]
		g.narrow = slices.Delete(g.narrow, low, low+1)
		s.widen(t)
	}
	for i := range g.fronts {
		s.place(&g.fronts[i])
	}
}

// plant gives vertex t a front, empty but for what is new in it, if it has none.
func (s *system[T]) plant(t int32) *front[T] {
	g := &s.graft
	if s.page[t] != grafted {
		n := int32(s.plan.nodes)
		if s.page[t] == checkpointed {
			s.turned = append(s.turned, t)
			s.mood[n+t] = s.mood[t]
		}
		s.page[t], g.at[t] = grafted, int32(len(g.fronts))
		s.pending, g.narrow = append(s.pending, t), append(g.narrow, t)
		if len(g.fronts) < cap(g.fronts) {
			g.fronts = g.fronts[:len(g.fronts)+1]
		} else {
			g.fronts = append(g.fronts, front[T]{})
		}
		f := &g.fronts[len(g.fronts)-1]
		f.t, f.mem, f.kid, f.own = t, f.mem[:0], f.kid[:0], f.own[:0]
	}
	return &g.fronts[g.at[t]]
}

// widen finds the members of vertex t, whose children have all told it theirs, and
// tells its parent.
func (s *system[T]) widen(t int32) {
	p, g := s.plan, &s.graft
	earth := int32(p.nodes - 1)
	f := &g.fronts[g.at[t]]
	f.mem = append(f.mem, p.mem[p.memAt[t]:p.memAt[t+1]]...)
	slices.Sort(f.mem)
	f.mem = slices.Compact(f.mem)
	f.parent = f.mem[0]
	mem, up, was := f.mem, f.parent, p.parent[t]
	if up == earth {
		return
	}
	if up != was && was != earth {
		s.plant(was) // it loses a child
	}
	theirs := p.mem[p.memAt[up]:p.memAt[up+1]]
	x := 0
	for _, m := range mem[1:] {
		for theirs[x] < m { // Earth is in both and the last
			x++
		}
		if theirs[x] != m {
			o := s.plant(up)
			o.mem = append(o.mem, m)
		}
	}
	if up != was {
		o := s.plant(up)
		o.kid = append(o.kid, t)
	}
}

// place finds where what a front takes part in stands.
func (s *system[T]) place(f *front[T]) {
	p, t := s.plan, f.t
	m := len(f.mem)
	f.shift = f.shift[:0]
	x := int32(0)
	for _, v := range p.mem[p.memAt[t]:p.memAt[t+1]] {
		for f.mem[x] != v {
			x++
		}
		f.shift = append(f.shift, x)
	}
	f.slot = f.slot[:0]
	if f.parent != int32(p.nodes-1) {
		over, _, _ := s.row(f.parent)
		x = 0
		for _, v := range f.mem[1:] {
			for over[x] != v {
				x++
			}
			f.slot = append(f.slot, x)
		}
	}
	for _, k := range p.kid[p.kidAt[t]:p.kidAt[t+1]] {
		if s.up(k) == t {
			f.kid = append(f.kid, k)
		}
	}
	for i := range f.own {
		e := s.links[f.own[i].branch].ends
		at, _ := slices.BinarySearch(f.mem, max(p.at[e.A], p.at[e.B]))
		f.own[i].slot = int32(at)
	}
	f.ratio = slices.Grow(f.ratio[:0], m)[:m]
	f.pairs = slices.Grow(f.pairs[:0], m*(m-1)/2)[:m*(m-1)/2]
}

// up is the parent of vertex t.
func (s *system[T]) up(t int32) int32 {
	if s.page[t] == grafted {
		return s.graft.fronts[s.graft.at[t]].parent
	}
	return s.plan.parent[t]
}

// row gives the members of vertex t, their ratios, and the pivot.
func (s *system[T]) row(t int32) (mem []int32, ratio []T, pv *pivot[T]) {
	p := s.plan
	first, last := p.memAt[t], p.memAt[t+1]
	switch s.page[t] {
	case checkpointed:
		return p.mem[first:last], s.ratio[first:last], &s.pivot[t]
	case turned:
		n := int32(len(p.mem))
		return p.mem[first:last], s.ratio[n+first : n+last], &s.pivot[int(t)+p.nodes]
	}
	f := &s.graft.fronts[s.graft.at[t]]
	return f.mem, f.ratio, &s.pivot[int(t)+p.nodes]
}

// kids gives the children of vertex t.
func (s *system[T]) kids(t int32) []int32 {
	if s.page[t] == grafted {
		return s.graft.fronts[s.graft.at[t]].kid
	}
	return s.plan.kid[s.plan.kidAt[t]:s.plan.kidAt[t+1]]
}

// mesh gives what elimination of vertex t leaves between its members, row by row.
func (s *system[T]) mesh(t int32) []edge[T] {
	p := s.plan
	first, last := p.pairAt[t], p.pairAt[t+1]
	switch s.page[t] {
	case checkpointed:
		return s.pairs[first:last]
	case turned:
		n := p.pairAt[p.nodes]
		return s.pairs[n+first : n+last]
	}
	return s.graft.fronts[s.graft.at[t]].pairs
}
