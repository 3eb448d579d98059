package sim_test

import (
	"fmt"
	"math"
	"math/cmplx"
	"slices"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/generate"
	"halfsplit/core/internal/demo"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/unit"
)

// every gives the demo panels and twenty that nobody drew, under a name.
func every(t *testing.T, f func(t *testing.T, m *sim.Model, demo bool)) {
	for _, name := range demo.Names {
		t.Run(name, func(t *testing.T) { f(t, open(t, name), true) })
	}
	for seed := range uint64(20) {
		n := 20 + int(seed*seed)/2
		t.Run(fmt.Sprintf("%d terminals seed %d", n, seed), func(t *testing.T) { f(t, sim.New(generate.Generate(n, seed)), false) })
	}
}

// some gives every fault of a small panel, and of a large one a share that touches
// every kind of them.
func some(m *sim.Model, most int) []fault.Fault {
	all := fault.All(m.Net).Faults
	step := max(1, len(all)/most)
	var list []fault.Fault
	for i := 0; i < len(all); i += step {
		list = append(list, all[i])
	}
	return list
}

// currentLaw checks that currents into every node sum to zero, insulation to earth
// included, relative to what flows there. changed are the faults in place.
func currentLaw(t *testing.T, what string, x *sim.Machine, changed ...parts.Change) {
	t.Helper()
	joined := 0.0 // the largest conductance of a link that a fault made
	for _, c := range changed {
		if c.What == parts.AddLink {
			joined = max(joined, c.G)
		}
	}
	net := x.Model.Net
	sum, size := make([]float64, len(net.Nodes)), make([]float64, len(net.Nodes))
	// Complex elimination cancels, so AC is judged against what the panel's largest
	// voltage would drive through a node's branches.
	sumAC, sizeAC, most := make([]complex128, len(net.Nodes)), make([]float64, len(net.Nodes)), 0.0
	for n := range net.Nodes {
		most = max(most, cmplx.Abs(x.VAC(circuit.Node(n))))
	}
	for n := range net.Nodes {
		i := net.Nodes[n].Leak * x.V(circuit.Node(n))
		sum[n], size[n] = -i, math.Abs(i)
		c := net.Nodes[n].LeakAC * x.VAC(circuit.Node(n))
		sumAC[n], sizeAC[n] = -c, cmplx.Abs(c)
	}
	// A branch is counted by its parts: what its two ends would carry through it to
	// a dead other end. Currents are differences of these and no more exact. A source is
	// solved as a current of its own, E·G, rounded as a product and again where it joins
	// the other currents of its node; what that leaves flows off through the metal to
	// nodes that are at no voltage themselves.
	rounding := 0.0
	for k, b := range net.Branches {
		i, v := x.DC().I(k), x.DC().Value(k)
		rounding = max(rounding, 2*0x1p-53*v.G*math.Abs(v.E))
		for _, n := range []circuit.Node{b.Ends.A, b.Ends.B} {
			size[n] += math.Abs(i) + v.G*(math.Abs(x.V(b.Ends.A))+math.Abs(v.E))
		}
		sum[b.Ends.A] -= i
		sum[b.Ends.B] += i
		if x.AC() == nil {
			continue
		}
		c, w := x.AC().I(k), x.AC().Value(k)
		for _, n := range []circuit.Node{b.Ends.A, b.Ends.B} {
			sizeAC[n] += cmplx.Abs(c) + cmplx.Abs(w.Y)*(most+cmplx.Abs(w.E))
		}
		sumAC[b.Ends.A] -= c
		sumAC[b.Ends.B] += c
	}
	for i, e := range x.Links() {
		amps := x.DC().LinkI(i)
		var ac complex128
		if x.AC() != nil {
			ac = x.AC().LinkI(i)
		}
		sum[e.A] -= amps
		sum[e.B] += amps
		sumAC[e.A] -= ac
		sumAC[e.B] += ac
		for _, n := range []circuit.Node{e.A, e.B} {
			size[n] += math.Abs(amps) + joined*math.Abs(x.V(e.A))
			sizeAC[n] += cmplx.Abs(ac) + joined*most
		}
	}
	const relative = 1e-12 // roundings of 2^-53, over the hundred levels elimination may be deep
	for n := 1; n < len(sum); n++ {
		if !(math.Abs(sum[n]) <= relative*size[n]+rounding) {
			t.Errorf("%s: %g A remain at %s, of %g", what, sum[n], net.Nodes[n].Name, size[n])
		}
		if !(cmplx.Abs(sumAC[n]) <= relative*sizeAC[n]) {
			t.Errorf("%s: %g A AC remain at %s, of %g", what, cmplx.Abs(sumAC[n]), net.Nodes[n].Name, sizeAC[n])
		}
	}
}

func TestCurrentLaw(t *testing.T) {
	every(t, func(t *testing.T, m *sim.Model, _ bool) {
		for _, at := range []string{"normal", sim.PowerOff} {
			currentLaw(t, at, run(t, m, at, sim.Running))
		}
	})
}

// laws checks what holds for every device in every settled state, but for the
// elements whose state a fault has fixed.
func laws(t *testing.T, what string, x *sim.Machine, changed []parts.Change) {
	t.Helper()
	free := make([]bool, len(x.Model.Net.Elements))
	for e := range free {
		free[e] = true
	}
	for _, c := range changed {
		if c.What == parts.FixState {
			free[c.Element] = false
		}
	}
	if x.Cycle() != nil {
		clear(free) // nothing is at rest, and a coil may be on its way
	} else {
		energy(t, what, x)
	}
	names := namedIn(x.Model.Panel)
	operate := map[string]float64{"relay": 0.75, "solenoid": 0.85} // of the rated voltage; all release at a tenth
	for i, d := range x.Model.Net.Devices {
		st := x.Status(i)
		if math.IsNaN(st.Volts) || math.IsInf(st.Volts, 0) || math.IsNaN(st.Amps) || math.IsInf(st.Amps, 0) {
			t.Errorf("%s: %s %+v", what, d.Ref, st)
		}
		switch d.Kind.Name {
		case "dc-supply":
			// A supply is a source: what comes back from outside meets its bleeder of
			// 10 kΩ alone.
			if st.Amps < -math.Abs(st.Volts)/10e3-1e-9 {
				t.Errorf("%s: %s sinks %g A at %g V", what, d.Ref, st.Amps, st.Volts)
			}
		case "relay", "solenoid":
			if !free[d.Element] {
				continue
			}
			rated, said := names.rated[d.Part]
			if !said {
				rated = 24
			}
			if st.State == "operated" && st.Volts <= 0.1*rated {
				t.Errorf("%s: %s operated at %g V", what, d.Ref, st.Volts)
			}
			if st.State != "operated" && st.Volts >= operate[d.Kind.Name]*rated && st.Amps > 0 {
				t.Errorf("%s: %s %s at %g V", what, d.Ref, st.State, st.Volts)
			}
		}
	}
	shorted := map[int]bool{}
	for _, c := range changed {
		if c.What == parts.SetBranch {
			shorted[c.Branch] = true
		}
	}
	for k, b := range x.Model.Net.Branches {
		if names.diodes[b.Thing] && !shorted[k] {
			// From cathode to anode only its leakage: 1 nS, 0.4 µA at 400 V.
			if i := x.DC().I(k); i < -0.4e-6 {
				t.Errorf("%s: %g A backwards through %s", what, i, b.Thing)
			}
		}
	}
}

// named is what the laws ask of a panel's document.
type named struct {
	rated  map[string]float64 // volts a coil is for, where the document says
	diodes map[string]bool
}

func namedIn(p *panel.Panel) named {
	n := named{map[string]float64{}, map[string]bool{}}
	for _, part := range p.Parts {
		if v, err := unit.Parse(part.Ratings["voltage"], unit.Voltage); err == nil {
			n.rated[part.Ref] = v
		}
		n.diodes[part.Ref] = part.Kind == "diode"
	}
	for _, s := range p.Strips {
		for _, b := range s.Blocks {
			n.diodes[s.Ref+":"+b.No] = b.Type == "diode-block"
		}
	}
	return n
}

// bits is all that can be seen of a machine.
func bits(x *sim.Machine) []uint64 {
	var list []uint64
	for n := range x.Model.Net.Nodes {
		v := x.VAC(circuit.Node(n))
		list = append(list, math.Float64bits(x.V(circuit.Node(n))), math.Float64bits(real(v)), math.Float64bits(imag(v)))
	}
	for e := range x.Model.Net.Elements {
		s := x.State(e)
		list = append(list, uint64(s.Mode), math.Float64bits(s.X), math.Float64bits(x.Input(e)))
	}
	return list
}

// Every fault, tried on the running panel: the laws hold with it, and without it the
// panel is what it was, bit for bit, whether the experiment is undone or the panel
// started again from cold.
func TestFaultsLeaveNoTrace(t *testing.T) {
	every(t, func(t *testing.T, m *sim.Model, demo bool) {
		first := run(t, m, "normal", sim.Running)
		laws(t, "healthy", first, nil)
		want := bits(first)

		most := 100
		if demo {
			most = 600
		}
		x := run(t, m, "normal", sim.Running)
		x.Checkpoint()
		moved := 0
		for i, f := range some(m, most) {
			x.Apply(f.Changes)
			x.Settle()
			if x.Err() != nil {
				t.Fatalf("%s: %v", f.Key(), x.Err())
			}
			laws(t, f.Key(), x, f.Changes)
			if i%10 == 0 {
				currentLaw(t, f.Key(), x, f.Changes...)
			}
			if !slices.Equal(bits(x), want) {
				moved++
			}
			x.Revert()
			if x.Cycle() != nil || x.Err() != nil {
				t.Fatalf("%s: undone, cycle %v, error %v", f.Key(), x.Cycle(), x.Err())
			}
			if !slices.Equal(bits(x), want) {
				t.Fatalf("%s: undone, the panel is another", f.Key())
			}
			if i%40 != 0 {
				continue
			}
			run(t, m, "normal", sim.Start, f.Key())
			if !slices.Equal(bits(run(t, m, "normal", sim.Running)), want) {
				t.Fatalf("%s: repaired and started from cold, the panel is another", f.Key())
			}
		}
		if moved == 0 {
			t.Error("no fault moved anything")
		}
	})
}

// Undoing is not only for faults: steps and inputs come back too.
func TestRevertTakesStepsBack(t *testing.T) {
	m := open(t, "dosing-skid")
	x := run(t, m, "normal", sim.Running)
	want := bits(x)
	x.Checkpoint()
	for _, step := range []string{"press S1", "drain B10", "switch-off F0", "set B1 20 mA", "open X1:1", "switch-off A3:0", "switch-off G0"} {
		mv, err := m.Step(step)
		if err != nil {
			t.Fatal(err)
		}
		x.Set(mv.Element, mv.Input)
		x.Settle()
		if slices.Equal(bits(x), want) {
			t.Errorf("%s changed nothing", step)
		}
		x.Revert()
		if !slices.Equal(bits(x), want) {
			t.Fatalf("%s: undone, the panel is another", step)
		}
	}
}
