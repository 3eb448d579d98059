package sim_test

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/internal/demo"
	"halfsplit/core/panel"
	"halfsplit/core/sim"
	"halfsplit/scenarios"
)

// FuzzReplay brings whatever can be read, however wrong its drawing, into each of
// its conditions and tries some faults: no panic, no hang, and a voltage is a
// number. Package check tells people what is wrong; the model stands all the same.
func FuzzReplay(f *testing.F) {
	for _, name := range demo.Names {
		data, err := scenarios.Panel(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	bad, err := filepath.Glob("../../testdata/bad/*.json")
	if err != nil || len(bad) == 0 {
		f.Fatalf("no bad documents: %v", err)
	}
	for _, name := range bad {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, _ := panel.Read(data)
		if doc == nil || len(doc.Panel.Parts) > 200 || len(doc.Panel.Wires) > 1000 {
			return // nothing to simulate, or too much for a fuzzer
		}
		m := sim.New(doc.Panel)
		faults := fault.All(m.Net).Faults
		for _, name := range m.Conditions() {
			c, err := m.Condition(name)
			if err != nil {
				continue
			}
			x := m.Replay(c, sim.Running, nil)
			numbers(t, x)
			x.Checkpoint()
			for i := 0; i < len(faults); i += 1 + len(faults)/20 {
				x.Apply(faults[i].Changes)
				x.Settle()
				numbers(t, x)
				x.Revert()
			}
		}
	})
}

func numbers(t *testing.T, x *sim.Machine) {
	t.Helper()
	if x.Err() != nil {
		t.Fatalf("%v", x.Err())
	}
	for n := range x.Model.Net.Nodes {
		if v := x.V(circuit.Node(n)); math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%s at %g V", x.Model.Net.Nodes[n].Name, v)
		}
	}
	for i := range x.Model.Net.Devices {
		if st := x.Status(i); st.State == "" {
			t.Fatalf("%s has no state", x.Model.Net.Devices[i].Ref)
		}
	}
}
