package sim_test

import (
	"fmt"
	"testing"

	"halfsplit/core/panel"
	"halfsplit/core/sim"
	"halfsplit/scenarios"
)

func open(t testing.TB, name string) *sim.Model {
	t.Helper()
	data, err := scenarios.Files.ReadFile(name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := panel.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	return sim.New(doc.Panel)
}

func TestDump(t *testing.T) {
	m := open(t, "training-bench")
	c, err := m.Condition("normal")
	if err != nil {
		t.Fatal(err)
	}
	x := m.Replay(c, sim.Running, nil)
	fmt.Println(len(m.Net.Nodes), len(m.Net.Branches), len(m.Net.Elements), len(m.Net.Modes), x.Err(), x.Cycle())
	for i, d := range m.Net.Devices {
		fmt.Printf("%s %+v\n", d.Ref, x.Status(i))
	}
	for _, p := range m.Net.Points {
		fmt.Printf("%s %.4f %.4f\n", p.Name, x.V(p.Node), x.VAC(p.Node))
	}
	for _, e := range x.Log() {
		fmt.Println(m.Net.Elements[e.Element].Ref, e)
	}
}
