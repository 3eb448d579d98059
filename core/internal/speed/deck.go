package main

import (
	"fmt"
	"slices"
	"strings"

	"halfsplit/core/internal/spicetest/netlist"
)

// absent is what a resistor that is not there counts as, in ohms: a billionth of
// what the insulation of one terminal carries.
const absent = 1e18

// A deck is one circuit for ngspice in which several states of a panel can be
// reached by altering values: it has whatever any of them needs.
type deck struct {
	states  []*netlist.Circuit // the sound panel first
	sources []bool             // by line: some state has a voltage there
	drives  []bool             // and a current
	lines   []netlist.Line     // those of the states with the most
}

// newDeck joins states of one panel. What a fault adds comes last in a circuit,
// and differs from fault to fault, so each has lines of its own there.
func newDeck(sound *netlist.Circuit, faulty []*netlist.Circuit) (*deck, error) {
	d := &deck{states: append([]*netlist.Circuit{sound}, faulty...), lines: slices.Clone(sound.Lines)}
	for _, c := range faulty {
		if !slices.Equal(c.Names, sound.Names) || !slices.Equal(c.Leaks, sound.Leaks) {
			return nil, fmt.Errorf("a fault changes the metal of the panel")
		}
		d.lines = append(d.lines, c.Lines[len(sound.Lines):]...)
	}
	d.sources, d.drives = make([]bool, len(d.lines)), make([]bool, len(d.lines))
	for s := range d.states {
		for k := range d.lines {
			t := d.at(s, k)
			d.sources[k] = d.sources[k] || t.Volts != 0
			d.drives[k] = d.drives[k] || t.Amps != 0
		}
	}
	return d, nil
}

// at is what stands in line k in a state.
func (d *deck) at(state, k int) netlist.Two {
	sound := len(d.states[0].Lines)
	c := d.states[state]
	if k < sound {
		return c.Lines[k].DC
	}
	first := sound
	for s := 1; s < state; s++ {
		first += len(d.states[s].Lines) - sound
	}
	if own := k - first; state > 0 && own >= 0 && sound+own < len(c.Lines) {
		return c.Lines[sound+own].DC
	}
	return netlist.Two{}
}

func ohms(t netlist.Two) float64 {
	if t.Ohms == 0 {
		return absent
	}
	return t.Ohms
}

// text is the circuit in the sound state.
func (d *deck) text() string {
	var b strings.Builder
	b.WriteString("panel\n.options reltol=1e-9 abstol=1e-18 vntol=1e-15 gmin=1e-30 rseries=0\n")
	for n := 1; n < len(d.states[0].Names); n++ {
		fmt.Fprintf(&b, "RL%d %d 0 %.17g\n", n, n, 1/d.states[0].Leaks[n])
	}
	for k, l := range d.lines {
		t := d.at(0, k)
		from := fmt.Sprint(l.A)
		if d.sources[k] {
			from = fmt.Sprint("x", k)
			fmt.Fprintf(&b, "V%d %s %d DC %.17g\n", k, from, l.A, t.Volts)
		}
		fmt.Fprintf(&b, "R%d %s %d %.17g\n", k, from, l.B, ohms(t))
		if d.drives[k] {
			fmt.Fprintf(&b, "I%d %d %d DC %.17g\n", k, l.A, l.B, t.Amps)
		}
	}
	b.WriteString(".end\n")
	return b.String()
}

// alter gives the commands that lead from one state to another.
func (d *deck) alter(from, to int) string {
	var b strings.Builder
	for k := range d.lines {
		was, now := d.at(from, k), d.at(to, k)
		if ohms(was) != ohms(now) {
			fmt.Fprintf(&b, "alter r%d = %.17g\n", k, ohms(now))
		}
		if was.Volts != now.Volts {
			fmt.Fprintf(&b, "alter v%d = %.17g\n", k, now.Volts)
		}
		if was.Amps != now.Amps {
			fmt.Fprintf(&b, "alter i%d = %.17g\n", k, now.Amps)
		}
	}
	return b.String()
}
