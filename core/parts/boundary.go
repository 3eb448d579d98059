package parts

import (
	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// boundary is where the drawing ends: what lies beyond is not drawn and not
// known. It is, as the document says, a feed of a stated voltage, a load of a
// stated resistance, or nothing. What it is fed by or feeds is never told, so its
// status is unknown.
var boundary = &Kind{
	Name: "boundary", Letters: []string{"X", "G", "U"}, Symbol: "boundary", Source: true, Feeds: true, Keeps: "foreign",
	Ratings: []Rating{
		{Name: "beyond", Words: []string{beyondFeed, beyondLoad, beyondNothing}, Source: "the document: what the far side is taken for; nothing where unsaid"},
		{Name: "voltage", Dim: unit.Voltage, Default: "24 V", Source: "IEC 61131-2 nominal control voltage; of a feed"},
		{Name: "resistance", Dim: unit.Resistance, Default: "0.5 ohm", Source: "choice: of a feed, some wire and a small supply; a load states its own"},
		{Name: "frequency", Dim: unit.Frequency, Source: "given for an alternating feed"},
		{Name: "class", Words: []string{"PELV", "SELV", "none"}, Source: "the document: PELV, SELV or none"},
		{Name: "bonded", Words: []string{"yes", "no"}, Source: "the document: \"no\" where a feed floats on purpose, or its bond is not drawn"},
	},
	Positions: []Position{{"on", "switch-on", 0}, {"off", "switch-off", 1}},
	Terminals: func(p *panel.Part) []Terminal {
		switch {
		case p == nil || p.Ratings["beyond"] != beyondFeed:
			return []Terminal{{"1", Any}, {"2", Any}}
		case p.Ratings["frequency"] != "":
			return []Terminal{{"1", Line}, {"2", Neutral}}
		}
		return []Terminal{{"1", Positive}, {"2", Negative}}
	},
	Build: func(b *Builder) {
		one, two := b.Terminal("1"), b.Terminal("2")
		f := &beyond{ohms: b.R["resistance"], volts: b.R["voltage"], branch: -1}
		switch b.Part.Ratings["beyond"] {
		case beyondFeed:
			f.alternates = b.R["frequency"] > 0
			f.branch = b.Branch(RoleSource, b.Ref, two, one, circuit.Value{}, circuit.ACValue{})
			b.Mode(Mode{Thing: b.Ref, Name: "no-supply", Class: "open", Changes: []Change{Open(f.branch)}, Rate: rateSupply, Repair: "look-beyond"})
		case beyondLoad:
			f.volts = 0
			if b.Part.Ratings["resistance"] == "" {
				f.ohms = beyondOhms
			}
			f.branch = b.Branch(RoleLoad, b.Ref, one, two, circuit.Value{}, circuit.ACValue{})
			b.Mode(Mode{Thing: b.Ref, Name: "open", Class: "open", Changes: []Change{Open(f.branch)}, Rate: rateSensor, Repair: "look-beyond"})
		}
		e := b.Element(b.Ref, f, 0, one, two)
		b.Device(b.Ref, e, f)
	},
}

// What a boundary may state of its far side.
const (
	beyondFeed    = "feed"
	beyondLoad    = "load"
	beyondNothing = "nothing"
)

// beyondOhms is a load of which nothing is said: choice, 24 mA at 24 V.
const beyondOhms = 1e3

// beyond is a voltage behind a resistance, or a resistance, or nothing; input 1
// switches a feed off.
type beyond struct {
	branch      int // -1: nothing
	volts, ohms float64
	alternates  bool
}

func (f *beyond) Stamp(_ State, in float64, w Writer) {
	switch {
	case f.branch < 0:
		return
	case in != 0 && f.volts > 0:
		w.DC(f.branch, circuit.Value{})
		w.AC(f.branch, circuit.ACValue{})
		return
	}
	dc, ac := Resistor(f.ohms), ResistorAC(f.ohms)
	if f.alternates {
		ac.E = complex(f.volts, 0)
	} else {
		dc.E = f.volts
	}
	w.DC(f.branch, dc)
	w.AC(f.branch, ac)
}

func (*beyond) Next(s State, _ float64, _ View) (State, Wait) { return s, Wait{} }

// Status is unknown whatever its terminals show.
func (f *beyond) Status(_ State, _ float64, v View) Status {
	st := Status{State: "unknown", Grade: Weak}
	if f.branch < 0 {
		return st
	}
	e := v.Ends(f.branch)
	st.Volts, st.Mixed = v.Level(e.A, e.B)
	st.Amps = v.Amps(f.branch)
	return st
}
