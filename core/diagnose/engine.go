package diagnose

import (
	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/meter"
	"halfsplit/core/pace"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
)

// An Engine holds the hypotheses of one panel in one condition, solved as far as
// searches needed them. It is not safe for concurrent use.
type Engine struct {
	Base       *trace.Base
	Set        *fault.Set
	Meter      meter.Meter
	Probes     []Probe
	Situations []Situation
	Candidates []Candidate // looks, then readings as they came up
	Places     []string    // where a fault can be seen by a close look
	Pace       *pace.Pace  // of whoever waits for it; may be nil

	zones   *zones
	scope   scope
	focused bool
	placeOf map[string]int // place → candidate
	metal   neighbourhood  // through wires, clamps and jumpers
	expect  []outcome      // by candidate, on the healthy panel
	looks   int            // candidates that are looks
	byProbe map[circuit.Node]int
	strips  map[string]bool

	breaks   []meter.Break  // where current can be measured, once it has been
	pairs    map[pair]int32 // readings known
	readings []int32        // those of the scope
	known    bool           // they are all listed
	order    []int32        // by candidate: its place in the list of the scope; unlisted
	touching [][][]int32    // readings of the scope by situation and probe
	seen     [][]int32      // looks a machine can show, by situation
	taken    []uint32       // by candidate: the round it was last taken in
	round    uint32
	unsure   []int32 // readings that must be solved with the meter in the network

	hyps        []hypothesis
	onsets      int                       // hypotheses of one fault
	aspects     [][]shown                 // what looks in the condition itself show, each once
	aspect      map[string]int32          // its index
	columns     map[int]map[int32]outcome // by candidate and hypothesis: steps solved one by one
	start       *sim.Machine              // of the scope, before its steps
	using       *sim.Machine              // start, while a hypothesis is entered on it
	steps       int                       // outcomes walked by that are not counted yet
	settled     int                       // how often a hypothesis was solved, for good
	still       bool                      // the fault entered changed nothing in the running panel
	reliant     [][]int32                 // by element: the looks that change with it, where it joins zones
	looksAt     [][]int32                 // in the condition itself, by element
	looked      []int32                   // buffer: looks
	placed      []int32                   // buffer: by candidate, 1 + its place in a list
	buffer      []shown                   // of what one hypothesis shows
	modes       []int                     // buffer: of the elements of the running panel with a fault
	all         []int32
	table       *table
	abled       map[int]bool // see able
	resistances resistances
	fitting     fitting
	lastFit     fitting     // of the search before
	instead     *substitute // nil, or what is solved in the place of a fault
	owned       bool        // Set is this engine's
	alikes      [][]int     // by hypothesis: see Alike
	states      []string
	codes       map[string]int
}

// pair is a reading, whichever way round.
type pair struct {
	situation int
	mode      meter.Mode
	low, high int
}

func pairOf(c *Candidate) pair {
	if c.Mode == meter.Diode { // which has a way round
		return pair{c.Situation, c.Mode, c.Red, c.Black}
	}
	return pair{c.Situation, c.Mode, min(c.Red, c.Black), max(c.Red, c.Black)}
}

// New prepares the hypotheses of a panel in one condition; Prepare solves what a
// search needs of them.
func New(b *trace.Base, set *fault.Set, m meter.Meter) *Engine {
	e := &Engine{Base: b, Set: set, Meter: m, Probes: probes(b.Model.Net),
		Situations: situations(b.Model, b.Cond), byProbe: map[circuit.Node]int{}, codes: map[string]int{}, abled: map[int]bool{},
		strips: map[string]bool{}, pairs: map[pair]int32{}, columns: map[int]map[int32]outcome{}, aspects: [][]shown{nil}, aspect: map[string]int32{"": 0}, onsets: 1,
		resistances: resistances{map[step]trials{}, map[narrow]float64{}}}
	for i, p := range e.Probes {
		e.byProbe[p.Node] = i
	}
	for i := range b.Model.Panel.Strips {
		e.strips[b.Model.Panel.Strips[i].Ref] = true
	}
	modes := make([]*parts.Mode, len(set.Faults))
	e.all = make([]int32, len(set.Faults))
	for i := range set.Faults {
		modes[i], e.all[i] = set.Faults[i].Mode, int32(i)
	}
	e.zones = newZones(b.Model.Net, modes)
	e.lookCandidates()
	e.healthy()
	if b.Remembers() {
		e.onsets = 2
	}
	e.hyps = make([]hypothesis, 1+e.onsets*len(set.Faults))
	e.hyps[0].looked = true
	e.weigh()
	return e
}

// healthy looks at the healthy panel in every situation.
func (e *Engine) healthy() {
	x := e.Base.Machine
	e.seen = make([][]int32, len(e.Situations))
	e.looksAt = make([][]int32, len(e.Base.Model.Net.Elements))
	for c := range e.Candidates {
		k := &e.Candidates[c]
		if k.Look == AtPlace {
			continue
		}
		e.seen[k.Situation] = append(e.seen[k.Situation], int32(c))
		if k.Situation == 0 {
			i := e.elementOf(k)
			e.looksAt[i] = append(e.looksAt[i], int32(c))
		}
	}
	all := make([]int, 0, len(e.Situations))
	for k := range e.Situations {
		if !e.Situations[k].Off {
			all = append(all, k)
		}
	}
	e.walk(x, all, func(k int) {
		for i := range e.Base.Model.Net.Devices {
			e.Situations[k].healthy = append(e.Situations[k].healthy, x.Status(i))
		}
		r := reader{e: e, x: x}
		for _, c := range e.seen[k] {
			e.expect[c] = r.take(&e.Candidates[c])
		}
	})
	x.Revert()
}

// list makes the readings of the scope known, with what the healthy panel shows.
func (e *Engine) list() {
	if e.known {
		return
	}
	e.touching = make([][][]int32, len(e.Situations))
	for k := range e.touching {
		e.touching[k] = make([][]int32, len(e.Probes))
	}
	e.order = make([]int32, e.looks, max(e.looks, len(e.Candidates)))
	for c := range e.order {
		e.order[c] = int32(c)
	}
	e.readings = nil
	e.readingCandidates()
	e.taken = make([]uint32, len(e.Candidates))
	x := e.Base.Machine
	e.walk(x, e.scope.situations, func(k int) {
		r := e.reader(x)
		e.Situations[k].sound = r.sight
		for _, c := range e.readings {
			if e.Candidates[c].Situation == k {
				e.expect[c] = r.take(&e.Candidates[c])
			}
		}
	})
	x.Revert()
	e.known = true
	e.Pace.Breathe()
}

// propose adds a reading to those of the scope.
func (e *Engine) propose(k Candidate) {
	c, known := e.pairs[pairOf(&k)]
	if known { // listed for another scope, or asked for: the sign and the effort stay
		e.Candidates[c].Minutes = k.Minutes
	} else {
		c = e.add(k)
		e.pairs[pairOf(&k)] = c
	}
	for len(e.order) <= int(c) {
		e.order = append(e.order, unlisted)
	}
	e.order[c] = int32(e.looks + len(e.readings))
	e.readings = append(e.readings, c)
	at := e.touching[k.Situation]
	at[k.Red] = append(at[k.Red], c)
	at[k.Black] = append(at[k.Black], c)
}

// unlisted stands for a candidate that is not of the scope.
const unlisted = -1

func (e *Engine) listed(c int32) bool { return int(c) < len(e.order) && e.order[c] != unlisted }

// add appends a candidate.
func (e *Engine) add(c Candidate) int32 {
	e.Candidates = append(e.Candidates, c)
	e.expect = append(e.expect, outcome{})
	return int32(len(e.Candidates) - 1)
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
// person may have measured anywhere. flipped says that red and black stand the
// other way round in it.
func (e *Engine) Candidate(situation int, mode meter.Mode, red, black int) (c int, flipped bool) {
	k := Candidate{Situation: situation, Mode: mode, Red: red, Black: black, Minutes: minutesPanel}
	if i, ok := e.pairs[pairOf(&k)]; ok {
		return int(i), e.Candidates[i].Red != red
	}
	i := e.add(k)
	e.pairs[pairOf(&k)] = i
	e.expect[i] = e.ask(0, int(i))
	return int(i), false
}

// LookCandidate finds the look at a device in a situation; -1 without one.
func (e *Engine) LookCandidate(situation int, look Look, thing int) int {
	for c := range e.looks {
		if k := &e.Candidates[c]; k.Situation == situation && k.Look == look && k.Thing == thing {
			return c
		}
	}
	return -1
}
