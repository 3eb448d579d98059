package diagnose_test

import (
	"math"
	"slices"
	"testing"

	"halfsplit/core/diagnose"
	"halfsplit/core/sim"
)

// Worth of the step that Find proposes is the information Find says it has, and a
// step taken again to the same end is worth no more than before; a reading nobody's
// fault moves is told as such.
func TestWorthAgreesWithFind(t *testing.T) {
	e := engine(t, "training-bench", "normal")
	obs := []diagnose.Observation{{Kind: diagnose.Dead, Candidate: e.LookCandidate(0, diagnose.AtDevice, 3)}}
	for range 4 {
		a := e.Find(obs)
		if a.Next == nil {
			t.Fatal("nothing to ask after so little")
		}
		w := e.Worth(obs, a.Next.Index)
		if !(math.Abs(w.Bits-a.Next.Bits) <= 1e-6) || !w.Able {
			t.Errorf("step %d: worth %+v, Find says %g bits", a.Next.Index, w, a.Next.Bits)
		}
		o := diagnose.Observation{Kind: diagnose.Read, Candidate: a.Next.Index, Value: a.Next.Outcomes[0].Value}
		if a.Next.Look != diagnose.NoLook {
			o.Kind = diagnose.Saw
		}
		obs = append(obs, o)
	}
}

// A broken core and its clamps on the insulation are alike (common practice: a bad
// clamp is invisible on the screw), a lifted end is seen; a start button that does not
// close shows nothing in the running panel and does at the start.
func TestAlike(t *testing.T) {
	e := engine(t, "training-bench", "normal")
	keys := func(key string, onset sim.Onset) (list []string) {
		i, ok := e.Set.Index(key)
		if !ok {
			t.Fatal(key)
		}
		for _, f := range e.Alike(i, onset) {
			list = append(list, e.Set.Faults[f].Key())
		}
		return list
	}
	want := []string{"W17=broken", "W17@K1:24=on-insulation", "W17@P1:X1=on-insulation"}
	if got := keys("W17=broken", sim.Running); !slices.Equal(got, want) {
		t.Errorf("like W17=broken: %v, want %v", got, want)
	}
	running, start := keys("S2:13-14=stuck-open", sim.Running), keys("S2:13-14=stuck-open", sim.Start)
	if len(running) < 10 || len(start) >= len(running) || !slices.Contains(start, "S2:13-14=stuck-open") {
		t.Errorf("a start button that does not close is like %d faults in the running panel and like %v at the start", len(running), start)
	}
}
