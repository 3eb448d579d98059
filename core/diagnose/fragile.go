package diagnose

import (
	"halfsplit/core/meter"
	"halfsplit/core/sim"
)

// A fragile reading moves what it measures: where a passive drop, such as a
// transmitter at its lift-off, hangs on insulation, the meter carries more than it
// does, and only the network with the meter in it tells what is shown.

// fragile says that a reading must be solved with the meter in the network.
func (r *reader) fragile(c *Candidate) bool {
	return r.knees && c.Look == NoLook && c.Mode == meter.VDC && r.island[c.Red] != r.island[c.Black]
}

// measured is a reading solved with the meter in the network, which is then as it
// was.
func (e *Engine) measured(x *sim.Machine, c *Candidate) (o outcome) {
	red, black := e.Probes[c.Red].Node, e.Probes[c.Black].Node
	x.Bridged(red, black, e.Meter.Input, func() { o = outcome{value: x.V(red) - x.V(black), ghost: true} })
	return o
}

// inOneGo is how many fragile readings are solved before the hypothesis is left so
// that the search can breathe. Choice: entering it again costs some five of them.
const inOneGo = 50

// readFragile solves fragile readings under one hypothesis, those of one situation
// together, and keeps what differs. There may be thousands: with a jumper out, all
// behind it hangs on insulation, and each point of it is read against all others.
func (e *Engine) readFragile(list []shown, i int32, steps []int32) []shown {
	for len(steps) > 0 {
		k, n := e.Candidates[steps[0]].Situation, 0
		e.Pace.Breathe()
		x := e.enter(i)
		e.hold(x, k)
		for ; n < len(steps) && n < inOneGo && e.Candidates[steps[n]].Situation == k; n++ {
			list = e.store(list, steps[n], e.measured(x, &e.Candidates[steps[n]]))
		}
		e.leave()
		e.Pace.Spend(n) // measured, on panels of 600 and of 9000 nodes
		steps = steps[n:]
	}
	return list
}
