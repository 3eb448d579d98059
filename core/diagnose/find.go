package diagnose

import (
	"math"
)

// A Kind of observation.
type Kind int

// The kinds.
const (
	Dead  Kind = iota // a device that should be on was seen off
	Works             // a device was seen as it should be
	Saw               // the state of a device or light was seen
	Read              // a meter was read
)

// An Observation is the outcome of one candidate. Dead, Works and Saw belong to
// looks, Read to readings.
type Observation struct {
	Kind      Kind
	Candidate int
	Value     float64 // volts or ohms as the candidate's red and black stand; the state of a look
	// In holds the hypotheses of the condition it was made in; nil for the
	// primary engine. Engines of one panel number their faults alike.
	In *Engine
}

// A Status of the search.
type Status string

// The statuses.
const (
	Continue        Status = "continue"
	Found           Status = "found"
	CannotSeparate  Status = "cannot-separate"
	NothingWrong    Status = "nothing-wrong"
	NothingExplains Status = "nothing-explains"
)

// certain is the probability one repair must reach.
const certain = 0.95

// leastBits is the information below which a step is not worth its time.
const leastBits = 0.01

// An Answer of the search.
type Answer struct {
	Status   Status
	Suspects []Suspect // most likely first
	Next     *Step     // nil when there is nothing to measure
	Misfit   int       // with NothingExplains: the observation that disagrees most; else -1
	All      []Weighed // every hypothesis, in order of faults
}

// A Weighed hypothesis.
type Weighed struct {
	Fault       int // index into Set.Faults; -1: nothing wrong
	Probability float64
	Worst       float64 // sigmas of the observation it fits worst
}

// Consistent says that every observation is within three sigma, without the
// allowance for a wrong reading.
func (w Weighed) Consistent() bool { return w.Worst <= within }

// Find weighs all hypotheses against the observations and chooses the next
// step. Every fault of the engine must have been solved by Step, and of those of the
// observations with it.
func (e *Engine) Find(obs []Observation) Answer {
	p := e.posterior(obs)
	a := Answer{Misfit: -1, All: p.byFault}
	a.Suspects = e.suspects(p, obs)
	e.decide(&a, p, obs)
	return a
}

// A posterior over hypotheses of the primary engine.
type posterior struct {
	weight  []float64 // by hypothesis, adds to one
	worst   []float64 // sigmas
	byFault []Weighed
}

func (e *Engine) posterior(obs []Observation) posterior {
	p := posterior{weight: make([]float64, len(e.hyps)), worst: make([]float64, len(e.hyps))}
	for i := range e.hyps {
		p.weight[i] = e.hyps[i].prior
	}
	for k := range obs {
		o := &obs[k]
		in := o.In
		if in == nil {
			in = e
		}
		var like, worst []float64
		if in != e {
			like, worst = in.byFault(o)
		}
		sum := 0.0
		for i := range e.hyps {
			l, z := 0.0, 0.0
			if in == e {
				f := e.fit(&e.hyps[i], o)
				l, z = f.likelihood, f.sigmas
			} else {
				l, z = like[e.hyps[i].fault+1], worst[e.hyps[i].fault+1]
			}
			p.weight[i] *= l
			p.worst[i] = math.Max(p.worst[i], z)
			sum += p.weight[i]
		}
		for i := range p.weight {
			p.weight[i] /= sum
		}
	}
	p.byFault = make([]Weighed, len(e.Set.Faults)+1)
	for i := range p.byFault {
		p.byFault[i] = Weighed{Fault: i - 1, Worst: math.MaxFloat64}
	}
	for i := range e.hyps {
		w := &p.byFault[e.hyps[i].fault+1]
		w.Probability += p.weight[i]
		w.Worst = math.Min(w.Worst, p.worst[i])
	}
	return p
}

// byFault is the likelihood of an observation for each fault of this engine,
// the onsets of one fault weighed by their priors, index 0 the healthy panel.
func (e *Engine) byFault(o *Observation) (like, worst []float64) {
	n := len(e.Set.Faults) + 1
	like, worst = make([]float64, n), make([]float64, n)
	prior := make([]float64, n)
	for i := range worst {
		worst[i] = math.MaxFloat64
	}
	for i := range e.hyps {
		h := &e.hyps[i]
		f := e.fit(h, o)
		k := h.fault + 1
		like[k] += float64(h.prior * f.likelihood)
		prior[k] += h.prior
		worst[k] = math.Min(worst[k], f.sigmas)
	}
	for k := range like {
		if prior[k] > 0 {
			like[k] /= prior[k]
		}
	}
	return like, worst
}

// decide sets the status and the next step.
func (e *Engine) decide(a *Answer, p posterior, obs []Observation) {
	consistent := false
	for i := range p.worst {
		if p.worst[i] <= within {
			consistent = true
			break
		}
	}
	if !consistent && len(obs) > 0 {
		a.Status, a.Misfit = NothingExplains, e.misfit(p, obs)
		return
	}
	if len(obs) > 0 && e.allHealthy(obs) {
		a.Status = NothingWrong
		return
	}
	top := &a.Suspects[0]
	sure := top.Probability >= certain && top.OnePlace
	if !sure || rivals(a.Suspects[1:]) {
		a.Next = e.next(a.Suspects, p)
	}
	if a.Next == nil && sure {
		a.Next = e.proof(top, p, obs)
	}
	switch {
	case a.Next != nil:
		a.Status = Continue
	case sure:
		a.Status = Found
	default:
		a.Status = CannotSeparate
	}
}

// rival is the probability at which another suspect that every observation fits
// must be excluded by a reading before the first one counts as proved.
const rival = 0.002

func rivals(others []Suspect) bool {
	for i := range others {
		if others[i].Consistent && others[i].Probability >= rival {
			return true
		}
	}
	return false
}

// allHealthy says whether the healthy panel explains everything seen and
// measured: whatever else may be wrong, none of it shows.
func (e *Engine) allHealthy(obs []Observation) bool {
	for k := range obs {
		if obs[k].Kind == Dead || e.fitOf(0, &obs[k]).sigmas > within {
			return false
		}
	}
	return true
}

// misfit is the observation that the best hypothesis fits worst.
func (e *Engine) misfit(p posterior, obs []Observation) int {
	best := 0
	for i := range p.weight {
		if p.weight[i] > p.weight[best] {
			best = i
		}
	}
	worst, at := -1.0, 0
	for k := range obs {
		if f := e.fitOf(best, &obs[k]); f.sigmas > worst {
			worst, at = f.sigmas, k
		}
	}
	return at
}

// fitOf is the fit of one hypothesis of this engine, whatever condition the
// observation was made in.
func (e *Engine) fitOf(i int, o *Observation) fit {
	in, h := e, &e.hyps[i]
	if o.In != nil && o.In != e {
		in, h = o.In, o.In.hypothesisOf(h.fault)
	}
	return in.fit(h, o)
}

func (e *Engine) hypothesisOf(fault int) *hypothesis {
	for i := range e.hyps {
		if e.hyps[i].fault == fault {
			return &e.hyps[i]
		}
	}
	return &e.hyps[0]
}

// round keeps the last bits of a host out of an order.
func round(p float64) float64 { return math.Round(p*1e9) / 1e9 }
