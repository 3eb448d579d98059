package spicetest

import (
	"fmt"
	"strings"
	"testing"

	"halfsplit/core/generate"
	"halfsplit/core/internal/demo"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// drawn are panels that were not generated: the demo panels, and one with what
// neither they nor the generator use.
func drawn(t *testing.T) (list []*panel.Panel) {
	for _, name := range demo.Names {
		p := demo.Panel(t, name)
		p.Name = name
		list = append(list, p)
	}
	return append(append(list, odds("TT"), odds("IT")), kindPanels()...)
}

// odds is a panel of alternating-current coils and lamps on a TT or IT system, and
// of a battery with what hangs on it, its minus on the rail.
func odds(earthing string) *panel.Panel {
	p := &panel.Panel{Format: panel.Format, Version: panel.Version, Name: "odds on " + earthing,
		Mains: []panel.Mains{{Ref: "G1", Voltage: "230 V", Frequency: "50 Hz", Earthing: earthing, Impedance: "0.8 ohm"}},
		Strips: []panel.Strip{{Ref: "X1", Blocks: []panel.Block{
			{No: "1", Type: "fuse-block", Fuse: "315 mA F", Indicator: "24 V"}, {No: "2", Type: "disconnect-block"},
			{No: "3", Type: "feed-through"}, {No: "4", Type: "double-level"}, {No: "PE", Type: "ground"}},
			Jumpers: []panel.Jumper{{Blocks: []string{"1", "2"}, Side: "in"}, {Blocks: []string{"3", "4"}, Level: 2}}}},
	}
	for _, text := range []string{
		"F1 breaker, current=B6", "F2 fuse, current=1 A gG", "S1 switch", "K1 relay, voltage=230 V, resistance=9 kohm, frequency=50 Hz, contacts=11-12-14 21-22",
		"Q1 solenoid, voltage=230 V, power=11 W, frequency=50 Hz", "P1 pilot-light, voltage=230 V, current=15 mA", "M1 motor, power=90 W, power-factor=0.6",
		"U1 rail", "W0 pe-bar, channels=4",
		"G2 battery, voltage=12 V, resistance=0.3 ohm", "R1 resistor, resistance=47 ohm", "R2 diode", "R3 resistor, resistance=1.2 kohm",
		"S2 selector, contacts=13-14 21-22", "P2 pilot-light, voltage=12 V", "K2 relay, voltage=12 V, resistance=400 ohm",
		"T1 dc-supply, current=1 A, efficiency=80 %", "B1 transmitter-4wire, compliance=3 V", "A1 analogue-input, channels=1",
	} {
		p.Parts = append(p.Parts, part(text))
	}
	for i, text := range strings.Split(`G1:L F1:1, F1:2 F2:1, F2:2 S1:13, S1:14 K1:A1, G1:N K1:A2, F2:2 K1:11, K1:14 M1:L, M1:N K1:A2,
		K1:12 P1:X1, P1:X2 K1:A2, K1:11 K1:21, K1:22 Q1:1, Q1:2 K1:A2, G1:PE W0:1, W0:2 M1:PE, W0:3 U1:PE, W0:4 X1:PE,
		G2:+ X1:1/in, X1:1/out R1:1, R1:2 R2:A, R2:K S2:13, S2:14 P2:X1, P2:X2 X1:3, G2:- X1:4.2, X1:2/out K2:A1, K2:A2 X1:3, X1:3 X1:PE,
		K2:11 R3:1, R3:2 X1:3, K2:14 X1:2/out, F2:2 T1:L, T1:N K1:A2, T1:+ B1:L+, T1:- B1:M, B1:+ A1:0, A1:M B1:-, A1:M T1:-, T1:- X1:4.1, X1:4.1 U1:PE`, ",") {
		f := strings.Fields(text)
		p.Wires = append(p.Wires, panel.Wire{No: fmt.Sprint("W", i+1), From: f[0], To: f[1], Size: []string{"0.75 mm2", "2.5 mm2", "20 AWG", ""}[i%4], Length: []string{"", "3 m", "40 ft"}[i%3]})
	}
	p.Conditions = []panel.Condition{
		{Name: "normal", Set: map[string]string{"S1": "closed", "S2": "on", "B1": "80 %"}},
		{Name: "stopped", Set: map[string]string{"S2": "on", "B1": "10 %"}},
	}
	return p
}

// Every kind of the catalogue stands in one of the panels that are compared.
func TestEveryKindIsCompared(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range append(drawn(t), generate.Generate(200, 0)) {
		for i := range p.Parts {
			seen[p.Parts[i].Kind] = true
		}
		for i := range p.Strips {
			for _, b := range p.Strips[i].Blocks {
				seen[b.Type] = true
			}
		}
		seen["mains"] = seen["mains"] || len(p.Mains) > 0
	}
	for _, k := range parts.Kinds() {
		if !seen[k.Name] {
			t.Errorf("no panel has a %s", k.Name)
		}
	}
}
