package spicetest

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"halfsplit/core/check"
	"halfsplit/core/panel"
)

// kindPanels have what neither the demo panels nor the generator use, family by
// family.
func kindPanels() []*panel.Panel {
	return []*panel.Panel{sensors(), ungrounded(), switching(), instruments()}
}

// What is not said of these panels, since it does not matter to their voltages, and
// the one lamp that returns through earth. Everything else of them is drawn right,
// and the checks of a drawing know it.
func TestKindPanelsAreDrawnRight(t *testing.T) {
	known := []string{"isolation-unstated", "class-unstated", "length-missing", "clamp-crowded", "earth-not-green-yellow", "supply-unfused", "supply-exceeds-wire",
		"wire-too-thin", "field-length-missing", "fuse-exceeds-wire", "pe-as-return", "part-unused"}
	for _, p := range kindPanels() {
		for _, q := range check.Document(panel.Write(p)).Problems {
			if !slices.Contains(known, q.Code) {
				t.Errorf("%s: %s %q", p.Name, q.Code, q.Args)
			}
		}
	}
}

// wired makes a panel of parts as part reads them, "field " before those out
// there, and of wires "FROM TO"; each is of another size and length.
func wired(name string, parts []string, wires string, conditions ...panel.Condition) *panel.Panel {
	p := &panel.Panel{Format: panel.Format, Version: panel.Version, Name: name, Conditions: conditions,
		Mains: []panel.Mains{{Ref: "G0", Voltage: "230 V", Frequency: "50 Hz", Earthing: "TN-S"}}}
	for _, text := range parts {
		text, field := strings.CutPrefix(text, "field ")
		one := part(text)
		if field {
			one.At = "field"
		}
		p.Parts = append(p.Parts, one)
	}
	for i, text := range strings.Split(wires, ",") {
		f := strings.Fields(text)
		w := panel.Wire{No: fmt.Sprint("W", i+1), From: f[0], To: f[1], Size: []string{"0.75 mm2", "1.5 mm2", "18 AWG"}[i%3], Length: []string{"2 m", "", "9 m"}[i%3]}
		if len(f) > 2 {
			w.Cable, w.Length = f[2], "15 m"
		}
		p.Wires = append(p.Wires, w)
	}
	return p
}

// sensors is proximity sensors of every form on inputs of every form, behind two
// supplies joined by diodes, with blocks of three levels, of a diode and of a light.
func sensors() *panel.Panel {
	p := wired("sensors", []string{
		"T1 dc-supply, current=2 A", "T2 dc-supply, current=2 A, voltage=24.5 V", "V1 redundancy-diode",
		"field B1 proximity-pnp", "field B2 proximity-npn", "field B3 proximity-2wire", "field B4 proximity-pnp, function=NC, drop=2 V",
		"field B5 proximity-2wire, residual=1.5 mA, drop=8 V, function=NC",
		"A1 digital-input, channels=4", "A2 digital-input, channels=2, form=sourcing, type=3", "A3 digital-input, channels=2, type=2", "A4 digital-input, channels=1, form=ac",
		"S1 switch", "K1 relay", "X9 boundary, beyond=load, resistance=330 ohm", "X8 boundary", "P1 pilot-light",
	}, `G0:L T1:L, G0:N T1:N, G0:L T2:L, G0:N T2:N, G0:PE X1:PE/in, X1:PE T1:PE, X1:PE T2:PE,
		T1:+ V1:1, T2:+ V1:2, T1:- X1:1.1, T2:- X1:1.1, V1:- X1:1.1, X1:1.1 X1:PE, V1:+ X1:1.2,
		X1:1.2/out B1:1 C1, B1:3 X1:1.1/out C1, B1:4 X1:1.3/out C1, X1:1.3/in A1:0,
		X1:2.3/out B2:1 C2, B2:3 X1:3.1/out C2, B2:4 X1:2.2/out C2, X1:2.2/in A2:0, X1:1.2 X1:2.3, X1:3.1 X1:1.1,
		X1:2.3/out B3:1 C3, B3:4 X1:3.2/out C3, X1:3.2/in A1:1, X1:3.3 B4:1, B4:3 X1:3.1, B4:4 X1:4/in, X1:4/out A3:0, X1:2.3 X1:3.3,
		X1:3.3 B5:1, B5:4 A3:1, A1:M X1:1.1, A2:L+ X1:1.2, A3:M X1:3.1, G0:L S1:13, S1:14 A4:0, A4:N G0:N,
		X1:4/out K1:A1, K1:A2 X1:5.1, X1:5.1 X1:1.1, X1:5.2 K1:A1, X1:3.3 K1:11, K1:14 X9:1, X9:2 X1:1.1, K1:12 X8:1, X1:2.1 P1:X1, P1:X2 X1:1.2`,
		panel.Condition{Name: "normal", Set: map[string]string{"B1": "reached", "B2": "reached", "B3": "reached", "S1": "closed"}},
		panel.Condition{Name: "nothing there", Set: map[string]string{"B4": "reached", "B5": "reached"}})
	p.Strips = []panel.Strip{{Ref: "X1", Blocks: []panel.Block{{No: "1", Type: "triple-level"}, {No: "2", Type: "triple-level-ground"}, {No: "3", Type: "triple-level"},
		{No: "4", Type: "diode-block"}, {No: "5", Type: "led-block"}, {No: "PE", Type: "ground"}}}}
	return p
}

// ungrounded is a circuit that a boundary feeds and an insulation monitor
// watches.
func ungrounded() *panel.Panel {
	p := wired("ungrounded", []string{
		"X7 boundary, beyond=feed, voltage=48 V, resistance=0.2 ohm, class=none, bonded=no", "F1 fuse, current=1 A T", "A1 insulation-monitor, alarm=50 kohm",
		"K1 relay, voltage=48 V, resistance=3 kohm", "P1 pilot-light, voltage=48 V", "S1 button, contacts=13-14", "X6 boundary, beyond=feed, voltage=24 V, frequency=50 Hz",
		"K2 relay, frequency=50 Hz",
	}, `X7:1 F1:1, F1:2 X1:1/in, X1:1/out A1:+, A1:- X1:2, X7:2 X1:2, A1:PE X1:PE, X1:PE G0:PE, X1:1 S1:13, S1:14 K1:A1, K1:A2 X1:2,
		X1:1 A1:11, A1:12 P1:X1, P1:X2 X1:2, X6:1 K2:A1, K2:A2 X6:2`,
		panel.Condition{Name: "normal", Set: map[string]string{"S1": "pressed"}})
	p.Strips = []panel.Strip{{Ref: "X1", Blocks: []panel.Block{{No: "1", Type: "feed-through"}, {No: "2", Type: "feed-through"}, {No: "PE", Type: "ground"}}}}
	return p
}

// switching is a safety relay with what it switches, NAMUR sensors with their
// amplifiers, outputs that leak when off, and a motor behind a current transformer.
func switching() *panel.Panel {
	p := wired("switching", []string{
		"T1 dc-supply, current=3 A, y-capacitor=4.7 nF, coupling=2.2 nF", "K1 safety-relay", "S1 button, contacts=11-12 21-22", "S2 button, contacts=13-14",
		"K2 relay, guided=yes, contacts=13-14 21-22", "K3 relay, guided=yes, contacts=13-14 21-22", "P1 pilot-light",
		"field B1 namur-sensor", "field B2 namur-sensor, free=2.5 mA, reached=0.5 mA", "K4 namur-amplifier", "K5 namur-amplifier, action=inverse, power=1.2 W",
		"field B3 namur-sensor", "K8 namur-amplifier, output=transistor, leakage=0.05 mA", "A5 digital-input, channels=1",
		"A1 triac-output, channels=3", "A2 relay-output, channels=3, leakage=4.3 mA, at=240 V", "A3 relay-output, channels=1", "A4 digital-input, channels=3, form=ac",
		"R1 snubber", "R2 snubber, resistance=47 ohm, capacitance=47 nF", "T2 control-transformer, voltage=120 V, power=63 VA", "K7 relay, voltage=120 V, resistance=3 kohm, frequency=50 Hz", "R3 resistor, resistance=400 ohm", "K6 relay, voltage=230 V, resistance=9 kohm, frequency=50 Hz", "field M1 motor", "P2 pilot-light, voltage=230 V, current=15 mA", "S3 switch",
		"T3 current-transformer, primary=5 A, current=1 A, saturation=60 V", "P3 ammeter, current=1 A", "P4 ammeter, current=1 A, power=2 VA",
	}, `G0:L T1:L, G0:N T1:N, G0:PE X1:PE, X1:PE T1:PE, T1:- X1:1, X1:1 X1:PE, T1:+ K1:A1, X1:1 K1:A2,
		K1:S11 S1:11, S1:12 K1:S12, K1:S21 S1:21, S1:22 K1:S22, K1:S33 S2:13, S2:14 K2:21, K2:22 K3:21, K3:22 K1:S34,
		T1:+ K1:13, K1:14 K2:A1, K2:A2 X1:1, T1:+ K1:23, K1:24 K3:A1, K3:A2 X1:1, T1:+ K1:41, K1:42 P1:X1, P1:X2 X1:1,
		T1:+ K4:L+, X1:1 K4:M, K4:S+ B1:+ C1, K4:S- B1:- C1, T1:+ K5:L+, X1:1 K5:M, K5:S+ B2:+ C2, K5:S- B2:- C2, T1:+ K4:11, K4:14 K5:11, K5:14 X1:2,
		G0:L A1:L, A1:0 A4:0, A4:N G0:N, A1:1 T3:P1, T3:P2 M1:L C3, M1:N G0:N C3, M1:PE X1:PE C3, G0:L A2:C, A2:0 K6:A1, K6:A2 G0:N, A2:1 A4:1, A3:C T1:+, A3:0 X1:2,
		K6:A1 R1:1, R1:2 K6:A2, G0:L S3:13, S3:14 P2:X1, P2:X2 G0:N, S3:13 R2:1, R2:2 S3:14, A1:2 K6:11, K6:14 A4:2, G0:L T2:1, T2:2 G0:N, T2:PE X1:PE, T2:3 K7:A1, K7:A2 T2:4, T2:4 X1:PE, K7:11 T2:3, K7:14 R3:1, R3:2 T2:4, K2:13 T1:+, K2:14 K3:13, K3:14 X1:3,
		T1:+ K8:L+, X1:1 K8:M, K8:S+ B3:+ C4, K8:S- B3:- C4, T1:+ K8:O+, K8:O- A5:0, A5:M X1:1,
		T3:S1 X1:4.2, T3:S2 X1:4.1, X1:4.2 X1:5/in, X1:5/out P3:1, P3:2 P4:1, P4:2 X1:4.1, X1:4.1 X1:PE`,
		panel.Condition{Name: "normal", Set: map[string]string{"A1:1": "on", "A2:0": "on", "B2": "reached"}, Steps: []string{"press S2", "release S2"}},
		panel.Condition{Name: "current transformer shorted", Set: map[string]string{"A1:1": "on", "X1:4": "closed", "X1:5": "open"}},
		panel.Condition{Name: "stopped", Set: map[string]string{"B1": "reached", "A3:0": "on"}, Steps: []string{"press S2", "release S2", "press S1", "release S1"}})
	p.Strips = []panel.Strip{{Ref: "X1", Blocks: []panel.Block{{No: "1", Type: "feed-through"}, {No: "2", Type: "feed-through"}, {No: "3", Type: "feed-through"},
		{No: "4", Type: "current-transformer-block"}, {No: "5", Type: "disconnect-block"}, {No: "PE", Type: "ground"}}}}
	return p
}

// instruments is loops of three wires and of cards that supply them, and
// thermometers of both principles.
func instruments() *panel.Panel {
	p := wired("instruments", []string{
		"T1 dc-supply, current=1 A", "field B1 transmitter-3wire", "field B2 transmitter-3wire, headroom=6 V, least=18 V", "field B3 transmitter-2wire, lift-off=10.5 V",
		"A1 analogue-input, channels=2, resistance=100 ohm", "A2 analogue-input, channels=2, form=sourcing", "R1 resistor, resistance=250 ohm",
		"field B4 rtd", "field B5 rtd, span=300", "A3 rtd-input, channels=3", "field B6 thermocouple", "field B7 thermocouple, span=1200, resistance=25 ohm", "A4 thermocouple-input, channels=3",
	}, `G0:L T1:L, G0:N T1:N, G0:PE X1:PE, X1:PE T1:PE, T1:- X1:1, X1:1 X1:PE, T1:+ X1:2, X1:2 A3:L+, X1:1 A3:M, X1:2 A4:L+, X1:1 A4:M, X1:2 A2:L+, X1:1 A2:M, X1:1 A1:M,
		X1:2 B1:+ C1, B1:- X1:1 C1, B1:S A1:0 C1, B1:PE X1:PE C1, X1:2 B2:+ C2, B2:- X1:1 C2, B2:S R1:1 C2, R1:2 A1:1, B2:PE X1:PE C2,
		A2:0 B3:+ C3, B3:- X1:1 C3, B3:PE X1:PE C3, B4:1 A3:0 C4, B4:2 A3:0b C4, B4:3 A3:0c C4, B5:1 A3:1 C5, B5:2 A3:1b C5, A3:1b A3:1c,
		B6:+ A4:0 C6, B6:- A4:0b C6, B7:+ A4:1 C7, B7:- A4:1b C7`,
		panel.Condition{Name: "normal", Set: map[string]string{"B1": "80 %", "B2": "100 %", "B3": "30 %", "B4": "25 %", "B5": "90 %", "B6": "60 %", "B7": "75 %"}})
	p.Strips = []panel.Strip{{Ref: "X1", Blocks: []panel.Block{{No: "1", Type: "feed-through"}, {No: "2", Type: "feed-through"}, {No: "PE", Type: "ground"}}}}
	return p
}
