package sim_test

import (
	"fmt"
	"strings"
	"testing"

	"halfsplit/core/panel"
	"halfsplit/core/sim"
)

// farShort is a 5 A supply that feeds a lamp directly and, behind fuse F1, a long
// pair to a switch that shorts its end.
func farShort(fuse string, metres int) *sim.Model {
	p := draw([]string{"T1 dc-supply, current=5 A", "F1 fuse, current=" + fuse, "P1 pilot-light", "P2 pilot-light", "S1 switch, at field"},
		"G0:L T1:L", "G0:N T1:N", "T1:+ F1:1", "F1:2 P2:X1", "P2:X2 T1:-", "T1:+ P1:X1", "P1:X2 T1:-")
	p.Mains = []panel.Mains{{Ref: "G0", Voltage: "230 V", Frequency: "50 Hz", Earthing: "TN-S", Impedance: "0.4 ohm"}}
	length := fmt.Sprintf("%d m", metres)
	p.Wires = append(p.Wires,
		panel.Wire{No: "W8", From: "F1:2", To: "S1:13", Size: "0.75 mm2", Length: length},
		panel.Wire{No: "W9", From: "S1:14", To: "T1:-", Size: "0.75 mm2", Length: length})
	return sim.New(p)
}

// A short at the end of a thin cable: the cable or the supply sets the current, not
// the fuse. IEC 60228: 0.75 mm² has 26.0 Ω/km.
func TestFarShort(t *testing.T) {
	for _, tc := range []struct {
		name, fuse string
		metres     int
		amps       float64 // that flow once the switch is shut and all that opens has opened
		supply     string
		opened     bool
		p1         string // the lamp beside
		source     string
	}{
		{"200 m behind 4 A", "4 A T", 200, 2.29, "on", false, "lit", "by hand: 24 V / (10.4 Ω + joints, fuse); 0.6 of the rating"},
		{"200 m behind 1 A", "1 A T", 200, 0, "on", true, "lit", "IEC 60127-2: 2.3 × In opens within 2 min"},
		{"20 m behind 4 A", "4 A T", 20, 5, "limiting", false, "dim", "by hand: 5 A are 1.25 × In, which holds for an hour; 5.4 V are left"},
		{"20 m behind 1 A", "1 A T", 20, 0, "on", true, "lit", "IEC 60127-2: 5 × In"},
		{"2 m behind 4 A", "4 A T", 2, 5, "limiting", false, "dark", "common practice: the supply sags and no fuse opens"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			m := farShort(tc.fuse, tc.metres)
			wantStates(t, run(t, m, "", sim.Running), "T1 on", "P1 lit", "P2 lit")
			x := run(t, m, "normal; close S1", sim.Running)
			if x.Cycle() != nil {
				t.Fatalf("cycle %+v", x.Cycle())
			}
			wantStates(t, x, "T1 "+tc.supply, "P1 "+tc.p1)
			if tc.opened {
				wantStates(t, x, "P2 dark")
			}
			var short float64
			for k, b := range m.Net.Branches {
				if b.Thing == "W8" {
					short = x.DC().I(k)
				}
			}
			if !near(short, tc.amps, 0.03) {
				t.Errorf("%.3f A through the short, want %.2f (%s)", short, tc.amps, tc.source)
			}
			opened := false
			for _, e := range x.Log() {
				if strings.HasPrefix(m.Net.Elements[e.Element].Ref, "F1") {
					opened = true
					// At 2.3 × In between the 4 × In and 2.1 × In gates, at 5 × In between
					// 10 × In and 4 × In: IEC 60127-2 sheet 3.
					lo, hi := 150.0, 120e3
					if tc.metres == 20 {
						lo, hi = 20, 3e3
					}
					if e.MinMS < lo || e.MaxMS > hi {
						t.Errorf("opens after %g to %g ms, want within %g to %g", e.MinMS, e.MaxMS, lo, hi)
					}
				}
			}
			if opened != tc.opened {
				t.Errorf("fuse opened: %v, want %v (%s)", opened, tc.opened, tc.source)
			}
		})
	}
}

// A blown fuse does not heal when what blew it is gone.
func TestFuseStaysBlown(t *testing.T) {
	x := run(t, farShort("1 A T", 20), "normal; close S1; open S1", sim.Running)
	wantStates(t, x, "T1 on", "P1 lit", "P2 dark")
}

// The supply's mains side draws its output power over its efficiency, 88 %, and a
// watt of its own, beside the 1 MΩ across its input. By hand: 24 V at 40 mA is
// 0.96 W, so 2.09 W or 9.09 mA at 230 V, and 0.23 mA.
func TestSupplyDrawsItsPower(t *testing.T) {
	x := run(t, farShort("4 A T", 200), "", sim.Running)
	if got := status(t, x, "G0").Amps; !near(got, 9.32e-3, 0.01e-3) {
		t.Errorf("%.3f mA from the mains, want 9.32", 1e3*got)
	}
}

// Below its least input the supply stops, all of its loads with it.
func TestSupplyWithoutInput(t *testing.T) {
	m := farShort("4 A T", 200)
	for _, faults := range [][]string{{"W1=broken"}, {"W2=broken"}, {"G0=no-supply"}, {"T1=no-output"}} {
		wantStates(t, run(t, m, "", sim.Running, faults...), "T1 off", "P1 dark", "P2 dark")
	}
	wantStates(t, run(t, m, sim.PowerOff, sim.Running), "G0 off", "T1 off", "P1 dark", "P2 dark")
}

// Two supplies behind diodes: either keeps the lamp on, and a dead or shorted one
// draws nothing from the other (common practice: redundancy).
func TestRedundantSupplies(t *testing.T) {
	p := draw([]string{"T1 dc-supply", "T2 dc-supply", "R1 diode", "R2 diode", "P1 pilot-light", "S1 switch"},
		"G0:L T1:L", "G0:N T1:N", "T1:L T2:L", "T1:N T2:N", "T1:+ R1:A", "T2:+ R2:A", "R1:K P1:X1", "R2:K P1:X1", "P1:X2 T1:-", "T1:- T2:-",
		"T1:+ S1:13", "S1:14 T1:-")
	p.Mains = []panel.Mains{{Ref: "G0", Voltage: "230 V", Frequency: "50 Hz", Earthing: "TN-S", Impedance: "0.4 ohm"}}
	m := sim.New(p)
	for _, tc := range []struct {
		at, fault string
		t1        string
		volts     float64 // at the lamp
		source    string
	}{
		{"", "", "on", 23.30, "by hand: 24 V less 0.7 V of a silicon diode"},
		{"", "T1=no-output", "off", 23.30, "by hand"},
		{"", "T2=no-output", "on", 23.30, "by hand"},
		{"normal; close S1", "", "limiting", 23.30, "by hand: the other one carries the lamp alone"},
		{"", "R1=open", "on", 23.30, "by hand"},
		{"", "R1=shorted", "on", 24.00, "by hand: past the shorted diode there is no drop"},
	} {
		var faults []string
		if tc.fault != "" {
			faults = []string{tc.fault}
		}
		x := run(t, m, tc.at, sim.Running, faults...)
		wantStates(t, x, "T1 "+tc.t1, "P1 lit")
		if got := volts(t, x, "P1:X1", "P1:X2"); !near(got, tc.volts, 0.005) {
			t.Errorf("%s %s: %.3f V at the lamp, want %.2f (%s)", tc.at, tc.fault, got, tc.volts, tc.source)
		}
		laws(t, tc.at+tc.fault, x, changes(t, m, faults...))
	}
}

// A higher voltage from outside blocks a supply; only its bleeder of 10 kΩ takes
// current. By hand: 28 V / 10 kΩ.
func TestSupplyHeldUpFromOutside(t *testing.T) {
	p := draw([]string{"T1 dc-supply", "G1 battery, voltage=28 V", "P1 pilot-light"},
		"G0:L T1:L", "G0:N T1:N", "T1:+ G1:+", "T1:- G1:-", "T1:+ P1:X1", "T1:- P1:X2")
	p.Mains = []panel.Mains{{Ref: "G0", Voltage: "230 V", Frequency: "50 Hz", Earthing: "TN-S"}}
	m := sim.New(p)
	x := run(t, m, "", sim.Running)
	wantStates(t, x, "T1 standby", "P1 lit")
	if st := status(t, x, "T1"); !near(st.Amps, -2.8e-3, 1e-5) {
		t.Errorf("%.3f mA into the supply, want 2.8", -1e3*st.Amps)
	}
	wantStates(t, run(t, m, "normal; disconnect G1", sim.Running), "T1 on", "P1 lit")
}
