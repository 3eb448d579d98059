package generate_test

import (
	"bytes"
	"fmt"
	"hash/fnv"
	"reflect"
	"strings"
	"testing"

	"halfsplit/core/check"
	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/generate"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// sizes are panels small enough to be solved in a test.
var sizes = []int{20, 21, 26, 32, 40, 55, 73, 99, 100, 149, 150, 200, 333, 610}

func blocks(p *panel.Panel) (n int) {
	for _, s := range p.Strips {
		n += len(s.Blocks)
	}
	return n
}

func TestSize(t *testing.T) {
	for _, tc := range []struct{ asked, want int }{
		{-1, generate.Least}, {0, generate.Least}, {20, 20}, {73, 73}, {150, 150}, {200, 200}, {1234, 1234},
		{20_000, 20_000}, {1_000_000, generate.Most},
	} {
		if got := blocks(generate.Generate(tc.asked, 5)); got != tc.want {
			t.Errorf("asked for %d terminals, got %d, want %d", tc.asked, got, tc.want)
		}
	}
}

// The bytes of one panel, so that a seed named in a bug report means the same
// panel on every host and in years to come. When the generator is meant to
// change, so is this number.
func TestSeedMeansTheSamePanel(t *testing.T) {
	h := fnv.New64a()
	h.Write(panel.Write(generate.Generate(200, 1)))
	const want = 0xf7ff235837eb4556
	if got := h.Sum64(); got != want {
		t.Errorf("200 terminals of seed 1 hash to %#x, want %#x", got, uint64(want))
	}
	if bytes.Equal(panel.Write(generate.Generate(200, 1)), panel.Write(generate.Generate(200, 2))) {
		t.Error("seeds 1 and 2 give the same panel")
	}
}

// merged labels the nodes that are joined by what is no load, contact or rail.
func merged(net *parts.Net) []circuit.Node {
	up := make([]circuit.Node, len(net.Nodes))
	for i := range up {
		up[i] = circuit.Node(i)
	}
	root := func(n circuit.Node) circuit.Node {
		for up[n] != n {
			n = up[n]
		}
		return n
	}
	for _, b := range net.Branches {
		switch b.Role {
		case parts.RoleWire, parts.RoleClamp, parts.RoleJumper, parts.RoleLever, parts.RoleBlade, parts.RoleFuse:
			if a, z := root(b.Ends.A), root(b.Ends.B); a != z {
				up[a] = z
			}
		}
	}
	for i := range up {
		up[i] = root(circuit.Node(i))
	}
	return up
}

// What a realistic panel holds, per 200 terminals.
func TestContents(t *testing.T) {
	for _, n := range []int{20, 60, 200, 400, 999, 20_000} {
		p := generate.Generate(n, 11)
		net := parts.Assemble(p)
		node := merged(net)
		at := func(point string) circuit.Node {
			pt, ok := net.FindPoint(point)
			if !ok {
				t.Fatalf("no point %s", point)
			}
			return node[pt.Node]
		}

		got := map[string]int{}
		for _, s := range p.Strips {
			got["jumper bars"] += len(s.Jumpers)
			for _, b := range s.Blocks {
				if strings.HasPrefix(b.Type, "double-level") {
					got["two-level blocks"]++
				}
				got[b.Type]++
			}
		}
		for _, part := range p.Parts {
			got[part.Kind]++
		}
		coil := map[string][2]circuit.Node{} // relay → what its coil hangs on
		for _, part := range p.Parts {
			if part.Kind == "relay" {
				coil[part.Ref] = [2]circuit.Node{at(part.Ref + ":A1"), at(part.Ref + ":A2")}
			}
		}
		ways := map[[2]circuit.Node]int{}
		feeding := map[string]bool{}
		for _, b := range net.Branches {
			if b.Role != parts.RoleContact || !strings.Contains(b.Thing, "-") {
				continue
			}
			a, z := node[b.Ends.A], node[b.Ends.B]
			ways[[2]circuit.Node{min(a, z), max(a, z)}]++
			ref, _, _ := strings.Cut(b.Thing, ":")
			if c, ok := coil[ref]; ok && a != c[0] && z != c[0] {
				feeding[ref] = true
			}
		}
		for _, k := range ways {
			if k > 1 {
				got["parallel paths"]++
			}
		}
		got["relays feeding another branch"] = len(feeding)

		for what, each := range map[string]int{
			"dc-supply": 2, "relays feeding another branch": 1, "parallel paths": 1, "jumper bars": 3, "two-level blocks": 4,
			"transmitter-2wire": 4, "transmitter-4wire": 1, "digital-input": 1, "analogue-input": 1, "digital-output": 1,
			"solenoid": 4, "pilot-light": 2, "motor": 1, "ground": 8, "double-level-fused": 4, "fuse-block": 4, "disconnect-block": 1,
		} {
			if got[what] < each*(n/200) {
				t.Errorf("%d terminals: %d %s, want %d per 200", n, got[what], what, each)
			}
		}
		for _, what := range []string{"dc-supply", "relay", "transmitter-2wire", "digital-input", "solenoid", "pilot-light", "ground", "jumper bars", "parallel paths"} {
			if got[what] == 0 {
				t.Errorf("%d terminals: no %s", n, what)
			}
		}
		if n > 1000 {
			continue
		}
		if faults := len(fault.All(net).Faults); faults < 5*n {
			t.Errorf("%d terminals: %d single faults, want five a terminal", n, faults)
		}
	}
}

// Of the catalogue, what the generator draws somewhere in panels of up to 150
// terminals. What it does not: the bare rail, whose door or plate no circuit needs.
func TestDrawsTheCatalogue(t *testing.T) {
	drawn := map[string]bool{"mains": true, "rail": true}
	for seed := range uint64(80) {
		p := generate.Generate(70+int(seed), seed)
		for _, part := range p.Parts {
			drawn[part.Kind] = true
		}
		for _, s := range p.Strips {
			for _, b := range s.Blocks {
				drawn[b.Type] = true
			}
		}
	}
	for _, k := range parts.Kinds() {
		if !drawn[k.Name] {
			t.Errorf("no panel has a %s", k.Name)
		}
	}
}

func TestDrawnWithoutProblems(t *testing.T) {
	for seed, n := range sizes {
		doc := read(t, generate.Generate(n, uint64(seed)))
		for _, p := range check.Check(doc) {
			t.Errorf("%d terminals, seed %d: line %d %s: %s %v", n, seed, p.Line, p.Path, p.Code, p.Args)
		}
	}
}

func read(t *testing.T, p *panel.Panel) *panel.Doc {
	t.Helper()
	doc, err := panel.Read(panel.Write(p))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func TestWriteReadIsIdentity(t *testing.T) {
	for _, n := range append(sizes, 20_000) {
		p := generate.Generate(n, 3)
		doc := read(t, p)
		if !reflect.DeepEqual(doc.Panel, p) {
			t.Errorf("%d terminals: another panel came back", n)
		}
	}
}

// In "normal" all is on but the lamps labelled "stopped"; in "stopped" nothing
// that a start button or an output of the controller brings on is.
func TestConditions(t *testing.T) {
	for seed, n := range sizes {
		p := generate.Generate(n, uint64(seed))
		label, kind := map[string]string{}, map[string]string{}
		for _, part := range p.Parts {
			label[part.Ref], kind[part.Ref] = part.Label, part.Kind
		}
		m := sim.New(p)
		for _, name := range []string{"normal", "stopped"} {
			c, err := m.Condition(name)
			if err != nil {
				t.Fatal(err)
			}
			x := m.Replay(c, sim.Running, nil)
			if x.Err() != nil || x.Cycle() != nil {
				t.Fatalf("%d terminals, %s: error %v, cycle %v", n, name, x.Err(), x.Cycle())
			}
			for i, d := range m.Net.Devices {
				on := x.Status(i).Grade == parts.On
				var want bool
				switch kind[d.Part] {
				case "pilot-light":
					want = (label[d.Ref] == "stopped") == (name == "stopped")
				case "relay", "motor", "solenoid", "digital-output", "safety-relay", "triac-output", "relay-output":
					want = name == "normal"
				case "digital-input":
					if name == "stopped" {
						continue // as its switch happens to stand
					}
					want = true
				case "boundary":
					continue // unknown
				default: // supplies, instruments and the inputs that read them
					want = true
				}
				if on != want {
					t.Errorf("%d terminals, seed %d, %s: %s (%s) is %q", n, seed, name, d.Ref, label[d.Part], x.Status(i).State)
				}
			}
		}
	}
}

func ExampleGenerate() {
	p := generate.Generate(60, 4)
	fmt.Println(p.Name)
	for _, s := range p.Strips {
		fmt.Println(s.Ref, s.Label, len(s.Blocks))
	}
	// Output:
	// Generated panel, 60 terminals, seed 4
	// X10 230 V AC 2
	// X11 24 V DC fused 9
	// X12 0 V 7
	// X13 4-20 mA 9
	// X14 inputs 4
	// X15 outputs 4
	// X16 control 3
	// X17 signals 3
	// X18 PE 18
	// X19 sensors 1
}
