package parts

import (
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// redundancy joins the plus of two supplies through a diode each, so that a
// shorted or dead one does not drag the other down.
var redundancy = &Kind{
	Name: "redundancy-diode", Letters: []string{"T", "R", "V"}, Symbol: "redundancy",
	Ratings: []Rating{
		{Name: "forward", Dim: unit.Voltage, Default: "0.5 V", Source: "Schottky rectifier at rated current, textbook value"},
		{Name: "least", Dim: unit.Voltage, Default: "18 V", Source: "choice: an input below it counts as lost"},
	},
	Terminals: func(*panel.Part) []Terminal {
		return []Terminal{{"1", Positive}, {"2", Positive}, {"+", Positive}, {"-", Negative}}
	},
	Build: func(b *Builder) {
		out, minus := b.Terminal("+"), b.Terminal("-")
		for _, t := range []string{"1", "2"} {
			ref, in := b.Ref+":"+t, b.Terminal(t)
			addDiode(b, ref, in, out, b.R["forward"])
			p := &present{least: b.R["least"]}
			p.branch = b.Resistor(RoleLoad, ref, in, minus, presentOhms)
			b.Device(ref, b.Element(ref+" light", p, 0, in, minus), p)
		}
	},
}

// presentOhms of the light that shows that an input is there: choice, 2.4 mA.
const presentOhms = 10e3

// present is a light that shows a voltage. It never changes state.
type present struct {
	branch int
	least  float64
}

func (*present) Stamp(State, float64, Writer) {}

func (*present) Next(s State, _ float64, _ View) (State, Wait) { return s, Wait{} }

func (p *present) Status(_ State, _ float64, v View) Status {
	e := v.Ends(p.branch)
	st := Status{State: "off", Volts: v.DC(e.A, e.B), Amps: v.Volts.I(p.branch)}
	if st.Volts >= p.least {
		st.State, st.Grade = "on", On
	}
	return st
}
