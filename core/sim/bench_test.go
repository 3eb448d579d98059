package sim_test

import (
	"fmt"
	"testing"

	"halfsplit/core/generate"
	"halfsplit/core/sim"
)

// From cold to running, by the size of the panel in terminals.
func BenchmarkReplay(b *testing.B) {
	for _, n := range []int{100, 1000, 5000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			m := sim.New(generate.Generate(n, 1))
			c, err := m.Condition("normal")
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				m.Replay(c, sim.Running, nil)
			}
		})
	}
}

// One fault tried and undone, by the size of the panel in terminals.
func BenchmarkFault(b *testing.B) {
	for _, n := range []int{100, 1000, 5000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			m := sim.New(generate.Generate(n, 1))
			x := run(b, m, "normal", sim.Running)
			x.Checkpoint()
			for i := 0; b.Loop(); i = (i + 97) % len(m.Net.Modes) {
				x.Apply(m.Net.Modes[i].Changes)
				x.Settle()
				x.Revert()
			}
		})
	}
}
