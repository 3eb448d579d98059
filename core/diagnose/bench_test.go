package diagnose_test

import (
	"testing"

	"halfsplit/core/diagnose"
)

func deadOn(e *diagnose.Engine) []diagnose.Observation {
	return []diagnose.Observation{{Kind: diagnose.Dead, Candidate: e.LookCandidate(0, diagnose.AtDevice, 3)}}
}

// BenchmarkFind measures an answer on the dosing skid with a dead instrument, once
// all it needs has been solved.
func BenchmarkFind(b *testing.B) {
	e := engine(b, "dosing-skid", "normal")
	obs := deadOn(e)
	e.Find(obs)
	b.Logf("%d faults, %d candidates", len(e.Set.Faults), len(e.Candidates))
	for b.Loop() {
		e.Find(obs)
	}
}

// BenchmarkFirstFind measures the first one, with all that it solves.
func BenchmarkFirstFind(b *testing.B) {
	for b.Loop() {
		e := engine(b, "dosing-skid", "normal")
		e.Find(deadOn(e))
	}
}
