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
	Hidden   []string  // with Found: where a bad joint would have come out the same
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

// Find weighs the hypotheses against the observations and chooses the next step.
// It solves what Prepare has not solved yet.
func (e *Engine) Find(obs []Observation) Answer {
	s := e.survey(obs)
	e.summarise(&s.posterior)
	a := Answer{Misfit: -1, All: s.byFault}
	a.Suspects = e.suspects(&s, obs)
	e.decide(&a, &s, obs)
	return a
}

// decide sets the status and the next step.
func (e *Engine) decide(a *Answer, s *survey, obs []Observation) {
	p := s.posterior
	if !s.consistent && len(obs) > 0 {
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
		a.Next = e.next(a.Suspects, p, obs)
	}
	if a.Next == nil && sure {
		a.Next = e.proof(top, p, obs)
	}
	if a.Next == nil && sure {
		joints := e.hiddenJoints(top, obs)
		if a.Next = e.tellApart(top, p, joints, obs); a.Next == nil {
			for i := range joints {
				a.Hidden = append(a.Hidden, e.Set.Faults[joints[i].fault].Place)
			}
		}
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
		if f := e.fitOf(int32(best), &obs[k]); f.sigmas > worst {
			worst, at = f.sigmas, k
		}
	}
	return at
}

// round keeps the last bits of a host out of an order.
func round(p float64) float64 { return math.Round(p*1e9) / 1e9 }
