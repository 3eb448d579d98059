package parts

import (
	"math"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// digitalInput is a card of inputs with one common terminal. A sinking input
// takes current from its terminal to M and wants a sensor that switches plus; a
// sourcing one gives current from L+ to its terminal and wants one that switches
// 0 V (IEC 61131-2); an ac one takes line voltage to N.
var digitalInput = &Kind{
	Name: "digital-input", Letters: []string{"A", "K"}, Symbol: "card",
	Ratings: []Rating{
		{Name: "form", Words: []string{"sinking", "sourcing", "ac"}, Source: "the document; sinking where unsaid, the usual form with PNP sensors"},
		{Name: "type", Words: []string{"1", "2", "3"}, Source: "the document: type of IEC 61131-2; 1 where unsaid"},
		{Name: "resistance", Dim: unit.Resistance, Default: "4.8 kohm", Source: "type 1: 5 mA at 24 V, module data"},
		{Name: "current", Dim: unit.Current, Source: "constant, of types 2 and 3: 7 mA (IEC 61131-2 asks 6 mA at 11 V, from memory) and 2.6 mA (module data: about 3 mA)"},
		{Name: "off", Dim: unit.Voltage, Default: "5 V", Source: "IEC 61131-2: off up to 5 V; ac: 20 V, module data"},
		{Name: "on", Dim: unit.Voltage, Default: "15 V", Source: "IEC 61131-2 type 1: on from 15 V; types 2 and 3 from 11 V; ac: 79 V, module data"},
	},
	Wants: func(p *panel.Part) Pole {
		switch inputCommon(p).Pole {
		case Positive:
			return Negative
		case Neutral:
			return Line
		}
		return Positive
	},
	Terminals: func(p *panel.Part) []Terminal { return channelTerminals(p, inputCommon(p)) },
	Build: func(b *Builder) {
		common := inputCommon(b.Part)
		c := b.Terminal(common.Name)
		b.channels(b.Kind.Terminals(b.Part), 1, func(ref string, t circuit.Node) {
			from, to := t, c
			if common.Pole == Positive {
				from, to = c, t
			}
			d := newInput(b)
			d.branch = b.Branch(RoleLoad, ref, from, to, d.value(State{}), circuit.ACValue{Y: complex(d.chord, 0)})
			e := b.Element(ref, d, inputSound, t, c)
			b.Device(ref, e, d)
			if d.alternating {
				b.net.Devices[len(b.net.Devices)-1].Rated = acOn
			}
			b.Mode(Mode{Thing: ref, Name: "input-dead", Place: ref, Changes: []Change{{What: FixInput, Element: e, Input: inputDead}}, Rate: rateChannel, Repair: "replace-channel"})
		})
	},
}

// inputCommon is the terminal the inputs of a card share.
func inputCommon(p *panel.Part) Terminal {
	switch {
	case sourcing(p):
		return Terminal{"L+", Positive}
	case p != nil && p.Ratings["form"] == "ac":
		return Terminal{"N", Neutral}
	}
	return Terminal{"M", Negative}
}

// The inputs whose figures are not those of type 1.
const (
	type2Amps = 7e-3
	type3Amps = 2.6e-3
	type23On  = 11.0 // V
	acOff     = 20.0 // V
	acOn      = 79.0 // V
	acOhms    = 22e3 // below 5 mA at 40 V, above 6 mA at 159 V, module data
)

// newInput reads what this card's inputs are.
func newInput(b *Builder) *input {
	d := &input{off: b.R["off"], on: b.R["on"], chord: 1 / b.R["resistance"], alternating: b.Part.Ratings["form"] == "ac"}
	otherwise := func(rating string, v float64, to *float64) {
		if b.Part.Ratings[rating] == "" {
			*to = v
		}
	}
	switch t := b.Part.Ratings["type"]; {
	case d.alternating:
		otherwise("off", acOff, &d.off)
		otherwise("on", acOn, &d.on)
		otherwise("resistance", 1/acOhms, &d.chord)
	case t == "2" || t == "3":
		otherwise("on", type23On, &d.on)
		d.amps = map[string]float64{"2": type2Amps, "3": type3Amps}[t]
		if amps := b.R["current"]; amps > 0 {
			d.amps = amps
		}
		d.chord = d.amps / nominalVolts
	}
	return d
}

// An input is a digital input: off, on, or undefined between its limits, where
// IEC 61131-2 allows either. One of type 2 or 3 draws a constant current above its
// off limit: mode 1. Its element input says whether its electronics are sound.
type input struct {
	branch      int
	off, on     float64 // volts
	chord       float64 // S of a resistive input; of the others at the mains frequency
	amps        float64 // constant; 0 of a resistive input
	alternating bool
}

const (
	inputSound = 0
	inputDead  = 1
)

func (d *input) value(s State) circuit.Value {
	switch {
	case d.amps == 0:
		return circuit.Value{G: d.chord}
	case s.Mode == 1:
		return circuit.Value{J: d.amps}
	}
	return circuit.Value{G: d.amps / d.off}
}

func (d *input) Stamp(s State, _ float64, w Writer) { w.DC(d.branch, d.value(s)) }

func (d *input) Next(s State, _ float64, v View) (State, Wait) {
	e := v.Ends(d.branch)
	if full := d.amps > 0 && v.DC(e.A, e.B) > d.off; full != (s.Mode == 1) {
		return State{Mode: 1 - s.Mode}, Wait{}
	}
	return s, Wait{}
}

func (d *input) Status(_ State, in float64, v View) Status {
	e := v.Ends(d.branch)
	dc, ac := v.DC(e.A, e.B), v.AC(e.A, e.B)
	st := Status{State: "off", Volts: dc, Amps: v.Volts.I(d.branch), Mixed: ac > 0.5 && math.Abs(dc) > 0.5}
	if d.alternating {
		st.Volts, st.Amps = ac, v.ACAmps(d.branch)
	}
	switch {
	case in == inputDead:
	case st.Volts >= d.on:
		st.State, st.Grade = "on", On
	case st.Volts > d.off:
		st.State, st.Grade = "undefined", Weak
	}
	return st
}
