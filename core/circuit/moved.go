package circuit

// A Watch says which nodes of a plan somebody looks at.
type Watch struct{ under []bool } // by vertex: it or one of its subtree is watched

// Watch makes a Watch of some nodes.
func (p *Plan) Watch(nodes []Node) *Watch {
	w := &Watch{make([]bool, p.nodes)}
	for _, n := range nodes {
		for t := p.at[n]; !w.under[t]; t = p.parent[t] {
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
		s.merged = s.merged[:0]
		for i := range s.fronts {
			s.merged = append(s.merged, s.fronts[i].t)
		}
		s.compare(w, s.base, bound, s.merged)
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
			if s.size(s.volt(t)-was[t]) > bound {
				s.out = append(s.out, t)
			}
		}
		return
	}
	s.walk++
	todo := s.path[:0]
	for _, t := range changed {
		if s.markAt[t] != s.walk {
			s.markAt[t] = s.walk
			if s.up(t) == earth {
				todo = append(todo, t)
			}
		}
	}
	for len(todo) > 0 {
		t := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		v := &s.volts[t]
		if v.at != s.epoch { // its members are up to date, for they were here before
			v.x, v.at = s.back(s, t), s.epoch
		}
		d := s.size(v.x - was[t])
		s.delta[t] = d
		if d > bound {
			s.out = append(s.out, t)
		}
		for _, k := range s.kids(t) {
			if w != nil && !w.under[k] && s.shape(k) == nil {
				continue
			}
			limit := bound
			if s.grows {
				_, gain := s.mind(k)
				limit /= *gain
			}
			if d > limit || s.markAt[k] == s.walk || s.canMove(k, limit) {
				todo = append(todo, k)
			}
		}
	}
	s.path = todo
}

// canMove tells whether a member of t moved further than limit.
func (s *system[T]) canMove(t int32, limit float64) bool {
	mem, _, _ := s.row(t)
	for _, m := range mem[:len(mem)-1] {
		if s.delta[m] > limit {
			return true
		}
	}
	return false
}
