package circuit

import "slices"

// graft is where links grow together with the plan. A link may join any two
// nodes, and the plan has no room for most pairs; so the vertices from the ends of
// the links up to where their ways to the root meet get another shape: wider than
// the plan's, and with other parents. The order of elimination stays the plan's,
// and so does every vertex off these two ways: a link costs what two changed
// branches cost, and is solved as exactly as a branch of the plan.
//
// It is a function of the plan and the links alone.
type graft struct {
	shapes []*shape // those in use first
	shaped int      // how many are
	stale  bool     // the links are other ones than those grafted
	narrow []int32  // vertices whose shapes lack the plan's members yet
	slots  []int32  // scratch
}

// shape is a vertex as the links have it.
type shape struct {
	t, parent int32
	mem       []int32 // members, ascending, Earth last
	shift     []int32 // by member in the plan: its index in mem
	slot      []int32 // by member but the first: its index at the parent
	kid       []int32
	own       []own // links; a branch of the plan keeps its place there
}

// regraft lets the present links grow in, and leaves in pending what is to be
// eliminated anew for it.
func (s *system[T]) regraft() {
	p := s.plan
	for _, sh := range s.shapes[:s.shaped] {
		f := s.front(sh.t)
		f.shape = nil
		s.room(f, len(p.members(sh.t)))
		s.pending = append(s.pending, sh.t)
	}
	s.shaped, s.stale = 0, false
	for i := range s.links {
		if e := s.links[i].ends; e.A != e.B {
			a, b := p.at[e.A], p.at[e.B]
			sh := s.plant(min(a, b))
			sh.mem = append(sh.mem, max(a, b))
			sh.own = append(sh.own, own{branch: int32(i), flip: b < a})
		}
	}
	for len(s.narrow) > 0 { // children first
		low := 0
		for i, t := range s.narrow {
			if t < s.narrow[low] {
				low = i
			}
		}
		t := s.narrow[low]
		s.narrow = slices.Delete(s.narrow, low, low+1)
		s.widen(s.shape(t))
	}
	for _, sh := range s.shapes[:s.shaped] {
		s.place(sh)
	}
}

// plant gives vertex t a shape, empty but for what is new in it, if it has none.
func (s *system[T]) plant(t int32) *shape {
	f := s.open(t)
	if f.shape == nil {
		if s.shaped == len(s.shapes) {
			s.shapes = append(s.shapes, &shape{})
		}
		f.shape = s.shapes[s.shaped]
		s.shaped++
		sh := f.shape
		sh.t, sh.mem, sh.kid, sh.own = t, sh.mem[:0], sh.kid[:0], sh.own[:0]
		s.pending, s.narrow = append(s.pending, t), append(s.narrow, t)
	}
	return f.shape
}

// widen finds the members of a vertex, whose children have all told it theirs, and
// tells its parent.
func (s *system[T]) widen(sh *shape) {
	p, t := s.plan, sh.t
	earth := int32(p.nodes - 1)
	sh.mem = append(sh.mem, p.members(t)...)
	slices.Sort(sh.mem)
	sh.mem = slices.Compact(sh.mem)
	sh.parent = sh.mem[0]
	up, was := sh.parent, p.vertex[t].parent
	if up == earth {
		return
	}
	if up != was {
		if was != earth {
			s.plant(was) // it loses a child
		} else { // two trees become one: a Watch knows nothing of that
			for u := up; u != earth; u = p.vertex[u].parent {
				s.plant(u)
			}
		}
		o := s.plant(up)
		o.kid = append(o.kid, t)
	}
	theirs := p.members(up)
	x := 0
	for _, m := range sh.mem[1:] {
		for theirs[x] < m { // Earth is in both and the last
			x++
		}
		if theirs[x] != m {
			o := s.plant(up)
			o.mem = append(o.mem, m)
		}
	}
}

// place finds where what a vertex takes part in stands.
func (s *system[T]) place(sh *shape) {
	p, t := s.plan, sh.t
	sh.shift = places(sh.shift[:0], sh.mem, p.members(t))
	sh.slot = sh.slot[:0]
	if up := sh.parent; up != int32(p.nodes-1) {
		over := p.members(up)
		if o := s.shape(up); o != nil {
			over = o.mem
		}
		sh.slot = places(sh.slot, over, sh.mem[1:])
	}
	for _, k := range p.kids(t) {
		if s.up(k) == t {
			sh.kid = append(sh.kid, k)
		}
	}
	for i := range sh.own {
		e := s.links[sh.own[i].branch].ends
		at, _ := slices.BinarySearch(sh.mem, max(p.at[e.A], p.at[e.B]))
		sh.own[i].slot = int32(at)
	}
	s.room(s.front(t), len(sh.mem))
}

// places appends where in a list each of some of its members stands, both
// ascending.
func places(at, list, some []int32) []int32 {
	x := int32(0)
	for _, v := range some {
		for list[x] != v {
			x++
		}
		at = append(at, x)
	}
	return at
}
