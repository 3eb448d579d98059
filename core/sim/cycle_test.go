package sim_test

import (
	"strings"
	"testing"

	"halfsplit/core/generate"
	"halfsplit/core/sim"
)

// A valve on a controller output is shorted at its terminals: the supply is
// dragged down, the card stops after 10 ms, the supply recovers, and after 100 ms
// the card starts again (its data, as the catalogue has them). What was under way
// when the short came makes the first round shorter, and is no part of the pace.
func TestCyclePace(t *testing.T) {
	m := sim.New(generate.Generate(23, 1085))
	x := run(t, m, "normal", sim.Running, "W40@Q2:2=moved:Q2:1")
	for range 2 { // asked again, it goes on as it was
		if x.Cycle() == nil {
			t.Fatal("at rest, want a cycle")
		}
		if p := x.Cycle().PeriodMS; p != 110 {
			t.Errorf("period %g ms, want 110", p)
		}
		x.Settle()
	}
}

// A core on its gland drags the supply down and cards stop and start, but all the
// while a fuse heats: it blows, after one round or after many, and the panel rests.
func TestFuseEndsCycle(t *testing.T) {
	for _, tc := range []struct {
		terminals int
		seed      uint64
		onset     sim.Onset
		fault     string
	}{
		{92, 1100, sim.Running, "W39~PE=short"},
		{92, 1103, sim.Start, "W16~PE=short"},
	} {
		m := sim.New(generate.Generate(tc.terminals, tc.seed))
		x := run(t, m, "normal", tc.onset, tc.fault)
		if x.Cycle() != nil {
			t.Errorf("%s: a cycle of %g ms, want rest", tc.fault, x.Cycle().PeriodMS)
		}
		blown := 0
		for e := range m.Net.Elements {
			if strings.HasSuffix(m.Net.Elements[e].Ref, " link") && x.State(e).Mode == 1 {
				blown++
			}
		}
		if blown != 1 {
			t.Errorf("%s: %d fuses have blown, want 1", tc.fault, blown)
		}
	}
}
