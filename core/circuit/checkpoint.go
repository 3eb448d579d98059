package circuit

import "slices"

func (s *system[T]) checkpoint() {
	s.ready()
	if s.err != nil {
		panic("circuit: Checkpoint after a failed Solve")
	}
	for t := int32(s.plan.nodes - 2); t >= 0; t-- { // parents first: no climb is longer than one step
		s.base[t] = s.voltage(Node(s.plan.node[t]))
	}
	s.keep()
	copy(s.seen, s.base)
	s.sighted, s.recent = s.sighted[:0], s.recent[:0]
}

// keep makes what has been eliminated since the checkpoint the checkpoint's.
func (s *system[T]) keep() {
	p, n := s.plan, int32(s.plan.nodes)
	kept := s.turned[:0]
	for _, t := range s.turned {
		s.mood[t] = s.mood[n+t]
		if s.page[t] == grafted { // its front is made anew when somebody returns here
			kept = append(kept, t)
			continue
		}
		copy(s.pairs[p.pairAt[t]:p.pairAt[t+1]], s.pairs[p.pairAt[n]+p.pairAt[t]:])
		copy(s.ratio[p.memAt[t]:p.memAt[t+1]], s.ratio[int(p.memAt[n])+int(p.memAt[t]):])
		s.pivot[t], s.page[t] = s.pivot[n+t], checkpointed
	}
	s.turned, s.was, s.recent = kept, s.was[:0], s.recent[:0]
	s.linksBase = append(s.linksBase[:0], s.links...)
	s.round++
	s.held, s.clean = true, true
}

// advance moves the checkpoint on at the cost of what moved: the voltages of
// nodes within bound of the old one are left as they were, so that after many
// small steps Moved may be off by as many bounds.
func (s *system[T]) advance(bound float64) []int32 {
	out := s.moved(bound)
	for _, n := range out {
		t := s.plan.at[n]
		s.base[t] = s.voltage(Node(n))
	}
	s.keep()
	s.clean = false // its voltages are the checkpoint's only to within bound
	return out
}

func (s *system[T]) revert() {
	if !s.held {
		panic("circuit: Revert without a Checkpoint")
	}
	n := s.plan.nodes
	for _, t := range s.turned {
		s.count[s.mood[n+int(t)]]--
		s.count[s.mood[t]]++
		s.page[t] = checkpointed
	}
	s.graft.fronts, s.graft.stale = s.graft.fronts[:0], len(s.linksBase) > 0
	s.links = append(s.links[:0], s.linksBase...)
	for _, o := range s.was {
		s.fill(int(o.branch), o.val)
	}
	s.turned, s.was, s.pending = s.turned[:0], s.was[:0], s.pending[:0]
	s.unsee()
	s.undrive()
	s.round++
	s.epoch++
	s.solved, s.clean, s.err = true, true, nil
}

// moved lists the nodes whose voltage is more than bound from the checkpoint's,
// ascending.
//
// A subtree without a change in it answers to its members alone, and none of
// its voltages can move further than gain times what moves most among them (for
// DC gain is 1: each voltage is a weighted mean). So such subtrees are entered
// only where a member moved that far, and the cost follows what moved.
func (s *system[T]) moved(bound float64) []int32 {
	s.ready()
	if !s.held {
		panic("circuit: Moved without a Checkpoint")
	}
	s.out = s.out[:0]
	if s.clean {
		return s.out
	}
	s.merged = append(s.merged[:0], s.turned...)
	s.compare(s.base, bound)
	slices.Sort(s.out)
	return s.out
}

// look lists the nodes whose voltage is more than bound from where the last look
// at them, or the checkpoint, had it, ascending. It costs what moved since the
// last look; a node that creeps by less than bound a look may be told late or not
// at all.
func (s *system[T]) look(bound float64) []int32 {
	s.ready()
	if !s.held {
		panic("circuit: Look without a Checkpoint")
	}
	s.out = s.out[:0]
	if s.clean {
		return s.out
	}
	s.merged = append(s.merged[:0], s.recent...)
	s.compare(s.seen, bound)
	for _, n := range s.out {
		t := s.plan.at[n]
		s.seen[t] = s.voltage(Node(n))
		s.sighted = append(s.sighted, t)
	}
	s.recent = s.recent[:0]
	return s.out
}

// unsee forgets all looks since the checkpoint.
func (s *system[T]) unsee() {
	for _, t := range s.sighted {
		s.seen[t] = s.base[t]
	}
	s.sighted, s.recent = s.sighted[:0], s.recent[:0]
}

// compare lists in s.out the nodes more than bound from a reference, where only
// the vertices in s.merged have been eliminated anew since then.
func (s *system[T]) compare(was []T, bound float64) {
	p := s.plan
	if s.refined {
		for n := range Node(p.nodes) {
			if s.size(s.voltage(n)-was[p.at[n]]) > bound {
				s.out = append(s.out, int32(n))
			}
		}
		return
	}
	slices.Sort(s.merged)
	s.merged = slices.Compact(s.merged)
	s.walk++
	for _, t := range s.merged {
		s.markAt[t] = s.walk
	}
	for i := len(s.merged) - 1; i >= 0; i-- {
		s.stack = s.stack[:0]
		todo := append(s.path[:0], s.merged[i])
		for len(todo) > 0 {
			t := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			d := s.volt(t) - was[t]
			s.delta[t] = d
			if s.size(d) > bound {
				s.out = append(s.out, p.node[t])
			}
			for _, k := range s.kids(t) {
				if s.markAt[k] != s.walk && s.canMove(k, bound) {
					todo = append(todo, k)
				}
			}
		}
		s.path = todo
	}
}

// canMove tells whether a member of t moved far enough for t, or anything
// below it, to move by more than bound.
func (s *system[T]) canMove(t int32, bound float64) bool {
	limit := bound / s.pv(t).gain
	mem, _ := s.row(t)
	for _, m := range mem[:len(mem)-1] {
		if s.size(s.delta[m]) > limit {
			return true
		}
	}
	return false
}
