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
			s.recent = append(s.recent, t)
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
	if s.stale {
		s.regraft()
	}
	path := s.climb(s.pending)
	for _, t := range path {
		if s.held {
			s.open(t)
		}
		s.count[s.moodOf(t)]--
		s.renew(t)
	}
	s.recent = append(s.recent, path...)
	s.pending = s.pending[:0]
}

// renew eliminates vertex t to where its numbers stand.
func (s *system[T]) renew(t int32) {
	mem, ratio := s.row(t)
	out := s.mesh(t, len(mem))
	pv, reach, m := s.reduce(s.gather(t, len(mem), out), out, ratio)
	s.count[m]++
	gain := reach
	if s.grows {
		below := 0.0
		for _, k := range s.kids(t) {
			if g := s.reach(k); g > below {
				below = g
			}
		}
		if reach > 1 {
			below = float64(reach * below)
		}
		if below > gain {
			gain = below
		}
	}
	if f := s.front(t); f != nil {
		f.pivot, f.mood, f.gain = pv, m, gain
		return
	}
	s.pivot[t], s.mood[t] = pv, m
	if s.grows {
		s.gain[t] = gain
	}
}

// gather sums up the edges of vertex t, and in out what its children leave between
// its members.
func (s *system[T]) gather(t int32, members int, out []edge[T]) []edge[T] {
	p, sh := s.plan, s.shape(t)
	if members > len(s.col) {
		s.col = make([]edge[T], 2*members)
	}
	col := s.col[:members]
	for i := range col { // clear would be a call
		col[i] = edge[T]{}
	}
	v := &p.vertex[t]
	for _, o := range p.own[v.own:v.ownEnd] {
		if sh != nil {
			o.slot = sh.shift[o.slot]
		}
		col[o.slot].take(s.src[o.branch], o.flip)
	}
	if sh != nil {
		for _, o := range sh.own {
			col[o.slot].take(s.links[o.branch].src, o.flip)
		}
	}
	col[members-1].g += s.leak[p.node[t]]
	clear(out)
	for _, k := range s.kids(t) {
		u := &p.vertex[k]
		slot := p.slot[u.mem+1 : u.memEnd]
		if kid := s.shape(k); kid != nil {
			slot = kid.slot
		} else if sh != nil {
			s.slots = s.slots[:0]
			for _, x := range slot {
				s.slots = append(s.slots, sh.shift[x])
			}
			slot = s.slots
		}
		collect(col, out, s.mesh(k, len(slot)+1), slot)
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
	m := len(col)
	first := in[:len(slot)]
	for x, j := range slot {
		c, e := &col[j], &first[x]
		c.g += e.g
		c.h += e.h
	}
	in = in[len(slot):]
	for x := range slot {
		i, rest := int(slot[x]), slot[x+1:]
		row, edges := i*m-i*(i+1)/2-i-1, in[:len(rest)]
		for y, j := range rest {
			o, e := &out[row+int(j)], &edges[y]
			o.g += e.g
			o.h += e.h
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
		if s.moodOf(t) == bad {
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
	walk, markAt, path := s.walk, s.markAt, s.path[:0]
	for n, t := range from {
		have := len(path)
		for ; t != earth && markAt[t] != walk; t = s.up(t) {
			markAt[t] = walk
			path = append(path, t)
		}
		if have == 0 || n >= manyPaths || len(path) == have {
			continue
		}
		// Both runs ascend: merge them.
		s.merged = append(s.merged[:0], path[have:]...)
		merged := s.merged
		i, at := have-1, len(path)-1
		for j := len(merged) - 1; j >= 0; at-- {
			if i >= 0 && path[i] > merged[j] {
				path[at] = path[i]
				i--
			} else {
				path[at] = merged[j]
				j--
			}
		}
	}
	if len(from) > manyPaths {
		slices.Sort(path)
	}
	s.path = path
	return path
}

const manyPaths = 8 // above this, sorting once is cheaper than merging each
