package circuit

func (s *system[T]) checkpoint() {
	s.ready()
	if s.err != nil {
		panic("circuit: Checkpoint after a failed Solve")
	}
	for t := int32(s.plan.nodes - 2); t >= 0; t-- { // parents first: no climb is longer than one step
		s.base[t] = s.voltage(Node(s.plan.node[t]))
	}
	copy(s.seen, s.base)
	s.adopt()
	s.linksBase = append(s.linksBase[:0], s.links...)
	s.forget()
	s.held = true
}

func (s *system[T]) revert() {
	if !s.held {
		panic("circuit: Revert without a Checkpoint")
	}
	for _, t := range s.sighted {
		s.seen[t] = s.base[t]
	}
	for _, o := range s.was {
		s.fill(int(o.branch), o.val)
	}
	s.links = append(s.links[:0], s.linksBase...)
	s.forget()
	s.solved, s.err = true, nil
}

// forget drops what there is beside a checkpoint that the system is at.
func (s *system[T]) forget() {
	for _, o := range s.was {
		s.changed[o.branch] = false
	}
	s.was, s.pending, s.sighted, s.recent = s.was[:0], s.pending[:0], s.sighted[:0], s.recent[:0]
	s.drop()
	s.drive = nil
	s.epoch++
	s.clean = true
}
