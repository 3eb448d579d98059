package sim_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"halfsplit/core/panel"
	"halfsplit/core/sim"
)

// IEC 60947-5-6: 8.2 V behind 1 kΩ; at least 2.1 mA is one state, at most 1.2 mA
// the other; a broken line draws less than 0.05 mA, certainly sound is more than
// 0.35 mA; above 6 mA it is shorted (the last two from memory). A resistor stands
// for the sensor: R = 8.2 V / I - 1 kΩ.
func TestNamurBands(t *testing.T) {
	for _, tc := range []struct {
		milliamps float64
		state     string
	}{{0.05, "line-break"}, {0.35, "released"}, {1.2, "released"}, {2.1, "operated"}, {3, "operated"}, {6, "operated"}, {7, "line-short"}} {
		m := sim.New(draw([]string{"G1 battery", "K1 namur-amplifier", fmt.Sprintf("R1 resistor, resistance=%g ohm", 8.2/tc.milliamps*1e3-1e3)},
			"G1:+ K1:L+", "G1:- K1:M", "K1:S+ R1:1", "R1:2 K1:S-"))
		x := run(t, m, "", sim.Running)
		if st := status(t, x, "K1"); st.State != tc.state || !near(1e3*st.Amps, tc.milliamps, 0.001) {
			t.Errorf("%g mA: %s at %.4f mA, want %s", tc.milliamps, st.State, 1e3*st.Amps, tc.state)
		}
	}
}

// A sensor at its amplifier. Instrument data: at least 3 mA free, at most 1 mA
// with a target; the standard allows a line of 50 Ω.
func TestNamurSensor(t *testing.T) {
	// By hand: 7.5 V beyond the sensor's diode; 3 mA are 2500 Ω in all and 1 mA 7500 Ω.
	const free, target = 1e3 * 7.5 / 2550, 1e3 * 7.5 / 7550
	for _, tc := range []struct {
		action, at, fault, state string
		milliamps                float64
	}{
		{"direct", "", "", "operated", free},
		{"direct", "normal; reach B1", "", "released", target},
		{"inverse", "", "", "released", free},
		{"inverse", "normal; reach B1", "", "operated", target},
		{"direct", "", "W1=broken", "line-break", 0},
		{"direct", "", "B1=open", "line-break", 0},
		{"direct", "", "B1=shorted", "line-short", 7.81},  // 8.2 V / 1050 Ω
		{"direct", "", "B1=reversed", "line-break", 0},    // common practice: polarity protection
		{"direct", "", "B1=stuck-on", "released", target}, // the target is taken to be there
		{"direct", "normal; disconnect G1", "", "off", 0},
		{"direct", "", "K1=dead", "off", 0},
	} {
		m := sim.New(draw([]string{"G1 battery", "K1 namur-amplifier, action=" + tc.action, "B1 namur-sensor", "R1 resistor, resistance=50 ohm"},
			"K1:S+ R1:1", "R1:2 B1:+", "B1:- K1:S-", "G1:+ K1:L+", "G1:- K1:M"))
		var faults []string
		if tc.fault != "" {
			faults = []string{tc.fault}
		}
		x := run(t, m, tc.at, sim.Running, faults...)
		if st := status(t, x, "K1"); st.State != tc.state || !near(1e3*st.Amps, tc.milliamps, 0.01) {
			t.Errorf("%s %s %s: %s at %.4f mA, want %s at %.4f", tc.action, tc.at, tc.fault, st.State, 1e3*st.Amps, tc.state, tc.milliamps)
		}
	}
}

// mainsPanel draws a panel fed with line and neutral.
func mainsPanel(volts, hertz string, parts []string, wires ...string) *sim.Model {
	p := draw(parts, wires...)
	p.Mains = []panel.Mains{{Ref: "G0", Voltage: volts, Frequency: hertz, Earthing: "TN-S", Impedance: "0.1 ohm"}}
	return sim.New(p)
}

// What a switched-off AC output leaves on its terminal. Module data: 2 mA leakage
// of a triac at 120 V, inputs off up to 20 V and on from 79 V; snubbers of 47 nF
// carry 2.1 mA at 120 V and 4.3 mA at 240 V at 60 Hz.
func TestLeakingOutputs(t *testing.T) {
	triac := mainsPanel("120 V", "60 Hz", []string{"A1 triac-output, channels=2", "A2 digital-input, channels=1, form=ac", "K1 relay, voltage=120 V, resistance=3 kohm, frequency=60 Hz"},
		"G0:L A1:L", "A1:0 A2:0", "A2:N G0:N", "A1:1 K1:A1", "K1:A2 G0:N")
	x := run(t, triac, "", sim.Running)
	// By hand: 60 kΩ of leakage reactance and a hundredth of it in series with 22 kΩ.
	want := 120 * 22 / math.Hypot(22.6, 60)
	if st := status(t, x, "A2:0"); st.State != "undefined" || !near(st.Volts, want, 0.05) {
		t.Errorf("off: the input is %s at %.2f V, want undefined at %.2f", st.State, st.Volts, want)
	}
	wantStates(t, x, "K1 released", "A1:0 off")
	x = run(t, triac, "normal; switch-on A1:0; switch-on A1:1", sim.Running)
	wantStates(t, x, "A2:0 on", "K1 operated", "A1:0 on")

	for _, tc := range []struct {
		volts     string
		milliamps float64
	}{{"120 V", 2.1}, {"240 V", 4.3}} {
		m := mainsPanel(tc.volts, "60 Hz", []string{"R1 snubber, capacitance=47 nF", "R2 resistor, resistance=1 ohm", "A1 relay-output, channels=1, at=" + tc.volts + fmt.Sprintf(", leakage=%g mA", tc.milliamps), "R3 resistor, resistance=1 ohm"},
			"G0:L R1:1", "R1:2 R2:1", "R2:2 G0:N", "G0:L A1:C", "A1:0 R3:1", "R3:2 G0:N")
		x := run(t, m, "", sim.Running)
		for _, r := range []string{"R2", "R3"} {
			if ma := 1e3 * x.View().AC(node(t, m, r+":1"), node(t, m, r+":2")); !near(ma, tc.milliamps, 0.06) {
				t.Errorf("%s through %s: %.3f mA, want %g", tc.volts, r, ma, tc.milliamps)
			}
		}
	}
}

// A fuse block's indicator leaks at 24 V and at 230 V alike: with the link blown and
// nothing else connected the dead side reads nearly the full voltage on a meter of
// 10 MΩ (common practice: a ghost).
func TestIndicatorGhost(t *testing.T) {
	p := draw([]string{"R1 resistor, resistance=10 Mohm"}, "G0:L X1:1/in", "X1:1/out R1:1", "R1:2 G0:N")
	p.Mains = []panel.Mains{{Ref: "G0", Voltage: "230 V", Frequency: "50 Hz", Earthing: "TN-S"}}
	p.Strips = []panel.Strip{{Ref: "X1", Blocks: []panel.Block{{No: "1", Type: "fuse-block", Fuse: "1 A T", Indicator: "230 V"}}}}
	m := sim.New(p)
	x := run(t, m, "", sim.Running, "X1:1=fuse-blown")
	want := 230 * 10.0 / 10.23 // the indicator is 230 V / 1 mA
	if got := x.View().AC(node(t, m, "R1:1"), node(t, m, "R1:2")); !near(got, want, 0.5) {
		t.Errorf("%.1f V behind the blown link, want %.1f", got, want)
	}
}

// A safety relay: two channels, a reset with the feedback in series, two safe ways.
// Sources: the principle of a two-channel relay with force-guided contacts, EN 50205
// and ISO 13849-1 (from memory); common practice.
func TestSafetyRelay(t *testing.T) {
	m := sim.New(draw([]string{"G1 battery", "K1 safety-relay", "S1 switch, 11-12, 21-22", "S2 button, 13-14", "S3 switch, 11-12", "S4 switch, 11-12",
		"K2 relay, 11-12, 23-24", "P1 pilot-light", "P2 pilot-light"},
		"G1:+ K1:A1", "G1:- K1:A2", "K1:S11 S3:11", "S3:12 S1:11", "S1:12 K1:S12", "K1:S21 S4:11", "S4:12 S1:21", "S1:22 K1:S22",
		"K1:S33 S2:13", "S2:14 K2:11", "K2:12 K1:S34", "G1:+ K1:13", "K1:14 K2:A1", "K2:A2 G1:-", "G1:+ K1:23", "K1:24 P1:X1", "P1:X2 G1:-", "G1:+ K1:41", "K1:42 P2:X1", "P2:X2 G1:-"))
	const reset, stop, letGo = "; press S2; release S2", "; close S1", "; open S1"
	for _, tc := range []struct {
		at     string
		onset  sim.Onset
		fault  string
		want   string
		reason string
	}{
		{"normal", sim.Running, "", "K1 ready, P1 dark, P2 lit", "both channels closed, not reset"},
		{"normal" + reset, sim.Running, "", "K1 operated, P1 lit, P2 dark, K2 operated", "reset"},
		{"normal" + reset + stop, sim.Running, "", "K1 released, P1 dark, P2 lit, K2 released", "both channels open"},
		{"normal" + reset + stop + letGo, sim.Running, "", "K1 ready, P1 dark", "it waits for its reset"},
		{"normal" + reset + stop + letGo + reset, sim.Running, "", "K1 operated", "and takes it"},
		{"normal" + reset + "; close S3", sim.Running, "", "K1 discrepant, P1 dark", "one channel alone"},
		{"normal" + reset + "; close S3; open S3" + reset, sim.Running, "", "K1 discrepant, P1 dark", "closing it again is not enough"},
		{"normal" + reset + "; close S3; open S3" + stop + letGo + reset, sim.Running, "", "K1 operated", "both have been open"},
		{"normal" + reset + stop, sim.Start, "K1=channel-1-stuck", "K1 discrepant, P1 dark", "the other channel still opens it, and it says so"},
		{"normal" + reset + stop + letGo + reset, sim.Start, "K1=channel-1-stuck", "K1 discrepant, P1 dark", "and it does not start again"},
		{"normal" + reset, sim.Start, "K1=channel-2-stuck", "K1 operated", "a stuck channel does not show while both are closed"},
		{"normal" + reset, sim.Running, "K1=one-welded", "K1 operated, P1 lit", "nor does a weld"},
		{"normal" + reset, sim.Start, "K1=one-welded", "K1 ready, P1 dark, P2 dark", "welded before the start: it does not operate, its signal stays off"},
		{"normal" + reset, sim.Running, "K1:23-24=stuck-open", "K1 operated, P1 dark, K2 operated", "one safe way"},
		{"normal" + reset, sim.Start, "K2:11-12=stuck-open", "K1 ready", "the feedback is in the reset"},
		{"normal" + reset, sim.Running, "K1=dead", "K1 released, P1 dark", "without its electronics it lets go"},
		{"normal" + reset, sim.Running, "W4=broken", "K1 discrepant, P1 dark", "a broken wire in one channel"},
	} {
		var faults []string
		if tc.fault != "" {
			faults = []string{tc.fault}
		}
		t.Run(tc.at+" "+tc.fault, func(t *testing.T) {
			wantStates(t, run(t, m, tc.at, tc.onset, faults...), strings.Split(tc.want, ", ")...)
		})
	}
	// A weld in the running plant: one contact of each way is held, the other still
	// opens both.
	x := run(t, m, "normal"+reset+stop, sim.Start)
	wantStates(t, x, "P1 dark")
	x.Enter(must(m.Condition("normal" + reset)))
	x.Apply(changes(t, m, "K1=one-welded"))
	x.Settle()
	x.Do(must(m.Condition("normal" + stop)).Steps)
	wantStates(t, x, "K1 released", "P1 dark", "P2 dark")
}

func must(c sim.Condition, err error) sim.Condition {
	if err != nil {
		panic(err)
	}
	return c
}

// A card that loses its own 0 V and nothing else. Common practice: an output card
// goes off, since its electronics have no return, and its M floats up to the
// supply; an input card reads all its channels as off, since no current returns; the
// load of the output has its 0 V all the while.
func TestCardLosesItsZero(t *testing.T) {
	m := sim.New(draw([]string{"G1 battery", "A1 digital-output, channels=2", "A2 digital-input, channels=2", "A3 analogue-input, channels=2", "P1 pilot-light", "B1 transmitter-2wire", "B2 transmitter-2wire", "S1 switch"},
		"G1:- A1:M", "G1:- A2:M", "G1:- A3:M", "G1:+ A1:L+", "A1:0 P1:X1", "P1:X2 G1:-", "G1:+ A2:0", "G1:+ S1:13", "S1:14 A2:1", "G1:+ B1:+", "B1:- A3:0", "G1:+ B2:+", "B2:- A3:1"))
	at := "normal; switch-on A1:0; close S1; set B1 50 %; set B2 25 %"
	wantStates(t, run(t, m, at, sim.Running), "A1:0 on", "P1 lit", "A2:0 on", "A2:1 on", "A3:0 measuring", "A3:1 measuring")

	x := run(t, m, at, sim.Running, "W1=broken")
	wantStates(t, x, "A1:0 off", "P1 dark", "A2:0 on", "A3:0 measuring")
	if got := volts(t, x, "A1:M", "G1:-"); got < 20 {
		t.Errorf("M of the output card is at %.2f V, want it up at the supply", got)
	}
	x = run(t, m, at, sim.Running, "W2=broken")
	wantStates(t, x, "A2:0 off", "A2:1 off", "A1:0 on", "P1 lit", "A3:0 measuring")
	if got := volts(t, x, "A2:0", "G1:-"); !near(got, 24, 0.1) {
		t.Errorf("the input's terminal is at %.2f V to 0 V, want 24: only against the card's own M is it dead", got)
	}
	// One input on, the other with a load of its own: the way from plus through the
	// first input, M and the second one backwards, 24 V over 9.6 kΩ and 1.2 kΩ.
	back := sim.New(draw([]string{"G1 battery", "A2 digital-input, channels=2", "P1 pilot-light"}, "G1:- A2:M", "G1:+ A2:0", "A2:1 P1:X1", "P1:X2 G1:-"))
	x = run(t, back, "", sim.Running, "W1=broken")
	if got, want := volts(t, x, "A2:0", "A2:M"), 24*4.8/10.8; !near(got, want, 0.02) {
		t.Errorf("%.3f V at the first input, want %.3f by hand", got, want)
	}
	wantStates(t, x, "A2:0 undefined", "A2:1 off")

	x = run(t, m, at, sim.Running, "W3=broken")
	wantStates(t, x, "A3:0 no-current", "A3:1 no-current", "B1 no-current", "A2:0 on", "P1 lit")
}

// The filter of a supply: with its protective conductor lost, its frame lies midway
// between line and neutral, 115 V of 230 V on a meter of 10 MΩ less what that takes
// (common practice), and 4.7 nF carries 0.34 mA at 230 V, 50 Hz: 2π·50·4.7e-9·230.
// Direct current it carries none.
func TestFilterCapacitors(t *testing.T) {
	m := mainsPanel("230 V", "50 Hz", []string{"T1 dc-supply, y-capacitor=4.7 nF", "R1 resistor, resistance=1 ohm", "R2 resistor, resistance=10 Mohm"}, "G0:L T1:L", "G0:N T1:N", "T1:PE R1:1", "R1:2 G0:PE", "T1:PE R2:1", "R2:2 G0:PE")
	frame := func(x *sim.Machine) float64 { return x.View().AC(node(t, m, "T1:PE"), node(t, m, "G0:PE")) }
	x := run(t, m, "", sim.Running)
	if got := 1e3 * frame(x); !near(got, 0.3396, 0.001) {
		t.Errorf("%.4f mA to earth, want 0.3396", got)
	}
	if got := volts(t, x, "T1:PE", "G0:PE"); got != 0 {
		t.Errorf("%g V DC on the frame", got)
	}
	x = run(t, m, "", sim.Running, "R1=open")
	if got := frame(x); !near(got, 115*10/math.Hypot(10, 0.3386), 0.2) { // two of 677 kΩ in parallel behind 115 V
		t.Errorf("frame at %.2f V without its earth, want nearly 115", got)
	}
}

// A transistor output leaks up to 0.1 mA when off (module data): 0.12 V on a lamp of
// 1.2 kΩ, nearly everything on a wire that ends nowhere.
func TestTransistorLeak(t *testing.T) {
	m := sim.New(draw([]string{"G1 battery", "A1 digital-output, channels=2", "P1 pilot-light", "R1 resistor, resistance=10 Mohm"}, "G1:+ A1:L+", "G1:- A1:M", "A1:0 P1:X1", "P1:X2 G1:-", "A1:1 R1:1", "R1:2 G1:-"))
	x := run(t, m, "", sim.Running)
	if got := volts(t, x, "P1:X1", "P1:X2"); !near(got, 0.12, 0.001) {
		t.Errorf("%.3f V on the lamp", got)
	}
	if got := volts(t, x, "R1:1", "R1:2"); !near(got, 24*10/10.24, 0.1) {
		t.Errorf("%.2f V on a meter of 10 MΩ", got)
	}
}

// A control transformer by hand: 230 V to 24 V, 100 VA, 8 % short-circuit voltage is
// 0.4608 Ω at the secondary. Its load of 11.52 Ω leaves 24 · 11.52 / 11.98 V there,
// and takes 24/230 of its current from the mains, with 2 % of 100 VA in phase and 5 %
// across for the iron.
func TestControlTransformer(t *testing.T) {
	for _, tc := range []struct {
		ohms, volts, amps float64
		fault             string
		state             string
	}{
		{11.52, 24 * 11.52 / 11.9808, 24 / 11.9808, "", "on"},
		{100e3, 24, 0.24e-3, "", "on"},
		{0.5, 24 * 0.5 / 0.9608, 24 / 0.9608, "", "weak"},
		{11.52, 0, 0, "T1=winding-open", "off"},
		{11.52, 0, 0, "T1=no-output", "off"},
		{11.52, 0, 0, "W1=broken", "off"},
	} {
		m := mainsPanel("230 V", "50 Hz", []string{"T1 control-transformer", fmt.Sprintf("R1 resistor, resistance=%f ohm", tc.ohms), "R2 resistor, resistance=1 mohm"},
			"G0:L R2:1", "R2:2 T1:1", "T1:2 G0:N", "T1:3 R1:1", "R1:2 T1:4")
		var faults []string
		if tc.fault != "" {
			faults = []string{tc.fault}
		}
		x := run(t, m, "", sim.Running, faults...)
		st := status(t, x, "T1")
		if st.State != tc.state || !near(st.Volts, tc.volts, 0.06) || !near(st.Amps, tc.amps, 0.01*tc.amps+0.001) {
			t.Errorf("%g Ω %s: %s, %.3f V at %.4f A, want %s, %.3f at %.4f", tc.ohms, tc.fault, st.State, st.Volts, st.Amps, tc.state, tc.volts, tc.amps)
		}
		if tc.fault != "" {
			continue
		}
		p := mainsAmps(t, x)
		own := 100.0 / 230
		if want := math.Hypot(tc.amps*24/230+0.02*own, 0.05*own); !near(p, want, 0.012*want) {
			t.Errorf("%g Ω: %.4f A from the mains, want %.4f", tc.ohms, p, want)
		}
	}
}

// mainsAmps is what R2, the wire to the primary, carries.
func mainsAmps(t *testing.T, x *sim.Machine) float64 {
	t.Helper()
	for k, b := range x.Model.Net.Branches {
		if b.Thing == "R2" {
			return x.View().ACAmps(k)
		}
	}
	t.Fatal("no R2")
	return 0
}
