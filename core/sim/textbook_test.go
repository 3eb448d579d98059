package sim_test

import (
	"strings"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/unit"
)

// Resistances in kΩ where a book has Ω, so that joints do not count; currents are
// then in mA.
var textbook = map[string]struct{ parts, wires []string }{
	"series": {
		[]string{"G1 battery, voltage=9 V", "R1 resistor, resistance=3 kohm", "R2 resistor, resistance=10 kohm", "R3 resistor, resistance=5 kohm"},
		[]string{"G1:+ R1:1", "R1:2 R2:1", "R2:2 R3:1", "R3:2 G1:-"},
	},
	"parallel": {
		[]string{"F1 fuse, current=1 A T", "G1 battery, voltage=9 V", "R1 resistor, resistance=10 kohm", "R2 resistor, resistance=2 kohm", "R3 resistor, resistance=1 kohm"},
		[]string{"G1:+ F1:1", "F1:2 R1:1", "R1:1 R2:1", "R2:1 R3:1", "R1:2 R2:2", "R2:2 R3:2", "R1:2 G1:-"},
	},
	"two pairs": {
		[]string{"G1 battery, voltage=24 V", "R1 resistor, resistance=100 kohm", "R2 resistor, resistance=250 kohm", "R3 resistor, resistance=350 kohm", "R4 resistor, resistance=200 kohm"},
		[]string{"G1:+ R1:1", "R1:1 R2:1", "R1:2 R2:2", "R1:2 R3:1", "R3:1 R4:1", "R3:2 R4:2", "R3:2 G1:-"},
	},
	"one and a pair": {
		[]string{"G1 battery, voltage=12 V", "R1 resistor, resistance=1 kohm", "R2 resistor, resistance=6 kohm", "R3 resistor, resistance=13 kohm"},
		[]string{"G1:+ R1:1", "R1:2 R2:1", "R2:1 R3:1", "R2:2 R3:2", "R2:2 G1:-"},
	},
	"two batteries": {
		[]string{"G1 battery, voltage=28 V", "G2 battery, voltage=7 V", "R1 resistor, resistance=4 kohm", "R2 resistor, resistance=2 kohm", "R3 resistor, resistance=1 kohm"},
		[]string{"G1:+ R1:1", "R1:2 R2:1", "R2:1 R3:1", "R3:2 G2:+", "G1:- R2:2", "R2:2 G2:-"},
	},
	"bridge": {
		[]string{"G1 battery, voltage=12 V", "R1 resistor, resistance=100 ohm", "R2 resistor, resistance=200 ohm", "R3 resistor, resistance=150 ohm", "R4 resistor, resistance=300 ohm", "R5 resistor, resistance=50 ohm"},
		[]string{"G1:+ R1:1", "R1:1 R3:1", "R1:2 R2:1", "R3:2 R4:1", "R1:2 R5:1", "R3:2 R5:2", "R2:2 R4:2", "R4:2 G1:-"},
	},
	"loaded divider": {
		[]string{"G1 battery, voltage=24 V", "R1 resistor, resistance=100 kohm", "R2 resistor, resistance=100 kohm", "R3 resistor, resistance=1 Mohm"},
		[]string{"G1:+ R1:1", "R1:2 R2:1", "R2:1 R3:1", "R2:2 R3:2", "R2:2 G1:-"},
	},
	"lamps": { // P1 is fed; P2 is switched off, and R1 hangs on its feed
		[]string{"G1 battery, voltage=24 V", "S1 switch", "P1 pilot-light", "P2 pilot-light", "R1 resistor, resistance=1 kohm"},
		[]string{"G1:+ P1:X1", "G1:+ S1:13", "S1:14 P2:X1", "P2:X1 R1:1", "P1:X2 P2:X2", "P2:X2 G1:-", "R1:2 G1:-"},
	},
}

// across gives the two points a voltage or current of that part is told between.
func across(ref string) (from, to string) {
	switch ref[0] {
	case 'G':
		return ref + ":+", ref + ":-"
	case 'P':
		return ref + ":X1", ref + ":X2"
	}
	return ref + ":1", ref + ":2"
}

func TestTextbookCircuits(t *testing.T) {
	const (
		lessons = "Lessons in Electric Circuits I (open textbook, from memory)"
		physics = "University Physics 2, chapter 10 (open textbook, from memory), Ω as kΩ"
	)
	for _, tc := range []struct {
		name, circuit, at string
		faults            []string
		want              string // "REF VALUE": volts across it or amperes through it
		source            string
	}{
		{"series", "series", "", nil, "R1 1.5 V, R2 5 V, R3 2.5 V, G1 0.5 mA", lessons + ", chapter 5"},
		{"series, one open", "series", "", []string{"R2=open"}, "R1 0 V, R2 9 V, R3 0 V, G1 0 mA", "common practice: the whole supply stands across the open"},
		{"series, wire broken", "series", "", []string{"W4=broken"}, "R1 0 V, R2 0 V, R3 0 V, G1 0 mA", "by hand: no current, no drops"},
		{"series, one shorted", "series", "", []string{"R2:1~R2:2=short"}, "R1 3.375 V, R2 0 V, R3 5.625 V, G1 1.125 mA", "by hand: 9 V / 8 kΩ"},
		{"series, loose clamp", "series", "", []string{"W2@R1:2=loose:2kohm"}, "R1 1.35 V, R2 4.5 V, R3 2.25 V, G1 0.45 mA", "by hand: 9 V / 20 kΩ"},
		{"parallel", "parallel", "", nil, "R1 9 V, R1 0.9 mA, R2 4.5 mA, R3 9 mA, G1 14.4 mA", lessons + ", chapter 5"},
		{"parallel, one open", "parallel", "", []string{"R2=open"}, "R1 9 V, R1 0.9 mA, R2 9 V, R3 9 mA, G1 9.9 mA", "by hand: the others do not notice"},
		{"parallel, one shorted", "parallel", "", []string{"R3:1~R3:2=short"}, "R1 0 V, R2 0 V, G1 9 V, G1 0 mA", "common practice: the fuse takes all of them away"},
		{"parallel, return broken behind the first", "parallel", "", []string{"W5=broken"}, "R1 9 V, R2 0 V, R3 0 V, G1 0.9 mA", "by hand: R2 and R3 hang on the feed alone"},
		{"two pairs in series", "two pairs", "", nil, "R1 8.627 V, R3 15.373 V, R1 0.08627 mA, R2 0.03451 mA, R3 0.04392 mA, R4 0.07686 mA, G1 0.12078 mA", lessons + ", chapter 7, Ω as kΩ"},
		{"two pairs, one open", "two pairs", "", []string{"R2=open"}, "R1 10.56 V, R3 13.44 V, G1 0.1056 mA", "by hand: 100 kΩ over 127.27 kΩ"},
		{"two pairs, one shorted", "two pairs", "", []string{"R4:1~R4:2=short"}, "R1 24 V, R3 0 V, G1 0.336 mA", "by hand: 24 V / 71.43 kΩ"},
		{"one and a pair", "one and a pair", "", nil, "R1 2.35 V, R2 9.65 V, R1 2.35 mA, R2 1.608 mA, R3 0.7423 mA", physics},
		{"one and a pair, one open", "one and a pair", "", []string{"R3=open"}, "R1 1.714 V, R2 10.286 V, R3 10.286 V", "by hand: 12 V · 1/7"},
		{"one and a pair, the one open", "one and a pair", "", []string{"R1=open"}, "R1 12 V, R2 0 V, R3 0 V", "by hand: nothing flows"},
		{"two batteries", "two batteries", "", nil, "R1 20 V, R2 8 V, R3 1 V, R1 5 mA, R2 4 mA, R3 1 mA", lessons + ", chapter 10, Ω as kΩ"},
		{"two batteries, one off", "two batteries", "", []string{"G1=no-output"}, "R1 0 V, R2 4.667 V, R3 -2.333 V", "by hand: 7 V · 2/3"},
		{"two batteries, middle open", "two batteries", "", []string{"R2=open"}, "R1 16.8 V, R3 4.2 V, R1 4.2 mA", "by hand: 21 V / 5 kΩ"},
		{"two batteries, one disconnected", "two batteries", "normal; disconnect G2", nil, "R1 18.667 V, R2 9.333 V, R3 0 V", "by hand: 28 V · 4/6"},
		{"bridge in balance", "bridge", "", nil, "R5 0 V, R1 4 V, R2 8 V, R4 8 V", "by hand: 100/200 = 150/300"},
		{"bridge, one arm open", "bridge", "", []string{"R1=open"}, "R4 5.714 V, R2 4.571 V, R5 -1.143 V", "by hand: 250 Ω beside 300 Ω below 150 Ω"},
		{"loaded divider", "loaded divider", "", nil, "R2 11.429 V", "by hand: 24 · 90.91k/190.91k"},
		{"divider, lower arm open", "loaded divider", "", []string{"R2=open"}, "R2 21.818 V", "by hand: 24 · 1M/1.1M"},
		{"lamps", "lamps", "", nil, "P1 24 V, P2 0 V, P1 20 mA", "by hand"},
		{"lamps whose common return is lost", "lamps", "", []string{"W6=broken"}, "P1 8.471 V, P2 -8.471 V, R1 7.059 V, R1 7.059 mA", "common practice: they glow in series; by hand 24 V / 3.4 kΩ"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c := textbook[tc.circuit]
			m := sim.New(draw(c.parts, c.wires...))
			x := run(t, m, tc.at, sim.Running, tc.faults...)
			if x.Cycle() != nil {
				t.Fatalf("cycle %+v", x.Cycle())
			}
			for _, w := range strings.Split(tc.want, ", ") {
				ref, value, _ := strings.Cut(w, " ")
				from, to := across(ref)
				if want, err := unit.Parse(value, unit.Voltage); err == nil {
					const tol = 0.005 // volts: half a digit of a meter that shows 0.01 V
					if got := volts(t, x, from, to); !near(got, want, tol) {
						t.Errorf("across %s %.4f V, want %.3f V (%s)", ref, got, want, tc.source)
					}
					continue
				}
				want, err := unit.Parse(value, unit.Current)
				if err != nil {
					t.Fatal(err)
				}
				got := x.DC().I(branch(t, m, ref))
				if tol := 1e-7 + 0.001*want; !near(got, want, tol) { // the books print three figures or more
					t.Errorf("through %s %.6f mA, want %.5f mA (%s)", ref, 1e3*got, 1e3*want, tc.source)
				}
			}
		})
	}
}

// branch is the load or source that a part is.
func branch(t *testing.T, m *sim.Model, ref string) int {
	t.Helper()
	for k, b := range m.Net.Branches {
		if b.Thing == ref && (b.Role == parts.RoleLoad || b.Role == parts.RoleSource) {
			return k
		}
	}
	t.Fatalf("no branch of %s", ref)
	return 0
}

// Between earth and any point of a battery circuit that is not earthed there is
// only insulation: a meter would find next to nothing behind it.
func TestFloatingCircuitIsSoft(t *testing.T) {
	c := textbook["series"]
	m := sim.New(draw(c.parts, c.wires...))
	x := run(t, m, "", sim.Running)
	if z := x.DC().Z(node(t, m, "G1:+"), circuit.Earth); z < 10e6 {
		t.Errorf("%.0f Ω to earth, want insulation", z)
	}
}
