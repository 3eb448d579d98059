package diagnose

// What trainers ask of a step somebody else chose.

// A Worth is what a step could have told at a point of the search.
type Worth struct {
	Bits float64 // information on which suspect it is
	Able bool    // some fault of this panel would have changed its outcome
}

// Worth judges the candidate c after some observations. Every fault of the engine
// must have been solved by Step.
func (e *Engine) Worth(obs []Observation, c int) Worth {
	p := e.posterior(obs)
	suspects := e.suspects(p, obs)
	if e.Situations[e.Candidates[c].Situation].Off {
		few := suspects[:min(len(suspects), mostOff)]
		for i := range few {
			e.switchedOff(few[i].hyps)
		}
		suspects = few
	}
	w := Worth{}
	for i := range e.hyps {
		if e.distinct(c, e.outcomeOf(&e.hyps[i], c), e.expect[c]) {
			w.Able = true
			break
		}
	}
	var list []entry
	all := 0.0
	total := make([]float64, len(suspects))
	for s := range suspects {
		for _, i := range suspects[s].hyps {
			list = append(list, entry{e.outcomeOf(&e.hyps[i], c), p.weight[i], s})
			total[s] += p.weight[i]
			all += p.weight[i]
		}
	}
	if all <= 0 {
		return w
	}
	h := 0.0
	for _, band := range e.bands(c, list) {
		mass := 0.0
		share := make([]float64, len(suspects))
		for _, en := range band {
			mass += en.weight
			share[en.suspect] += en.weight
		}
		h -= plogp(mass / all)
		for s, part := range share {
			if part > 0 {
				h += float64(plogp(min(1, part/total[s])) * total[s] / all)
			}
		}
	}
	w.Bits = max(0, round(h))
	return w
}

// Alike lists the faults that no step with power on tells from one of Set.Faults,
// itself among them, in order.
func (e *Engine) Alike(fault int) []int {
	var list []int
	for _, i := range e.classes[e.hypothesisOf(fault).class] {
		if f := e.hyps[i].fault; f != healthyPanel && (len(list) == 0 || list[len(list)-1] != f) {
			list = append(list, f)
		}
	}
	return list
}

// Predict is what a candidate shows under one of Set.Faults, -1 for the healthy
// panel: volts, ohms or the state of a look. ghost says that a reading hangs on
// insulation.
func (e *Engine) Predict(fault, c int) (value float64, ghost bool) {
	o := e.outcomeOf(e.hypothesisOf(fault), c)
	return o.value, o.ghost
}
