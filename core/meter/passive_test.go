package meter_test

import (
	"math"
	"testing"

	"halfsplit/core/meter"
	"halfsplit/core/sim"
)

// On a panel without junctions the meter's own source finds the same resistance as
// the Thevenin resistance of the network, whichever way round, at every pair of
// points of the bench. Source: Ohm's law; the reciprocity of resistive networks.
func TestOhmsIsThevenin(t *testing.T) {
	x := running(t, "training-bench", sim.PowerOff)
	pts := x.Model.Net.Points
	pairs := 0
	for i := range pts {
		for j := range pts {
			if pts[i].Hidden || pts[j].Hidden || pts[i].Node == pts[j].Node {
				continue
			}
			want := x.DC().Z(pts[i].Node, pts[j].Node)
			r, refused := meter.Typical.Read(x, meter.Ohms, pts[i].Node, pts[j].Node)
			x.Revert()
			switch {
			case refused != nil:
				t.Fatalf("%s – %s: %s", pts[i].Name, pts[j].Name, refused.Code)
			case r.Overload != (want > meter.Typical.MostOhms):
				t.Errorf("%s – %s shows %s, Thevenin %g Ω", pts[i].Name, pts[j].Name, r.Shown, want)
			case !r.Overload && !(math.Abs(r.Value-want) <= 1e-6*want+1e-9):
				t.Errorf("%s – %s reads %.9g Ω, Thevenin %.9g Ω", pts[i].Name, pts[j].Name, r.Value, want)
			}
			pairs++
		}
	}
	if pairs < 100 {
		t.Errorf("only %d pairs were read", pairs)
	}
}

// A coil with a diode across it is read through the diode only by a meter whose
// test voltage on the coil exceeds the drop, and only one way round. Source: by
// hand, U·R/(R + U/I) on 794 Ω against 0.7 V.
func TestTestVoltageDecides(t *testing.T) {
	x := machine(t, []byte(`{"format":"halfsplit-panel","version":1,"name":"coil","parts":[
 {"ref":"R1","kind":"resistor","ratings":{"resistance":"794 ohm"}},{"ref":"V1","kind":"diode"}],
 "wires":[{"no":"1","from":"R1:1","to":"V1:K","size":"10 mm2","length":"0.1 m"},{"no":"2","from":"R1:2","to":"V1:A","size":"10 mm2","length":"0.1 m"}]}`), sim.PowerOff)
	plus, _ := x.Model.Net.FindPoint("R1:1")
	minus, _ := x.Model.Net.FindPoint("R1:2")
	for _, tc := range []struct {
		volts, amps float64
		forward     bool
		want        float64
		how         string
	}{
		{1.3, 0.7e-3, true, 794, "1.3·794/(794 + 1857) = 0.39 V, and a tenth of the current in the next range"},
		{9, 10e-3, true, 75.95, "9·794/(794 + 900) = 4.2 V: (9 - 0.7)/900 = 9.222 mA at 0.7004 V"},
		{9, 10e-3, false, 794, "the diode blocks"},
		{1.3, 2e-3, true, 794, "1.3·794/(794 + 650) = 0.715 V exceeds 0.7 V in the lowest range, which 794 Ω is too much for: 0.14 V in the next"},
	} {
		m := meter.Typical
		m.OhmsVolts, m.OhmsAmps = tc.volts, tc.amps
		red, black := minus.Node, plus.Node
		if !tc.forward {
			red, black = black, red
		}
		r, refused := m.Read(x, meter.Ohms, red, black)
		x.Revert()
		if refused != nil || !(math.Abs(r.Value-tc.want) <= 1e-4*tc.want+0.01) {
			t.Errorf("%g V, %g A, forward %v: %.3f Ω, want %.3f (%s)", tc.volts, tc.amps, tc.forward, r.Value, tc.want, tc.how)
		}
	}
}
