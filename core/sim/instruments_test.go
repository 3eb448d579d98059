package sim_test

import (
	"fmt"
	"testing"

	"halfsplit/core/sim"
)

// A three-wire instrument of 4 V headroom on 24 V drives 20 mA into at most
// (24 - 4) V / 20 mA = 1000 Ω; below its least supply it drives nothing.
func TestThreeWire(t *testing.T) {
	for _, tc := range []struct {
		volts, ohms float64
		fault       string
		state       string
		milliamps   float64
	}{
		{24, 250, "", "measuring", 20},
		{24, 990, "", "measuring", 20},
		{24, 1100, "", "starved", 18.18}, // 20 V / 1100 Ω
		{14, 250, "", "no-current", 0},
		{24, 250, "B1=reversed", "no-current", 0},
		{24, 250, "B1=no-output", "no-current", 0},
		{24, 250, "B1=fail-low", "fail-low", 3.5},
		{24, 250, "B1=fail-high", "fail-high", 21.5},
	} {
		m := sim.New(draw([]string{fmt.Sprintf("G1 battery, voltage=%g V", tc.volts), "B1 transmitter-3wire", fmt.Sprintf("A1 analogue-input, channels=1, resistance=%g ohm", tc.ohms)},
			"G1:+ B1:+", "G1:- B1:-", "B1:S A1:0", "A1:M G1:-"))
		var faults []string
		if tc.fault != "" {
			faults = []string{tc.fault}
		}
		st := status(t, run(t, m, "normal; set B1 20 mA", sim.Running, faults...), "B1")
		if st.State != tc.state || !near(1e3*st.Amps, tc.milliamps, 0.03) {
			t.Errorf("%g V, %g Ω %s: %s at %.3f mA, want %s at %g", tc.volts, tc.ohms, tc.fault, st.State, 1e3*st.Amps, tc.state, tc.milliamps)
		}
	}
}

// A resistance in its feed carries its signal too. By hand, 1 W at 24 V being 576 Ω:
// behind 300 Ω it has 24 V × 576/876 = 15.78 V, enough to start, but with a signal of
// 20 mA only (24 V - 6 V) × 576/876 = 11.84 V, so it starts and stops for ever. Behind
// 100 Ω it has (24 V - 2 V) × 576/676 = 18.75 V and measures; behind 400 Ω, 14.16 V
// without any signal, it never starts.
func TestThreeWireBehindAResistance(t *testing.T) {
	for _, tc := range []struct {
		ohms, volts float64
		state       string
	}{{100, 18.75, "measuring"}, {300, 15.78, "chattering"}, {400, 14.16, "no-current"}} {
		m := sim.New(draw([]string{"G1 battery, resistance=0.001 ohm", "B1 transmitter-3wire", "A1 analogue-input, channels=1"},
			"G1:+ B1:+", "G1:- B1:-", "B1:S A1:0", "A1:M G1:-"))
		x := run(t, m, "normal; set B1 20 mA", sim.Running, fmt.Sprintf("W1@B1:+=loose:%gohm", tc.ohms))
		if st := status(t, x, "B1"); st.State != tc.state || !near(volts(t, x, "B1:+", "B1:-"), tc.volts, 0.03) {
			t.Errorf("%g Ω: %s at %.2f V, want %s at %g V", tc.ohms, st.State, volts(t, x, "B1:+", "B1:-"), tc.state, tc.volts)
		}
		if c := x.Cycle(); (c != nil) != (tc.state == "chattering") || c != nil && !(c.PeriodMS > 0) {
			t.Errorf("%g Ω: cycle %+v", tc.ohms, c)
		}
	}
}

// A sourcing input supplies its loop: by hand the instrument has 24 V less 250 Ω,
// 100 Ω or 50 Ω at 20 mA, the loads in use.
func TestSourcingInput(t *testing.T) {
	for _, ohms := range []float64{50, 100, 250} {
		m := sim.New(draw([]string{"G1 battery", fmt.Sprintf("A1 analogue-input, channels=1, form=sourcing, resistance=%g ohm", ohms), "B1 transmitter-2wire"},
			"G1:+ A1:L+", "G1:- A1:M", "A1:0 B1:+", "B1:- A1:M"))
		x := run(t, m, "normal; set B1 20 mA", sim.Running)
		wantStates(t, x, "A1:0 measuring", "B1 measuring")
		if got, want := volts(t, x, "B1:+", "B1:-"), 24-0.02*ohms; !near(got, want, 0.001) {
			t.Errorf("%g Ω: %.3f V at the instrument, want %.3f", ohms, got, want)
		}
		if st := status(t, run(t, m, "normal; set B1 20 mA", sim.Running, "W3=broken"), "A1:0"); st.State != "no-current" {
			t.Errorf("broken loop: %s", st.State)
		}
	}
}

// A thermometer at 50 °C has 119.40 Ω (IEC 60751). Each lead has 5 Ω: with three
// wires they cancel, with two they add 10 Ω, which is 129.40 Ω or 76 °C. A broken
// lead drives the reading out of the range (common practice: upscale).
func TestResistanceThermometer(t *testing.T) {
	const three, two = "A1:0c R3:1", "A1:0c A1:0b"
	for _, tc := range []struct {
		third, fault, state string
		celsius             float64
	}{
		{three, "", "measuring", 50},
		{two, "", "measuring", 76.1},
		{three, "W1=broken", "line-break", 0},
		{three, "W3=broken", "line-break", 0},
		{three, "W5=broken", "line-break", 0},
		{three, "B1=open", "line-break", 0},
		{three, "B1:3=open", "line-break", 0},
		{two, "W3=broken", "line-break", 0},
		{three, "B1=shorted", "under-range", 0},
		{three, "A1:0=input-dead", "off", 0},
		{three, "W7=broken", "off", 0},
		{three, "W1@A1:0=loose:10ohm", "measuring", 76.1},  // one lead has 10 Ω more
		{three, "W3@A1:0b=loose:10ohm", "measuring", 24.1}, // and the other 10 Ω: 109.40 Ω, table 24 °C 109.35
	} {
		wires := []string{"A1:0 R1:1", "R1:2 B1:1", "A1:0b R2:1", "R2:2 B1:2", tc.third, "R3:2 B1:3", "G1:+ A1:L+", "G1:- A1:M"}
		m := sim.New(draw([]string{"G1 battery", "A1 rtd-input, channels=1", "B1 rtd", "R1 resistor, resistance=5 ohm", "R2 resistor, resistance=5 ohm", "R3 resistor, resistance=5 ohm"}, wires...))
		var faults []string
		if tc.fault != "" {
			faults = []string{tc.fault}
		}
		st := status(t, run(t, m, "normal; set B1 50 %", sim.Running, faults...), "A1:0")
		if st.State != tc.state || !near(st.Celsius, tc.celsius, 0.15) {
			t.Errorf("%s %s: %s at %.2f °C, want %s at %g", tc.third, tc.fault, st.State, st.Celsius, tc.state, tc.celsius)
		}
	}
}

// A type K couple at 400 °C gives 16.397 mV less the 0.798 mV of its cold end at
// 20 °C (IEC 60584-1). Shorted it shows the cold end; broken it goes upscale; the
// wrong way round it falls below the table when it should rise (common practice).
func TestThermocouple(t *testing.T) {
	const upscale = 1000 // 0.1 µA in 10 MΩ and what insulation adds
	for _, tc := range []struct {
		at, fault, state string
		millivolts       float64
		celsius          float64
	}{
		{"80 %", "", "measuring", 15.599, 400},
		{"0 %", "", "measuring", -0.798, 0},
		{"80 %", "B1=shorted", "measuring", 0, 20},
		{"80 %", "W1~W2=short", "measuring", 0.154, 23.8}, // 15.6 mV over 10 Ω and 0.1 Ω
		{"80 %", "B1=open", "line-break", upscale, 0},
		{"80 %", "W1=broken", "line-break", upscale, 0},
		{"80 %", "B1=reversed", "under-range", -15.599, 0},
		{"20 %", "B1=reversed", "measuring", -3.298, -67.5}, // -2.5 mV against 0 °C
		{"80 %", "A1:0=input-dead", "off", 15.599, 0},
		{"80 %", "W3=broken", "off", 15.599, 0},
	} {
		m := sim.New(draw([]string{"G1 battery", "A1 thermocouple-input, channels=1", "B1 thermocouple, at field"}, "A1:0 B1:+", "A1:0b B1:-", "G1:+ A1:L+", "G1:- A1:M"))
		var faults []string
		if tc.fault != "" {
			faults = []string{tc.fault}
		}
		st := status(t, run(t, m, "normal; set B1 "+tc.at, sim.Running, faults...), "A1:0")
		if st.State != tc.state || !(near(1e3*st.Volts, tc.millivolts, 0.003) || tc.millivolts == upscale && st.Volts > 0.5) || !near(st.Celsius, tc.celsius, 0.3) {
			t.Errorf("%s %s: %s, %.3f mV, %.2f °C, want %s, %g, %g", tc.at, tc.fault, st.State, 1e3*st.Volts, st.Celsius, tc.state, tc.millivolts, tc.celsius)
		}
	}
}
