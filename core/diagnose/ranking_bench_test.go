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
// ns/change is for every outcome of a step that a fault changes, ns/class-change
// for those of a class of faults together; of the classes that are still alive.
func BenchmarkRanking(b *testing.B) {
	data, err := scenarios.Files.ReadFile("dosing-skid.json")
	if err != nil {
		b.Fatal(err)
	}
	drawn, err := panel.Read(data)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("dosing-skid", func(b *testing.B) { benchmarkRanking(b, drawn.Panel) })
	for _, n := range []int{50, 100, 200, 500, 1000} {
		if n <= *rankedMost {
			b.Run(fmt.Sprint(n), func(b *testing.B) { benchmarkRanking(b, generate.Generate(n, *rankedSeed)) })
		}
	}
}

// ranked keeps engines, by panel: making one takes longer than measuring it, and
// -count asks again.
var ranked = map[string]*Engine{}

func benchmarkRanking(b *testing.B, p *panel.Panel) {
	e := ranked[b.Name()]
	if e == nil {
		m := sim.New(p)
		c, err := m.Condition("normal")
		if err != nil {
			b.Fatal(err)
		}
		e = New(trace.New(m, c), fault.All(m.Net), meter.Typical)
		e.Step(len(e.Set.Faults))
		ranked[b.Name()] = e
	}
	for _, seen := range []struct {
		name string
		obs  []Observation
	}{
		{"nothing", nil},
		{"dead", []Observation{{Kind: Dead, Candidate: e.LookCandidate(0, AtDevice, 0)}}},
	} {
		b.Run(seen.name, func(b *testing.B) { benchmarkGains(b, e, seen.obs) })
	}
}

func benchmarkGains(b *testing.B, e *Engine, obs []Observation) {
	post := e.posterior(obs)
	suspects := e.suspects(post, obs)
	r := e.ranking(suspects, post)
	changes, single := 0, 0
	for k, class := range e.classes {
		if r.first[k].suspect < 0 {
			continue
		}
		changes += len(e.hyps[class[0]].shows)
		for _, i := range class {
			single += len(e.hyps[i].shows)
		}
	}
	before := used(b)
	for b.Loop() {
		e.gains(suspects, post, false)
	}
	each := (used(b) - before) / float64(b.N)
	b.ReportMetric(each, "cpu-ns/op")
	b.ReportMetric(each/float64(changes), "ns/class-change")
	b.ReportMetric(float64(changes), "class-changes")
	b.ReportMetric(each/float64(single), "ns/change")
	b.ReportMetric(float64(single), "changes")
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
