package sim_test

import (
	"fmt"

	"halfsplit/core/fault"
	"halfsplit/core/panel"
	"halfsplit/core/sim"
	"halfsplit/scenarios"
)

// A blown fuse on the training bench: the panel is started, then the fault comes.
func ExampleModel_Replay() {
	data, err := scenarios.Panel("training-bench")
	if err != nil {
		panic(err)
	}
	doc, err := panel.Read(data)
	if err != nil {
		panic(err)
	}
	m := sim.New(doc.Panel)
	running, err := m.Condition("normal")
	if err != nil {
		panic(err)
	}
	blown, err := fault.All(m.Net).Parse("X1:1=fuse-blown")
	if err != nil {
		panic(err)
	}
	was, now := m.Replay(running, sim.Running, nil), m.Replay(running, sim.Running, blown.Changes)
	for i, d := range m.Net.Devices {
		fmt.Printf("%s %s, was %s\n", d.Ref, now.Status(i).State, was.Status(i).State)
	}
	for _, e := range now.Log() {
		fmt.Printf("%s after %g to %g ms\n", m.Net.Elements[e.Element].Ref, e.MinMS, e.MaxMS)
	}
	// Output:
	// G0 on, was on
	// T1 on, was on
	// K1 released, was operated
	// P1 dark, was lit
	// P2 lit, was dark
	// K1 after 2 to 10 ms
}
