package circuit

import "fmt"

// link is a branch outside the plan; see graft.
type link[T number] struct {
	ends Ends
	val  term[T]
	src  edge[T]
}

func (s *system[T]) addLink(a, b Node, v term[T]) int {
	if n := s.plan.nodes; a < 0 || b < 0 || int(a) >= n || int(b) >= n {
		panic(fmt.Sprintf("circuit: a link joins nodes %d and %d, and there are %d nodes", a, b, n))
	}
	s.links = append(s.links, link[T]{Ends{a, b}, v, s.source(v)})
	s.stale, s.solved = true, false
	return len(s.links) - 1
}

func (s *system[T]) setLink(i int, v term[T]) {
	l := &s.links[i]
	if l.val == v {
		return
	}
	l.val, l.src = v, s.source(v)
	s.solved = false
	if l.ends.A != l.ends.B && !s.stale {
		s.pending = append(s.pending, min(s.plan.at[l.ends.A], s.plan.at[l.ends.B]))
	}
}

func (s *system[T]) unlink() {
	if last := len(s.links) - 1; last < 0 || s.held && last < len(s.linksBase) {
		panic("circuit: no link to take away that was made since the checkpoint")
	}
	s.links = s.links[:len(s.links)-1]
	s.stale, s.solved = true, false
}

func (s *system[T]) linkCurrent(i int) T { return s.flow(s.links[i].ends, s.links[i].val) }
