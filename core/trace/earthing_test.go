package trace_test

import (
	"testing"

	"halfsplit/core/fault"
	"halfsplit/core/generate"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
)

// A clamp of a few hundred ohms in the only protective conductor to the supply's
// earth leaves every frame unprotected, one of ten ohms none: by hand, frameOhms
// lies between.
func TestLooseProtectiveConductor(t *testing.T) {
	m := sim.New(generate.Generate(60, 1))
	c, err := m.Condition("normal")
	if err != nil {
		t.Fatal(err)
	}
	b, set := trace.New(m, c), fault.All(m.Net)
	for _, tc := range []struct {
		ohms string
		want int
	}{{"300ohm", len(m.Net.Frames)}, {"10ohm", 0}} {
		tried := 0
		for i := range set.Faults {
			f := &set.Faults[i]
			if f.Name != "loose" || f.Value != tc.ohms || len(f.Thing) < 6 || f.Thing[len(f.Thing)-6:] != "@G1:PE" {
				continue
			}
			tried++
			n := 0
			for _, a := range b.Sweep(f) {
				if a.Effect == trace.Unprotected {
					n++
				}
			}
			if n != tc.want || len(m.Net.Frames) == 0 {
				t.Errorf("%s: %d of %d frames unprotected, want %d", f.Key(), n, len(m.Net.Frames), tc.want)
			}
		}
		if tried == 0 {
			t.Errorf("no clamp of %s at G1:PE was tried", tc.ohms)
		}
	}
}
