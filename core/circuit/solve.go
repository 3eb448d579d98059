package circuit

import "slices"

// solve brings the elimination up to date: all of it the first time, later only
// the way from each changed branch to the root. What it leaves is a function of
// the values alone, bit for bit, however it got there, because each vertex is
// eliminated anew from its own branches and its children.
func (s *system[T]) solve() error {
	if s.solved {
		return s.err
	}
	if !s.full {
		s.full = true
		for t := range int32(s.plan.nodes - 1) {
			s.renew(t)
		}
	}
	s.update()
	s.solved, s.clean = true, false
	s.epoch++
	if s.err = s.fault(); s.err == nil {
		s.drive = nil
		if s.count[weak] > 0 {
			s.refine()
		}
	}
	return s.err
}

// update eliminates anew what changed values and links concern.
func (s *system[T]) update() {
	if s.graft.stale {
		s.regraft()
	}
	for _, t := range s.climb(s.pending) {
		if s.page[t] == checkpointed {
			s.turned = append(s.turned, t)
			s.page[t], s.mood[int(t)+s.plan.nodes] = turned, s.mood[t]
		}
		s.count[s.mood[int(t)+s.plan.nodes]]--
		s.recent = append(s.recent, t)
		s.renew(t)
	}
	s.pending = s.pending[:0]
}

// renew eliminates vertex t onto the page that is right for it.
func (s *system[T]) renew(t int32) {
	at := s.second(t)
	_, ratio, pv := s.row(t)
	var reach float64
	*pv, reach, s.mood[at] = s.reduce(s.gather(t), s.mesh(t), ratio)
	s.count[s.mood[at]]++
	if s.grows {
		below := 0.0
		for _, k := range s.kids(t) {
			below = max(below, s.gain[s.second(k)])
		}
		s.gain[at] = max(reach, float64(max(reach, 1)*below))
	}
}

// gather sums up the edges of vertex t, and in its mesh what its children leave
// between its members.
func (s *system[T]) gather(t int32) []edge[T] {
	p, col := s.plan, s.col
	var f *front[T]
	if s.page[t] == grafted {
		f = &s.graft.fronts[s.graft.at[t]]
		if len(f.mem) > len(s.col) {
			s.col = make([]edge[T], 2*len(f.mem))
		}
		col = s.col[:len(f.mem)]
	} else {
		col = col[:p.memAt[t+1]-p.memAt[t]]
	}
	clear(col)
	for _, o := range p.own[p.ownAt[t]:p.ownAt[t+1]] {
		if f != nil {
			o.slot = f.shift[o.slot]
		}
		col[o.slot].take(s.src[o.branch], o.flip)
	}
	if f != nil {
		for _, o := range f.own {
			col[o.slot].take(s.links[o.branch].src, o.flip)
		}
	}
	col[len(col)-1].g += s.leak[p.node[t]]
	out := s.mesh(t)
	clear(out)
	for _, k := range s.kids(t) {
		slot := p.slot[p.memAt[k]+1 : p.memAt[k+1]]
		switch {
		case s.page[k] == grafted:
			slot = s.graft.fronts[s.graft.at[k]].slot
		case f != nil:
			s.graft.slots = s.graft.slots[:0]
			for _, x := range slot {
				s.graft.slots = append(s.graft.slots, f.shift[x])
			}
			slot = s.graft.slots
		}
		collect(col, out, s.mesh(k), slot)
	}
	return col
}

// take adds an edge that is counted from the vertex, or to it.
func (c *edge[T]) take(e edge[T], flip bool) {
	c.g += e.g
	if flip {
		c.h -= e.h
	} else {
		c.h += e.h
	}
}

// collect adds the mesh of a child, whose first member is the vertex itself and
// whose others are its members at slot.
func collect[T number](col, out, in []edge[T], slot []int32) {
	m := int32(len(col))
	for x, j := range slot {
		c := &col[j]
		c.g += in[x].g
		c.h += in[x].h
	}
	in = in[len(slot):]
	for x, i := range slot {
		row := i*m - i*(i+1)/2 - i - 1
		rest := slot[x+1:]
		for y, j := range rest {
			o := &out[row+j]
			o.g += in[y].g
			o.h += in[y].h
		}
		in = in[len(rest):]
	}
}

// fault names the first vertex that could not be eliminated, if any.
func (s *system[T]) fault() error {
	if s.count[bad] == 0 {
		return nil
	}
	for t := range int32(s.plan.nodes - 1) {
		if s.mood[s.second(t)] == bad {
			return &SingularError{Node(s.plan.node[t])}
		}
	}
	return nil
}

// climb lists the given vertices and all their ancestors, each once, ascending.
// The list is good until the next climb.
func (s *system[T]) climb(from []int32) []int32 {
	earth := int32(s.plan.nodes - 1)
	s.walk++
	s.path = s.path[:0]
	for n, t := range from {
		have := len(s.path)
		for ; t != earth && s.markAt[t] != s.walk; t = s.up(t) {
			s.markAt[t] = s.walk
			s.path = append(s.path, t)
		}
		if have == 0 || n >= manyPaths {
			continue
		}
		// Both runs ascend: merge them.
		s.merged = append(s.merged[:0], s.path[have:]...)
		i, at := have-1, len(s.path)-1
		for j := len(s.merged) - 1; j >= 0; at-- {
			if i >= 0 && s.path[i] > s.merged[j] {
				s.path[at] = s.path[i]
				i--
			} else {
				s.path[at] = s.merged[j]
				j--
			}
		}
	}
	if len(from) > manyPaths {
		slices.Sort(s.path)
	}
	return s.path
}

const manyPaths = 8 // above this, sorting once is cheaper than merging each
