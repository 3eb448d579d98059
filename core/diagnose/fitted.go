package diagnose

import (
	"math"
	"slices"
)

// Resistances that are tried, in ohms: choices. Less is no fault that anybody
// measures, more is an open.
const (
	leastFitted = 0.1
	mostFitted  = 900e3
)

// fitOhms looks for resistances that explain all that was observed, and puts them in
// place.
func (e *Engine) fitOhms(obs []Observation) {
	if e.fitting.done {
		return
	}
	e.focus(e.complaint(obs))
	seen := e.telling(obs)
	families := e.families()
	e.Pace.Expect(len(families) - e.fitting.tried)
	for ; len(seen) > 0 && e.fitting.tried < len(families); e.fitting.tried++ {
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

// telling is what was observed but for a close look at one place, if there is a
// reading in it: that which fits the healthy panel worst first, for it rules most out.
func (e *Engine) telling(obs []Observation) (list []Observation) {
	if !slices.ContainsFunc(obs, func(o Observation) bool { return o.Kind == Read }) {
		return nil
	}
	for _, o := range obs {
		if o.In == nil {
			o.In = e
		}
		if o.In.Candidates[o.Candidate].Look != AtPlace {
			list = append(list, o)
		}
	}
	slices.SortStableFunc(list, func(a, b Observation) int {
		return -compare(math.Min(e.fitOf(0, &a).sigmas, far)/far, math.Min(e.fitOf(0, &b).sigmas, far)/far)
	})
	return list
}

// families are the faults of the scope that have a resistance, the last listed of
// each thing.
func (e *Engine) families() (list []int) {
	for _, f := range e.scope.faults {
		m := e.Set.Faults[f].Mode
		if _, ok := e.Set.WithOhms(&e.Set.Faults[f], leastFitted); !ok {
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
	ends, ok := e.ends(f, seen)
	if !ok {
		return 0, false
	}
	by, widest := 0, 0.0
	for k := range seen {
		if o := &seen[k]; o.Kind == Read {
			if w := ends[k].apart() / o.In.spread(&o.In.Candidates[o.Candidate], ends[k].least); w > widest {
				by, widest = k, w
			}
		}
	}
	if widest <= within {
		return 0, false
	}
	ohms = e.narrowed(f, seen[by], ends[by])
	for k, p := range e.under(f, ohms, seen) {
		if seen[k].In.fitTo(p, &seen[k]).sigmas > within {
			return 0, false
		}
	}
	return ohms, true
}

// read is the figure of a reading as it is compared with predictions, which have no
// sign where the mode has none.
func (o *Observation) read() float64 {
	if unsigned[o.In.Candidates[o.Candidate].Mode] {
		return math.Abs(o.Value)
	}
	return o.Value
}

// under is what a fault that has some resistance shows where something was seen.
func (e *Engine) under(f int, ohms float64, seen []Observation) []outcome {
	mode, _ := e.Set.WithOhms(&e.Set.Faults[f], ohms)
	list := make([]outcome, len(seen))
	for _, q := range together(seen) {
		i := q.in.running(int32(f))
		q.in.own()
		listed := q.in.Set.Faults[f].Mode
		q.in.Set.Faults[f].Mode = mode
		for n, o := range q.in.askTogether(i, q.situation, q.steps) {
			list[q.of[n]] = o
		}
		q.in.Set.Faults[f].Mode = listed
	}
	return list
}
