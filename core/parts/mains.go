package parts

import (
	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// earthings says, for each IEC 60364 system, how the source's star point and the
// protective conductor meet earth, in ohms. Source: the meaning of the letters;
// the figures are choices (a TT electrode of 10 Ω, an insulated IT source).
var earthings = map[string]struct{ star, pe float64 }{
	"TN-S":   {0.01, 0.05},
	"TN-C-S": {0.01, 0.05},
	"TT":     {1, 10},
	"IT":     {1e6, 1},
}

var mains = &Kind{
	Name: "mains", Letters: []string{"G"}, Symbol: "mains", Source: true, Feeds: true, Isolates: true,
	Ratings: []Rating{
		{Name: "voltage", Dim: unit.Voltage, Default: "230 V", Source: "IEC 60038"},
		{Name: "frequency", Dim: unit.Frequency, Default: "50 Hz", Source: "IEC 60038"},
		{Name: "impedance", Dim: unit.Resistance, Default: "0.4 ohm", Source: "order of magnitude of a final circuit, from memory"},
	},
	Positions: []Position{{"on", "switch-on", 0}, {"off", "switch-off", 1}},
	Terminals: func(*panel.Part) []Terminal {
		return []Terminal{{"L", Line}, {"N", Neutral}, {"PE", Earth}}
	},
	Build: func(b *Builder) {
		l, n, pe := b.Terminal("L"), b.Terminal("N"), b.Terminal("PE")
		star := b.Inner("star point")
		earth, ok := earthings[b.System]
		if !ok {
			earth = earthings["TN-S"] // package check has told; the model must stand
		}
		b.Earthing(pe)
		b.Resistor(RoleSource, b.Ref, star, circuit.Earth, earth.star)
		b.Resistor(RoleSource, b.Ref, pe, circuit.Earth, earth.pe)
		half := b.R["impedance"] / 2
		m := &incoming{
			line:    b.Branch(RoleSource, b.Ref, star, l, circuit.Value{}, circuit.ACValue{}),
			neutral: b.Resistor(RoleSource, b.Ref, star, n, half),
			volts:   b.R["voltage"], ohms: half,
		}
		e := b.Element(b.Ref, m, 0, l, n)
		b.Device(b.Ref, e, m)
		b.net.Frequency = b.R["frequency"]
		b.Mode(Mode{Thing: b.Ref, Name: "no-supply", Changes: []Change{Open(m.line)}, Rate: rateSupply, Repair: "restore-supply"})
	},
}

// incoming is line and neutral up to the panel; input 1 is switched off, both
// poles.
type incoming struct {
	line, neutral int
	volts, ohms   float64
}

func (m *incoming) Stamp(_ State, in float64, w Writer) {
	if in != 0 {
		for _, k := range []int{m.line, m.neutral} {
			w.DC(k, circuit.Value{})
			w.AC(k, circuit.ACValue{})
		}
		return
	}
	w.DC(m.line, Resistor(m.ohms))
	w.AC(m.line, circuit.ACValue{Y: complex(1/m.ohms, 0), E: complex(m.volts, 0)})
	w.DC(m.neutral, Resistor(m.ohms))
	w.AC(m.neutral, ResistorAC(m.ohms))
}

func (*incoming) Next(s State, _ float64, _ View) (State, Wait) { return s, Wait{} }

func (m *incoming) Status(_ State, _ float64, v View) Status {
	l, n := v.Ends(m.line).B, v.Ends(m.neutral).B
	st := Status{State: "off", Volts: v.AC(l, n), Amps: v.Amps(m.line)}
	if st.Volts >= 0.85*m.volts {
		st.State, st.Grade = "on", On
	}
	return st
}
