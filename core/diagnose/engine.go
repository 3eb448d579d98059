package diagnose

import (
	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
	"halfsplit/core/trace"
)

// An Engine holds the solved hypotheses of one panel in one condition. It is
// not safe for concurrent use.
type Engine struct {
	Base       *trace.Base
	Set        *fault.Set
	Meter      meter.Meter
	Probes     []Probe
	Situations []Situation
	Candidates []Candidate
	Places     []string // where a fault can be seen by a close look

	placeOf     map[string]int    // place → candidate
	expect      []outcome         // by candidate, on the healthy panel
	section     []map[string]bool // by probe: the sources it hangs on
	bySituation [][]int32
	touching    [][][]int32 // readings by situation and probe
	looks       [][]int32   // looks a machine can show, by situation
	taken       []uint32    // by candidate: the round it was last taken in
	round       uint32
	unsure      []int32 // readings that must be solved with the meter in the network
	byProbe     map[circuit.Node]int
	hyps        []hypothesis
	classes     [][]int32
	table       [][]cell // by candidate
	built       int      // faults done
	states      []string
	codes       map[string]int
}

// New prepares the hypotheses of a panel in one condition; Step solves them.
func New(b *trace.Base, set *fault.Set, m meter.Meter) *Engine {
	e := &Engine{Base: b, Set: set, Meter: m, Probes: probes(b.Model.Net),
		Situations: situations(b.Model, b.Cond), byProbe: map[circuit.Node]int{}, codes: map[string]int{}}
	for i, p := range e.Probes {
		e.byProbe[p.Node] = i
	}
	e.bySituation = make([][]int32, len(e.Situations))
	x := b.Machine
	e.candidates()
	e.walk(x, func(k int) {
		s := &e.Situations[k]
		for i := range b.Model.Net.Devices {
			s.healthy = append(s.healthy, x.Status(i))
		}
		r := e.reader(x)
		s.sound = r.sight
		for _, c := range e.bySituation[k] {
			if e.Candidates[c].Look != AtPlace {
				e.expect[c] = r.take(&e.Candidates[c])
			}
		}
	})
	e.sortOut()
	x.Revert()
	e.hyps = append(e.hyps, hypothesis{fault: healthyPanel})
	return e
}

// sortOut lists the candidates by the probes they touch.
func (e *Engine) sortOut() {
	e.touching = make([][][]int32, len(e.Situations))
	e.looks = make([][]int32, len(e.Situations))
	e.taken = make([]uint32, len(e.Candidates))
	for k := range e.Situations {
		e.touching[k] = make([][]int32, len(e.Probes))
		for _, c := range e.bySituation[k] {
			switch cand := &e.Candidates[c]; cand.Look {
			case NoLook:
				e.touching[k][cand.Red] = append(e.touching[k][cand.Red], c)
				e.touching[k][cand.Black] = append(e.touching[k][cand.Black], c)
			case AtDevice, AtLight:
				e.looks[k] = append(e.looks[k], c)
			}
		}
	}
}

// add appends a candidate.
func (e *Engine) add(c Candidate) {
	e.bySituation[c.Situation] = append(e.bySituation[c.Situation], int32(len(e.Candidates)))
	e.Candidates = append(e.Candidates, c)
	e.expect = append(e.expect, outcome{})
}

// Step solves up to n more faults and says how far it has come.
func (e *Engine) Step(n int) (done, total int) {
	total = len(e.Set.Faults)
	for ; n > 0 && e.built < total; n-- {
		e.solve(e.built)
		e.built++
	}
	if e.built == total && e.classes == nil {
		e.weigh()
		e.classify()
	}
	return e.built, total
}

// Healthy is the status of a device in a situation of the healthy panel.
func (e *Engine) Healthy(situation, device int) parts.Status {
	return e.Situations[situation].healthy[device]
}

// Probe gives the probe of a node; ok is false where none reaches it.
func (e *Engine) Probe(n circuit.Node) (probe int, ok bool) {
	probe, ok = e.byProbe[n]
	return probe, ok
}

// Candidate finds the reading between two probes, sign apart, or adds it: a
// person may have measured anywhere. A new one is solved under every hypothesis.
// flipped says that red and black stand the other way round in it.
func (e *Engine) Candidate(situation int, mode meter.Mode, red, black int) (c int, flipped bool) {
	for _, i := range e.bySituation[situation] {
		k := &e.Candidates[i]
		if k.Look != NoLook || k.Mode != mode {
			continue
		}
		if k.Red == red && k.Black == black {
			return int(i), false
		}
		if k.Red == black && k.Black == red {
			return int(i), true
		}
	}
	e.add(Candidate{Situation: situation, Mode: mode, Red: red, Black: black, Minutes: minutesPanel})
	c = len(e.Candidates) - 1
	e.Candidates[c].Asked = true
	for i := range e.hyps {
		h := &e.hyps[i]
		var changes []parts.Change
		if h.fault != healthyPanel {
			changes = e.Set.Faults[h.fault].Changes
		}
		x := e.Base.Enter(changes, h.onset)
		e.hold(x, situation)
		r := e.reader(x)
		var o outcome
		if r.fragile(&e.Candidates[c]) {
			o = e.measured(x, &e.Candidates[c])
		} else {
			o = r.take(&e.Candidates[c])
		}
		e.Base.Leave()
		if h.fault == healthyPanel {
			e.expect[c] = o
		} else {
			h.shows = append(h.shows, shown{int32(c), o})
		}
	}
	return c, false
}

// LookCandidate finds the look at a device in a situation; -1 without one.
func (e *Engine) LookCandidate(situation int, look Look, thing int) int {
	for _, i := range e.bySituation[situation] {
		if k := &e.Candidates[i]; k.Look == look && k.Thing == thing {
			return int(i)
		}
	}
	return -1
}
