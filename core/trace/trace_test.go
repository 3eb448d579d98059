package trace_test

import (
	"fmt"
	"testing"

	"halfsplit/core/fault"
	"halfsplit/core/panel"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
	"halfsplit/scenarios"
)

func base(t testing.TB, name string) (*trace.Base, *fault.Set) {
	t.Helper()
	data, err := scenarios.Files.ReadFile(name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := panel.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	m := sim.New(doc.Panel)
	c, err := m.Condition("normal")
	if err != nil {
		t.Fatal(err)
	}
	return trace.New(m, c), fault.All(m.Net)
}

func TestDump(t *testing.T) {
	b, set := base(t, "training-bench")
	fmt.Println(len(set.Faults))
	for i := range set.Faults {
		f := &set.Faults[i]
		w := b.WhatIf([]*fault.Fault{f}, sim.Running)
		fmt.Println(f.Key, w.Err, w.Cycle)
		for _, a := range w.Affected {
			fmt.Println("    ", a.Ref, a.Effect, a.Now.State, a.Now.Volts, a.Why)
		}
		for _, s := range w.Timeline {
			fmt.Println("       ", s)
		}
	}
}
