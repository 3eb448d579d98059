package parts

import (
	"strings"
	"testing"

	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

func TestCatalogue(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range Kinds() {
		if seen[k.Name] {
			t.Errorf("two kinds are called %s", k.Name)
		}
		seen[k.Name] = true
		if got, ok := Lookup(k.Name); !ok || got != k {
			t.Errorf("%s is not found by its name", k.Name)
		}
		if len(k.Letters) == 0 || k.Symbol == "" || k.Build == nil {
			t.Errorf("%s lacks letters, a symbol or a network", k.Name)
		}
		if k.Block != (len(k.Metals) > 0) || k.Block == (k.Terminals != nil) {
			t.Errorf("%s: a block has metal, a part has terminals", k.Name)
		}
		for _, r := range k.Ratings {
			if r.Source == "" {
				t.Errorf("%s: the default of %s has no source", k.Name, r.Name)
			}
			if r.Dim == 0 || r.Default == "" {
				continue
			}
			if v, err := unit.Parse(r.Default, r.Dim); err != nil || v <= 0 {
				t.Errorf("%s: default %q of %s: %v", k.Name, r.Default, r.Name, err)
			}
		}
		names, verbs, values := map[string]bool{}, map[string]bool{}, map[float64]bool{}
		for _, p := range k.Positions {
			if names[p.Name] || verbs[p.Verb] || values[p.Value] || strings.Contains(p.Verb, " ") || p.Verb == "set" {
				t.Errorf("%s: position %+v is no other than one before, or its verb no single word of its own", k.Name, p)
			}
			names[p.Name], verbs[p.Verb], values[p.Value] = true, true, true
		}
		if len(k.Positions) == 1 || k.Analogue && len(k.Positions) > 0 || k.Source && len(k.Positions) != 2 {
			t.Errorf("%s: %d positions", k.Name, len(k.Positions))
		}
	}
}

// alone assembles one thing of each kind, with and without what the document may
// say of it.
func alone(t *testing.T, f func(t *testing.T, k *Kind, net *Net)) {
	for _, k := range Kinds() {
		t.Run(k.Name, func(t *testing.T) {
			for _, full := range []bool{true, false} {
				p := &panel.Panel{}
				switch {
				case k.Block:
					b := panel.Block{No: "1", Type: k.Name}
					if full && k.Fused {
						b.Fuse, b.Indicator = "2 A T", "24 V"
					}
					p.Strips = []panel.Strip{{Ref: "X1", Blocks: []panel.Block{b}}}
				case k == mains:
					p.Mains = []panel.Mains{{Ref: "G0"}}
					if full {
						p.Mains[0] = panel.Mains{Ref: "G0", Voltage: "120 V", Frequency: "60 Hz", Earthing: "TT"}
					}
				default:
					part := panel.Part{Ref: "K1", Kind: k.Name, Ratings: map[string]string{}}
					for _, r := range k.Ratings {
						switch {
						case !full:
						case r.Link:
							part.Ratings[r.Name] = "C6"
						case r.Must:
							part.Ratings[r.Name] = "100 ohm"
						}
					}
					p.Parts = []panel.Part{part}
				}
				f(t, k, Assemble(p))
			}
		})
	}
}

// Every mode names what changes, how often it happens, where it is mended and how,
// and no two of them have one name.
func TestModes(t *testing.T) {
	classes := map[string]bool{"open": true, "resistive": true, "short": true, "wrong-place": true, "part": true}
	alone(t, func(t *testing.T, k *Kind, net *Net) {
		keys := map[string]bool{}
		for i := range net.Modes {
			m := &net.Modes[i]
			if keys[m.Key()] {
				t.Errorf("two modes %s", m.Key())
			}
			keys[m.Key()] = true
			if !(m.Rate > 0) || m.Repair == "" || m.Place == "" || !classes[m.Class] || len(m.Changes) == 0 {
				t.Errorf("%s is incomplete: %+v", m.Key(), *m)
			}
			for _, c := range m.Changes {
				switch c.What {
				case SetBranch:
					if c.Branch < 0 || c.Branch >= len(net.Branches) {
						t.Errorf("%s changes branch %d of %d", m.Key(), c.Branch, len(net.Branches))
					}
				case FixState, FixInput:
					if c.Element < 0 || c.Element >= len(net.Elements) {
						t.Errorf("%s changes element %d of %d", m.Key(), c.Element, len(net.Elements))
					}
				case AddLink:
					if c.Ends.A == c.Ends.B || int(max(c.Ends.A, c.Ends.B)) >= len(net.Nodes) {
						t.Errorf("%s joins %v", m.Key(), c.Ends)
					}
				}
			}
		}
	})
}

// Whatever is left unsaid, every branch has a finite conductance that is not
// negative, every node some insulation, and every device an element.
func TestNetStands(t *testing.T) {
	alone(t, func(t *testing.T, k *Kind, net *Net) {
		for n := 1; n < len(net.Nodes); n++ {
			if !(net.Nodes[n].Leak > 0 && real(net.Nodes[n].LeakAC) > 0) {
				t.Errorf("%s has no insulation", net.Nodes[n].Name)
			}
		}
		for _, b := range net.Branches {
			if !(b.DC.G >= 0 && b.DC.G < 1e9) || !(real(b.AC.Y) >= 0 && real(b.AC.Y) < 1e9) {
				t.Errorf("%s: %+v %+v", b.Thing, b.DC, b.AC)
			}
			if b.Ends.A == b.Ends.B {
				t.Errorf("%s begins and ends on one node", b.Thing)
			}
		}
		for _, d := range net.Devices {
			if d.Element < 0 || d.Element >= len(net.Elements) || d.Watch == nil || d.Kind != k {
				t.Errorf("%s: %+v", d.Ref, d)
			}
		}
		if len(k.Positions) > 0 || k.Analogue {
			moves := false
			for _, e := range net.Elements {
				moves = moves || e.Kind == k
			}
			if !moves {
				t.Errorf("a %s has positions and nothing that moves", k.Name)
			}
		}
	})
}

// Points have the spellings people use: without a side where both sides are one
// piece of metal, with one where they are two, and a level where there are levels.
func TestSpellings(t *testing.T) {
	net := Assemble(&panel.Panel{Strips: []panel.Strip{{Ref: "X1", Blocks: []panel.Block{
		{No: "1", Type: "feed-through"}, {No: "2", Type: "fuse-block", Fuse: "1 A T"}, {No: "3", Type: "double-level"},
		{No: "4", Type: "double-level-fused", Fuse: "1 A T"}, {No: "PE1", Type: "ground"}, {No: "5", Type: "disconnect-block"},
	}}}})
	for _, tc := range []struct{ a, b string }{ // two names of one piece of metal; b empty where there is no such point
		{"X1:1", "X1:1"}, {"X1:1", "X1:1/in"}, {"X1:1/in", "X1:1/out"},
		{"X1:2", ""}, {"X1:2/in", "X1:2/in"}, {"X1:5", ""},
		{"X1:3", ""}, {"X1:3.1", "X1:3.1/out"}, {"X1:3.2/in", "X1:3.2/out"}, {"X1:3.3", ""},
		{"X1:4.1", "X1:4.1/in"}, {"X1:4.2", ""}, {"X1:4.2/out", "X1:4.2/out"},
		{"X1:PE1", "X1:PE1/out"}, {"X1:rail", "X1:rail"}, {"X1:9", ""}, {"", ""},
	} {
		a, ok := net.FindPoint(tc.a)
		b, _ := net.FindPoint(tc.b)
		if ok != (tc.b != "") || ok && a.Node != b.Node {
			t.Errorf("%q and %q: found %v, nodes %d and %d", tc.a, tc.b, ok, a.Node, b.Node)
		}
	}
	apart := []string{"X1:1", "X1:2/in", "X1:2/out", "X1:3.1", "X1:3.2", "X1:4.1", "X1:4.2/in", "X1:4.2/out", "X1:5/in", "X1:5/out", "X1:PE1", "X1:rail"}
	nodes := map[int]string{}
	for _, name := range apart {
		p, ok := net.FindPoint(name)
		if !ok {
			t.Fatalf("no point %s", name)
		}
		if other, taken := nodes[int(p.Node)]; taken {
			t.Errorf("%s and %s are one piece of metal", name, other)
		}
		nodes[int(p.Node)] = name
	}
}

// A wire to a block of one metal takes its panel side, and its field side when it
// comes from the field.
func TestLandingSide(t *testing.T) {
	net := Assemble(&panel.Panel{
		Strips: []panel.Strip{{Ref: "X1", Blocks: []panel.Block{{No: "1", Type: "feed-through"}, {No: "2", Type: "fuse-block", Fuse: "1 A T"}}}},
		Parts:  []panel.Part{{Ref: "P1", Kind: "pilot-light"}, {Ref: "P2", Kind: "pilot-light", At: "field"}},
		Wires: []panel.Wire{{No: "W1", From: "P1:X1", To: "X1:1"}, {No: "W2", From: "X1:1", To: "P2:X1"}, {No: "W3", From: "X1:1/in", To: "P2:X2"},
			{No: "W4", From: "P1:X2", To: "X1:2"}, {No: "W5", From: "P1:X2", To: "X7:1"}},
	})
	var got []string
	for _, e := range net.Ends {
		got = append(got, e.No+"@"+e.At)
	}
	// W4 names a block whose sides are two pieces of metal, W5 no block at all.
	const want = "W1@P1:X1 W1@X1:1/in W2@X1:1/out W2@P2:X1 W3@X1:1/in W3@P2:X2"
	if s := strings.Join(got, " "); s != want {
		t.Errorf("got %s, want %s", s, want)
	}
}
