package sim

import (
	"testing"

	"halfsplit/core/generate"
	"halfsplit/core/panel"
	"halfsplit/scenarios"
)

// Asking only those whom an event can concern ends where asking everybody ends:
// the same modes, and the same voltage at every node bit for bit, for every mode
// of every thing.
func TestAttentionMissesNobody(t *testing.T) {
	data, err := scenarios.Panel("dosing-skid")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := panel.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range []*panel.Panel{doc.Panel, generate.Generate(60, 5), generate.Generate(150, 6)} {
		m := New(p)
		c, err := m.Condition("normal")
		if err != nil {
			t.Fatal(err)
		}
		few, all := m.Replay(c, Running, nil), m.Replay(c, Running, nil)
		few.Checkpoint()
		all.Checkpoint()
		all.attention.how = lost
		skipped := 0
		for i := range m.Net.Modes {
			mode := &m.Net.Modes[i]
			for _, x := range []*Machine{few, all} {
				x.Apply(mode.Changes)
				x.Settle()
			}
			if elements, ok := few.Differing(); !ok {
				t.Fatalf("%s: the running panel is not at rest", p.Name)
			} else {
				skipped += len(few.states) - len(elements)
			}
			if (few.Cycle() == nil) != (all.Cycle() == nil) {
				t.Errorf("%s: cycle %v, asking all %v", mode.Key(), few.Cycle(), all.Cycle())
			}
			for e := range few.states {
				if few.cycle == nil && few.states[e] != all.states[e] {
					t.Errorf("%s: %s is in %v, asking all in %v", mode.Key(), m.Net.Elements[e].Ref, few.states[e], all.states[e])
				}
			}
			for _, pt := range m.Net.Points {
				if a, b := few.V(pt.Node), all.V(pt.Node); few.cycle == nil && a != b {
					t.Fatalf("%s: %s is at %v, asking all at %v", mode.Key(), pt.Name, a, b)
				}
			}
			few.Revert()
			all.Revert()
		}
		if skipped == 0 {
			t.Error("everybody was asked every time: nothing was compared")
		}
	}
}
