package meter

import (
	"math"

	"halfsplit/core/circuit"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/unit"
)

// A Break is a place where a circuit can be opened by hand and a meter put in
// between: the end of a wire, lifted, and the metal it lay on; the two sides of a
// lever or blade, open, or of a fuse, taken out.
//
// The current counts positive into the red probe: from the strand of a lifted wire
// into the terminal, from the panel side of a block to its field side.
type Break struct {
	Thing      string // "W12@X1:4/out", "X3:7.2", "F3"
	Red, Black circuit.Node
	Wire       bool // a wire is lifted: the circuit stands open until the meter is in
	Earth      bool // a protective conductor: nobody opens it
	opens      []parts.Change
}

// Breaks lists all of a panel, ends of wires first.
func Breaks(net *parts.Net) []Break {
	var list []Break
	for _, e := range net.Ends {
		list = append(list, Break{Thing: e.No + "@" + e.At, Red: e.Strand, Black: e.Metal, Wire: true,
			Earth: net.Nodes[e.Metal].Earthing || e.Place.Pole == parts.Earth, opens: []parts.Change{parts.Open(e.Clamp)}})
	}
	at := map[string]int{}
	for k := range net.Branches {
		b := &net.Branches[k]
		switch b.Role {
		case parts.RoleLever, parts.RoleBlade, parts.RoleFuse:
		default:
			continue
		}
		i, known := at[b.Thing]
		switch {
		case !known:
			at[b.Thing] = len(list)
			list = append(list, Break{Thing: b.Thing, Red: b.Ends.A, Black: b.Ends.B, opens: []parts.Change{parts.Open(k)}})
		case list[i].Black == b.Ends.A: // a link behind its lever: one of them opened is enough
			list[i].Black = b.Ends.B
		default: // several poles, which only open together
			list[i].opens = nil
		}
	}
	kept := list[:0]
	for _, b := range list {
		if len(b.opens) > 0 {
			kept = append(kept, b)
		}
	}
	return kept
}

// Between finds the break whose two sides red and black touch.
func Between(net *parts.Net, red, black circuit.Node) (Break, bool) {
	for _, b := range Breaks(net) {
		if b.Red == black && b.Black == red {
			b.Red, b.Black = red, black
		}
		if b.Red == red && b.Black == black {
			return b, true
		}
	}
	return Break{}, false
}

// At finds the break that a person names by the thing that is opened.
func At(net *parts.Net, thing string) (Break, bool) {
	for _, b := range Breaks(net) {
		if b.Thing == thing {
			return b, true
		}
	}
	return Break{}, false
}

// Inserted are the changes of a meter put into a break.
func (m Meter) Inserted(b Break) []parts.Change {
	return append(append([]parts.Change(nil), b.opens...), parts.Join(b.Red, b.Black, m.Burden))
}

// Series opens the circuit in the machine's present settled state and measures the
// current through the meter in between. A lifted wire interrupts: the panel
// settles open before the meter is in. Over a lever the probes are held first, so
// that nothing is interrupted. inserted says that the meter has been in since
// before the panel was started, by Inserted.
func (m Meter) Series(x *sim.Machine, b Break, inserted bool) (Reading, *Refusal) {
	if b.Earth {
		return Reading{}, &Refusal{Code: "refused.earth", Args: []string{b.Thing}}
	}
	if drives(x.Model.Net, b) {
		return Reading{}, &Refusal{Code: "refused.driven", Args: []string{b.Thing}}
	}
	was := statuses(x)
	if !inserted {
		if b.Wire {
			x.Apply(b.opens)
			x.Settle()
		}
		x.Apply(m.Inserted(b))
		x.Settle()
	}
	dc, ac := between(x, b.Red, b.Black)
	amps := dc / m.Burden
	if ac > math.Abs(dc) {
		amps = ac / m.Burden
	}
	if math.Abs(amps) > m.Fuse {
		return Reading{}, &Refusal{Code: "refused.too-much", Args: []string{unit.Format(math.Abs(amps), unit.Current), unit.Format(m.Fuse, unit.Current)}, Blows: math.Abs(amps)}
	}
	return Reading{Mode: MA, Unit: "mA", Value: amps * 1e3, Shown: m.Milliamps(amps), Disturbs: compare(x, was)}, nil
}

// drives says that a break lies in the circuit of a current transformer.
func drives(net *parts.Net, b Break) bool {
	driven := net.Driven()
	for _, c := range b.opens {
		if c.What == parts.SetBranch && driven[c.Branch] {
			return true
		}
	}
	return false
}

// Across says why current cannot be measured between two points that are no break:
// with a voltage between them the meter is a short circuit.
func (m Meter) Across(x *sim.Machine, red, black circuit.Node) *Refusal {
	dc, ac := between(x, red, black)
	r := &Refusal{Code: "refused.no-break"}
	if max(math.Abs(dc), ac) <= m.LiveVolts {
		return r
	}
	amps := math.Abs(dc) / (x.DC().Z(red, black) + m.Burden)
	shown := m.Volts(dc, VDC)
	if ac > math.Abs(dc) {
		amps = ac / magnitude(x.AC().Z(red, black)+complex(m.Burden, 0))
		shown = m.Volts(ac, VAC)
	}
	r.Code, r.Args = "refused.across", []string{shown, unit.Format(amps, unit.Current)}
	if amps > m.Fuse {
		r.Blows = amps
	}
	return r
}
