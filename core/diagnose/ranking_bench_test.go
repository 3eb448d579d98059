//go:build linux

package diagnose

import (
	"flag"
	"fmt"
	"syscall"
	"testing"

	"halfsplit/core/fault"
	"halfsplit/core/generate"
	"halfsplit/core/meter"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
	"halfsplit/scenarios"
)

var (
	rankedSeed = flag.Uint64("ranked-seed", 1, "of the generated panels that BenchmarkRanking ranks")
	rankedMost = flag.Int("ranked-most", 100, "the largest of them, in terminals")
)

// BenchmarkRanking measures the ranking of all next steps, with nothing observed
// and after one device was found dead, on the dosing skid and on generated panels.
// ns/change is for every outcome of a step that a fault still suspected changes.
func BenchmarkRanking(b *testing.B) {
	data, err := scenarios.Panel("dosing-skid")
	if err != nil {
		b.Fatal(err)
	}
	drawn, err := panel.Read(data)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("dosing-skid", func(b *testing.B) { benchmarkRanking(b, drawn.Panel, true) })
	for _, n := range []int{50, 100, 200, 500, 1000} {
		if n <= *rankedMost {
			b.Run(fmt.Sprint(n), func(b *testing.B) { benchmarkRanking(b, generate.Generate(n, *rankedSeed), n <= wholeMost) })
		}
	}
}

// wholeMost is the largest panel, in terminals, that is ranked with nothing observed
// too: of all its faults every reading has to be known.
const wholeMost = 100

// ranked keeps engines, by panel: making one takes longer than measuring it, and
// -count asks again.
var ranked = map[string]*Engine{}

func benchmarkRanking(b *testing.B, p *panel.Panel, whole bool) {
	e := ranked[b.Name()]
	if e == nil {
		m := sim.New(p)
		c, err := m.Condition("normal")
		if err != nil {
			b.Fatal(err)
		}
		e = New(trace.New(m, c), fault.All(m.Net), meter.Typical)
		ranked[b.Name()] = e
	}
	for _, seen := range []struct {
		name string
		obs  []Observation
	}{
		{"nothing", nil},
		{"dead", []Observation{{Kind: Dead, Candidate: e.LookCandidate(0, AtDevice, working(e))}}},
	} {
		if seen.obs == nil && !whole {
			continue
		}
		b.Run(seen.name, func(b *testing.B) { benchmarkGains(b, e, seen.obs) })
	}
}

// working is a device in the middle of the list that should be on.
func working(e *Engine) int {
	for i := len(e.Base.Healthy) / 2; ; i++ {
		if e.Base.Healthy[i].Grade == parts.On {
			return i
		}
	}
}

func benchmarkGains(b *testing.B, e *Engine, obs []Observation) {
	s := e.survey(obs)
	suspects := e.suspects(&s, obs)
	changes := 0
	for k := range suspects {
		for _, i := range suspects[k].hyps {
			for _, step := range e.showsOf(i) {
				if !e.Situations[e.Candidates[step.candidate()].Situation].Off {
					changes++
				}
			}
		}
	}
	e.table = nil
	made := used(b)
	e.gains(suspects, s.posterior, false) // makes the table, once a complaint
	made = (used(b) - made) / float64(changes)
	before := used(b)
	for b.Loop() {
		e.gains(suspects, s.posterior, false)
	}
	each := (used(b) - before) / float64(b.N)
	b.ReportMetric(each, "cpu-ns/op")
	b.ReportMetric(each/float64(changes), "ns/change")
	b.ReportMetric(float64(changes), "changes")
	b.ReportMetric(made, "table-ns/change")
	b.ReportMetric(float64(len(e.Set.Faults)), "faults")
	b.ReportMetric(float64(len(e.Candidates)), "steps")
}

// used is the processor time of this process in nanoseconds: the wall's would
// tell what else the machine does.
func used(b *testing.B) float64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return float64(u.Utime.Nano() + u.Stime.Nano())
}
