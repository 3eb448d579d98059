package circuit

import "slices"

// front is what elimination made of one vertex apart from the plan.
type front[T number] struct {
	t               int32
	ratioAt, pairAt int32 // where its numbers begin in their stores
	room            int32 // members there is a place for
	mood            mood
	gain            float64
	pivot           pivot[T]
	shape           *shape // nil: the plan's
}

// apart is what a system holds apart from the plan.
type apart[T number] struct {
	at     []int32 // by vertex: 1 + the index of its front; 0 without
	fronts []front[T]
	ratios []T
	meshes []edge[T]
	graft
}

// open gives vertex t a front, if it has none.
func (s *system[T]) open(t int32) *front[T] {
	if s.at[t] == 0 {
		s.fronts = append(s.fronts, front[T]{t: t, mood: s.mood[t]})
		s.at[t] = int32(len(s.fronts))
		s.room(s.front(t), len(s.plan.members(t)))
	}
	return s.front(t)
}

// front is that of vertex t, nil without.
func (s *system[T]) front(t int32) *front[T] {
	if i := s.at[t]; i > 0 {
		return &s.fronts[i-1]
	}
	return nil
}

// room makes a place for the numbers of a front of so many members, where it has
// none as large: links that come and go use it again.
func (s *system[T]) room(f *front[T], members int) {
	if members <= int(f.room) {
		return
	}
	r, m := len(s.ratios), len(s.meshes)
	f.ratioAt, f.pairAt, f.room = int32(r), int32(m), int32(members)
	pairs := members * (members - 1) / 2
	if r+members > cap(s.ratios) {
		s.ratios = slices.Grow(s.ratios, members)
	}
	if m+pairs > cap(s.meshes) {
		s.meshes = slices.Grow(s.meshes, pairs)
	}
	s.ratios, s.meshes = s.ratios[:r+members], s.meshes[:m+pairs]
}

// adopt has the fronts stand where the plan has room for them, but for those that
// links shape.
func (s *system[T]) adopt() {
	p := s.plan
	for i := range s.fronts {
		f := &s.fronts[i]
		if t := f.t; f.shape == nil {
			v := &p.vertex[t]
			m := int(v.memEnd - v.mem)
			copy(s.pairs[v.pair:][:m*(m-1)/2], s.meshes[f.pairAt:])
			copy(s.ratio[v.mem:v.memEnd], s.ratios[f.ratioAt:])
			s.pivot[t], s.mood[t] = f.pivot, f.mood
			if s.grows {
				s.gain[t] = f.gain
			}
		}
	}
}

// drop takes all fronts away. Those that links shape are made anew when needed.
func (s *system[T]) drop() {
	for i := range s.fronts {
		f := &s.fronts[i]
		s.at[f.t] = 0
		s.count[f.mood]--
		s.count[s.mood[f.t]]++
	}
	s.fronts, s.ratios, s.meshes = s.fronts[:0], s.ratios[:0], s.meshes[:0]
	s.shaped, s.stale = 0, len(s.links) > 0
}

// shape is that of vertex t where links have changed it, else nil.
func (s *system[T]) shape(t int32) *shape {
	if i := s.at[t]; i > 0 {
		return s.fronts[i-1].shape
	}
	return nil
}

// up is the parent of vertex t.
func (s *system[T]) up(t int32) int32 {
	if sh := s.shape(t); sh != nil {
		return sh.parent
	}
	return s.plan.vertex[t].parent
}

// kids gives the children of vertex t.
func (s *system[T]) kids(t int32) []int32 {
	if sh := s.shape(t); sh != nil {
		return sh.kid
	}
	return s.plan.kids(t)
}

// row gives the members of vertex t and their ratios.
func (s *system[T]) row(t int32) (mem []int32, ratio []T) {
	v := &s.plan.vertex[t]
	mem = s.plan.mem[v.mem:v.memEnd]
	if i := s.at[t]; i > 0 {
		f := &s.fronts[i-1]
		if f.shape != nil {
			mem = f.shape.mem
		}
		return mem, s.ratios[f.ratioAt:][:len(mem)]
	}
	return mem, s.ratio[v.mem:v.memEnd]
}

// pivotOf is where the pivot of vertex t stands.
func (s *system[T]) pivotOf(t int32) *pivot[T] {
	if i := s.at[t]; i > 0 {
		return &s.fronts[i-1].pivot
	}
	return &s.pivot[t]
}

// mem gives the members of vertex t.
func (s *system[T]) mem(t int32) []int32 {
	if sh := s.shape(t); sh != nil {
		return sh.mem
	}
	return s.plan.members(t)
}

// mesh gives the edges that vertex t, of so many members, leaves between them, row
// by row.
func (s *system[T]) mesh(t int32, members int) []edge[T] {
	pairs := members * (members - 1) / 2
	if i := s.at[t]; i > 0 {
		return s.meshes[s.fronts[i-1].pairAt:][:pairs]
	}
	return s.pairs[s.plan.vertex[t].pair:][:pairs]
}

// moodOf is the mood of vertex t.
func (s *system[T]) moodOf(t int32) mood {
	if i := s.at[t]; i > 0 {
		return s.fronts[i-1].mood
	}
	return s.mood[t]
}

// reach is the gain of vertex t, where it grows.
func (s *system[T]) reach(t int32) float64 {
	if i := s.at[t]; i > 0 {
		return s.fronts[i-1].gain
	}
	return s.gain[t]
}
