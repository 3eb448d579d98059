package parts

import (
	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// transmitter3 is fed between + and - and drives its signal from + out of S; the
// signal returns with the supply.
var transmitter3 = &Kind{
	Name: "transmitter-3wire", Letters: []string{"B"}, Tags: []string{"*T", "*IT"}, Symbol: "transmitter", Analogue: true,
	Ratings: []Rating{
		{Name: "power", Dim: unit.Power, Default: "1 W", Source: "choice: a small field instrument at 24 V"},
		{Name: "least", Dim: unit.Voltage, Default: "15 V", Source: "common practice: 15 to 30 V supply"},
		{Name: "headroom", Dim: unit.Voltage, Default: "4 V", Source: "choice: it gives 20 mA into 1000 ohm at 24 V"},
	},
	Terminals: func(*panel.Part) []Terminal {
		return []Terminal{{"+", Positive}, {"-", Negative}, {"S", Any}, {"PE", Earth}}
	},
	Build: func(b *Builder) {
		plus, minus, signal := b.Terminal("+"), b.Terminal("-"), b.Terminal("S")
		t := &threeWire{twoWire: twoWire{empty: b.R["headroom"], full: b.R["headroom"]}, least: b.R["least"]}
		t.supply = b.Resistor(RoleLoad, b.Ref, plus, minus, nominalVolts*nominalVolts/b.R["power"])
		t.branch = b.Branch(RoleSource, b.Ref, plus, signal, circuit.Value{G: twoWireLeak}, circuit.ACValue{Y: twoWireLeak})
		b.Frame(b.Terminal("PE"))
		e := b.Element(b.Ref, t, 0.5, plus, minus, signal)
		b.Device(b.Ref, e, t)
		failModes(b, e)
		b.Mode(Mode{Thing: b.Ref, Name: "no-output", Class: "open", Changes: []Change{Open(t.branch)}, Rate: rateSensor * 0.2, Repair: "replace-part"})
	},
}

// threeWireMS is from the supply to the first signal. Choice: instrument data give 0.1 s
// to several seconds (from memory).
const threeWireMS = 1000.0

// A threeWire drives its signal as a two-wire instrument regulates its own, with a
// lesser voltage across it, and only while it is fed. It starts anew each time: where
// its own signal draws a poor supply down it never gets further.
type threeWire struct {
	twoWire
	supply int
	least  float64
}

func (t *threeWire) fed(v View) bool {
	e := v.Ends(t.supply)
	return v.DC(e.A, e.B) >= t.least
}

func (t *threeWire) Next(s State, in float64, v View) (State, Wait) {
	if !t.fed(v) {
		return State{Mode: loopBlocked}, Wait{}
	}
	next, wait := t.twoWire.Next(s, in, v)
	if s.Mode == loopBlocked && next.Mode != loopBlocked {
		wait = Wait{threeWireMS, threeWireMS}
	}
	return next, wait
}

func (t *threeWire) Status(s State, in float64, v View) Status {
	e := v.Ends(t.supply)
	st := t.twoWire.Status(s, in, v)
	st.Volts = v.DC(e.A, e.B)
	return st
}
