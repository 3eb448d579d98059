package parts

import (
	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// proximity2 lies in series with its load and lives on what flows through both:
// a residual current when off, a drop when on. Terminals after IEC 60947-5-2.
var proximity2 = &Kind{
	Name: "proximity-2wire", Letters: []string{"B", "S", "PRS"}, Tags: []string{"ZS", "ZSO", "ZSC", "ZSH", "ZSL", "GS"}, Symbol: "proximity", Positions: targetPositions,
	Ratings: []Rating{
		{Name: "residual", Dim: unit.Current, Default: "0.8 mA", Source: "0.5 to 1.7 mA in practice; IEC 60947-5-2 allows 1.5 mA"},
		{Name: "drop", Dim: unit.Voltage, Default: "5 V", Source: "5 to 7 V typical; IEC 60947-5-2 allows 8 V DC (from memory)"},
		{Name: "least", Dim: unit.Current, Default: "2 mA", Source: "least load current, 1 to 2 mA typical; IEC 60947-5-2 allows 5 mA (from memory)"},
		{Name: "load", Dim: unit.Current, Default: "100 mA", Source: "common practice"},
		functionRating,
	},
	Terminals: func(*panel.Part) []Terminal { return []Terminal{{"1", Positive}, {"4", Negative}} },
	Build: func(b *Builder) {
		plus, minus := b.Terminal("1"), b.Terminal("4")
		p := &seriesSensor{residual: b.R["residual"], least: b.R["least"], limit: b.R["load"], opens: b.Part.Ratings["function"] == "NC"}
		p.drop = b.R["drop"]
		p.branch = b.Branch(RoleContact, b.Ref, plus, minus, circuit.Value{G: unfedLeak}, circuit.ACValue{Y: unfedLeak})
		e := b.Element(b.Ref, p, 0, plus, minus)
		b.Device(b.Ref, e, p)
		sensorModes(b, e)
		b.Mode(Mode{Thing: b.Ref, Name: "open", Class: "open", Changes: []Change{Open(p.branch)}, Rate: rateSensor * 0.2, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "shorted", Class: "short", Changes: []Change{Resist(p.branch, burntOhms)}, Rate: rateSensor * 0.2, Repair: "replace-part"})
	},
}

// A seriesSensor is one curve of current over voltage: next to nothing up to a
// diode's drop, rising to the residual current at its own drop, flat beyond it
// when off, steep when on, flat at its limit.
type seriesSensor struct {
	branch                       int
	residual, drop, least, limit float64
	opens                        bool
}

const (
	seriesUnfed = iota
	seriesRising
	seriesOff
	seriesOn
	seriesLimiting
)

// value of the branch in a mode.
func (p *seriesSensor) value(mode int) circuit.Value {
	switch mode {
	case seriesRising:
		return circuit.Value{G: p.residual / (p.drop - feedDrop), E: -feedDrop}
	case seriesOff:
		return circuit.Value{J: p.residual}
	case seriesOn:
		return circuit.Value{G: outputSlope, E: p.residual/outputSlope - p.drop}
	case seriesLimiting:
		return circuit.Value{J: p.limit}
	}
	return circuit.Value{G: unfedLeak}
}

func (p *seriesSensor) Stamp(s State, _ float64, w Writer) {
	v := p.value(s.Mode)
	w.DC(p.branch, v)
	w.AC(p.branch, circuit.ACValue{Y: complex(max(v.G, unfedLeak), 0)})
}

// Next goes along the curve one piece at a time: a jump over a piece can land
// where the circuit sends it straight back.
func (p *seriesSensor) Next(s State, in float64, v View) (State, Wait) {
	e := v.Ends(p.branch)
	volts, full := v.DC(e.A, e.B), p.drop+float64((p.limit-p.residual)/outputSlope)
	switch s.Mode {
	case seriesUnfed:
		if volts > feedDrop {
			return State{Mode: seriesRising}, Wait{}
		}
		return s, Wait{}
	case seriesRising:
		switch {
		case volts <= feedDrop:
			return State{}, Wait{}
		case volts < p.drop:
			return s, Wait{}
		}
	case seriesLimiting:
		if switchedOn(in, p.opens) && volts >= full {
			return s, Wait{}
		}
	default:
		if volts < p.drop {
			return State{Mode: seriesRising}, Wait{}
		}
		if s.Mode == seriesOn && volts > full && switchedOn(in, p.opens) {
			return State{Mode: seriesLimiting}, Wait{}
		}
	}
	if switchedOn(in, p.opens) {
		return State{Mode: seriesOn}, Wait{}
	}
	return State{Mode: seriesOff}, Wait{}
}

// Status is what the sensor's light shows; below its least load current it does
// not switch reliably.
func (p *seriesSensor) Status(s State, _ float64, v View) Status {
	e := v.Ends(p.branch)
	st := Status{State: "off", Volts: v.DC(e.A, e.B), Amps: v.Volts.I(p.branch)}
	switch {
	case s.Mode == seriesLimiting:
		st.State, st.Grade = "limiting", Weak
	case s.Mode == seriesOn && st.Amps >= p.least:
		st.State, st.Grade = "on", On
	case s.Mode == seriesOn:
		st.State, st.Grade = "starved", Weak
	}
	return st
}

// ModeName implements Namer.
func (p *seriesSensor) ModeName(s State) string {
	return [...]string{"unfed", "rising", "off", "on", "limiting"}[s.Mode]
}
