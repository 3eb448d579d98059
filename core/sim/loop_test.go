package sim_test

import (
	"fmt"
	"testing"

	"halfsplit/core/sim"
)

// loopPanel is a two-wire transmitter on a supply of so many volts, with a resistor
// in the loop and an analogue input.
func loopPanel(volts float64, instrument string, ohms float64) *sim.Model {
	return sim.New(draw([]string{fmt.Sprintf("G1 battery, voltage=%g V", volts), "B1 transmitter-2wire" + instrument,
		fmt.Sprintf("R1 resistor, resistance=%g ohm", ohms), "A1 analogue-input, channels=1"},
		"G1:+ B1:+", "B1:- R1:1", "R1:2 A1:0", "G1:- A1:M"))
}

// Voltage at the instrument: supply less the drops of the loop. 7.8 Ω is 2 × 200 m
// of 1.0 mm² class 5 after IEC 60228; the input has 250 Ω (1 to 5 V for 4 to 20 mA).
func TestLoopVoltages(t *testing.T) {
	for _, tc := range []struct {
		signal      string
		extra, want float64
		source      string
	}{
		{"4 mA", 7.8, 22.97, "by hand: 24 - 0.004 · 257.8"},
		{"12 mA", 7.8, 20.91, "by hand: 24 - 0.012 · 257.8"},
		{"20 mA", 7.8, 18.84, "by hand: 24 - 0.020 · 257.8"},
		{"20 mA", 257.8, 13.84, "by hand: 24 - 0.020 · 507.8, two inputs in series"},
	} {
		x := run(t, loopPanel(24, "", tc.extra), "normal; set B1 "+tc.signal, sim.Running)
		if got := volts(t, x, "B1:+", "B1:-"); !near(got, tc.want, 0.005) {
			t.Errorf("%s with %g Ω: %.3f V at the instrument, want %.2f (%s)", tc.signal, tc.extra, got, tc.want, tc.source)
		}
		wantStates(t, x, "B1 measuring", "A1:0 measuring")
	}
	for signal, want := range map[string]float64{"4 mA": 1, "20 mA": 5} {
		x := run(t, loopPanel(24, "", 7.8), "normal; set B1 "+signal, sim.Running)
		if got := volts(t, x, "A1:0", "A1:M"); !near(got, want, 0.001) {
			t.Errorf("%s: %.4f V across 250 Ω, want %g", signal, got, want)
		}
	}
}

// Load line: the loop may have at most (supply - lift-off) / current ohms. Lift-off
// voltages are those of instruments on the market, 10.5 to 12 V.
func TestLoadLine(t *testing.T) {
	for _, tc := range []struct {
		supply, lift, milliamps float64
		most                    float64 // ohms, all of the loop
	}{
		{24, 12, 20, 600}, {24, 10.5, 20, 675}, {24, 11.9, 20, 605}, {24, 10.8, 20, 660}, {24, 12, 4, 3000}, {19.2, 12, 20, 360}, {24, 18, 4, 1500},
	} {
		for _, share := range []float64{0.99, 1.01} {
			m := loopPanel(tc.supply, fmt.Sprintf(", lift-off=%g V", tc.lift), share*tc.most-250)
			x := run(t, m, fmt.Sprintf("normal; set B1 %g mA", tc.milliamps), sim.Running)
			st := status(t, x, "B1")
			switch {
			case share < 1 && (st.State != "measuring" || !near(st.Signal, tc.milliamps, 1e-6)):
				t.Errorf("%+v: %s at %.3f mA with %.0f Ω, want the full signal", tc, st.State, st.Signal, share*tc.most)
			case share > 1 && (st.State == "measuring" || st.Signal >= tc.milliamps || st.Signal < 0.97*tc.milliamps):
				// It regulates no more; the loop's resistance sets the current.
				t.Errorf("%+v: %s at %.3f mA with %.0f Ω, want it starved just below its signal", tc, st.State, st.Signal, share*tc.most)
			}
		}
	}
}

// NE 43 at the input: what the controller can tell from the current alone.
func TestLoopFaults(t *testing.T) {
	for _, tc := range []struct {
		fault, b1, a1 string
		milliamps     float64
		source        string
	}{
		{"", "measuring", "measuring", 12, "IEC 60381-1: half of the range"},
		{"B1=fail-low", "fail-low", "fail-low", 3.5, "NE 43: 3.6 mA or less"},
		{"B1=fail-high", "fail-high", "fail-high", 21.5, "NE 43: 21.0 mA or more"},
		{"B1=open", "no-current", "no-current", 0, "common practice: broken loop"},
		{"W2=broken", "no-current", "no-current", 0, "common practice: broken loop"},
		{"B1=reversed", "no-current", "no-current", 0, "common practice: a two-wire instrument blocks when reversed"},
		{"A1:0=input-open", "no-current", "no-current", 0, "common practice: the input is part of the loop"},
		{"A1:0=input-dead", "measuring", "no-current", 12, "the loop is sound, the card does not see it"},
		{"B1:+~B1:-=short", "no-current", "fail-high", 94.1, "by hand: 24 V / 255 Ω"},
	} {
		m := loopPanel(24, "", 5)
		var faults []string
		if tc.fault != "" {
			faults = []string{tc.fault}
		}
		x := run(t, m, "normal; set B1 50 %", sim.Running, faults...)
		if b, a := status(t, x, "B1"), status(t, x, "A1:0"); b.State != tc.b1 || a.State != tc.a1 || !near(1e3*a.Amps, tc.milliamps, 0.05) {
			t.Errorf("%s: B1 %s, A1:0 %s at %.2f mA; want %s, %s at %.2f mA (%s)", tc.fault, b.State, a.State, 1e3*a.Amps, tc.b1, tc.a1, tc.milliamps, tc.source)
		}
	}
}

// A reversed instrument shows a negative voltage between its terminals (common
// practice: that sign is the finding).
func TestReversedInstrument(t *testing.T) {
	x := run(t, loopPanel(24, "", 5), "", sim.Running, "B1=reversed")
	if got := volts(t, x, "B1:+", "B1:-"); !(got < -20) {
		t.Errorf("%.2f V, want about -24", got)
	}
}

// A four-wire instrument drives its signal whatever the loop's resistance, up to
// its compliance: 15 V at 20 mA is 750 Ω (common practice).
func TestDrivenLoop(t *testing.T) {
	for _, tc := range []struct {
		ohms    float64
		state   string
		atLeast float64
	}{{0.001, "measuring", 20}, {250, "measuring", 20}, {730, "measuring", 20}, {800, "saturated", 18}} {
		m := sim.New(draw([]string{"G1 battery", "B1 transmitter-4wire", fmt.Sprintf("R1 resistor, resistance=%g ohm", tc.ohms)},
			"G1:+ B1:L+", "G1:- B1:M", "B1:+ R1:1", "R1:2 B1:-"))
		x := run(t, m, "normal; set B1 20 mA", sim.Running)
		st := status(t, x, "B1")
		if st.State != tc.state || st.Signal < tc.atLeast-1e-6 || st.Signal > 20+1e-6 {
			t.Errorf("%g Ω: %s at %.3f mA, want %s", tc.ohms, st.State, st.Signal, tc.state)
		}
		if st := status(t, run(t, m, "normal; disconnect G1", sim.Running), "B1"); st.State != "no-current" {
			t.Errorf("without supply: %s", st.State)
		}
	}
}
