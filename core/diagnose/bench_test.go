package diagnose_test

import (
	"testing"

	"halfsplit/core/diagnose"
)

// BenchmarkFind measures one answer on the dosing skid with a dead instrument.
func BenchmarkFind(b *testing.B) {
	e := engine(b, "dosing-skid", "normal")
	obs := []diagnose.Observation{{Kind: diagnose.Dead, Candidate: e.LookCandidate(0, diagnose.AtDevice, 3)}}
	b.Logf("%d faults, %d candidates", len(e.Set.Faults), len(e.Candidates))
	for b.Loop() {
		e.Find(obs)
	}
}

// BenchmarkBuild measures solving every hypothesis of the dosing skid.
func BenchmarkBuild(b *testing.B) {
	for b.Loop() {
		engine(b, "dosing-skid", "normal")
	}
}
