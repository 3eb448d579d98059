package sim_test

import (
	"math/rand/v2"
	"testing"

	"halfsplit/core/generate"
	"halfsplit/core/sim"
)

// Panels somebody wired blindly: every wire end has one chance in five to be on
// another end's place. Supplies meet supplies, mains meets 24 V, coils stand in
// series: the laws hold all the same.
func TestMiswired(t *testing.T) {
	for seed := range uint64(60) {
		p := generate.Generate(20+int(seed), seed)
		r := rand.New(rand.NewPCG(seed, 7))
		var ends []*string
		for i := range p.Wires {
			ends = append(ends, &p.Wires[i].From, &p.Wires[i].To)
		}
		for _, e := range ends {
			if r.IntN(5) == 0 {
				o := ends[r.IntN(len(ends))]
				*e, *o = *o, *e
			}
		}
		m := sim.New(p)
		for _, at := range []string{"normal", "stopped", sim.PowerOff} {
			x := run(t, m, at, sim.Running)
			numbers(t, x)
			if x.Cycle() == nil {
				laws(t, at, x, nil)
				currentLaw(t, at, x)
				content(t, at, x)
			}
		}
	}
}

// content checks that the panel is at rest: no element wants another mode.
func content(t *testing.T, what string, x *sim.Machine) {
	t.Helper()
	for i, e := range x.Model.Net.Elements {
		if next, _ := e.Element.Next(x.State(i), x.Input(i), x.View()); next.Mode != x.State(i).Mode {
			t.Errorf("%s: %s wants mode %d and is in %d", what, e.Ref, next.Mode, x.State(i).Mode)
		}
	}
}
