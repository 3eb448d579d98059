package circuit

// A Watch says which nodes of a plan somebody looks at.
type Watch struct{ under []bool } // by vertex: it or one of its subtree is watched

// Watch makes a Watch of some nodes.
func (p *Plan) Watch(nodes []Node) *Watch {
	w := &Watch{make([]bool, p.nodes)}
	for _, n := range nodes {
		for t := p.at[n]; !w.under[t]; t = p.vertex[t].parent {
			w.under[t] = true
		}
	}
	return w
}

// moved lists vertices whose voltage is more than bound from the checkpoint's,
// parents first: all that are watched, and some of the others.
func (s *system[T]) moved(w *Watch, bound float64) []int32 {
	s.ready()
	if !s.held {
		panic("circuit: Moved without a Checkpoint")
	}
	s.out = s.out[:0]
	if !s.clean {
		list := s.merged[:0]
		for i := range s.fronts {
			list = append(list, s.fronts[i].t)
		}
		s.merged = list
		s.compare(w, s.base, bound, list)
	}
	return s.out
}

// look lists vertices whose voltage is more than bound from where the last look at
// them, or the checkpoint, or 0 V, had it, parents first: all that are watched, and
// some of the others. It costs what moved since the last look; a node that creeps
// by less than bound a look may be told late or not at all.
func (s *system[T]) look(w *Watch, bound float64) []int32 {
	s.ready()
	s.out = s.out[:0]
	if s.clean {
		return s.out
	}
	s.compare(w, s.seen, bound, s.recent)
	for _, t := range s.out {
		s.seen[t] = s.volts[t].x
	}
	if s.held {
		s.sighted = append(s.sighted, s.out...)
	}
	s.recent = s.recent[:0]
	return s.out
}

// compare lists in s.out the vertices more than bound from a reference, where
// only the vertices in changed, and with each its ancestors, have been eliminated
// anew since then. It does not enter subtrees where nothing is watched.
//
// A subtree without a change in it answers to its members alone, and none of
// its voltages can move further than gain times what moves most among them (for
// DC gain is 1: each voltage is a weighted mean). So such subtrees are entered
// only where a member moved that far, and the cost follows what moved.
func (s *system[T]) compare(w *Watch, was []T, bound float64, changed []int32) {
	earth := int32(s.plan.nodes - 1)
	if s.drive != nil {
		for t := earth - 1; t >= 0; t-- {
			s.volt(t)
			if s.step(s, t, was[t]) > bound {
				s.out = append(s.out, t)
			}
		}
		return
	}
	s.walk++
	walk, markAt, delta, grows := s.walk, s.markAt, s.delta, s.grows
	var under []bool
	if w != nil {
		under = w.under
	}
	todo, out := s.path[:0], s.out
	for _, t := range changed {
		if markAt[t] != walk {
			markAt[t] = walk
			if s.up(t) == earth {
				todo = append(todo, t)
			}
		}
	}
	for len(todo) > 0 {
		t := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		d := s.step(s, t, was[t]) // its members are up to date, for they were here before
		delta[t] = d
		if d > bound {
			out = append(out, t)
		}
		for _, k := range s.kids(t) {
			if under != nil && !under[k] && s.shape(k) == nil {
				continue
			}
			limit := bound
			if grows {
				limit /= s.reach(k)
			}
			if d > limit || markAt[k] == walk || s.canMove(k, limit) {
				todo = append(todo, k)
			}
		}
	}
	s.path, s.out = todo, out
}

// canMove tells whether a member of t moved further than limit.
func (s *system[T]) canMove(t int32, limit float64) bool {
	mem, delta := s.mem(t), s.delta
	for _, m := range mem[:len(mem)-1] {
		if delta[m] > limit {
			return true
		}
	}
	return false
}

// nodes turns a list of vertices into one of nodes, good until the next.
func (s *system[T]) nodes(vertices []int32) []Node {
	list, node := s.named[:0], s.plan.node
	for _, t := range vertices {
		list = append(list, Node(node[t]))
	}
	s.named = list
	return list
}
