package sim

import "halfsplit/core/parts"

// Bounds of one Settle, for a panel of so many elements. One that needs more has
// found neither rest nor a cycle and is reported as a cycle of all that moved.
// Every element may have to change a few times to get from cold to running.
func maxEvents(elements int) int  { return 400 + 8*elements }
func maxInstant(elements int) int { return 2000 + 40*elements }

// fewStates is up to how many states seen in the last Settle their map is used again:
// clearing it costs as much as the largest it was.
const fewStates = 16

// Settle lets the panel run until nothing wants to change, or until it repeats
// itself. Err tells when the network could not be solved.
func (x *Machine) Settle() {
	x.now, x.log, x.cycle, x.err = 0, x.log[:0], nil, nil
	for _, i := range x.attention.restless {
		x.due[i].on = false
	}
	if len(x.seen) > fewStates {
		x.seen = nil
	}
	clear(x.seen)
	for event := 0; ; event++ {
		if !x.instant() {
			return
		}
		x.schedule()
		next := x.earliest()
		if next < 0 && !x.attention.checked && event < maxEvents(len(x.states)) && x.verify() {
			continue // what moved little by little, event by event
		}
		if next < 0 {
			x.attention.atRest = true
			return
		}
		key := x.signature()
		s, again := x.seen[key]
		if again && s.steady(x.now) && !x.leap(s) || event >= maxEvents(len(x.states)) {
			x.cycle = x.cycleSince(s)
			return
		}
		now := s.again(x, again)
		if again && s.certain(now, x.seen) {
			x.repeat(s)
			x.cycle = x.cycleSince(now)
			return
		}
		if x.seen == nil {
			x.seen = map[uint64]seenAt{}
		}
		x.seen[key] = now
		x.advance(next)
	}
}

// verify asks all who may have been missed while the panel moved little by little,
// and says whether somebody wants to change after all.
func (x *Machine) verify() bool {
	switch x.attention.how {
	case rolling:
		if x.attention.hasty {
			return false
		}
		x.askAll()
	case anchored:
		x.askMoved()
	}
	return len(x.attention.restless) > 0
}

// advance makes the change that is due first and those sure to come with it: of
// changes due together, the ones whose times have no spread. A relay and its like
// do have one, so in truth they never move at the same moment and go one by one.
func (x *Machine) advance(next int) {
	first := x.due[next]
	x.now = first.at
	for _, k := range x.attention.restless {
		i := int(k)
		if i < next {
			continue
		}
		p := x.due[i]
		if i == next || p.on && p.at == first.at && first.sure() && p.sure() {
			x.due[i].on = false
			x.fire(i, x.wishes[i].state, p)
		}
	}
}

func (p pending) sure() bool { return p.wait.Min == p.wait.Max }

// fire changes the state of an element and logs it.
func (x *Machine) fire(i int, to parts.State, p pending) {
	x.log = append(x.log, Event{Element: i, From: x.states[i], To: to,
		MinMS: p.from + p.wait.Min, MaxMS: p.from + p.wait.Max, Electronic: p.wait.Max == 0})
	x.setState(i, to)
}

// blockTries is how often all electronics may change together without fewer of
// them being discontent afterwards, before they go one by one.
const blockTries = 3

// instant solves and lets the electronics change until they are content. It
// reports false when the network could not be solved or the electronics chase
// each other, which is a cycle without a period.
//
// All that want to change do so together as long as that leaves fewer of them
// discontent; otherwise the lowest index alone until it does. Source: block
// principal pivoting with Murty's rule to fall back on, Júdice & Pires, Computers
// & Operations Research 21 (1994), 587-596. One at a time from the start would
// cost a solution for every transmitter of the panel.
func (x *Machine) instant() bool {
	start, limit := len(x.log), maxInstant(len(x.states))
	fewest, tries := limit, blockTries
	for range limit {
		if !x.solve() {
			return false
		}
		x.ask()
		switch n := x.discontent(); {
		case n == 0:
			if !x.retune() {
				return true
			}
			fewest, tries = limit, blockTries
		case n < fewest:
			fewest, tries = n, blockTries
			x.changeAtOnce(true)
		default:
			tries--
			x.changeAtOnce(tries >= 0)
		}
	}
	x.cycle = x.cycleSince(seenAt{log: start, ms: x.now})
	if x.solve(); len(x.cycle.Members) == 0 { // whatever state it was stopped in is there to be read
		x.ask()
		for _, i := range x.attention.restless { // what is continuous in them found no end
			x.cycle.Members = append(x.cycle.Members, int(i))
		}
	}
	return false
}

func (x *Machine) solve() bool {
	if err := x.dc.Solve(); err != nil {
		x.err = err
		return false
	}
	if x.ac != nil {
		if err := x.ac.solve(); err != nil {
			x.err = err
			return false
		}
	}
	return true
}

// atOnce says that an element wants another mode and takes no time for it.
func (x *Machine) atOnce(i int) bool {
	w := &x.wishes[i]
	return w.state.Mode != x.states[i].Mode && w.wait.Max == 0
}

// discontent counts the elements that want another mode at once.
func (x *Machine) discontent() (n int) {
	for _, i := range x.attention.restless {
		if x.atOnce(int(i)) {
			n++
		}
	}
	return n
}

// changeAtOnce changes the first of them, or all.
func (x *Machine) changeAtOnce(all bool) {
	for _, k := range x.attention.restless {
		if i := int(k); x.atOnce(i) {
			x.fire(i, x.wishes[i].state, pending{from: x.now})
			if !all {
				return
			}
		}
	}
}

// retune takes over the continuous memories that moved, all together.
func (x *Machine) retune() bool {
	moved := false
	for _, i := range x.attention.restless {
		if s := x.wishes[i].state; s.Mode == x.states[i].Mode && s.X != x.states[i].X {
			x.setState(int(i), s)
			moved = true
		}
	}
	return moved
}

// schedule starts the clocks of elements that want to change and stops those of
// elements that no longer do.
func (x *Machine) schedule() {
	for _, i := range x.attention.restless {
		p, w := &x.due[i], &x.wishes[i]
		if w.state.Mode == x.states[i].Mode {
			p.on = false
			continue
		}
		if at := x.now + w.wait.Mid(); !p.on || p.mode != w.state.Mode || at < p.at {
			*p = pending{on: true, mode: w.state.Mode, at: at, from: x.now, wait: w.wait}
		}
	}
}

// earliest is the element whose change is due first, -1 when none is; the lowest
// index of those due together.
func (x *Machine) earliest() int {
	best := -1
	for _, i := range x.attention.restless {
		if x.due[i].on && (best < 0 || x.due[i].at < x.due[best].at) {
			best = int(i)
		}
	}
	return best
}

// signature identifies a state of the panel with the changes under way.
func (x *Machine) signature() uint64 {
	h := x.attention.modes
	for _, i := range x.attention.restless {
		if x.due[i].on {
			h ^= mix(int(i), x.due[i].mode+1024)
		}
	}
	return h
}

// mix hashes a mode of an element; the exclusive or of all is the panel's.
// Source: the finalizer of SplitMix64, Steele, Lea & Flood, OOPSLA 2014.
func mix(element, mode int) uint64 {
	z := uint64(element)<<16 + uint64(mode) + 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}
