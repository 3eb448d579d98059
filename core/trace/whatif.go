package trace

import (
	"math"
	"sort"

	"halfsplit/core/fault"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A WhatIf is the outcome of one experiment.
type WhatIf struct {
	Affected []Affected
	Timeline []Step
	Moved    []Moved // points whose voltage changed, in document order
	Cycle    *sim.Cycle
	Err      error
}

// A Step of the timeline: an element of the panel changed.
type Step struct {
	MinMS, MaxMS float64
	Ref          string
	Code         string // of package words: "event.released"
}

// A Moved point: its voltages to earth before and after.
type Moved struct {
	Point        int // index into Net.Points
	Was, Now     float64
	WasAC, NowAC float64
}

// movedVolts is the change that a point must show to be listed: a tenth of a
// volt, what a person would call another reading.
const movedVolts = 0.1

// WhatIf tries the faults together, in the running panel or before its start,
// and leaves the base as it was.
func (b *Base) WhatIf(faults []*fault.Fault, onset sim.Onset) WhatIf {
	x := b.Enter(changes(faults), onset)
	w := WhatIf{Affected: b.Compare(x, faults), Cycle: x.Cycle(), Err: x.Err()}
	b.explain(x, faults, w.Affected)
	w.Timeline = timeline(x)
	for i, p := range b.Model.Net.Points {
		m := Moved{Point: i, Was: b.V(p.Node), Now: x.V(p.Node), WasAC: abs(b.VAC(p.Node)), NowAC: abs(x.VAC(p.Node))}
		if math.Abs(m.Was-m.Now) > movedVolts || math.Abs(m.WasAC-m.NowAC) > movedVolts {
			w.Moved = append(w.Moved, m)
		}
	}
	b.Leave()
	return w
}

// Sweep is WhatIf of one fault in short: who and how, in the running panel. The
// list is good until the next experiment.
func (b *Base) Sweep(f *fault.Fault) []Affected {
	one := []*fault.Fault{f}
	list := b.compare(b.Enter(f.Changes, sim.Running), one)
	b.Leave()
	return list
}

func changes(faults []*fault.Fault) []parts.Change {
	var list []parts.Change
	for _, f := range faults {
		list = append(list, f.Changes...)
	}
	return list
}

// timeline turns events into steps, electronics of one moment together at their
// last state.
func timeline(x *sim.Machine) []Step {
	net := x.Model.Net
	var steps []Step
	for _, e := range x.Log() {
		el := &net.Elements[e.Element]
		namer, ok := el.Element.(parts.Namer)
		if !ok {
			continue
		}
		s := Step{MinMS: e.MinMS, MaxMS: e.MaxMS, Ref: el.Ref, Code: "event." + namer.ModeName(e.To)}
		if n := len(steps); n > 0 && steps[n-1].Ref == s.Ref && e.Electronic {
			steps[n-1].Code = s.Code
			continue
		}
		steps = append(steps, s)
	}
	sort.SliceStable(steps, func(i, j int) bool { return steps[i].MinMS < steps[j].MinMS })
	return steps
}
