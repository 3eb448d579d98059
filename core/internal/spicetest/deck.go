package spicetest

import (
	"bytes"
	"fmt"
	"math"

	"halfsplit/core/internal/spicetest/netlist"
)

// A Deck is one circuit for ngspice, and the analysis to make of it.
type Deck struct {
	Text     string
	Analysis string // "op", "ac lin 1 50 50"
}

// options asks for digits: the circuits are linear, so nothing need converge.
const options = ".options reltol=1e-9 abstol=1e-18 vntol=1e-15 gmin=1e-30 rseries=0\n"

// DC writes the direct-current network of c.
func DC(c *netlist.Circuit) Deck {
	return Deck{deck(c, func(l *netlist.Line) netlist.Two { return l.DC }, "DC"), "op"}
}

// AC writes the network of c at the mains frequency.
func AC(c *netlist.Circuit) Deck {
	return Deck{deck(c, func(l *netlist.Line) netlist.Two { return l.AC }, "AC"),
		fmt.Sprintf("ac lin 1 %g %g", c.Frequency, c.Frequency)}
}

// deck numbers nodes as c does; what lies between a source and the resistance
// behind it is x and the number of its line.
func deck(c *netlist.Circuit, of func(*netlist.Line) netlist.Two, source string) string {
	var b bytes.Buffer
	fmt.Fprintf(&b, "panel\n%s", options)
	for n := 1; n < len(c.Names); n++ {
		fmt.Fprintf(&b, "RL%d %d 0 %.17g $ %s\n", n, n, 1/c.Leaks[n], c.Names[n])
	}
	for k := range c.Lines {
		l := &c.Lines[k]
		t := of(l)
		from := fmt.Sprint(l.A)
		if t.Volts != 0 {
			from = fmt.Sprint("x", k)
			fmt.Fprintf(&b, "V%d %s %d %s %.17g $ %s\n", k, from, l.A, source, t.Volts, l.ID)
		}
		if t.Ohms != 0 {
			fmt.Fprintf(&b, "R%d %s %d %.17g $ %s\n", k, from, l.B, t.Ohms, l.ID)
		}
		if t.Reactance < 0 {
			fmt.Fprintf(&b, "C%d %d %d %.17g $ %s\n", k, l.A, l.B, -1/(2*math.Pi*c.Frequency*t.Reactance), l.ID)
		} else if t.Reactance > 0 {
			fmt.Fprintf(&b, "L%d %d %d %.17g $ %s\n", k, l.A, l.B, t.Reactance/(2*math.Pi*c.Frequency), l.ID)
		}
		if t.Amps != 0 {
			fmt.Fprintf(&b, "I%d %d %d %s %.17g $ %s\n", k, l.A, l.B, source, t.Amps, l.ID)
		}
	}
	b.WriteString(".end\n")
	return b.String()
}
