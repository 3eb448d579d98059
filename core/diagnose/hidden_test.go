package diagnose_test

import (
	"math"
	"slices"
	"testing"

	"halfsplit/core/diagnose"
	"halfsplit/core/sim"
)

// A coil is not called open before a reading has been taken that a bad joint on the way
// to it would change: a voltage that nothing loads proves no joint (common practice).
func TestFoundIsToldFromABadJoint(t *testing.T) {
	e := engine(t, "dosing-skid", "normal")
	a, obs, ok := follow(t, e, parse(t, e.Set, "K1=coil-open"))
	if !ok || a.Status != diagnose.Found || !slices.Equal(a.Suspects[0].Places, []string{"K1"}) || len(a.Hidden) > 0 {
		t.Fatalf("an open coil: %s %v, hidden %v", a.Status, a.Suspects[0].Places, a.Hidden)
	}
	joint := parse(t, e.Set, "W61@X6:1/out=loose:47 kohm")
	told := 0.0
	for _, o := range obs {
		c := &e.Candidates[o.Candidate]
		if c.Look != diagnose.NoLook {
			continue
		}
		x := e.Base.Enter(joint.Changes, sim.Running)
		e.Hold(x, c.Situation)
		r, refused := e.Meter.Read(x, c.Mode, e.Probes[c.Red].Node, e.Probes[c.Black].Node)
		e.Base.Leave()
		if refused != nil {
			t.Fatal(refused.Code)
		}
		told = max(told, math.Abs(r.Value-o.Value))
	}
	if told < 10 {
		t.Errorf("with the joint no reading is more than %.2f V from what an open coil shows", told)
	}
	if a, _, _ = play(t, e, joint); !slices.Equal(a.Suspects[0].Places, []string{"W61"}) {
		t.Errorf("a joint of 47 kilohms on the way to it: %s %v", a.Status, a.Suspects[0].Places)
	}
}

// Where a contact seals its relay in nothing with power on tells it from a bad joint
// beside it: the joints are named.
func TestHiddenJointsAreNamed(t *testing.T) {
	e := engine(t, "training-bench", "normal")
	a, _, _ := play(t, e, parse(t, e.Set, "K1:13-14=stuck-open"))
	if a.Status != diagnose.Found || !slices.Equal(a.Suspects[0].Places, []string{"K1"}) || !slices.Equal(a.Hidden, []string{"W13", "W14"}) {
		t.Errorf("%s %v, hidden %v", a.Status, a.Suspects[0].Places, a.Hidden)
	}
}
