package parts

import (
	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// Output cards without electronics of their own on the field side: channels that
// switch what comes to a common terminal, whatever that is.
var (
	triacOutput = switching("triac-output", Terminal{"L", Line},
		Rating{Name: "leakage", Dim: unit.Current, Default: "2 mA", Source: "off, through its RC snubber at 120 V: 1.5 to 2 mA, module data"},
		Rating{Name: "at", Dim: unit.Voltage, Default: "120 V", Source: "the voltage at which the leakage is told, module data"})
	relayOutput = switching("relay-output", Terminal{"C", Any},
		Rating{Name: "leakage", Dim: unit.Current, Source: "given where an RC snubber lies across each contact: 2.1 mA at 120 V, 4.3 mA at 240 V, module data"},
		Rating{Name: "at", Dim: unit.Voltage, Default: "120 V", Source: "the voltage at which the leakage is told"})
)

func switching(name string, common Terminal, ratings ...Rating) *Kind {
	return &Kind{
		Name: name, Letters: []string{"A", "K"}, Symbol: "card", Ratings: ratings,
		Positions: []Position{{"off", "switch-off", 0}, {"on", "switch-on", 1}},
		Terminals: func(p *panel.Part) []Terminal { return channelTerminals(p, common) },
		Build: func(b *Builder) {
			c := b.Terminal(common.Name)
			b.channels(b.Kind.Terminals(b.Part), 1, func(ref string, t circuit.Node) {
				d := &switched{ohms: contactOhms}
				if common.Pole == Line {
					d.ohms, d.open = triacOhms, circuit.Value{G: triacLeak}
				}
				if leak := b.R["leakage"]; leak > 0 {
					d.openAC = circuit.ACValue{Y: snubberAdmittance(leak / b.R["at"])}
				}
				d.branch = b.Branch(RoleContact, ref, c, t, d.open, d.openAC)
				e := b.Element(ref, d, 0, c, t)
				b.Device(ref, e, d)
				b.Mode(Mode{Thing: ref, Name: "stuck-off", Place: ref, Changes: []Change{{What: FixInput, Element: e}}, Rate: rateChannel, Repair: "replace-channel"})
				b.Mode(Mode{Thing: ref, Name: "stuck-on", Place: ref, Changes: []Change{{What: FixInput, Element: e, Input: 1}}, Rate: rateChannel / 2, Repair: "replace-channel"})
			})
		},
	}
}

const (
	triacOhms   = 1.0  // on: about 1 V at 1 A, from memory
	triacLeak   = 1e-7 // S, direct current when off: choice
	snubberLoss = 0.01 // resistance over reactance of a snubber at the mains frequency: 100 ohm and 0.1 µF is 0.003; choice
)

// snubberAdmittance of so many siemens is capacitive, with a little loss.
func snubberAdmittance(y float64) complex128 { return complex(snubberLoss*y, y) }

// A switched channel joins its terminal to the common one; input 1 is on. Its
// light shows what the controller wants, not what comes of it.
type switched struct {
	branch int
	ohms   float64
	open   circuit.Value
	openAC circuit.ACValue
}

func (d *switched) Stamp(_ State, in float64, w Writer) {
	if in != 0 {
		w.DC(d.branch, Resistor(d.ohms))
		w.AC(d.branch, ResistorAC(d.ohms))
		return
	}
	w.DC(d.branch, d.open)
	w.AC(d.branch, d.openAC)
}

func (*switched) Next(s State, _ float64, _ View) (State, Wait) { return s, Wait{} }

func (d *switched) Status(_ State, in float64, v View) Status {
	e := v.Ends(d.branch)
	st := Status{State: "off", Amps: v.Amps(d.branch)}
	st.Volts, st.Mixed = v.Level(e.A, e.B)
	if in != 0 {
		st.State, st.Grade = "on", On
	}
	return st
}

// snubber is a resistor and a capacitor in series, for across a contact or coil.
var snubber = &Kind{
	Name: "snubber", Letters: []string{"R", "C", "Z"}, Symbol: "snubber",
	Ratings: []Rating{
		{Name: "resistance", Dim: unit.Resistance, Default: "100 ohm", Source: "common practice: 100 ohm and 0.1 µF"},
		{Name: "capacitance", Dim: unit.Capacitance, Default: "100 nF", Source: "common practice: 100 ohm and 0.1 µF"},
	},
	Terminals: func(*panel.Part) []Terminal { return []Terminal{{Name: "1"}, {Name: "2"}} },
	Build: func(b *Builder) {
		k := b.Branch(RoleLoad, b.Ref, b.Terminal("1"), b.Terminal("2"), circuit.Value{}, b.capacitive(b.R["resistance"], b.R["capacitance"]))
		b.Mode(Mode{Thing: b.Ref, Name: "open", Class: "open", Changes: []Change{Open(k)}, Rate: ratePassive, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "shorted", Class: "short", Changes: []Change{Resist(k, b.R["resistance"])}, Rate: ratePassive, Repair: "replace-part"})
	},
}

// capacitive is a resistance and a capacitance in series at the mains frequency;
// nothing where there is no mains.
func (b *Builder) capacitive(ohms, farads float64) circuit.ACValue {
	if b.net.Frequency == 0 {
		return circuit.ACValue{}
	}
	x := 1 / (float64(twoPi*b.net.Frequency) * farads)
	size := float64(ohms*ohms) + float64(x*x)
	return circuit.ACValue{Y: complex(ohms/size, x/size)}
}

const twoPi = 6.283185307179586
