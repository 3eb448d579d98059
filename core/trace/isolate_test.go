package trace_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/generate"
	"halfsplit/core/internal/demo"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
)

// at is a part, a strip or a point as a target.
func at(net *parts.Net, name string) trace.Target {
	t := trace.Target{Own: map[string]bool{name: true}}
	for _, p := range net.Points {
		if !p.Hidden && !net.Nodes[p.Node].Earthing && (p.Ref == name || p.Name == name || strings.HasPrefix(p.Name, name+"/")) {
			t.Nodes = append(t.Nodes, p.Node)
		}
	}
	return t
}

// What is opened on the demo panels, and why.
func TestIsolateDemos(t *testing.T) {
	for _, tc := range []struct {
		panel, condition, target string
		open                     []string // sorted
		down                     []string // sorted
		why                      string
	}{
		{"training-bench", "normal", "P1", []string{"X1:2"}, nil, "its fuse block feeds nothing else"},
		{"training-bench", "stopped", "P1", []string{"X1:2"}, nil, "dark because K1:23-24 is open, and a contact never counts"},
		{"training-bench", "normal", "K1", []string{"X1:1", "X1:2", "X1:3"}, []string{"P1"}, "coil, and the feeds of both contacts it moves; F0 would take T1 down too"},
		{"training-bench", "normal", "T1", []string{"F0"}, []string{"K1", "P1"}, "mains: both poles, with a lock"},
		{"training-bench", "normal", "F0", []string{"G0"}, []string{"K1", "P1", "T1"}, "its own terminals stay live until the bench isolator is off"},
		{"training-bench", "normal", "X1:1", []string{"F0"}, []string{"K1", "P1", "T1"}, "its panel side is the bus of the supply: its own lever does not reach it"},
		{"training-bench", "normal", "X2:1", []string{"F0"}, []string{"K1", "P1", "T1"}, "a return: 24 V stands on it when it is opened, so the supply goes"},
		{"dosing-skid", "normal", "M1", []string{"F2"}, nil, "the blade X0:3 opens one pole and takes no lock; contactor K2 never counts"},
		{"dosing-skid", "normal", "B1", []string{"X3:1.2"}, []string{"A2:0"}, "the lever of its own loop"},
		{"dosing-skid", "normal", "A2", []string{"X1:4"}, []string{"B1", "B2", "B3", "B4", "B5", "B6"}, "one fuse feeds all loops"},
	} {
		m, c := demo.In(t, tc.panel, tc.condition)
		is := trace.New(m, c).Isolate(at(m.Net, tc.target), nil, sim.Running)
		var open, down []string
		for _, p := range is.Points {
			open = append(open, p.Ref)
		}
		for _, a := range is.Down {
			down = append(down, a.Ref)
		}
		slices.Sort(open)
		slices.Sort(down)
		if !is.Isolated || !slices.Equal(open, tc.open) || !slices.Equal(down, tc.down) {
			t.Errorf("%s %s: open %v takes %v down, want %v and %v: %s", tc.panel, tc.target, open, down, tc.open, tc.down, tc.why)
		}
	}
}

// A lever that carries more than it may open is named apart, and counts once its
// load is off. Source: the minimum arc current of copper, 0.43 A (Holm, from memory).
func TestLoadedLever(t *testing.T) {
	m, c := demo.In(t, "dosing-skid", "normal")
	b := trace.New(m, c)
	is := b.Isolate(at(m.Net, "Q1"), nil, sim.Running)
	if len(is.Instead) != 1 || is.Instead[0].Ref != "X1:1" || !is.Instead[0].Loaded() || slices.ContainsFunc(is.Points, func(p trace.Point) bool { return p.Loaded() }) {
		t.Errorf("open %v, instead %v; want X1:1 named apart", is.Points, is.Instead)
	}
	m, c = demo.In(t, "dosing-skid", "normal; switch-off A3:0; switch-off A3:1; switch-off A3:2; switch-off A3:3")
	is = trace.New(m, c).Isolate(at(m.Net, "Q1"), nil, sim.Running)
	if len(is.Points) != 1 || is.Points[0].Ref != "X1:1" || len(is.Instead) != 0 {
		t.Errorf("outputs off: open %v, instead %v; want X1:1", is.Points, is.Instead)
	}
}

// Two feeds are parted from a valve by their two breakers, however many levers that
// carry too much to be opened are nearer: a supply and a battery joined by diodes.
func TestTwoFeeds(t *testing.T) {
	m := sim.New(generate.Generate(100, 15))
	c, err := m.Condition("normal")
	if err != nil {
		t.Fatal(err)
	}
	is := trace.New(m, c).Isolate(at(m.Net, "Q3"), nil, sim.Running)
	if len(is.Points) != 2 || is.Points[0].Ref != "F2" || is.Points[1].Ref != "F3" {
		t.Errorf("open %v, instead %v; want the breakers F2 and F3", is.Points, is.Instead)
	}
}

// A protective conductor is never isolated.
func TestProtectiveConductor(t *testing.T) {
	m, c := demo.In(t, "training-bench", "normal")
	is := trace.New(m, c).Isolate(at(m.Net, "X9"), nil, sim.Running)
	if is.Isolated || len(is.Reaches) != 1 || is.Reaches[0].Code != "reach.earth" {
		t.Errorf("PE: %+v", is)
	}
}

// Whatever isolate says of a generated panel holds when it is solved: every
// conductor of the target is below a volt to every other and to earth, also with
// any one contact of the panel closed; only isolating points are named; and where
// nothing isolates, what prevents it is. Source: the definition of isolation.
func TestIsolatedIsDead(t *testing.T) {
	seeds, targets, alone := 12, 0, 0
	if testing.Short() {
		seeds = 3
	}
	for seed := range seeds {
		p := generate.Generate(generate.Least+5*seed, uint64(seed))
		m := sim.New(p)
		c, err := m.Condition("normal")
		if err != nil {
			t.Fatal(err)
		}
		b := trace.New(m, c)
		var names []string
		for _, part := range p.Parts {
			names = append(names, part.Ref)
		}
		for _, s := range p.Strips {
			for i := range s.Blocks {
				if i%3 == 0 {
					names = append(names, s.Ref+":"+s.Blocks[i].No)
				}
			}
		}
		for _, name := range names {
			target := at(m.Net, name)
			if len(target.Nodes) == 0 {
				continue
			}
			targets++
			is := b.Isolate(target, nil, sim.Running)
			if !is.Isolated {
				alone++
				if len(is.Points) > 0 || !slices.ContainsFunc(is.Reaches, func(r trace.Reach) bool { return r.Prevents && r.Ref != "" }) {
					t.Errorf("seed %d, %s: not isolated by %v, and nothing is said to prevent it: %v", seed, name, is.Points, is.Reaches)
				}
				continue
			}
			opened := trace.Opening(is.Points)
			for _, pt := range is.Points {
				if k := m.Net.Elements[pt.Element].Kind; !k.Isolates || pt.Loaded() || is.Mains && !k.Locks() {
					t.Errorf("seed %d, %s: %s is no point to isolate at", seed, name, pt.Ref)
				}
			}
			x, err := b.Standing(opened, sim.Running)
			if err != nil {
				t.Fatal(err)
			}
			check := func(how string) {
				if n, volts := liveliest(x, target.Nodes); !(volts < trace.DeadVolts) {
					t.Errorf("seed %d, %s: %s has %g V with %v open%s", seed, name, m.Net.Nodes[n].Name, volts, is.Points, how)
				}
			}
			check("")
			if seed%3 != 0 {
				continue
			}
			for k := range m.Net.Branches {
				if m.Net.Branches[k].Role != parts.RoleContact {
					continue
				}
				x.Apply([]parts.Change{parts.Resist(k, 0.03)})
				x.Settle()
				check(" and " + m.Net.Branches[k].Thing + " closed")
				x.Revert()
			}
		}
	}
	if targets < 50 || alone == targets {
		t.Errorf("%d targets, %d of them not isolated: this shows nothing", targets, alone)
	}
	t.Logf("%d targets, %d of them not isolated", targets, alone)
}

// liveliest is the largest voltage between two of the nodes, or one and earth.
func liveliest(x *sim.Machine, nodes []circuit.Node) (at circuit.Node, volts float64) {
	all := append([]circuit.Node{circuit.Earth}, nodes...)
	for i, n := range all {
		for _, m := range all[:i] {
			ac := x.VAC(n) - x.VAC(m)
			if v := max(math.Abs(x.V(n)-x.V(m)), math.Hypot(real(ac), imag(ac))); v > volts {
				at, volts = n, v
			}
		}
	}
	return at, volts
}
