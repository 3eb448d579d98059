package sim

import (
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// A transistor shorts its collector to earth, without taking time, while its base
// is above a volt.
type transistor struct {
	branch int
	base   circuit.Node
}

func (q transistor) Stamp(s parts.State, _ float64, w parts.Writer) {
	w.DC(q.branch, circuit.Value{G: float64(s.Mode)})
}

func (q transistor) Next(s parts.State, _ float64, v parts.View) (parts.State, parts.Wait) {
	if v.DC(q.base, circuit.Earth) > 1 {
		return parts.State{Mode: 1}, parts.Wait{}
	}
	return parts.State{}, parts.Wait{}
}

// latch is n transistors, each with a resistor to 10 V at its collector and its
// base at the collector of the one across says.
func latch(n int, across func(i int) int) *Machine {
	net := &parts.Net{Nodes: make([]parts.Node, n+1)}
	for i := range n {
		node := circuit.Node(i + 1)
		net.Nodes[node] = parts.Node{Leak: 1e-9, LeakAC: 1e-9}
		net.Branches = append(net.Branches,
			parts.Branch{Ends: circuit.Ends{A: circuit.Earth, B: node}, DC: circuit.Value{G: 1e-3, E: 10}},
			parts.Branch{Ends: circuit.Ends{A: node, B: circuit.Earth}})
		net.Elements = append(net.Elements, parts.Instance{Element: transistor{2*i + 1, circuit.Node(across(i) + 1)}})
	}
	for i := range net.Elements { // each looks at every base: the next one's, too
		for n := range n {
			net.Elements[i].Sense = append(net.Elements[i].Sense, circuit.Node(n+1))
		}
	}
	x := Of(&panel.Panel{}, net).Cold()
	x.Settle()
	return x
}

// A pair that lock each other out is a latch: changed together they would flicker
// for ever, changed one by one the first wins. Source: Eccles and Jordan's trigger
// relay of 1919, as any textbook has it.
func TestLatchComesToRest(t *testing.T) {
	for pairs := 1; pairs <= 50; pairs += 7 {
		x := latch(2*pairs, func(i int) int { return i ^ 1 })
		if x.Cycle() != nil || x.Err() != nil {
			t.Fatalf("%d pairs: cycle %v, error %v", pairs, x.Cycle(), x.Err())
		}
		for i := range 2 * pairs {
			if want := 1 - i%2; x.State(i).Mode != want {
				t.Errorf("%d pairs: transistor %d in mode %d, want %d", pairs, i, x.State(i).Mode, want)
			}
		}
	}
}

// An odd ring of inverters has no rest: a cycle that takes no time.
func TestRingOscillates(t *testing.T) {
	x := latch(3, func(i int) int { return (i + 2) % 3 })
	if x.Cycle() == nil || len(x.Cycle().Members) != 3 || x.Cycle().PeriodMS != 0 {
		t.Errorf("cycle %+v, want all three in no time", x.Cycle())
	}
	// Where it was stopped it can be read: 10 V, or half of them.
	for n := range 3 {
		if v := x.V(circuit.Node(n + 1)); !(v > 0 && v < 10.001) {
			t.Errorf("%g V at the collector of transistor %d", v, n)
		}
	}
}
