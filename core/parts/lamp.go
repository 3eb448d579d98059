package parts

import (
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

var lamp = &Kind{
	Name: "pilot-light", Letters: []string{"P", "H", "LT", "PL"}, Tags: []string{"*L"}, Symbol: "lamp",
	Ratings: []Rating{
		{Name: "voltage", Dim: unit.Voltage, Default: "24 V", Source: "IEC 61131-2 nominal control voltage"},
		{Name: "current", Dim: unit.Current, Default: "20 mA", Source: "LED pilot light, order of magnitude, from memory"},
	},
	Terminals: func(*panel.Part) []Terminal { return []Terminal{{"X1", Any}, {"X2", Any}} },
	Build: func(b *Builder) {
		l := &load{rated: b.R["voltage"], on: 0.6, weak: 0.2, words: [3]string{"dark", "dim", "lit"}}
		l.branch = b.Resistor(RoleLoad, b.Ref, b.Terminal("X1"), b.Terminal("X2"), b.R["voltage"]/b.R["current"])
		e := b.Element(b.Ref, l, 0, b.Terminal("X1"), b.Terminal("X2"))
		b.Device(b.Ref, e, l)
		b.Mode(Mode{Thing: b.Ref, Name: "open", Class: "open", Changes: []Change{Open(l.branch)}, Rate: rateLamp, Repair: "replace-part"})
	},
}

// A load is a two-terminal device without memory: on above a share of its rated
// voltage, weak above a lower one, and only while it draws current.
type load struct {
	branch   int
	rated    float64
	on, weak float64   // shares of rated; choices: 60 % to be seen lit, 85 % to run
	words    [3]string // states by Grade
}

func (*load) Stamp(State, float64, Writer) {}

func (*load) Next(s State, _ float64, _ View) (State, Wait) { return s, Wait{} }

func (l *load) Status(_ State, _ float64, v View) Status {
	e := v.Ends(l.branch)
	volts, mixed := v.Level(e.A, e.B)
	st := Status{Volts: volts, Amps: v.Amps(l.branch), Mixed: mixed}
	if st.Amps > 0 {
		switch {
		case volts >= l.on*l.rated:
			st.Grade = On
		case volts >= l.weak*l.rated:
			st.Grade = Weak
		}
	}
	st.State = l.words[st.Grade]
	return st
}
