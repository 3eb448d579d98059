package parts

import "halfsplit/core/circuit"

// Blocks with a semiconductor in them.

// diodeBlock lets current pass from its panel side to its field side only.
var diodeBlock = &Kind{
	Name: "diode-block", Block: true, Letters: []string{"X", "R", "V"}, Symbol: "terminal-diode",
	Metals: []Metal{{Side: "in"}, {Side: "out"}},
	Build:  func(b *Builder) { addDiode(b, b.Ref, b.Metal(0), b.Metal(1), blockForward) },
}

// ledBlock is two levels with a light between them: lit while the upper one is
// positive to the lower.
var ledBlock = &Kind{
	Name: "led-block", Block: true, Letters: []string{"X"}, Symbol: "terminal-led",
	Metals: []Metal{{Level: 1}, {Level: 2}},
	Build: func(b *Builder) {
		plus, minus := b.Metal(1), b.Metal(0)
		l := &led{ohms: (nominalVolts - ledForward) / ledAmps}
		l.branch = b.Branch(RoleIndicator, b.Ref, plus, minus, circuit.Value{G: diodeLeak}, circuit.ACValue{Y: diodeLeak})
		e := b.Element(b.Ref, l, 0, plus, minus)
		b.net.Lights = append(b.net.Lights, Light{Ref: b.Ref, Element: e, Watch: l})
		b.Mode(Mode{Thing: b.Ref, Name: "open", Class: "open", Changes: []Change{Open(l.branch)}, Rate: rateLamp * 0.7, Repair: "replace-part"})
	},
}

const (
	blockForward = 0.7  // V, silicon junction, textbook value
	ledForward   = 2.0  // V, red or yellow light-emitting diode, textbook value
	ledAmps      = 5e-3 // A at 24 V: common practice
	ledSeen      = 1e-3 // A from which it is seen: choice
)

// A led is a light-emitting diode with its resistor: mode 1 conducts.
type led struct {
	branch int
	ohms   float64
}

func (l *led) Stamp(s State, _ float64, w Writer) {
	v := circuit.Value{G: diodeLeak}
	if s.Mode == 1 {
		v = circuit.Value{G: 1 / l.ohms, E: -ledForward}
	}
	w.DC(l.branch, v)
	w.AC(l.branch, circuit.ACValue{Y: complex(v.G, 0)})
}

func (l *led) Next(s State, _ float64, v View) (State, Wait) {
	e := v.Ends(l.branch)
	if on := v.DC(e.A, e.B) > ledForward; on != (s.Mode == 1) {
		return State{Mode: 1 - s.Mode}, Wait{}
	}
	return s, Wait{}
}

// Status of a light that sees an alternating voltage beside a direct one is
// mixed: it conducts half the time.
func (l *led) Status(_ State, _ float64, v View) Status {
	e := v.Ends(l.branch)
	st := Status{State: "dark", Volts: v.DC(e.A, e.B), Amps: v.Volts.I(l.branch), Mixed: v.AC(e.A, e.B) > 0.5}
	if st.Amps >= ledSeen {
		st.State, st.Grade = "lit", On
	}
	return st
}
