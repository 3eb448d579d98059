package sim_test

import (
	"fmt"
	"testing"

	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// sensorOn puts a sensor on one input, with a battery of so many volts. A sinking
// input is fed by the sensor, a sourcing one feeds it.
func sensorOn(kind, ratings, input string, volts float64) *sim.Model {
	common := "G1:- A1:M"
	if form := "form=sourcing"; len(input) >= len(form) && input[:len(form)] == form {
		common = "G1:+ A1:L+"
	}
	wires := []string{"G1:+ B1:1", "B1:4 A1:0", common}
	if kind != "proximity-2wire" {
		wires = append(wires, "G1:- B1:3")
	}
	return sim.New(draw([]string{fmt.Sprintf("G1 battery, voltage=%g V", volts), "B1 " + kind + ratings, "A1 digital-input, channels=1, " + input}, wires...))
}

// What an input sees of each sensor. Sources: IEC 61131-2 for the inputs (type 1
// off up to 5 V, on from 15 V; types 2 and 3 on from 11 V), IEC 60947-5-2 for
// residual current and drop; by hand where a sum stands beside.
func TestSensorsOnInputs(t *testing.T) {
	const target, none = "normal; reach B1", "normal"
	for _, tc := range []struct {
		kind, ratings, input, at string
		volts                    float64
		want                     string
		atInput                  float64 // volts it sees
		why                      string
	}{
		{"proximity-pnp", "", "type=1", none, 24, "off", 0.47, "24 V · 4.8 kΩ / (4.8 + 240) kΩ: 0.1 mA of leakage"},
		{"proximity-pnp", "", "type=1", target, 24, "on", 22.95, "24 - 1 V, 10 Ω beside 4.8 kΩ"},
		{"proximity-pnp", "", "type=3", target, 24, "on", 22.97, "24 - 1 V - 10 Ω · 2.6 mA"},
		{"proximity-pnp", ", function=NC", "type=1", none, 24, "on", 22.95, "break function: on without a target"},
		{"proximity-pnp", ", function=NC", "type=1", target, 24, "off", 0.47, "and off with one"},
		{"proximity-pnp", "", "type=1", target, 9, "off", 0.18, "below its 10 V the output stays off"},
		{"proximity-npn", "", "form=sourcing, type=1", target, 24, "on", 22.95, "it pulls its output to 0 V"},
		{"proximity-npn", "", "form=sourcing, type=1", none, 24, "off", 0.47, "leakage"},
		// Common practice: an NPN sensor never turns a sinking input on, nor a PNP a
		// sourcing one.
		{"proximity-npn", "", "type=1", target, 24, "off", 0, "nothing feeds the input"},
		{"proximity-npn", "", "type=1", none, 24, "off", 0, "nothing feeds the input"},
		{"proximity-pnp", "", "form=sourcing, type=1", target, 24, "off", 0, "plus on both ends of the input"},
		{"proximity-pnp", "", "form=sourcing, type=1", none, 24, "off", 0, "no way to 0 V"},
		// Two wires, through the load.
		{"proximity-2wire", "", "type=1", none, 24, "off", 3.84, "0.8 mA · 4.8 kΩ"},
		{"proximity-2wire", "", "type=1", target, 24, "on", 18.97, "24 - 5 V"},
		{"proximity-2wire", ", residual=1.5 mA", "type=1", none, 24, "undefined", 7.2, "1.5 mA · 4.8 kΩ, the limit of IEC 60947-5-2 on a type 1 input"},
		{"proximity-2wire", ", residual=1.5 mA", "type=3", none, 24, "off", 2.88, "1.5 mA · 5 V / 2.6 mA"},
		{"proximity-2wire", ", residual=1.5 mA", "type=2", none, 24, "off", 1.07, "1.5 mA · 5 V / 7 mA"},
		{"proximity-2wire", ", drop=8 V", "type=1", target, 20.4, "undefined", 12.38, "20.4 V, the lowest supply, less 8 V: type 1 not guaranteed"},
		{"proximity-2wire", ", drop=8 V", "type=3", target, 20.4, "on", 12.38, "type 3 is on from 11 V"},
	} {
		x := run(t, sensorOn(tc.kind, tc.ratings, tc.input, tc.volts), tc.at, sim.Running)
		st := status(t, x, "A1:0")
		if st.State != tc.want || !near(st.Volts, tc.atInput, 0.02) {
			t.Errorf("%s%s on %s, %s, %g V: input %s at %.2f V, want %s at %.2f (%s)", tc.kind, tc.ratings, tc.input, tc.at, tc.volts, st.State, st.Volts, tc.want, tc.atInput, tc.why)
		}
	}
}

// A sensor wired the wrong way round does nothing and suffers nothing (common
// practice: polarity protection).
func TestReversedSensors(t *testing.T) {
	for _, kind := range []string{"proximity-pnp", "proximity-npn", "proximity-2wire"} {
		input := "type=1"
		if kind == "proximity-npn" {
			input = "form=sourcing, type=1"
		}
		x := run(t, sensorOn(kind, "", input, 24), "normal; reach B1", sim.Running, "B1=reversed")
		st := status(t, x, "B1")
		if st.State != "off" || st.Grade != parts.Off {
			t.Errorf("%s reversed: %s", kind, st.State)
		}
		if amps := status(t, x, "G1").Amps; !near(amps, 0, 1e-4) && kind != "proximity-npn" {
			t.Errorf("%s reversed: the battery gives %g A", kind, amps)
		}
		wantStates(t, x, "A1:0 off")
	}
}

// A shorted output limits at the sensor's rated load (instrument data: short-circuit
// protected), and a sensor on a load of 24 V, 50 mA drops 1.5 V (1 V and 10 Ω).
func TestSensorLoads(t *testing.T) {
	for _, tc := range []struct {
		ohms  float64
		state string
		amps  float64
		why   string
	}{
		{450, "on", 0.05, "by hand: 23 V / 460 Ω"},
		{0.1, "limiting", 0.2, "its limit"},
		{105, "on", 0.2, "by hand: 23 V / 115 Ω"},
		{104, "limiting", 0.2, "a little less than that"},
	} {
		m := sim.New(draw([]string{"G1 battery", "B1 proximity-pnp", fmt.Sprintf("R1 resistor, resistance=%g ohm", tc.ohms)}, "G1:+ B1:1", "G1:- B1:3", "B1:4 R1:1", "R1:2 G1:-"))
		if st := status(t, run(t, m, "normal; reach B1", sim.Running), "B1"); st.State != tc.state || !near(st.Amps, tc.amps, 1e-4) {
			t.Errorf("%g Ω: %s at %.4f A, want %s at %g (%s)", tc.ohms, st.State, st.Amps, tc.state, tc.amps, tc.why)
		}
	}
}

// IEC 61131-2: a type 2 input takes at least 6 mA from 11 V on, a type 3 input at
// least 2 mA, both at most 30 and 15 mA; type 1 at least 2 mA at 15 V.
func TestInputCurrents(t *testing.T) {
	for _, tc := range []struct {
		kind        string
		volts       float64
		least, most float64 // mA
	}{{"1", 15, 2, 15}, {"1", 30, 2, 15}, {"2", 11, 6, 30}, {"2", 30, 6, 30}, {"3", 11, 2, 15}, {"3", 30, 2, 15}} {
		m := sim.New(draw([]string{fmt.Sprintf("G1 battery, voltage=%g V", tc.volts+0.001), "A1 digital-input, channels=1, type=" + tc.kind}, "G1:+ A1:0", "G1:- A1:M"))
		st := status(t, run(t, m, "", sim.Running), "A1:0")
		if ma := 1e3 * st.Amps; st.State != "on" || ma < tc.least || ma > tc.most {
			t.Errorf("type %s at %g V: %s at %.2f mA, want on, %g to %g", tc.kind, tc.volts, st.State, ma, tc.least, tc.most)
		}
	}
}
