package diagnose

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// healthyPanel is the fault index of the hypothesis that nothing is wrong.
const healthyPanel = -1

// A hypothesis is one fault at one onset, solved: what each candidate would show
// where that differs from the healthy panel, in rising order of candidates.
type hypothesis struct {
	fault int // index into Set.Faults, or healthyPanel
	onset sim.Onset
	prior float64
	shows []shown
	class int  // hypotheses of one class no step with power on tells apart
	off   bool // shows holds the switched-off panel too
}

// shown is the outcome of one candidate.
type shown struct {
	candidate int32
	outcome
}

// outcome of a step: volts or ohms of a reading, a state of a look.
type outcome struct {
	value float64
	ghost bool // a reading that hangs on insulation
}

// solve adds the hypotheses of one fault: in the running panel, and from a cold
// start where that comes out differently.
func (e *Engine) solve(i int) {
	f := &e.Set.Faults[i]
	running := e.hypothesis(f.Changes, sim.Running)
	running.fault, running.prior = i, f.Rate
	e.seen(&running, &f.Mode)
	if e.Base.Remembers() {
		start := e.hypothesis(f.Changes, sim.Start)
		start.fault, start.onset = i, sim.Start
		e.seen(&start, &f.Mode)
		if !e.alike(&running, &start) {
			running.prior /= 2
			start.prior = running.prior
			e.hyps = append(e.hyps, running, start)
			return
		}
	}
	e.hyps = append(e.hyps, running)
}

// hypothesis solves one fault at one onset.
func (e *Engine) hypothesis(changes []parts.Change, onset sim.Onset) hypothesis {
	e.unsure = e.unsure[:0]
	h := e.observe(e.Base.Enter(changes, onset))
	e.Base.Leave()
	for _, c := range e.unsure {
		x := e.Base.Enter(changes, onset)
		e.hold(x, e.Candidates[c].Situation)
		e.store(&h, c, e.measured(x, &e.Candidates[c]))
		e.Base.Leave()
	}
	if len(e.unsure) > 0 {
		sortShows(h.shows)
	}
	return h
}

// observe takes every step on a machine and keeps what differs. A reading between
// two probes that both meet what they meet on the healthy panel comes out as there
// and is not taken.
func (e *Engine) observe(x *sim.Machine) hypothesis {
	var h hypothesis
	e.walk(x, func(k int) {
		r := e.reader(x)
		sound := &e.Situations[k].sound
		e.round++
		for i := range e.Probes {
			if r.differs(sound, i) {
				for _, c := range e.touching[k][i] {
					e.keep(&h, r, c)
				}
			}
		}
		for _, c := range e.looks[k] {
			e.keep(&h, r, c)
		}
	})
	sortShows(h.shows)
	return h
}

// keep takes a step, once a round, and stores an outcome that differs.
func (e *Engine) keep(h *hypothesis, r *reader, c int32) {
	if e.taken[c] == e.round {
		return
	}
	e.taken[c] = e.round
	if r.fragile(&e.Candidates[c]) {
		e.unsure = append(e.unsure, c)
		return
	}
	e.store(h, c, r.take(&e.Candidates[c]))
}

// store keeps an outcome that differs from the healthy panel's.
func (e *Engine) store(h *hypothesis, c int32, o outcome) {
	if was := e.expect[c]; o.ghost != was.ghost || math.Abs(o.value-was.value) > storedVolts+float64(1e-6*math.Abs(was.value)) {
		h.shows = append(h.shows, shown{c, o})
	}
}

func sortShows(list []shown) {
	slices.SortFunc(list, func(a, b shown) int { return cmp.Compare(a.candidate, b.candidate) })
}

// storedVolts is the difference that is stored: well below the 30 mV any reading
// is trusted to.
const storedVolts = 2e-3

// outcomeOf a candidate under a hypothesis.
func (e *Engine) outcomeOf(h *hypothesis, c int) outcome {
	i := sort.Search(len(h.shows), func(i int) bool { return h.shows[i].candidate >= int32(c) })
	if i < len(h.shows) && h.shows[i].candidate == int32(c) {
		return h.shows[i].outcome
	}
	return e.expect[c]
}
