package diagnose

import (
	"slices"

	"halfsplit/core/sim"
)

// What trainers ask of a step somebody else chose.

// A Worth is what a step could have told at a point of the search.
type Worth struct {
	Bits float64 // information on which suspect it is
	Able bool    // some fault of this panel would have changed its outcome
}

// Worth judges the candidate c after some observations.
func (e *Engine) Worth(obs []Observation, c int) Worth {
	s := e.survey(obs)
	p := s.posterior
	suspects := e.suspects(&s, obs)
	if e.Situations[e.Candidates[c].Situation].Off {
		few := suspects[:min(len(suspects), mostOff)]
		for i := range few {
			e.switchedOff(few[i].hyps)
		}
		suspects = few
	}
	w := Worth{Able: e.able(c)}
	var list []entry
	all := 0.0
	total := make([]float64, len(suspects))
	for s := range suspects {
		for _, i := range suspects[s].hyps {
			list = append(list, entry{e.solved(i, c), p.weight[i], s})
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

// Ask describes the candidate c as a step after some observations, as Find describes
// the best one.
func (e *Engine) Ask(obs []Observation, c int) *Step {
	s := e.survey(obs)
	suspects := e.suspects(&s, obs)
	for i := range suspects {
		for _, h := range suspects[i].hyps {
			e.solved(h, c)
		}
	}
	st := e.step(c, suspects, s.posterior)
	st.Bits = e.Worth(obs, c).Bits
	return st
}

// able says whether some fault of this panel changes the outcome of a candidate.
func (e *Engine) able(c int) bool {
	if known, ok := e.abled[c]; ok {
		return known
	}
	e.expect[c] = e.ask(0, c)
	able := slices.ContainsFunc(e.all, func(f int32) bool {
		e.look(f)
		for i := e.running(f); i < e.running(f+1); i++ {
			if e.hyps[i].prior > 0 && e.distinct(c, e.solved(i, c), e.expect[c]) {
				return true
			}
		}
		return false
	})
	e.abled[c] = able
	return able
}

// solved is outcomeOf a candidate that may not have been solved yet.
func (e *Engine) solved(i int32, c int) outcome {
	if e.Candidates[c].Look == AtPlace || e.covers(&e.hyps[i], int32(c)) {
		return e.outcomeOf(i, c)
	}
	column := e.columnOf(c)
	if _, ok := column[i]; !ok {
		column[i] = e.ask(i, c)
	}
	return column[i]
}

// Alike lists the faults that no step with power on tells from one of Set.Faults
// that came at an onset, itself among them, in order.
func (e *Engine) Alike(fault int, onset sim.Onset) []int {
	if e.alikes == nil {
		s := e.survey(nil)
		e.alikes = make([][]int, len(e.hyps))
		for _, class := range e.classify(s.living) {
			var list []int
			for _, i := range class {
				if f := e.faultOf(i); f != healthyPanel && (len(list) == 0 || list[len(list)-1] != f) {
					list = append(list, f)
				}
			}
			for _, i := range class {
				e.alikes[i] = list
			}
		}
	}
	return e.alikes[e.at(fault, onset)]
}

// Predict is what a candidate shows under one of Set.Faults that came at an onset,
// -1 for the healthy panel: volts, ohms or the state of a look. ghost says that a
// reading hangs on insulation.
func (e *Engine) Predict(fault int, onset sim.Onset, c int) (value float64, ghost bool) {
	o := e.solved(e.at(fault, onset), c)
	return o.value, o.ghost
}

// at is the hypothesis of a fault at an onset; where both come out the same there is
// one for both.
func (e *Engine) at(fault int, onset sim.Onset) int32 {
	if fault == healthyPanel {
		return 0
	}
	i := e.running(int32(fault))
	if onset == sim.Start && e.onsets == 2 {
		if e.look(int32(fault)); e.hyps[i+1].prior > 0 {
			return i + 1
		}
	}
	return i
}
