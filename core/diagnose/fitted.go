package diagnose

import (
	"math"
	"slices"

	"halfsplit/core/parts"
)

// A joint that is loose and a conductor that touches earth have whatever resistance
// they have; the set lists one or two of each, enough to choose readings by. Where
// what was read fits none of them, each is given the resistance that the readings
// ask for, and those that then explain every reading take the place of a listed one,
// until something else is observed.
type fitting struct {
	obs   []Observation // what it is about
	tried int           // families
	done  bool
	found []substitute
	was   []substitute // what stood in their place
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

// unfit puts the listed faults back when the observations are others.
func (e *Engine) unfit(obs []Observation) {
	if slices.Equal(e.fitting.obs, obs) {
		return
	}
	for _, in := range e.engines(e.fitting.obs) {
		in.substitute(e.fitting.was)
	}
	e.fitting = fitting{}
}

// fitOhms looks for resistances that explain every reading, and says whether there are
// any that had not been put in place.
func (e *Engine) fitOhms(obs []Observation) bool {
	if e.fitting.done {
		return false
	}
	if e.fitting.obs == nil {
		e.fitting.obs = slices.Clone(obs)
	}
	reads := e.reads(obs)
	families := e.families()
	e.Pace.Expect(len(families) - e.fitting.tried)
	for ; len(reads) > 0 && e.fitting.tried < len(families); e.fitting.tried++ {
		e.Pace.Breathe()
		f := families[e.fitting.tried]
		if ohms, ok := e.fitted(f, reads); ok {
			if mode, ok := e.Set.WithOhms(&e.Set.Faults[f], ohms); ok {
				e.fitting.found = append(e.fitting.found, substitute{f, mode})
				e.fitting.was = append(e.fitting.was, substitute{f, e.Set.Faults[f].Mode})
			}
		}
		e.settled++
		e.Pace.Did(1)
	}
	e.fitting.done = true
	for _, in := range e.engines(obs) {
		in.substitute(e.fitting.found)
	}
	return len(e.fitting.found) > 0
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

// reads are the readings among observations, that which fits the healthy panel worst
// first: it rules most out.
func (e *Engine) reads(obs []Observation) []Observation {
	var list []Observation
	for _, o := range obs {
		if o.Kind == Read {
			if o.In == nil {
				o.In = e
			}
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

// fitted is the resistance of a fault under which every reading comes out as it was.
func (e *Engine) fitted(f int, reads []Observation) (ohms float64, ok bool) {
	by, widest := 0, 0.0
	var rising bool
	for k := range reads {
		o := &reads[k]
		low, high := e.under(f, leastFitted, o), e.under(f, mostFitted, o)
		value := o.read()
		if outside(low.predicted.value, high.predicted.value, value) && low.sigmas > within && high.sigmas > within {
			return 0, false
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
		if (e.under(f, ohms, &reads[by]).predicted.value < reads[by].read()) == rising {
			low = ohms
		} else {
			high = ohms
		}
	}
	for k := range reads {
		if e.under(f, ohms, &reads[k]).sigmas > within {
			return 0, false
		}
	}
	return ohms, true
}

func outside(a, b, value float64) bool { return value < math.Min(a, b) || value > math.Max(a, b) }

// read is the figure of a reading as it is compared with predictions, which have no
// sign where the mode has none.
func (o *Observation) read() float64 {
	if unsigned[o.In.Candidates[o.Candidate].Mode] {
		return math.Abs(o.Value)
	}
	return o.Value
}

// under is how a reading goes with a fault that has some resistance.
func (e *Engine) under(f int, ohms float64, o *Observation) fit {
	in := o.In
	mode, _ := e.Set.WithOhms(&e.Set.Faults[f], ohms)
	in.own()
	listed := in.Set.Faults[f].Mode
	defer func() { in.Set.Faults[f].Mode = listed }()
	in.Set.Faults[f].Mode = mode
	return in.fitTo(in.ask(in.running(int32(f)), o.Candidate), o)
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
