package diagnose

import (
	"encoding/binary"
	"slices"

	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// look solves a fault for what can be seen in the condition itself: in the
// running panel, and where it was there before the condition's steps and that ends
// otherwise.
func (e *Engine) look(fault int32) {
	i := e.running(fault)
	h := &e.hyps[i]
	if h.looked {
		return
	}
	h.looked = true
	x := e.enter(i)
	h.aspect = e.aspectOf(e.lookAround(x))
	rest := x.Cycle() == nil
	e.still = rest && len(x.Log()) == 0
	e.modes = modes(x, e.modes)
	e.leave()
	if e.onsets == 1 {
		return
	}
	start := &e.hyps[i+1]
	start.looked = true
	if len(e.scope.steps) == 0 {
		return
	}
	if x = e.enter(i + 1); !rest || x.Cycle() != nil || !e.same(x) {
		e.split(i, e.aspectOf(e.lookAround(x)))
	}
	e.leave()
}

// split gives both onsets of a fault their own hypothesis, half as likely each.
func (e *Engine) split(running int32, aspect int32) {
	h, start := &e.hyps[running], &e.hyps[running+1]
	start.aspect = aspect
	if start.prior == 0 {
		h.prior /= 2
		start.prior = h.prior
	}
}

// replay starts the panel from cold with a fault that joins something: a short may
// blow a fuse in the milliseconds before the relays are in. It is solved only where
// nothing else explains what was seen, for on a large panel a replay costs a
// hundred times the fault in the running panel.
func (e *Engine) replay(fault int32) {
	i := e.running(fault) + 1
	start := &e.hyps[i]
	start.cold = true
	x := e.enter(i - 1)
	e.modes = modes(x, e.modes)
	e.leave()
	if x = e.enter(i); !e.same(x) {
		e.split(i-1, e.aspectOf(e.lookAround(x)))
	}
	e.leave()
}

// replayed says whether a fault need not be replayed from cold.
func (e *Engine) replayed(fault int32) bool {
	if e.onsets == 1 || e.hyps[e.running(fault)+1].cold {
		return true
	}
	for _, c := range e.Set.Faults[fault].Changes {
		if c.What == parts.AddLink {
			return false
		}
	}
	return true
}

// lookAround lists the looks that come out otherwise than on the healthy panel.
func (e *Engine) lookAround(x *sim.Machine) []shown {
	var list []shown
	r := reader{e: e, x: x}
	for _, c := range e.looksMoved(x) {
		if o := r.take(&e.Candidates[c]); o != e.expect[c] {
			list = append(list, newShown(c, o))
		}
	}
	return list
}

// looksMoved lists the looks that may come out otherwise, in order: those at elements
// that something has happened to in the running panel, and on any other machine all.
func (e *Engine) looksMoved(x *sim.Machine) []int32 {
	elements, ok := x.Differing()
	if !ok || x != e.Base.Machine {
		return e.seen[0]
	}
	list := e.looked[:0]
	for _, i := range elements {
		list = append(list, e.looksAt[i]...)
	}
	slices.Sort(list)
	e.looked = list
	return list
}

// aspectOf keeps equal lists once: on a large panel most faults show nothing, and
// those of one circuit the same.
func (e *Engine) aspectOf(list []shown) int32 {
	key := make([]byte, 0, 6*len(list))
	for _, s := range list {
		state := int(s.outcome().value)
		key = append(binary.LittleEndian.AppendUint32(key, uint32(s>>32)), byte(state), byte(state>>8))
	}
	i, ok := e.aspect[string(key)]
	if !ok {
		i = int32(len(e.aspects))
		e.aspect[string(key)] = i
		e.aspects = append(e.aspects, list)
	}
	return i
}

func modes(x *sim.Machine, list []int) []int {
	list = list[:0]
	for i := range x.Model.Net.Elements {
		list = append(list, x.State(i).Mode)
	}
	return list
}

// same says whether every element is in the mode it has in the running panel with
// the fault: then the network is the same one.
func (e *Engine) same(x *sim.Machine) bool {
	for i, m := range e.modes {
		if x.State(i).Mode != m {
			return false
		}
	}
	return true
}

// powered is the healthy panel powered up with those of the condition's steps done
// that are not of the scope.
func (e *Engine) powered() *sim.Machine {
	if e.start == nil {
		e.start = e.Base.Model.Cold()
		e.start.PowerUp(e.Base.Cond)
		for k := range e.Base.Cond.Steps {
			if !slices.Contains(e.scope.steps, k) {
				e.start.Do(e.Base.Cond.Steps[k : k+1])
			}
		}
		e.start.Checkpoint()
	}
	return e.start
}

// releases is how often what holds is let go before a start: one may hang on another.
const releases = 3

// before brings the healthy panel powered up to the condition's steps with a fault
// in it, and takes them. What holds a state that it would not have reached is let
// go first: the fault was there before the power.
func (e *Engine) before(i int32) *sim.Machine {
	x := e.powered()
	x.Apply(e.changesOf(i))
	x.Settle()
	if e.still && len(x.Log()) == 0 && !e.altersStep(int32(e.faultOf(i))) {
		x.Revert() // it moves nothing, before the steps nor after
		return e.Base.Enter(e.changesOf(i), sim.Running)
	}
	e.using = x
	e.Pace.Spend(e.large(startEffort))
	for n := 0; n < releases && x.Holds() && x.Release(); n++ {
		// what it let go may be what another hangs on
	}
	for _, k := range e.scope.steps {
		x.Do(e.Base.Cond.Steps[k : k+1])
	}
	return x
}

// altersStep says whether a fault lies in a zone that one of the scope's steps acts
// in.
func (e *Engine) altersStep(fault int32) bool {
	for _, k := range e.scope.steps {
		for _, t := range e.zones.touched[e.Base.Cond.Steps[k].Element] {
			if slices.Contains(e.zones.faults[fault], t) {
				return true
			}
		}
	}
	return false
}

// spotOf is the close look that a hypothesis's fault would be seen by; -1 where
// there is none.
func (e *Engine) spotOf(i int32) int {
	if i == 0 {
		return -1
	}
	if name, ok := spot(e.Set.Faults[e.faultOf(i)].Mode); ok {
		return e.placeOf[name]
	}
	return -1
}
