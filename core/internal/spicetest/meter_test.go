package spicetest

import (
	"fmt"
	"math/cmplx"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/generate"
	"halfsplit/core/internal/spicetest/netlist"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// What a meter shows is what ngspice makes of the drawing with the meter in it, a
// resistor between two nodes, in every mode that measures with the power on: across
// any two points, in series where a wire is lifted or a lever opened, and around a
// wire. Sound panels and panels with a fault; the states are those our own reading
// ended in. Where the two differ, 200 binary digits decide.
func TestMetersInSpice(t *testing.T) {
	random, dir := random{5}, t.TempDir()
	read := map[meter.Mode]int{}
	judged := 0
	for k := range 12 {
		m := sim.New(generate.Generate(20+12*k, uint64(500+k)))
		c, err := m.Condition("normal")
		if err != nil {
			t.Fatal(err)
		}
		x := m.Replay(c, sim.Running, nil)
		x.Checkpoint()
		faults := fault.All(m.Net).Faults
		breaks := meter.Breaks(m.Net)
		for n := range 12 {
			f := &faults[random.below(len(faults))]
			var keys []string
			if n%2 == 1 {
				x.Apply(f.Changes)
				x.Settle()
				keys = []string{f.Key()}
			}
			trial := aimed{mode: []meter.Mode{meter.VDC, meter.VAC, meter.LowZ, meter.Tester, meter.MA, meter.Clamp}[n/2]}
			a, b := &m.Net.Points[random.below(len(m.Net.Points))], &m.Net.Points[random.below(len(m.Net.Points))]
			trial.red, trial.black = a.Node, b.Node
			trial.at = &breaks[random.below(len(breaks))]
			trial.wire = random.below(len(m.Net.Branches))
			if x.Cycle() == nil && trial.take(m, x) && x.Cycle() == nil {
				what := fmt.Sprint(m.Panel.Name, " ", keys, ", ", trial.mode, " ", trial.where(m))
				read[trial.mode]++
				net, err := netlist.Write(m.Panel, freeze(x), append(keys, trial.opened...)...)
				if err != nil {
					t.Fatalf("%s: %v", what, err)
				}
				judged += trial.compare(t, dir, what, m, net)
			}
			x.Revert()
		}
	}
	for _, mode := range []meter.Mode{meter.VDC, meter.VAC, meter.LowZ, meter.Tester, meter.MA, meter.Clamp} {
		if read[mode] < 5 {
			t.Errorf("only %d readings of %s", read[mode], mode)
		}
	}
	t.Logf("readings: %v; %d judged by 200 bits", read, judged)
}

// An aimed meter is one reading.
type aimed struct {
	mode       meter.Mode
	red, black circuit.Node
	at         *meter.Break // of MA
	wire       int          // branch, of Clamp: or the next that is a wire

	opened []string // what was opened for it, as a fault
	ohms   float64  // between the probes; 0 of a clamp
	value  float64
}

func (a *aimed) where(m *sim.Model) string {
	switch a.mode {
	case meter.MA:
		return a.at.Thing
	case meter.Clamp:
		return m.Net.Branches[a.wire].Thing
	}
	return m.Net.Nodes[a.red].Name + " " + m.Net.Nodes[a.black].Name
}

// take reads, and leaves the meter in the network; ok is false where nobody may, or
// where what is opened has no fault of its own.
func (a *aimed) take(m *sim.Model, x *sim.Machine) (ok bool) {
	typical := meter.Typical
	var r meter.Reading
	var refused *meter.Refusal
	switch a.mode {
	case meter.Clamp:
		for m.Net.Branches[a.wire].Role != parts.RoleWire {
			a.wire = (a.wire + 1) % len(m.Net.Branches)
		}
		a.value = typical.Current(x, a.wire).Value
		return true
	case meter.MA:
		a.opened = []string{a.at.Thing + "=lifted"}
		if !a.at.Wire {
			a.opened = []string{a.at.Thing + "=lever-open"}
		}
		if _, err := fault.All(m.Net).Parse(a.opened[0]); err != nil {
			return false
		}
		a.red, a.black, a.ohms = a.at.Red, a.at.Black, typical.Burden
		r, refused = typical.Series(x, *a.at, false)
	default:
		if a.red == a.black {
			return false
		}
		a.ohms = map[meter.Mode]float64{meter.VDC: typical.Input, meter.VAC: typical.Input, meter.LowZ: typical.LowInput, meter.Tester: typical.Tester}[a.mode]
		r, refused = typical.Read(x, a.mode, a.red, a.black)
	}
	a.value = r.Value
	return refused == nil
}

// compare puts the same to ngspice; it says whether the digits had to decide.
func (a *aimed) compare(t *testing.T, dir, what string, m *sim.Model, net *netlist.Circuit) (judged int) {
	t.Helper()
	at := func(n circuit.Node) int {
		k, ok := net.Node(m.Net.Nodes[n].Name)
		if !ok {
			t.Fatalf("%s: the drawing has no %q", what, m.Net.Nodes[n].Name)
		}
		return k
	}
	red, black, scale := at(a.red), at(a.black), 1.0
	if a.mode == meter.Clamp {
		ends := m.Net.Branches[a.wire].Ends
		red, black = at(ends.A), at(ends.B)
		for i := range net.Lines {
			if net.Lines[i].ID == m.Net.Branches[a.wire].Thing {
				a.ohms, scale = net.Lines[i].DC.Ohms, 1/net.Lines[i].DC.Ohms
			}
		}
	} else {
		r := netlist.Two{Ohms: a.ohms}
		net.Lines = append(net.Lines, netlist.Line{ID: "meter", A: red, B: black, DC: r, AC: r})
		if a.mode == meter.MA {
			scale = 1e3 / a.ohms
		}
	}
	decks := []Deck{DC(net)}
	if net.Frequency > 0 {
		decks = append(decks, AC(net))
	}
	spice, err := Run(dir, decks)
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	exact := Exact(net)
	v := func(k, node int) complex128 {
		if node == 0 {
			return 0
		}
		return spice[k][fmt.Sprintf("v(%d)", node)]
	}
	theirs, truth := a.shows(v(0, red)-v(0, black), 0), a.shows(complex(exact.DC[red]-exact.DC[black], 0), 0)
	if len(decks) > 1 {
		theirs, truth = a.shows(v(0, red)-v(0, black), v(1, red)-v(1, black)), a.shows(complex(exact.DC[red]-exact.DC[black], 0), exact.AC[red]-exact.AC[black])
	}
	ours := complex(a.value/scale, 0)
	if near(ours, complex(theirs, 0), relative, least) {
		return 0
	}
	if !near(ours, complex(truth, 0), relative, least) {
		t.Errorf("%s shows %g, ngspice has %g, in truth it is %g", what, a.value, theirs*scale, truth*scale)
	}
	return 1
}

// shows is what the display has of a direct and an alternating voltage.
func (a *aimed) shows(dc, ac complex128) float64 {
	switch a.mode {
	case meter.VDC:
		return real(dc)
	case meter.VAC:
		return cmplx.Abs(ac)
	}
	if cmplx.Abs(ac) > cmplx.Abs(dc) {
		return cmplx.Abs(ac)
	}
	return real(dc)
}
