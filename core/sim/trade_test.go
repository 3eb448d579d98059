package sim_test

import (
	"strings"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/internal/demo"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// Facts of the trade. Unless a line says otherwise its source is common practice.

// onStrip draws a panel with one strip.
func onStrip(blocks []panel.Block, jumpers []panel.Jumper, drawn []string, wires ...string) *sim.Model {
	p := draw(drawn, wires...)
	p.Strips = []panel.Strip{{Ref: "X1", Blocks: blocks, Jumpers: jumpers}}
	return sim.New(p)
}

func modes(m *sim.Model, thing string) (names []string) {
	for _, f := range m.Net.Modes {
		if f.Thing == thing {
			names = append(names, f.Name)
		}
	}
	return names
}

// A feed-through can neither disconnect nor protect.
func TestFeedThrough(t *testing.T) {
	m := onStrip([]panel.Block{{No: "1", Type: "feed-through"}}, nil, []string{"G1 battery", "P1 pilot-light", "S1 switch"},
		"G1:+ X1:1/in", "X1:1/out P1:X1", "G1:- P1:X2", "X1:1/out S1:13", "S1:14 G1:-")
	wantStates(t, run(t, m, "", sim.Running), "P1 lit")
	if got := modes(m, "X1:1"); len(got) > 0 {
		t.Errorf("the block itself can be %v", got)
	}
	if _, err := m.Condition("normal; open X1:1"); err == nil {
		t.Error("the block can be opened")
	}
	// A dead short through it: thousands of amperes, and it conducts on.
	x := run(t, m, "normal; close S1", sim.Running)
	if amps := status(t, x, "G1").Amps; amps < 500 {
		t.Errorf("%.0f A through the short, the test means many", amps)
	}
	if z := x.DC().Z(node(t, m, "X1:1/in"), node(t, m, "X1:1/out")); z != 0 {
		t.Errorf("%g Ω from side to side, want one piece of metal", z)
	}
}

// A ground block joins its conductors and the rail: the rail foot may open, the
// conductors stay joined.
func TestGroundBlock(t *testing.T) {
	p := draw([]string{"X8 pe-bar", "U1 rail", "U2 rail"}, "X8:1 X1:1/in", "X1:1/out U1:PE", "X1:2/out U2:PE")
	p.Mains = []panel.Mains{{Ref: "G0", Voltage: "230 V", Frequency: "50 Hz", Earthing: "TN-S"}}
	p.Strips = []panel.Strip{{Ref: "X1", Blocks: []panel.Block{{No: "1", Type: "ground"}, {No: "2", Type: "ground"}, {No: "3", Type: "feed-through"}}}}
	p.Wires = append(p.Wires, panel.Wire{No: "W9", From: "G0:PE", To: "X8:8", Size: "16 mm2", Length: "0.1 m"})
	m := sim.New(p)
	ohms := func(x *sim.Machine, a, b string) float64 { return x.DC().Z(node(t, m, a), node(t, m, b)) }
	const joined, apart = 0.01, 1e6

	x := run(t, m, "", sim.Running)
	if z := ohms(x, "X8:1", "U1:PE"); z > joined {
		t.Errorf("its conductors: %g Ω", z)
	}
	if z := ohms(x, "X1:1", "X1:rail"); z > joined {
		t.Errorf("to the rail: %g Ω", z)
	}
	if z := ohms(x, "U2:PE", "G0:PE"); z > 0.02 {
		t.Errorf("the neighbour, through the rail: %g Ω", z)
	}
	if z := ohms(x, "X1:3", "X1:rail"); z < apart {
		t.Errorf("a feed-through touches the rail: %g Ω", z)
	}
	x = run(t, m, "", sim.Running, "X1:1=foot-open")
	if z := ohms(x, "X8:1", "U1:PE"); z > joined {
		t.Errorf("foot open, its conductors: %g Ω", z)
	}
	if z := ohms(x, "X1:1", "X1:rail"); z < apart {
		t.Errorf("foot open, to the rail: %g Ω", z)
	}
	if z := ohms(x, "U2:PE", "G0:PE"); z < apart {
		t.Errorf("foot open, the neighbour: %g Ω", z)
	}
}

// A fuse block is cut two ways, by its lever and by its blown link. Only the blown
// link lights the indicator: it sits in the lever.
func TestFuseBlock(t *testing.T) {
	m := onStrip([]panel.Block{{No: "1", Type: "fuse-block", Fuse: "1 A T", Indicator: "24 V"}}, nil, []string{"G1 battery", "P1 pilot-light"},
		"G1:+ X1:1/in", "X1:1/out P1:X1", "G1:- P1:X2")
	for _, tc := range []struct {
		at     string
		faults []string
		lamp   string
		light  string
		dead   float64 // volts left behind it
	}{
		{"", nil, "lit", "dark", 24},
		{"normal; open X1:1", nil, "dark", "dark", 0},
		{"", []string{"X1:1=lever-open"}, "dark", "dark", 0},
		{"", []string{"X1:1=fuse-blown"}, "dark", "lit", 1.14}, // by hand: 24 V · 1.2 kΩ / 25.2 kΩ, 1 mA indicator
		{"", []string{"X1:1=fuse-blown", "P1=open"}, "dark", "dark", 24},
		{"normal; open X1:1", []string{"X1:1=fuse-blown"}, "dark", "dark", 0},
	} {
		x := run(t, m, tc.at, sim.Running, tc.faults...)
		wantStates(t, x, "P1 "+tc.lamp)
		if got := x.Light(0).State; got != tc.light {
			t.Errorf("%s %v: indicator %s, want %s", tc.at, tc.faults, got, tc.light)
		}
		if got := volts(t, x, "X1:1/out", "G1:-"); !near(got, tc.dead, 0.1) {
			t.Errorf("%s %v: %.2f V behind the block, want %.2f", tc.at, tc.faults, got, tc.dead)
		}
	}
}

// The lower level of a two-level block stays connected, and may be live, when the
// fuse of the upper one is pulled.
func TestLowerLevelStaysLive(t *testing.T) {
	m := onStrip([]panel.Block{{No: "1", Type: "double-level-fused", Fuse: "1 A T"}}, nil, []string{"G1 battery", "P1 pilot-light", "P2 pilot-light"},
		"G1:+ X1:1.2/in", "X1:1.2/out P1:X1", "G1:+ X1:1.1/in", "X1:1.1/out P2:X1", "G1:- P1:X2", "P1:X2 P2:X2")
	wantStates(t, run(t, m, "", sim.Running), "P1 lit", "P2 lit")
	for _, x := range []*sim.Machine{
		run(t, m, "normal; open X1:1", sim.Running),
		run(t, m, "", sim.Running, "X1:1.2=lever-open"),
		run(t, m, "", sim.Running, "X1:1.2=fuse-blown"),
	} {
		wantStates(t, x, "P1 dark", "P2 lit")
		if got := volts(t, x, "X1:1.1/out", "G1:-"); !near(got, 24, 0.01) {
			t.Errorf("lower level at %.2f V, want 24", got)
		}
	}
}

// An out-and-back instrument dies when either level of its block opens, when
// either clamp is lifted, and when either core breaks; its input with it.
func TestOutAndBack(t *testing.T) {
	m := open(t, "dosing-skid")
	wires := map[string]string{} // landing → wire
	for _, w := range m.Panel.Wires {
		wires[w.From], wires[w.To] = w.No, w.No
	}
	out, back, card := wires["X3:1.2/out"], wires["X3:1.1/out"], wires["X3:1.1/in"]
	for _, f := range []string{
		"X3:1.2=lever-open", "X3:1.2=fuse-blown", out + "@X3:1.2/out=lifted", back + "@X3:1.1/out=lifted", card + "@X3:1.1/in=lifted",
		out + "=broken", back + "=broken", card + "=broken", out + "@B1:+=on-insulation", back + "@B1:-=lifted",
	} {
		wantStates(t, run(t, m, "", sim.Running, f), "B1 no-current", "A2:0 no-current", "B2 measuring", "A2:1 measuring")
	}
}

// One ground wire in serves every ground block on the rail: lift it and all of them
// are unearthed together, yet nothing stops.
func TestOneGroundWireServesTheRail(t *testing.T) {
	m := open(t, "dosing-skid")
	in := ""
	for _, w := range m.Panel.Wires {
		if w.To == "X9:1" {
			in = w.No
		}
	}
	whole, lifted := run(t, m, "", sim.Running), run(t, m, "", sim.Running, in+"=broken")
	count := 0
	for _, s := range m.Panel.Strips {
		if s.Ref != "X9" {
			continue
		}
		for _, b := range s.Blocks {
			count++
			n := node(t, m, "X9:"+b.No)
			// Earth is the source's: 0.05 Ω of PE outside, some mΩ inside.
			if z := whole.DC().Z(n, circuit.Earth); z > 0.1 {
				t.Errorf("X9:%s has %.3f Ω to earth", b.No, z)
			}
			if z := lifted.DC().Z(n, circuit.Earth); z < 1e6 {
				t.Errorf("wire lifted, X9:%s has %.3f Ω to earth", b.No, z)
			}
		}
	}
	if count != 12 {
		t.Errorf("%d ground blocks seen", count)
	}
}

// A lifted ground kills nothing: no device notices any protective conductor, or the
// link from 0 V to earth, until a second fault comes.
func TestLiftedGroundKillsNothing(t *testing.T) {
	for _, name := range demo.Names {
		m := open(t, name)
		healthy := run(t, m, "", sim.Running)
		seen := 0
		for _, w := range m.Panel.Wires {
			if w.Colour != "GNYE" {
				continue
			}
			seen++
			x := run(t, m, "", sim.Running, w.No+"=broken")
			for i, d := range m.Net.Devices {
				if got, want := x.Status(i).State, healthy.Status(i).State; got != want {
					t.Errorf("%s, %s broken: %s is %s, was %s", name, w.No, d.Ref, got, want)
				}
			}
		}
		if seen < 3 {
			t.Errorf("%s: %d protective conductors", name, seen)
		}
	}
}

// What a protective conductor is for: a winding touching the frame trips the
// breaker while the conductor is there, and leaves the frame live when it is not.
func TestFrameFault(t *testing.T) {
	m := open(t, "dosing-skid")
	pe := ""
	for _, w := range m.Panel.Wires {
		if w.To == "M1:PE" {
			pe = w.No
		}
	}
	x := run(t, m, "", sim.Running, "M1=frame-fault")
	wantStates(t, x, "M1 stopped")
	if v := x.View().AC(node(t, m, "M1:PE"), circuit.Earth); v > 0.5 {
		t.Errorf("frame at %.1f V after the breaker has opened", v)
	}
	x = run(t, m, "", sim.Running, pe+"=broken", "M1=frame-fault")
	wantStates(t, x, "M1 running")
	if v := x.View().AC(node(t, m, "M1:PE"), circuit.Earth); v < 200 {
		t.Errorf("frame at %.1f V, want the line's", v)
	}
}

// A seal-in does not come back by itself: after the supply was off, or the interlock
// open for a moment, the start button is needed.
func TestSealIn(t *testing.T) {
	m := open(t, "training-bench")
	for _, tc := range []struct{ at, k1 string }{
		{"stopped", "released"},
		{"stopped; press S2", "operated"},
		{"stopped; press S2; release S2", "operated"},
		{"normal; press S1", "released"},
		{"normal; press S1; release S1", "released"},
		{"normal; press S1; release S1; press S2; release S2", "operated"},
		{"normal; switch-off G0; switch-on G0", "released"},
		{"normal; switch-off F0; switch-on F0; press S2; release S2", "operated"},
		{"normal; open X1:1; close X1:1", "released"},
	} {
		wantStates(t, run(t, m, tc.at, sim.Running), "K1 "+tc.k1)
	}
}

// Both onsets matter: a seal-in contact that is stuck open is not noticed while the
// button is pressed, and a start with it never holds.
func TestOnset(t *testing.T) {
	m := open(t, "training-bench")
	for _, onset := range []sim.Onset{sim.Running, sim.Start} {
		wantStates(t, run(t, m, "stopped; press S2", onset, "K1:13-14=stuck-open"), "K1 operated")
		wantStates(t, run(t, m, "", onset, "K1:13-14=stuck-open"), "K1 released")
	}
	// A start contact that sticks: found running nothing shows; started with it the
	// stop button stops only while it is held.
	wantStates(t, run(t, m, "normal; press S1; release S1", sim.Start, "S2:13-14=welded"), "K1 operated", "P1 lit")
}

// How the skid runs, its interlocks included: what its description says.
func TestSkidConditions(t *testing.T) {
	m := open(t, "dosing-skid")
	for _, tc := range []struct {
		at   string
		want []string
	}{
		{"normal", []string{"T1 on", "K1 operated", "K2 operated", "K3 operated", "M1 running", "Q1 operated", "Q2 operated", "Q3 operated",
			"P1 lit", "P2 dark", "P3 dark", "P4 lit", "B1 measuring", "B2 measuring", "B3 measuring", "B4 measuring", "B5 measuring", "B6 measuring"}},
		{"standby", []string{"T1 on", "K1 released", "K2 released", "K3 operated", "M1 stopped", "Q1 released", "Q2 released", "A3:0 off", "P1 dark", "P2 lit", "A1:0 on", "A1:2 off"}},
		{"tank-low", []string{"K1 released", "K2 released", "K3 operated", "M1 stopped", "Q1 operated", "Q2 released", "A3:0 on", "P2 lit", "A1:0 off", "A1:6 off"}},
		{"leak", []string{"K1 released", "K2 released", "K3 released", "M1 stopped", "P3 lit", "A1:0 on"}},
		{"manual", []string{"K1 operated", "K2 released", "M1 stopped", "A1:5 on", "A1:7 off"}},
		{"normal; press S1", []string{"K1 released", "K2 released", "M1 stopped", "P2 lit"}},
		{"normal; open X0:3", []string{"K2 operated", "M1 stopped", "P1 lit"}},
		{"normal; open X6:6", []string{"K1 operated", "K2 released", "M1 stopped"}},
		{"tank-low; flood B10", []string{"K1 released", "M1 stopped"}},
		{"tank-low; flood B10; press S2; release S2", []string{"K1 operated", "M1 running"}},
	} {
		x := run(t, m, tc.at, sim.Running)
		if x.Cycle() != nil {
			t.Errorf("%s: cycle %+v", tc.at, x.Cycle())
		}
		t.Run(strings.ReplaceAll(tc.at, " ", "_"), func(t *testing.T) { wantStates(t, x, tc.want...) })
	}
	x := run(t, m, "normal", sim.Running)
	for i, d := range m.Net.Devices {
		if dark := d.Ref == "P2" || d.Ref == "P3"; (x.Status(i).Grade == parts.On) == dark {
			t.Errorf("normal: %s is %s", d.Ref, x.Status(i).State)
		}
	}
	for i, l := range m.Net.Lights {
		if x.Light(i).Grade != parts.Off {
			t.Errorf("normal: the indicator of %s is lit", l.Ref)
		}
	}
}
