package diagnose

import (
	"halfsplit/core/meter"
	"halfsplit/core/sim"
)

// A fragile reading is one that moves what it measures: where a passive drop, such
// as a transmitter at its lift-off, hangs on insulation, the meter itself carries
// more than it does. Only the network with the meter in it tells what is shown.

// fragile says that a reading must be solved with the meter in the network.
func (r *reader) fragile(c *Candidate) bool {
	return r.knees && c.Look == NoLook && c.Mode == meter.VDC && r.island[c.Red] != r.island[c.Black]
}

// measured is a reading solved with the meter in the network, on a machine that is
// not needed afterwards.
func (e *Engine) measured(x *sim.Machine, c *Candidate) outcome {
	r, refused := e.Meter.Read(x, c.Mode, e.Probes[c.Red].Node, e.Probes[c.Black].Node)
	if refused != nil {
		return outcome{}
	}
	return outcome{value: r.Value, ghost: true}
}

// readFragile solves fragile readings under one hypothesis and keeps what differs.
// There may be thousands of them: with a jumper out, what was behind it hangs on
// insulation, and each of its points is read against everything else.
func (e *Engine) readFragile(list []shown, i int32, steps []int32) []shown {
	for _, c := range steps {
		e.Pace.Breathe()
		e.Pace.Spend(e.large(tryEffort))
		x := e.enter(i)
		e.hold(x, e.Candidates[c].Situation)
		list = e.store(list, c, e.measured(x, &e.Candidates[c]))
		e.leave()
	}
	return list
}
