package sim_test

import (
	"fmt"
	"testing"

	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// IEC 61131-2, 24 V sinking inputs. Type 1: off up to 5 V, on from 15 V, between
// them either is allowed. Types 2 and 3: on from 11 V.
func TestDigitalInput(t *testing.T) {
	for _, tc := range []struct {
		ratings string
		volts   float64
		state   string
		grade   parts.Grade
	}{
		{"", 0.5, "off", parts.Off}, {"", 4.99, "off", parts.Off},
		{"", 5.01, "undefined", parts.Weak}, {"", 11.01, "undefined", parts.Weak}, {"", 14.99, "undefined", parts.Weak},
		{"", 15.01, "on", parts.On}, {"", 24, "on", parts.On}, {"", 30, "on", parts.On},
		{", on=11 V", 10.99, "undefined", parts.Weak}, {", on=11 V", 11.01, "on", parts.On}, {", on=11 V", 4.99, "off", parts.Off},
	} {
		m := sim.New(draw([]string{fmt.Sprintf("G1 battery, voltage=%g V", tc.volts), "A1 digital-input, channels=1" + tc.ratings}, "G1:+ A1:0", "G1:- A1:M"))
		st := status(t, run(t, m, "", sim.Running), "A1:0")
		if st.State != tc.state || st.Grade != tc.grade {
			t.Errorf("%g V%s: %s, grade %d, want %s, %d", tc.volts, tc.ratings, st.State, st.Grade, tc.state, tc.grade)
		}
		// Module data: 5 mA at 24 V, as a resistor of 4.8 kΩ.
		if want := tc.volts / 4800; !near(st.Amps, want, 1e-6) {
			t.Errorf("%g V: %g A, want %g", tc.volts, st.Amps, want)
		}
	}
}

// A fault in the electronics of an input leaves it off while its terminal has the
// full voltage.
func TestDeadInput(t *testing.T) {
	m := sim.New(draw([]string{"G1 battery", "A1 digital-input, channels=1"}, "G1:+ A1:0", "G1:- A1:M"))
	st := status(t, run(t, m, "", sim.Running, "A1:0=input-dead"), "A1:0")
	if st.State != "off" || !near(st.Volts, 24, 0.01) {
		t.Errorf("%s at %g V, want off at 24 V", st.State, st.Volts)
	}
}

// Elementary relays must operate at 75 % of the rated voltage and release at
// 10 % (data sheets); IEC 60947-4-1 has coils pick up at 85 % (from memory), which
// stands for valves. R1 lets the voltage down once the coil is in.
func TestCoil(t *testing.T) {
	for _, tc := range []struct {
		part          string
		ohms          float64 // of the coil, by its data
		operate, hold float64 // volts
	}{
		{"K1 relay", 794, 18, 2.4},
		{"K1 relay, voltage=12 V, resistance=400 ohm", 400, 9, 1.2},
		{"K1 relay, operate=85 %, release=30 %", 794, 20.4, 7.2},
		{"K1 relay, resistance=1600 ohm", 1600, 18, 2.4},
		{"Q1 solenoid", 72, 20.4, 2.4}, // 24 V · 24 V / 8 W
	} {
		ref, plus, minus := tc.part[:2], ":A1", ":A2"
		if ref == "Q1" {
			plus, minus = ":1", ":2"
		}
		for _, off := range []float64{-0.01, 0.01} {
			// Pick up, from rest.
			supply := fmt.Sprintf("G1 battery, voltage=%g V", tc.operate+off)
			x := run(t, sim.New(draw([]string{supply, tc.part}, "G1:+ "+ref+plus, "G1:- "+ref+minus)), "", sim.Running)
			if in := status(t, x, ref).State == "operated"; in != (off > 0) {
				t.Errorf("%s: operated %v at %g V, limit %g", tc.part, in, tc.operate+off, tc.operate)
			}
			// Drop out, once in: R1 leaves the coil its release voltage and a little.
			rest := tc.hold + off
			ohms := tc.ohms * (24 - rest) / rest
			m := sim.New(draw([]string{"G1 battery", "S1 switch", fmt.Sprintf("R1 resistor, resistance=%.6f ohm", ohms), tc.part},
				"G1:+ S1:13", "S1:13 R1:1", "S1:14 R1:2", "S1:14 "+ref+plus, "G1:- "+ref+minus))
			x = run(t, m, "normal; close S1; open S1", sim.Running)
			if got := volts(t, x, ref+plus, ref+minus); !near(got, rest, 0.002) {
				t.Fatalf("%s: %g V at the coil, the test means %g", tc.part, got, rest)
			}
			if in := status(t, x, ref).State == "operated"; in != (off > 0) {
				t.Errorf("%s: operated %v at %g V, release %g", tc.part, in, rest, tc.hold)
			}
			// The same voltage does not bring it in from rest.
			if status(t, run(t, m, "", sim.Running), ref).State == "operated" {
				t.Errorf("%s: pulled in at %g V", tc.part, rest)
			}
		}
	}
}

// A relay whose own contact feeds its coil's return closes and opens for ever: an
// answer, not an error (common practice: a buzzer).
func TestBuzzer(t *testing.T) {
	m := sim.New(draw([]string{"G1 battery", "K1 relay, 21-22"}, "G1:+ K1:21", "K1:22 K1:A1", "G1:- K1:A2"))
	x := run(t, m, "", sim.Running)
	if x.Cycle() == nil {
		t.Fatal("at rest, want a cycle")
	}
	if got := status(t, x, "K1").State; got != "chattering" {
		t.Errorf("K1 is %s, want chattering", got)
	}
	// Operate 5 to 15 ms and release 2 to 10 ms, relay data sheets: 7 to 25 ms a round.
	if p := x.Cycle().PeriodMS; !(p >= 7 && p <= 25) {
		t.Errorf("period %g ms", p)
	}
}

// Two relays that lock each other out, switched on together: one wins and the
// panel rests (common practice; a sweep of all at once would find a race).
func TestLockOut(t *testing.T) {
	m := sim.New(draw([]string{"G1 battery", "S1 switch", "K1 relay, 21-22", "K2 relay, 21-22"},
		"G1:+ S1:13", "S1:14 K2:21", "K2:22 K1:A1", "S1:14 K1:21", "K1:22 K2:A1", "G1:- K1:A2", "K1:A2 K2:A2"))
	x := run(t, m, "normal; close S1", sim.Running)
	if x.Cycle() != nil {
		t.Fatalf("cycle %+v", x.Cycle())
	}
	wantStates(t, x, "K1 operated", "K2 released")
}

// A pilot light is called lit from 60 % of its voltage and dim from 20 % (choices).
func TestPilotLight(t *testing.T) {
	for _, tc := range []struct {
		volts float64
		state string
	}{{24, "lit"}, {14.5, "lit"}, {14.3, "dim"}, {5, "dim"}, {4.7, "dark"}} {
		m := sim.New(draw([]string{fmt.Sprintf("G1 battery, voltage=%g V", tc.volts), "P1 pilot-light"}, "G1:+ P1:X1", "G1:- P1:X2"))
		if got := status(t, run(t, m, "", sim.Running), "P1").State; got != tc.state {
			t.Errorf("%g V: %s, want %s", tc.volts, got, tc.state)
		}
	}
}
