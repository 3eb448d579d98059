package diagnose

import (
	"math"
	"slices"
)

// fitOhms looks for resistances that explain all that was observed, and puts them in
// place.
func (e *Engine) fitOhms(obs []Observation) {
	if e.fitting.done {
		return
	}
	e.focus(e.complaint(obs))
	seen, families := e.telling(obs), e.families()
	if !slices.ContainsFunc(seen, func(o Observation) bool { return o.Kind == Read }) {
		families = nil // looks alone tell no resistance
	}
	e.Pace.Expect(len(families) - e.fitting.tried)
	for ; e.fitting.tried < len(families); e.fitting.tried++ {
		f := families[e.fitting.tried]
		e.Pace.Breathe()
		if ohms, ok := e.fitted(f, seen); ok {
			if mode, ok := e.Set.WithOhms(&e.Set.Faults[f], ohms); ok {
				e.fitting.found = append(e.fitting.found, substitute{f, mode})
				e.fitting.was = append(e.fitting.was, substitute{f, e.Set.Faults[f].Mode})
			}
		}
		e.settled++
		e.Pace.Did(1)
	}
	e.fitting.done = true
	e.replace(obs, e.fitting.found)
}

// telling is what was observed but for a close look at one place.
func (e *Engine) telling(obs []Observation) (list []Observation) {
	for _, o := range obs {
		if o.In == nil {
			o.In = e
		}
		if o.In.Candidates[o.Candidate].Look != AtPlace {
			list = append(list, o)
		}
	}
	return list
}

// families are the faults of the scope that have a resistance, the last listed of
// each thing.
func (e *Engine) families() (list []int) {
	for _, f := range e.scope.faults {
		m := e.Set.Faults[f].Mode
		if _, ok := e.Set.WithOhms(&e.Set.Faults[f], fitWith[0]); !ok {
			continue
		}
		if n := len(list) - 1; n >= 0 && e.Set.Faults[list[n]].Thing == m.Thing {
			list[n] = int(f)
			continue
		}
		list = append(list, int(f))
	}
	return list
}

// fitted is the resistance of a fault under which everything comes out as it was seen.
func (e *Engine) fitted(f int, seen []Observation) (ohms float64, ok bool) {
	list, ok := e.trials(f, seen)
	if !ok {
		return 0, false
	}
	by, widest := 0, 0.0
	for k := range seen {
		if o := &seen[k]; o.Kind == Read {
			if w := list[k].apart() / o.In.spread(&o.In.Candidates[o.Candidate], list[k][0]); w > widest {
				by, widest = k, w
			}
		}
	}
	if widest > within {
		for j := range len(fitWith) - 1 {
			if list[by].between(j, &seen[by]) {
				if ohms = e.narrowed(f, j, seen[by], &list[by]); e.explains(f, ohms, seen) {
					return ohms, true
				}
			}
		}
	}
	// Nothing tells how much it is; or a relay that lets go on the way makes figures leap.
	return hides(list, seen)
}

// hides is a resistance beyond what is listed under which everything comes out as it
// was seen.
func hides(list []trials, seen []Observation) (ohms float64, ok bool) {
next:
	for _, j := range many {
		for k := range seen {
			if !list[k].agrees(j, &seen[k]) {
				continue next
			}
		}
		return fitWith[j], true
	}
	return 0, false
}

// explains says that everything comes out as it was seen with a fault of some
// resistance.
func (e *Engine) explains(f int, ohms float64, seen []Observation) bool {
	for k, p := range e.under(f, ohms, seen) {
		if seen[k].In.fitTo(p, &seen[k]).sigmas > within {
			return false
		}
	}
	return true
}

// read is the figure of a reading as it is compared with predictions, which have no
// sign where the mode has none.
func (o *Observation) read() float64 {
	if unsigned[o.In.Candidates[o.Candidate].Mode] {
		return math.Abs(o.Value)
	}
	return o.Value
}
