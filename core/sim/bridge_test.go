package sim_test

import (
	"math/rand/v2"
	"reflect"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/generate"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// condition is all of a machine that anybody can see.
type condition struct {
	Volts  []float64
	States []parts.State
	Status []parts.Status
	Log    []sim.Event
	Cycle  *sim.Cycle
}

func seen(x *sim.Machine) condition {
	c := condition{Log: append([]sim.Event{}, x.Log()...), Cycle: x.Cycle()}
	for n := range x.Model.Net.Nodes {
		c.Volts = append(c.Volts, x.V(circuit.Node(n)))
	}
	for i := range x.Model.Net.Elements {
		c.States = append(c.States, x.State(i))
	}
	for i := range x.Model.Net.Devices {
		c.Status = append(c.Status, x.Status(i))
	}
	return c
}

// What is bridged shows what the panel shows with a resistance put in for good, and
// leaves the panel as it was: with every tenth fault, whether at rest or chattering,
// and whether the bridge changes states or not.
func TestBridgedLeavesNoTrace(t *testing.T) {
	moved, chattering := 0, 0
	for _, m := range []*sim.Model{open(t, "wash-line"), open(t, "dosing-skid"), sim.New(generate.Generate(92, 1100))} {
		c, err := m.Condition("normal")
		if err != nil {
			t.Fatal(err)
		}
		x, once := m.Replay(c, sim.Running, nil), m.Replay(c, sim.Running, nil)
		x.Checkpoint()
		once.Checkpoint()
		r := rand.New(rand.NewPCG(1, 2))
		node := func() circuit.Node { return circuit.Node(r.IntN(len(m.Net.Nodes))) }
		for k := r.IntN(10); k < len(m.Net.Modes); k += 10 {
			f := &m.Net.Modes[k]
			x.Apply(f.Changes)
			x.Settle()
			before := seen(x)
			if before.Cycle != nil {
				chattering++
			}
			for range 6 { // more often than a look may creep
				a, b, ohms := node(), node(), []float64{10e6, 1e3, 10}[r.IntN(3)]
				once.Apply(f.Changes)
				once.Settle()
				once.Apply([]parts.Change{parts.Join(a, b, ohms)})
				once.Settle()
				x.Bridged(a, b, ohms, func() {
					if len(x.Log()) > 0 {
						moved++
					}
					if got, want := seen(x), seen(once); !reflect.DeepEqual(got, want) {
						t.Errorf("%s: %s with %g ohm between %d and %d is otherwise than put in for good", m.Panel.Name, f.Key(), ohms, a, b)
					}
				})
				once.Revert()
				if !reflect.DeepEqual(seen(x), before) {
					t.Fatalf("%s: %s is not as before %g ohm between %d and %d", m.Panel.Name, f.Key(), ohms, a, b)
				}
			}
			x.Revert()
		}
	}
	if moved == 0 || chattering == 0 {
		t.Errorf("%d bridges changed a state, %d faults chattered: nothing was tried", moved, chattering)
	}
}
