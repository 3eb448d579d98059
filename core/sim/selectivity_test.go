package sim_test

import (
	"testing"

	"halfsplit/core/sim"
)

// Of two links in one path the quicker one blows and saves the other, whichever
// way round they stand. Source: the gates of IEC 60127-2: above ten times its
// rating a 1 A quick-acting link has opened within 20 ms, when a 10 A time-lag one
// may not have yet.
func TestQuickerLinkBlows(t *testing.T) {
	for _, tc := range []struct{ first, second string }{{"10 A T", "1 A F"}, {"1 A F", "10 A T"}} {
		m := sim.New(draw([]string{"G1 battery", "F1 fuse, current=" + tc.first, "F2 fuse, current=" + tc.second, "R1 resistor, resistance=1 kohm"},
			"G1:+ F1:1", "F1:2 F2:1", "F2:2 R1:1", "R1:2 G1:-"))
		x := run(t, m, "normal", sim.Running, "R1:1~R1:2=short")
		for i := range m.Net.Elements {
			e := &m.Net.Elements[i]
			if e.Ref != "F1 link" && e.Ref != "F2 link" {
				continue
			}
			quick := (e.Ref == "F1 link") == (tc.first == "1 A F")
			if blown := x.State(i).Mode == 1; blown != quick {
				t.Errorf("%s before %s: %s blown is %v", tc.first, tc.second, e.Ref, blown)
			}
		}
	}
}
