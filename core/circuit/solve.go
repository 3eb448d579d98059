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
	for _, t := range s.climb(s.pending) {
		if s.held {
			s.open(t)
		}
		m, _ := s.mind(t)
		s.count[*m]--
		s.renew(t)
		s.recent = append(s.recent, t)
	}
	s.pending = s.pending[:0]
}

// renew eliminates vertex t to where its numbers stand.
func (s *system[T]) renew(t int32) {
	mem, ratio, pv := s.row(t)
	m, gain := s.mind(t)
	out := s.mesh(t, len(mem))
	var reach float64
	*pv, reach, *m = s.reduce(s.gather(t, len(mem), out), out, ratio)
	s.count[*m]++
	if s.grows {
		below := 0.0
		for _, k := range s.kids(t) {
			_, g := s.mind(k)
			below = max(below, *g)
		}
		*gain = max(reach, float64(max(reach, 1)*below))
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
	clear(col)
	for _, o := range p.own[p.ownAt[t]:p.ownAt[t+1]] {
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
		slot := p.slot[p.memAt[k]+1 : p.memAt[k+1]]
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
		if m, _ := s.mind(t); *m == bad {
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
