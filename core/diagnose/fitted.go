package diagnose

import (
	"maps"
	"math"
	"slices"

	"halfsplit/core/parts"
)

// A joint that is loose and a conductor that touches earth have whatever resistance
// they have; the set lists one or two of each, enough to choose readings by. Where
// what was read fits none of them, each is given the resistance that the readings
// ask for, and those that then explain all that was observed take the place of a
// listed one, until something else is observed.
type fitting struct {
	obs         []Observation // what it is about
	unexplained bool          // no listed fault fits it
	never       map[int]bool  // families that part of it rules out whatever their resistance
	tried       int           // families
	done        bool
	found       []substitute
	was         []substitute // what stood in their place
}

// A substitute is a fault of the set in another form.
type substitute struct {
	fault int
	mode  *parts.Mode
}

// Resistances that are tried, in ohms: choices. Less is no fault that anybody
// measures, more is an open.
const (
	leastFitted = 0.1
	mostFitted  = 900e3
)

// halvings narrow seven decades down to less than the three digits that are kept.
const halvings = 20

// turnTo takes up what was fitted to these observations: that of the search before is
// kept aside, for who goes back and forth between two. Where observations have been
// added, what the earlier ones ruled out stays ruled out.
func (e *Engine) turnTo(obs []Observation) {
	last := e.fitting
	if slices.Equal(last.obs, obs) {
		return
	}
	if last.done {
		e.replace(last.obs, last.was)
	}
	e.fitting, e.lastFit = e.lastFit, last
	if slices.Equal(e.fitting.obs, obs) {
		if e.fitting.done {
			e.replace(obs, e.fitting.found)
		}
		return
	}
	e.fitting = fitting{obs: slices.Clone(obs), never: map[int]bool{}}
	if !slices.ContainsFunc(last.obs, func(o Observation) bool { return !slices.Contains(obs, o) }) {
		e.fitting.unexplained = last.unexplained
		maps.Copy(e.fitting.never, last.never)
	}
}

// replace puts faults in place wherever something was observed.
func (e *Engine) replace(obs []Observation, list []substitute) {
	for _, in := range e.engines(obs) {
		in.substitute(list)
	}
}

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
		if e.fitting.never[f] {
			e.Pace.Did(1)
			continue
		}
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

// engines are those that observations were made in, and this one.
func (e *Engine) engines(obs []Observation) []*Engine {
	list := []*Engine{e}
	for k := range obs {
		if in := obs[k].In; in != nil && !slices.Contains(list, in) {
			list = append(list, in)
		}
	}
	return list
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
	by, widest := 0, 0.0
	var rising bool
	least, most := e.under(f, leastFitted, seen), e.under(f, mostFitted, seen)
	for k := range seen {
		o, low, high := &seen[k], &least[k], &most[k]
		if low.sigmas > within && high.sigmas > within && !between(low.predicted.value, high.predicted.value, o) {
			e.fitting.never[f] = true
			return 0, false
		}
		if o.Kind != Read {
			continue
		}
		if w := math.Abs(high.predicted.value-low.predicted.value) / o.In.spread(&o.In.Candidates[o.Candidate], low.predicted); w > widest {
			by, widest, rising = k, w, high.predicted.value > low.predicted.value
		}
	}
	if widest <= within {
		return 0, false
	}
	low, high := leastFitted, mostFitted
	for range halvings {
		ohms = math.Sqrt(low * high)
		if (e.under(f, ohms, seen[by:by+1])[0].predicted.value < seen[by].read()) == rising {
			low = ohms
		} else {
			high = ohms
		}
	}
	for _, f := range e.under(f, ohms, seen) {
		if f.sigmas > within {
			return 0, false
		}
	}
	return ohms, true
}

// between says that what was observed may come out between two that it is not: a
// figure between theirs, a state where theirs are two.
func between(a, b float64, o *Observation) bool {
	if o.Kind != Read {
		return a != b
	}
	return math.Min(a, b) <= o.read() && o.read() <= math.Max(a, b)
}

// read is the figure of a reading as it is compared with predictions, which have no
// sign where the mode has none.
func (o *Observation) read() float64 {
	if unsigned[o.In.Candidates[o.Candidate].Mode] {
		return math.Abs(o.Value)
	}
	return o.Value
}

// under is how what was seen goes with a fault that has some resistance.
func (e *Engine) under(f int, ohms float64, seen []Observation) []fit {
	mode, _ := e.Set.WithOhms(&e.Set.Faults[f], ohms)
	fits := make([]fit, len(seen))
	for _, q := range together(seen) {
		i := q.in.running(int32(f))
		q.in.own()
		listed := q.in.Set.Faults[f].Mode
		q.in.Set.Faults[f].Mode = mode
		for n, o := range q.in.askTogether(i, q.situation, q.steps) {
			k := q.of[n]
			fits[k] = q.in.fitTo(o, &seen[k])
		}
		q.in.Set.Faults[f].Mode = listed
	}
	return fits
}

// together groups what was seen by the solution that answers it.
func together(seen []Observation) (list []question) {
next:
	for k := range seen {
		in, c := seen[k].In, seen[k].Candidate
		situation := in.Candidates[c].Situation
		for n := range list {
			if q := &list[n]; q.in == in && q.situation == situation {
				q.steps, q.of = append(q.steps, c), append(q.of, k)
				continue next
			}
		}
		list = append(list, question{in, situation, []int{c}, []int{k}})
	}
	return list
}

// own makes the set of faults this engine's: others may share what was given.
func (e *Engine) own() {
	if !e.owned {
		e.Set, e.owned = e.Set.Clone(), true
	}
}

// substitute puts faults in the place of those with their number, and forgets what
// was solved for these.
func (e *Engine) substitute(list []substitute) {
	if len(list) == 0 {
		return
	}
	e.own()
	e.table, e.alikes = nil, nil
	for _, s := range list {
		e.Set.Faults[s.fault].Mode = s.mode
		i := e.running(int32(s.fault))
		prior := 0.0
		for k := range int32(e.onsets) {
			prior += e.hyps[i+k].prior
			e.hyps[i+k] = hypothesis{}
			for _, column := range e.columns {
				delete(column, i+k)
			}
		}
		e.hyps[i].prior = prior
	}
}
