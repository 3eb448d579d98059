package diagnose

import (
	"slices"

	"halfsplit/core/sim"
)

// look solves a fault for what can be seen in the condition itself: in the
// running panel, and from a start with the fault present where that ends
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
	if e.onsets == 1 {
		e.Base.Leave()
		return
	}
	cycle, moved := x.Cycle() != nil, len(x.Log()) > 0
	e.modes = modes(x, e.modes)
	e.Base.Leave()
	start := &e.hyps[i+1]
	start.looked = true
	if !cycle && !e.startsOtherwise(fault, moved) {
		return
	}
	x = e.enter(i + 1)
	if cycle || x.Cycle() != nil || !e.same(x) {
		start.aspect = e.aspectOf(e.lookAround(x))
		h.prior /= 2
		start.prior = h.prior
	}
	e.Base.Leave()
}

// lookAround lists the looks that come out otherwise than on the healthy panel.
func (e *Engine) lookAround(x *sim.Machine) []shown {
	var list []shown
	r := reader{e: e, x: x}
	for _, c := range e.seen[0] {
		if o := r.take(&e.Candidates[c]); o != e.expect[c] {
			list = append(list, newShown(c, o))
		}
	}
	return list
}

// aspectOf keeps equal lists once: on a large panel most faults show nothing, and
// those of one circuit the same.
func (e *Engine) aspectOf(list []shown) int32 {
	key := make([]byte, 0, 6*len(list))
	for _, s := range list {
		key = append(key, byte(s.step), byte(s.step>>8), byte(s.step>>16), byte(s.step>>24), byte(int(s.value)), byte(int(s.value)>>8))
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

// startsOtherwise tries a start with the fault present, from the healthy panel
// powered up, and says whether it may end otherwise than the fault in the running
// panel did.
func (e *Engine) startsOtherwise(fault int32, moved bool) bool {
	open := e.scope.steps
	if len(open) == 0 {
		return false
	}
	x := e.powered()
	defer x.Revert()
	x.Apply(e.Set.Faults[fault].Changes)
	x.Settle()
	if x.Cycle() != nil || x.Holds() {
		return true
	}
	if !moved && len(x.Log()) == 0 && !e.altersStep(fault, open) {
		return false // it moves nothing, before the start nor after
	}
	for _, k := range open {
		x.Do(e.Base.Cond.Steps[k : k+1])
		if x.Cycle() != nil {
			return true
		}
	}
	return !e.same(x)
}

// altersStep says whether a fault lies in a zone that one of the steps acts in.
func (e *Engine) altersStep(fault int32, steps []int) bool {
	for _, k := range steps {
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
	if name, ok := spot(&e.Set.Faults[e.faultOf(i)].Mode); ok {
		return e.placeOf[name]
	}
	return -1
}
