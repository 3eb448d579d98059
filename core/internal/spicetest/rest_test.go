package spicetest

import (
	"flag"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/generate"
	"halfsplit/core/sim"
)

var pairs = flag.Int("pairs", 1000, "how many panels with faults are brought to rest")

// pairsPerPanel are tried on each panel: most of the time goes into its start.
const pairsPerPanel = 10

// A resting is how one panel with its fault ended.
type resting struct {
	what    string
	events  int
	cycle   bool
	members []string
	period  float64
}

// Whatever is wrong with it, a panel comes to rest, or into a cycle that has
// members and a period, after no more than 400 changes of state and 8 more for
// everything in it that has states.
func TestComesToRest(t *testing.T) {
	random := random{2}
	var all []resting
	most := 0.0 // of the changes allowed
	for k := 0; len(all) < *pairs; k++ {
		m := sim.New(generate.Generate(int(20*math.Pow(20, float64(random.below(1001))/1000)), uint64(1000+k)))
		faults := fault.All(m.Net).Faults
		c, err := m.Condition([]string{"normal", "normal", "normal", "stopped"}[random.below(4)])
		if err != nil {
			t.Fatal(err)
		}
		running := m.Replay(c, sim.Running, nil)
		if running.Cycle() != nil || running.Err() != nil {
			t.Errorf("%s, sound: %v %v", m.Panel.Name, running.Cycle(), running.Err())
			continue
		}
		running.Checkpoint()
		for range min(pairsPerPanel, *pairs-len(all)) {
			f, g := &faults[random.below(len(faults))], &faults[random.below(len(faults))]
			x, what := running, fmt.Sprint(m.Panel.Name, ", ", c.Name, ", ", f.Key())
			switch random.below(4) {
			case 0:
				x, what = m.Replay(c, sim.Start, f.Changes), what+" before the start"
			case 1:
				x.Apply(f.Changes)
				x.Apply(g.Changes)
				x.Settle()
				what += " and " + g.Key()
			default:
				x.Apply(f.Changes)
				x.Settle()
			}
			allowed := 400 + 8*len(m.Net.Elements)
			r := settled(t, x, what)
			if r.events > allowed {
				t.Errorf("%s: %d changes of state, allowed are %d", what, r.events, allowed)
			}
			most = max(most, float64(r.events)/float64(allowed))
			all = append(all, r)
			running.Revert()
		}
	}
	report(t, all, most)
}

// So do the panels of further kinds, with one fault and with two, whatever comes
// first.
func TestKindPanelsComeToRest(t *testing.T) {
	random := random{3}
	for _, p := range kindPanels() {
		m := sim.New(p)
		faults := fault.All(m.Net).Faults
		for range *pairs {
			c, err := m.Condition(m.Conditions()[random.below(len(p.Conditions))])
			if err != nil {
				t.Fatal(err)
			}
			f, g := &faults[random.below(len(faults))], &faults[random.below(len(faults))]
			x, what := m.Replay(c, sim.Onset(random.below(2)), f.Changes), fmt.Sprint(p.Name, ", ", c.Name, ", ", f.Key())
			if random.below(2) == 0 {
				x.Apply(g.Changes)
				x.Settle()
				what += " and " + g.Key()
			}
			if r := settled(t, x, what); r.events > 400+8*len(m.Net.Elements) {
				t.Errorf("%s: %d changes of state", what, r.events)
			}
		}
	}
}

// settled checks that where a panel stopped is where it stays.
func settled(t *testing.T, x *sim.Machine, what string) resting {
	r := describe(x, what)
	if x.Err() != nil {
		t.Errorf("%s: %v", what, x.Err())
		return r
	}
	for n := range x.Model.Net.Nodes { // at rest or not, its voltages can be read
		if v := x.V(circuit.Node(n)); math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%s: %s at %g V", what, x.Model.Net.Nodes[n].Name, v)
		}
	}
	x.Settle()
	again := describe(x, what)
	switch {
	case !r.cycle && (again.cycle || again.events > 0):
		t.Errorf("%s: was at rest and moves again: %v", what, again)
	case r.cycle && (len(r.members) == 0 || !(r.period >= 0)):
		t.Errorf("%s: a cycle of %v with period %g ms", what, r.members, r.period)
	case r.cycle && (!slices.Equal(again.members, r.members) || math.Abs(again.period-r.period) > 1e-6):
		t.Errorf("%s: a cycle of %v, %g ms became one of %v, %g ms", what, r.members, r.period, again.members, again.period)
	}
	return r
}

func describe(x *sim.Machine, what string) resting {
	r := resting{what: what, events: len(x.Log())}
	if c := x.Cycle(); c != nil {
		r.cycle, r.period = true, c.PeriodMS
		for _, e := range c.Members {
			r.members = append(r.members, x.Model.Net.Elements[e].Ref)
		}
	}
	return r
}

func report(t *testing.T, all []resting, most float64) {
	var events []int
	var cycles []resting
	for _, r := range all {
		events = append(events, r.events)
		if r.cycle {
			cycles = append(cycles, r)
		}
	}
	slices.Sort(events)
	at := func(share float64) int { return events[int(share*float64(len(events)-1))] }
	t.Logf("%d panels with faults: %d at rest, %d in a cycle", len(all), len(all)-len(cycles), len(cycles))
	t.Logf("changes of state until then: half by %d, 90 %% by %d, 99 %% by %d, all by %d, at most %.2f of what is allowed",
		at(0.5), at(0.9), at(0.99), at(1), most)
	periods := map[float64]int{}
	for _, r := range cycles {
		periods[math.Round(r.period)]++
	}
	var list []string
	for _, p := range slices.Sorted(maps.Keys(periods)) {
		list = append(list, fmt.Sprintf("%g ms %d", p, periods[p]))
	}
	t.Logf("cycles by period: %s", strings.Join(list, ", "))
	slices.SortStableFunc(cycles, func(a, b resting) int { return len(b.members) - len(a.members) })
	for i, r := range cycles {
		if i < 2 {
			t.Logf("cycle of %s, %g ms: %s", strings.Join(r.members, " "), r.period, r.what)
		}
	}
}
