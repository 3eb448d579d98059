package trace_test

import (
	"testing"

	"halfsplit/core/fault"
	"halfsplit/core/panel"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
)

// Where a boundary feeds a lamp, the reason of a dead lamp can end there: nothing
// comes from beyond the drawing.
func TestTheFeedEndsAtTheBoundary(t *testing.T) {
	p := &panel.Panel{
		Parts: []panel.Part{{Ref: "X7", Kind: "boundary", Ratings: map[string]string{"beyond": "feed"}}, {Ref: "F1", Kind: "fuse", Ratings: map[string]string{"current": "1 A T"}}, {Ref: "P1", Kind: "pilot-light"}},
		Wires: []panel.Wire{{No: "1", From: "X7:1", To: "F1:1"}, {No: "2", From: "F1:2", To: "P1:X1"}, {No: "3", From: "P1:X2", To: "X7:2"}},
	}
	m := sim.New(p)
	c, err := m.Condition("normal")
	if err != nil {
		t.Fatal(err)
	}
	w := whatIf(t, trace.New(m, c), fault.All(m.Net), "X7=no-supply")
	if len(w.Affected) != 1 || w.Affected[0].Ref != "P1" || w.Affected[0].Effect != trace.Dead {
		t.Fatalf("%+v, want P1 dead and nobody else", w.Affected)
	}
	why := w.Affected[0].Why
	if len(why) == 0 || why[0].Code != "why.source-fault" || why[0].Args[0] != "X7=no-supply" {
		t.Errorf("%+v, want the feed X7", why)
	}
}
