package sim_test

import (
	"fmt"
	"testing"

	"halfsplit/core/panel"
	"halfsplit/core/sim"
)

// Two supplies behind a redundancy module: the load sees the higher one less 0.5 V
// (Schottky diode, textbook value); with either gone, or shorted, it goes on.
// Common practice: that is what the module is for.
func TestRedundancy(t *testing.T) {
	m := sim.New(draw([]string{"G1 battery", "G2 battery, voltage=23 V, resistance=1 ohm", "V1 redundancy-diode", "R1 resistor, resistance=24 ohm", "S1 switch", "R2 resistor, resistance=0.97 ohm"},
		"G1:+ V1:1", "G2:+ V1:2", "V1:+ R1:1", "R1:2 V1:-", "G1:- V1:-", "G2:- V1:-", "G2:+ S1:13", "S1:14 R2:1", "R2:2 G2:-"))
	for _, tc := range []struct {
		at, fault   string
		load        float64
		first, next string
	}{
		{"normal", "", 23.45, "on", "on"},                 // 24 - 0.5 - 50 mΩ · 0.98 A
		{"normal; disconnect G1", "", 21.56, "off", "on"}, // 22.5 V · 24 / 25.05
		{"normal; disconnect G2", "", 23.45, "on", "off"},
		{"normal; close S1", "", 23.45, "on", "off"},
		{"normal; disconnect G1", "V1:2=open", 0, "off", "on"},
		{"normal; close S1", "V1:2=shorted", 22.42, "on", "on"}, // by hand 22.46, less 22 A in 2 mΩ of battery and joints: the first feeds the second's overload through the burnt diode
	} {
		var faults []string
		if tc.fault != "" {
			faults = []string{tc.fault}
		}
		x := run(t, m, tc.at, sim.Running, faults...)
		if got := volts(t, x, "V1:+", "V1:-"); !near(got, tc.load, 0.02) {
			t.Errorf("%s %s: %.2f V at the load, want %g", tc.at, tc.fault, got, tc.load)
		}
		wantStates(t, x, "V1:1 "+tc.first, "V1:2 "+tc.next)
	}
}

// Balance: with R from each pole to earth and a fault Rf beside one, that pole
// keeps R·Rf/(R+Rf) of it; the other takes the rest of the voltage. Alarm at 50 kΩ
// beside 100 kΩ; faults alike on both sides are not seen (known weakness of the
// method, common practice).
func TestInsulationMonitor(t *testing.T) {
	for _, tc := range []struct {
		plus, minus float64 // kΩ to earth; 0: none
		state       string
		volts       float64 // plus to earth
	}{
		{0, 0, "watching", 12},
		{51, 0, "watching", 24 * 33.77 / 133.77},
		{49, 0, "alarm-plus", 24 * 32.89 / 132.89},
		{0.01, 0, "alarm-plus", 0.0024},
		{0, 51, "watching", 24 * 100 / 133.77},
		{0, 49, "alarm-minus", 24 * 100 / 132.89},
		{10, 10, "watching", 12},
		{10, 20, "watching", 24 * 9.091 / (9.091 + 16.667)},
		{5, 20, "alarm-plus", 24 * 4.762 / (4.762 + 16.667)},
	} {
		parts := []string{"G1 battery", "A1 insulation-monitor, alarm=50 kohm", "W0 pe-bar"}
		wires := []string{"G1:+ A1:+", "G1:- A1:-", "A1:PE W0:1"}
		for i, k := range []float64{tc.plus, tc.minus} {
			if k > 0 {
				parts = append(parts, fmt.Sprintf("R%d resistor, resistance=%g kohm", i, k))
				wires = append(wires, fmt.Sprintf("G1:%s R%d:1", []string{"+", "-"}[i], i), fmt.Sprintf("R%d:2 W0:2", i))
			}
		}
		p := draw(parts, wires...)
		p.Mains = []panel.Mains{{Ref: "G0", Voltage: "230 V", Frequency: "50 Hz", Earthing: "TN-S"}}
		p.Wires = append(p.Wires, panel.Wire{No: "W99", From: "G0:PE", To: "W0:8"})
		x := run(t, sim.New(p), "", sim.Running)
		wantStates(t, x, "A1 "+tc.state)
		if got := volts(t, x, "A1:+", "A1:PE"); !near(got, tc.volts, 0.01) {
			t.Errorf("%g and %g kΩ: plus at %.3f V to earth, want %.3f", tc.plus, tc.minus, got, tc.volts)
		}
	}
}

// A boundary feeds with the voltage it states behind its resistance, loads with
// its resistance, and is unknown all the while; with the power off it gives none.
func TestBoundary(t *testing.T) {
	m := sim.New(draw([]string{"X7 boundary, beyond=feed, voltage=24 V, resistance=10 ohm", "X8 boundary, beyond=load, resistance=230 ohm", "X9 boundary"},
		"X7:1 X8:1", "X7:2 X8:2", "X8:1 X9:1"))
	for _, tc := range []struct {
		at    string
		volts float64
	}{{"normal", 23}, {sim.PowerOff, 0}, {"normal; switch-off X7", 0}} { // by hand: 24 V · 230 / 240
		x := run(t, m, tc.at, sim.Running)
		if got := volts(t, x, "X9:1", "X7:2"); !near(got, tc.volts, 0.01) {
			t.Errorf("%s: %.3f V, want %g", tc.at, got, tc.volts)
		}
		wantStates(t, x, "X7 unknown", "X8 unknown", "X9 unknown")
	}
	// The same at 50 Hz, and no mains drawn.
	m = sim.New(draw([]string{"X7 boundary, beyond=feed, voltage=230 V, frequency=50 Hz, resistance=1 ohm", "R1 resistor, resistance=114 ohm"}, "X7:1 R1:1", "X7:2 R1:2"))
	x := run(t, m, "", sim.Running)
	if got := x.View().AC(node(t, m, "R1:1"), node(t, m, "R1:2")); !near(got, 228, 0.01) {
		t.Errorf("%.3f V AC, want 230 · 114 / 115", got)
	}
}

// A diode block passes from panel to field only; a light between two levels is lit
// one way round: 22 V / 4.4 kΩ, 5 mA.
func TestSemiconductorBlocks(t *testing.T) {
	blocks := []panel.Block{{No: "1", Type: "diode-block"}, {No: "2", Type: "led-block"}, {No: "3", Type: "led-block"}, {No: "4", Type: "diode-block"}, {No: "5", Type: "triple-level"}}
	m := onStrip(blocks, nil, []string{"G1 battery", "R1 resistor, resistance=230 ohm", "R2 resistor, resistance=230 ohm"},
		"G1:+ X1:1/in", "X1:1/out R1:1", "R1:2 G1:-", "G1:+ X1:4/out", "X1:4/in R2:1", "R2:2 G1:-",
		"G1:+ X1:2.2", "G1:- X1:2.1", "G1:+ X1:3.1", "G1:- X1:3.2", "G1:+ X1:5.1", "G1:- X1:5.2")
	x := run(t, m, "", sim.Running)
	if got := volts(t, x, "R1:1", "R1:2"); !near(got, 23.295, 0.01) { // 24 - 0.7 - 50 mΩ · 0.1 A
		t.Errorf("forward: %.3f V at the load", got)
	}
	if got := volts(t, x, "R2:1", "R2:2"); !near(got, 0, 0.001) {
		t.Errorf("backward: %.3f V at the load", got)
	}
	if a, b := x.Light(0), x.Light(1); a.State != "lit" || !near(a.Amps, 5e-3, 1e-5) || b.State != "dark" {
		t.Errorf("lights %s at %g A and %s", a.State, a.Amps, b.State)
	}
	// The levels of a three-level block are apart.
	if got := volts(t, x, "X1:5.1", "X1:5.2"); !near(got, 24, 0.01) {
		t.Errorf("%.2f V between levels", got)
	}
}
