package sim_test

import (
	"testing"

	"halfsplit/core/internal/demo"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A loose clamp may leave a relay enough to hold and too little to pull in. Made on
// the skid powered up, with such relays let go before the condition's steps, it ends
// where a start from cold with it does.
func TestReleaseIsAColdStart(t *testing.T) {
	m, c := demo.In(t, "dosing-skid", "normal")
	x := m.Cold()
	x.PowerUp(c)
	x.Checkpoint()
	held := 0
	for _, e := range m.Net.Ends {
		change := []parts.Change{parts.Resist(e.Clamp, 300)}
		x.Apply(change)
		x.Settle()
		if x.Holds() {
			held++
			x.Release()
			x.Do(c.Steps)
			cold := m.Replay(c, sim.Start, change)
			for i := range m.Net.Elements {
				if x.State(i).Mode != cold.State(i).Mode {
					t.Errorf("%s@%s: %s is in mode %d after a release and in %d from cold", e.No, e.At, m.Net.Elements[i].Ref, x.State(i).Mode, cold.State(i).Mode)
				}
			}
		}
		x.Revert()
	}
	t.Logf("%d clamps leave a relay holding", held)
	if held == 0 {
		t.Error("no relay held what it could not pull in: nothing was compared")
	}
}
