package diagnose

import (
	"math"
	"slices"

	"halfsplit/core/pace"
)

// A survey is what a search knows once all it needs has been solved.
type survey struct {
	posterior
	living     []int32 // hypotheses that no look contradicts
	consistent bool    // one of them fits every observation
}

// mostRead is how many hypotheses are solved for every reading. While more are
// alive only looks are asked for: they cost seconds, and part them.
const mostRead = 5000

// Prepare solves some more of the hypotheses that a search with these observations
// needs, at the effort of n faults in a running panel of 100 terminals, and says how
// far it has come; total may grow as it is seen who is still alive. done equals total
// when Find would not have to wait for them. The observations are this engine's own.
func (e *Engine) Prepare(obs []Observation, n int) (done, total int) {
	var p pace.Pace
	was := e.Pace
	e.Pace = &p
	defer func() { e.Pace = was }()
	j := pace.Start(&p, func() { e.survey(obs) })
	defer j.Stop()
	for before := e.settled; !j.Next(n) && e.settled == before; {
		// whatever is not a hypothesis solved begins anew the next time
	}
	return j.Progress()
}

// each does the jobs of a list that are not done.
func (e *Engine) each(list []int32, done func(i int32) bool, do func(i int32)) {
	e.Pace.Expect(len(list))
	for _, i := range list {
		if !done(i) {
			e.Pace.Breathe()
			do(i)
			e.settled++
		}
		e.Pace.Did(1)
	}
}

// survey solves what a search needs, in tiers. First the faults that can bear on
// the complaint are solved for what a look shows; those that no look contradicts
// are solved for every reading. Only when the readings rule all of them out, which
// takes a wrong observation or a fault that reaches the complaint from outside,
// are all faults of the panel solved and the readings asked of every one; and only
// when these are ruled out too are resistances fitted (fitted.go).
func (e *Engine) survey(obs []Observation) survey {
	e.turnTo(obs)
	if !e.fitting.unexplained {
		if s := e.tiers(obs); s.consistent || len(obs) == 0 {
			return s
		}
		e.fitting.unexplained = true
	}
	e.fitOhms(obs)
	return e.tiers(obs)
}

func (e *Engine) tiers(obs []Observation) survey {
	e.focus(e.complaint(obs))
	if s := e.tier(obs, e.scope.faults, false); s.consistent || len(obs) == 0 {
		return s
	}
	return e.tier(obs, e.all, true)
}

// tier is the survey of some faults. thorough asks the readings of hypotheses too
// that a look contradicts, as far as they still weigh.
func (e *Engine) tier(obs []Observation, faults []int32, thorough bool) (s survey) {
	e.each(faults, func(f int32) bool { return e.hyps[e.running(f)].looked }, e.look)
	if thorough {
		e.each(faults, e.replayed, e.replay)
	}
	s.living = e.living(obs)
	if len(s.living) <= mostRead {
		e.list()
		e.each(s.living, func(i int32) bool { return e.hyps[i].read }, e.read)
	}
	e.askAll(obs, s.living)
	s.posterior = e.posterior(obs)
	s.consistent = slices.ContainsFunc(s.living, func(i int32) bool { return s.worst[i] <= within })
	switch {
	case s.consistent:
		s.setAside(s.living)
	case thorough:
		e.askAll(obs, s.weighty())
		s.posterior = e.posterior(obs)
	}
	return s
}

// living lists the hypotheses that no look in the condition itself contradicts.
func (e *Engine) living(obs []Observation) []int32 {
	fits := e.sightFits(obs)
	var list []int32
next:
	for i := range e.hyps {
		if e.hyps[i].prior == 0 {
			continue
		}
		for k := range obs {
			if fits[k] != nil && e.sightFit(fits[k], int32(i), &obs[k]).sigmas > within {
				continue next
			}
		}
		list = append(list, int32(i))
	}
	return list
}

// askAll solves the observed steps that hypotheses have not been solved for.
func (e *Engine) askAll(obs []Observation, list []int32) {
	for k := range obs {
		if in := obs[k].In; in != nil && in != e {
			in.lookAt(e, list)
		}
	}
	for _, q := range e.questions(obs) {
		known := func(i int32) bool {
			return q.in.hyps[i].prior == 0 || !slices.ContainsFunc(q.steps, func(c int) bool { return q.in.unknown(i, c) })
		}
		q.in.each(q.in.translate(e, list), known, func(i int32) {
			q.in.askEach(i, q.situation, q.steps)
			e.Pace.Spend(1)
		})
	}
}

// A question is the observed steps that one solution answers.
type question struct {
	in        *Engine
	situation int
	steps     []int
	of        []int // which observations
}

// questions groups what was observed, but for looks that every fault is solved for.
func (e *Engine) questions(obs []Observation) []question {
	var open []Observation
	for _, o := range obs {
		if o.In == nil {
			o.In = e
		}
		if !o.In.sights(&o) {
			o.In.columnOf(o.Candidate)
			open = append(open, o)
		}
	}
	return together(open)
}

// together groups observations, each with its engine, by the solution that answers them.
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

// columnOf is what a step is known to show, by hypothesis, where it was solved one
// by one.
func (e *Engine) columnOf(c int) map[int32]outcome {
	if e.columns[c] == nil {
		e.expect[c] = e.ask(0, c) // of the switched-off panel it may not be known yet
		e.columns[c] = map[int32]outcome{0: e.expect[c]}
	}
	return e.columns[c]
}

// unknown says whether a step has not been solved for a hypothesis.
func (e *Engine) unknown(i int32, c int) bool {
	_, ok := e.columns[c][i]
	return !ok && !e.covers(&e.hyps[i], int32(c))
}

// lookAt solves for looks, in this engine's condition, the faults of another
// engine's hypotheses.
func (e *Engine) lookAt(from *Engine, list []int32) {
	e.focus(from.scope.zones)
	var faults []int32
	for _, i := range list {
		if f := from.faultOf(i); f != healthyPanel {
			faults = append(faults, int32(f))
		}
	}
	e.each(faults, func(f int32) bool { return e.hyps[e.running(f)].looked }, e.look)
}

// translate lists this engine's hypotheses of the faults of another's.
func (e *Engine) translate(from *Engine, list []int32) []int32 {
	if from == e {
		return list
	}
	var out []int32
	last := healthyPanel
	for _, i := range list {
		if f := from.faultOf(i); f != last {
			last = f
			for k := range e.onsets {
				out = append(out, e.running(int32(f))+int32(k))
			}
		}
	}
	return out
}

// weighty lists the hypotheses that count beside the likeliest, most likely first.
func (p posterior) weighty() []int32 {
	most := 0.0
	for _, w := range p.weight {
		most = math.Max(most, w)
	}
	var list []int32
	for i, w := range p.weight {
		if w > 0 && w >= listed*most {
			list = append(list, int32(i))
		}
	}
	slices.SortStableFunc(list, func(a, b int32) int { return -compare(p.weight[a], p.weight[b]) })
	return list
}

// compare orders probabilities, but for the last bits of a host.
func compare(a, b float64) int {
	switch x, y := round(a), round(b); {
	case x < y:
		return -1
	case x > y:
		return 1
	}
	return 0
}
