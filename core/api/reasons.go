package api

import (
	"halfsplit/core/diagnose"
	"halfsplit/core/fault"
	"halfsplit/core/sim"
)

// reasonedFrom is how likely a suspect must be for its reasons to be worked out:
// choice. Three are told at most, so that the next prompt does not wait for them.
const reasonedFrom = 0.25

// reasons says in words how a leading suspect brings about what was seen dead: the
// same sentences as its what-if has.
func (t teller) reasons(s *diagnose.Suspect) (list []Text) {
	if s.Silent || s.Probability < reasonedFrom || len(s.Faults) == 0 {
		return nil
	}
	dead := map[int]bool{}
	for i := range t.obs {
		if o := &t.obs[i]; o.Kind == diagnose.Dead && o.In == nil {
			dead[t.e.Candidates[o.Candidate].Thing] = true
		}
	}
	if len(dead) == 0 {
		return nil
	}
	faults := []*fault.Fault{&t.e.Set.Faults[s.Faults[0]]}
	list = t.because(faults, sim.Running, dead)
	if len(list) == 0 && t.e.Base.Remembers() { // it was there before the start
		list = t.because(faults, sim.Start, dead)
	}
	return list
}

// because tells the reasons for the devices seen dead, at one onset.
func (t teller) because(faults []*fault.Fault, onset sim.Onset, dead map[int]bool) (list []Text) {
	for _, a := range t.e.Base.WhatIf(faults, onset).Affected {
		if a.Device < 0 || !dead[a.Device] {
			continue
		}
		for _, why := range t.s.affected(t.lang, a, faults).Why {
			list = append(list, say(t.lang, "evidence.because", a.Ref, why.Text))
		}
	}
	return list
}
