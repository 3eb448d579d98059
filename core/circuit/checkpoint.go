package circuit

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
		if s.grows {
			s.gain[t] = s.gain[n+t]
		}
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
	for _, t := range out {
		s.base[t] = s.volt(t)
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
	s.drive = nil
	s.round++
	s.epoch++
	s.solved, s.clean, s.err = true, true, nil
}
