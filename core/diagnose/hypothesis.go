package diagnose

import (
	"math"
	"slices"
	"sort"

	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// healthyPanel is the fault index of the hypothesis that nothing is wrong.
const healthyPanel = -1

// A hypothesis is one fault at one onset. The first is the healthy panel; then
// each fault has one in the running panel and, where the order of fault and start
// can matter, one that was there before the start.
type hypothesis struct {
	prior  float64 // 0: the same as the other onset of its fault
	shows  []shown // once read: every step of the scope that comes out otherwise than on the healthy panel, in rising order of candidates
	aspect int32   // once looked: of Engine.aspects
	looked bool    // solved for looks in the condition itself
	read   bool    // solved for all powered steps of the scope
	off    bool    // shows holds the switched-off panel too
	cold   bool    // a start: replayed from cold
}

func (e *Engine) faultOf(i int32) int {
	if i == 0 {
		return healthyPanel
	}
	return (int(i) - 1) / e.onsets
}

func (e *Engine) onsetOf(i int32) sim.Onset {
	if i > 0 && (int(i)-1)%e.onsets == 1 {
		return sim.Start
	}
	return sim.Running
}

// running is the hypothesis of a fault in the running panel; its start, if there
// is one, comes next.
func (e *Engine) running(fault int32) int32 { return 1 + fault*int32(e.onsets) }

func (e *Engine) changesOf(i int32) []parts.Change {
	if i == 0 {
		return nil
	}
	if f := e.faultOf(i); e.instead == nil || e.instead.fault != f {
		return e.Set.Faults[f].Changes
	}
	return e.instead.mode.Changes
}

// enter makes a hypothesis true; leave ends it.
func (e *Engine) enter(i int32) *sim.Machine {
	e.Pace.Spend(1)
	if e.onsetOf(i) == sim.Start && !e.hyps[i].cold {
		return e.before(i)
	}
	if e.onsetOf(i) == sim.Start {
		e.Pace.Spend(e.large(replayEffort))
	}
	return e.Base.Enter(e.changesOf(i), e.onsetOf(i))
}

// Efforts of solving, in faults in a running panel of 100 terminals, for each 1000
// nodes of the panel. Measured.
const (
	startEffort  = 2
	readEffort   = 2
	replayEffort = 20
	offEffort    = 20    // of the panel switched off, and each resistance asked of it
	tryEffort    = 2     // of a reading with the meter in circuit
	walkedShows  = 20000 // outcomes that are compared, sorted or weighed at the effort of one; of a panel of any size
)

// walked counts outcomes walked by, a few or many, and breathes.
func (e *Engine) walked(shows int) {
	e.steps += shows
	e.Pace.Spend(e.steps / walkedShows)
	e.steps %= walkedShows
	e.Pace.Breathe()
}

func (e *Engine) large(effort int) int { return effort * len(e.zones.of) / 1000 }

func (e *Engine) leave() {
	if e.using != nil {
		e.using.Revert()
		e.using = nil
	}
	e.Base.Leave()
}

// shown is the outcome of one candidate in eight bytes that sort by candidate: there
// are millions. From the top: the candidate, whether the outcome is a ghost, and the
// value in 32 bits. Seven digits are far more than a meter has.
type shown uint64

func newShown(c int32, o outcome) shown {
	s := shown(c)<<33 | shown(math.Float32bits(float32(o.value)))
	if o.ghost {
		s |= 1 << 32
	}
	return s
}

func (s shown) candidate() int32 { return int32(s >> 33) }
func (s shown) outcome() outcome {
	return outcome{float64(math.Float32frombits(uint32(s))), s>>32&1 != 0}
}

// outcome of a step: volts or ohms of a reading, a state of a look.
type outcome struct {
	value float64
	ghost bool // a reading that hangs on insulation
}

// weigh turns rates into priors that add to one.
func (e *Engine) weigh() {
	sum := 0.0
	for i := range e.Set.Faults {
		sum += e.Set.Faults[i].Rate
	}
	e.hyps[0].prior = healthyWeight / (1 + healthyWeight)
	for i := range e.Set.Faults {
		if e.onsets == 2 {
			e.hyps[e.running(int32(i))+1].prior = 0
		}
		e.hyps[e.running(int32(i))].prior = e.Set.Faults[i].Rate / sum / (1 + healthyWeight)
	}
}

// healthyWeight is the prior of a panel with nothing wrong, as a share of all
// faults together. Choice: somebody has called, so something usually is.
const healthyWeight = 0.02

// read solves a hypothesis for every step of the scope with power on. It may be
// given up half-way: read is said, and what it shows kept, only in the end.
func (e *Engine) read(i int32) {
	h := &e.hyps[i]
	if i == 0 {
		h.read, h.shows = true, nil
		return
	}
	e.Pace.Spend(e.large(readEffort))
	e.unsure = e.unsure[:0]
	e.still = false
	list := e.observe(e.enter(i))
	e.leave()
	list = e.readFragile(list, i, e.unsure)
	if c := e.spotOf(i); c >= 0 {
		list = append(list, newShown(int32(c), outcome{value: e.StateValue(NotAsDrawn)}))
	}
	h.read, h.shows = true, e.inOrder(list)
	e.buffer = list
}

// much is the share of all candidates from which going through all of them beats
// sorting. Choice: about where the two take as long, by their logarithm.
const much = 1.0 / 16

// inOrder copies what a hypothesis shows in rising order of candidates.
func (e *Engine) inOrder(list []shown) []shown {
	out := make([]shown, 0, len(list))
	if float64(len(list)) < much*float64(len(e.Candidates)) {
		out = append(out, list...)
		slices.Sort(out)
		return out
	}
	if len(e.placed) < len(e.Candidates) {
		e.placed = make([]int32, len(e.Candidates))
	}
	for n, s := range list {
		e.placed[s.candidate()] = int32(n) + 1
	}
	for c, n := range e.placed {
		if n > 0 {
			out = append(out, list[n-1])
			e.placed[c] = 0
		}
	}
	return out
}

// observe takes every step on a machine and keeps what differs. A reading between
// two probes that both meet what they meet on the healthy panel comes out as there
// and is not taken.
func (e *Engine) observe(x *sim.Machine) []shown {
	list := e.buffer[:0]
	e.walk(x, e.scope.situations, func(k int) {
		r := e.reader(x)
		sound := &e.Situations[k].sound
		e.round++
		for i := range e.Probes {
			if e.touching[k] != nil && len(e.touching[k][i]) > 0 && r.differs(sound, i) {
				for _, c := range e.touching[k][i] {
					list = e.keep(list, r, c)
				}
			}
		}
		for _, c := range e.seen[k] {
			if o := r.take(&e.Candidates[c]); o != e.expect[c] {
				list = append(list, newShown(c, o))
			}
		}
	})
	return list
}

// keep takes a step, once a round, and stores an outcome that differs.
func (e *Engine) keep(list []shown, r *reader, c int32) []shown {
	if e.taken[c] == e.round {
		return list
	}
	e.taken[c] = e.round
	if r.fragile(&e.Candidates[c]) {
		e.unsure = append(e.unsure, c)
		return list
	}
	return e.store(list, c, r.take(&e.Candidates[c]))
}

// store keeps a reading that differs from the healthy panel's.
func (e *Engine) store(list []shown, c int32, o outcome) []shown {
	was := e.expect[c]
	if o.ghost != was.ghost || math.Abs(o.value-was.value) > float64(kept*e.spread(&e.Candidates[c], was)) {
		return append(list, newShown(c, o))
	}
	return list
}

// kept is the difference that is stored, in sigmas: less moves no likelihood that
// anybody would notice.
const kept = 0.1

// outcomeOf a candidate under a hypothesis; what has not been solved comes out as
// on the healthy panel.
func (e *Engine) outcomeOf(i int32, c int) outcome {
	h, k := &e.hyps[i], &e.Candidates[c]
	list := h.shows
	switch {
	case k.Look == AtPlace:
		if e.spotOf(i) == c {
			return outcome{value: e.StateValue(NotAsDrawn)}
		}
		return e.expect[c]
	case k.Look != NoLook && k.Situation == 0:
		list = e.aspects[h.aspect]
	case !e.covers(h, int32(c)):
		if o, ok := e.columns[c][i]; ok {
			return o
		}
		return e.expect[c]
	}
	return e.shownIn(list, c)
}

// shownIn is the outcome of a candidate where a list in order has what differs from
// the healthy panel.
func (e *Engine) shownIn(list []shown, c int) outcome {
	n := sort.Search(len(list), func(n int) bool { return list[n].candidate() >= int32(c) })
	if n < len(list) && list[n].candidate() == int32(c) {
		return list[n].outcome()
	}
	return e.expect[c]
}

// covers says whether what a hypothesis shows lists a step wherever it comes out
// otherwise than on the healthy panel.
func (e *Engine) covers(h *hypothesis, c int32) bool {
	return h.read && e.listed(c) && (h.off || !e.Situations[e.Candidates[c].Situation].Off)
}

// showsOf lists what a hypothesis is known to show otherwise than the healthy
// panel.
func (e *Engine) showsOf(i int32) []shown {
	h := &e.hyps[i]
	if h.read {
		return h.shows
	}
	list := e.aspects[h.aspect]
	if c := e.spotOf(i); c >= 0 {
		list = append(slices.Clip(list), newShown(int32(c), outcome{value: e.StateValue(NotAsDrawn)}))
	}
	return list
}

// ask solves one step under one hypothesis.
func (e *Engine) ask(i int32, c int) outcome {
	k := &e.Candidates[c]
	e.still = false
	if _, ok := asked[k.Mode]; ok {
		return e.askInstrument(i, k)
	}
	x := e.enter(i)
	e.hold(x, k.Situation)
	defer e.leave()
	r := e.readerOf(x, c)
	if r.fragile(k) {
		return e.measured(x, k)
	}
	return r.take(k)
}

// askEach solves steps of one situation under one hypothesis, those that are unknown.
func (e *Engine) askEach(i int32, situation int, steps []int) {
	var open []int
	for _, c := range steps {
		if e.unknown(i, c) {
			open = append(open, c)
		}
	}
	for n, o := range e.askTogether(i, situation, open) {
		e.columns[open[n]][i] = o
	}
}

// askTogether solves steps of one situation under one hypothesis, as ask does each.
func (e *Engine) askTogether(i int32, situation int, steps []int) []outcome {
	e.still = false
	x := e.enter(i)
	e.hold(x, situation)
	r := e.readerOf(x, steps...)
	list := make([]outcome, len(steps))
	var apart []int // those that want the meter in the network
	for n, c := range steps {
		k := &e.Candidates[c]
		if _, instrument := asked[k.Mode]; instrument || r.fragile(k) {
			apart = append(apart, n)
		} else {
			list[n] = r.take(k)
		}
	}
	e.leave()
	for _, n := range apart {
		list[n] = e.ask(i, steps[n])
	}
	return list
}
