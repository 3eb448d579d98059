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
	} else {
		for _, t := range s.climb(s.pending) {
			if s.page[t] == 0 {
				s.count[s.mood[t]]--
				s.page[t] = 1
				s.turned = append(s.turned, t)
			} else {
				s.count[s.mood[int(t)+s.plan.nodes]]--
			}
			s.recent = append(s.recent, t)
			s.renew(t)
		}
		if len(s.pending) > 0 {
			s.links.stale = true
		}
	}
	s.pending = s.pending[:0]
	s.solved, s.clean = true, false
	s.epoch++
	if s.err = s.fault(); s.err == nil {
		s.err = s.link()
	}
	return s.err
}

// renew eliminates vertex t onto the page that is right for it.
func (s *system[T]) renew(t int32) {
	m := s.eliminate(s, t)
	s.mood[int(t)+int(s.page[t])*s.plan.nodes] = m
	s.count[m]++
}

// fault names the first vertex that could not be eliminated, if any.
func (s *system[T]) fault() error {
	if s.count[bad] == 0 {
		return nil
	}
	for t := range s.plan.nodes - 1 {
		if s.mood[t+int(s.page[t])*s.plan.nodes] == bad {
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
		for ; t != earth && s.markAt[t] != s.walk; t = s.plan.parent[t] {
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
