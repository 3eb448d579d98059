package diagnose

import "math"

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
	sights := e.sightFits(obs)
	for k := range obs {
		o := &obs[k]
		of := e.weigher(o, sights[k])
		sum := 0.0
		for i := range e.hyps {
			if e.hyps[i].prior == 0 {
				continue
			}
			f := of(int32(i))
			p.weight[i] *= f.likelihood
			p.worst[i] = math.Max(p.worst[i], f.sigmas)
			sum += p.weight[i]
		}
		for i := range p.weight {
			p.weight[i] /= sum
		}
		e.walked(len(p.weight))
	}
	return p
}

// setAside leaves only some hypotheses their weight: the others contradict what was
// seen, and do not count while one of these explains everything.
func (p *posterior) setAside(living []int32) {
	sum := 0.0
	for _, i := range living {
		sum += p.weight[i]
	}
	weight := make([]float64, len(p.weight))
	for _, i := range living {
		weight[i] = p.weight[i] / sum
	}
	p.weight = weight
}

// summarise gives the probability of each fault, its onsets together.
func (e *Engine) summarise(p *posterior) {
	p.byFault = make([]Weighed, len(e.Set.Faults)+1)
	for i := range p.byFault {
		p.byFault[i] = Weighed{Fault: i - 1, Worst: math.MaxFloat64}
	}
	for i := range e.hyps {
		if e.hyps[i].prior == 0 {
			continue
		}
		w := &p.byFault[e.faultOf(int32(i))+1]
		w.Probability += p.weight[i]
		w.Worst = math.Min(w.Worst, p.worst[i])
	}
}

// weigher gives the fit of an observation to each hypothesis.
func (e *Engine) weigher(o *Observation, sights []fit) func(i int32) fit {
	switch {
	case o.In != nil && o.In != e:
		fits := o.In.byFault(o)
		return func(i int32) fit { return fits[e.faultOf(i)+1] }
	case sights != nil:
		return func(i int32) fit { return e.sightFit(sights, i, o) }
	}
	healthy, column := e.fitTo(e.expect[o.Candidate], o), e.columns[o.Candidate]
	return func(i int32) fit {
		if h := &e.hyps[i]; e.covers(h, int32(o.Candidate)) {
			return e.fit(i, o)
		}
		if p, ok := column[i]; ok {
			return e.fitTo(p, o)
		}
		return healthy
	}
}

// sightFits is the fit of each look in the condition itself to each aspect; nil
// for other observations.
func (e *Engine) sightFits(obs []Observation) [][]fit {
	all := make([][]fit, len(obs))
	for k := range obs {
		o := &obs[k]
		if !e.sights(o) {
			continue
		}
		all[k] = make([]fit, len(e.aspects))
		for a, list := range e.aspects {
			p := e.expect[o.Candidate]
			for _, s := range list {
				if int(s.candidate()) == o.Candidate {
					p = s.outcome()
				}
			}
			all[k][a] = e.fitTo(p, o)
		}
	}
	return all
}

func (e *Engine) sightFit(fits []fit, i int32, o *Observation) fit {
	if e.Candidates[o.Candidate].Look == AtPlace {
		return e.fit(i, o)
	}
	return fits[e.hyps[i].aspect]
}

// byFault is the fit of an observation to each fault of this engine, the onsets of
// one fault weighed by their priors, index 0 the healthy panel.
func (e *Engine) byFault(o *Observation) []fit {
	fits := make([]fit, len(e.Set.Faults)+1)
	prior := make([]float64, len(fits))
	for k := range fits {
		fits[k].sigmas = math.MaxFloat64
	}
	for i := range e.hyps {
		h := &e.hyps[i]
		if h.prior == 0 {
			continue
		}
		f, k := e.fit(int32(i), o), e.faultOf(int32(i))+1
		fits[k].likelihood += float64(h.prior * f.likelihood)
		fits[k].sigmas = math.Min(fits[k].sigmas, f.sigmas)
		prior[k] += h.prior
	}
	for k := range fits {
		if prior[k] > 0 {
			fits[k].likelihood /= prior[k]
		}
	}
	return fits
}

// fitOf is the fit of one hypothesis of this engine, whatever condition the
// observation was made in.
func (e *Engine) fitOf(i int32, o *Observation) fit {
	if o.In == nil || o.In == e {
		return e.fit(i, o)
	}
	if f := e.faultOf(i); f != healthyPanel {
		return o.In.fit(o.In.running(int32(f)), o)
	}
	return o.In.fit(0, o)
}
