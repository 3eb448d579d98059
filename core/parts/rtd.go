package parts

import (
	"math"
	"strconv"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// Pt100, IEC 60751: R(t) = 100·(1 + A·t + B·t²) Ω from 0 °C on; the third term it
// has below 0 °C is left out, 0.05 Ω at -50 °C (from memory).
const (
	ptOhms = 100.0
	ptA    = 3.9083e-3
	ptB    = -5.775e-7
)

// PtOhms is the resistance of a Pt100 at celsius.
func PtOhms(celsius float64) float64 {
	return ptOhms * (1 + float64(ptA*celsius) + float64(float64(ptB*celsius)*celsius))
}

// PtCelsius is the temperature of a Pt100 of so many ohms.
func PtCelsius(ohms float64) float64 {
	return (-ptA + math.Sqrt(ptA*ptA-float64(4*ptB*(1-ohms/ptOhms)))) / (2 * ptB)
}

// spanRating is the temperature at the top of the process value.
func spanRating(celsius string) Rating {
	return Rating{Name: "span", Dim: unit.Ratio, Default: celsius, Source: "choice: °C at 100 % of the process value; 0 % is 0 °C"}
}

// rtd is a resistance thermometer with one lead at one end, 1, and two at the
// other, 2 and 3; used with two wires, 3 stays empty.
var rtd = &Kind{
	Name: "rtd", Letters: []string{"B", "RTD"}, Tags: []string{"TE"}, Symbol: "rtd", Analogue: true,
	Ratings:   []Rating{spanRating("100")},
	Terminals: func(*panel.Part) []Terminal { return []Terminal{{"1", Any}, {"2", Any}, {"3", Any}} },
	Build: func(b *Builder) {
		r := &resistive{span: b.R["span"]}
		r.branch = b.Resistor(RoleLoad, b.Ref, b.Terminal("1"), b.Terminal("2"), PtOhms(0))
		sense := b.Resistor(RoleContact, b.Ref+":3", b.Terminal("2"), b.Terminal("3"), rtdLeadOhms)
		b.Mode(Mode{Thing: b.Ref + ":3", Name: "open", Class: "open", Changes: []Change{Open(sense)}, Rate: rateElement * 0.2, Repair: "replace-part"})
		b.Element(b.Ref, r, 0.5)
		b.Mode(Mode{Thing: b.Ref, Name: "open", Class: "open", Changes: []Change{Open(r.branch)}, Rate: rateElement * 0.6, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "shorted", Class: "short", Changes: []Change{Resist(r.branch, burntOhms)}, Rate: rateElement * 0.2, Repair: "replace-part"})
	},
}

const rtdLeadOhms = 10e-3 // inside the head: choice

// A resistive element has no states; its input sets its resistance.
type resistive struct {
	branch int
	span   float64 // °C
}

func (r *resistive) Stamp(_ State, in float64, w Writer) {
	ohms := PtOhms(in * r.span)
	w.DC(r.branch, Resistor(ohms))
	w.AC(r.branch, ResistorAC(ohms))
}

func (*resistive) Next(s State, _ float64, _ View) (State, Wait) { return s, Wait{} }

// temperatureTerminals are L+ and M, then those of each channel: its number, and
// its number with each of the letters.
func temperatureTerminals(p *panel.Part, letters ...string) []Terminal {
	n := 4
	if p != nil && p.Channels > 0 {
		n = min(p.Channels, 64)
	}
	ts := []Terminal{{"L+", Positive}, {"M", Negative}}
	for k := range n {
		ts = append(ts, Terminal{strconv.Itoa(k), Positive})
		for _, l := range letters {
			ts = append(ts, Terminal{strconv.Itoa(k) + l, Negative})
		}
	}
	return ts
}

// temperatureChannels builds each channel of a card with temperatureTerminals, which
// is fed at L+ and M.
func (b *Builder) temperatureChannels(build func(ref, name string, feed, m circuit.Node)) {
	feed, m := b.Terminal("L+"), b.Terminal("M")
	b.Resistor(RoleLoad, b.Ref, feed, m, cardOhms)
	for _, t := range b.Kind.Terminals(b.Part)[2:] {
		if t.Pole == Positive {
			build(b.Ref+":"+t.Name, t.Name, feed, m)
		}
	}
}

// rtdInput measures resistance thermometers: a current out of a channel's first
// terminal and back into b; c looks at the far end without current, and what the
// lead of b drops is taken off twice. With two wires, c is bridged to b.
var rtdInput = &Kind{
	Name: "rtd-input", Letters: []string{"A", "K"}, Symbol: "card",
	Ratings: []Rating{
		{Name: "current", Dim: unit.Current, Default: "1 mA", Source: "measuring current 0.1 to 1 mA, IEC 60751 and common practice (from memory)"},
		{Name: "least", Dim: unit.Voltage, Default: "19.2 V", Source: "controller supply range 19.2 to 30 V, module data"},
	},
	Terminals: func(p *panel.Part) []Terminal { return temperatureTerminals(p, "b", "c") },
	Build: func(b *Builder) {
		b.temperatureChannels(func(ref, name string, feed, m circuit.Node) {
			r := &rtdChannel{feed: feed, m: m, a: b.Terminal(name), b: b.Terminal(name + "b"), c: b.Terminal(name + "c"), amps: b.R["current"], least: b.R["least"]}
			r.source = b.Branch(RoleSource, ref, r.b, r.a, circuit.Value{G: unfedLeak}, circuit.ACValue{Y: unfedLeak})
			b.Resistor(RoleContact, ref, r.a, r.c, sensePull)
			b.Resistor(RoleContact, ref, r.b, m, measureToM)
			e := b.Element(ref, r, inputSound, r.a, r.b, r.c, feed, m)
			b.Device(ref, e, r)
			b.Mode(Mode{Thing: ref, Name: "input-dead", Place: ref, Changes: []Change{{What: FixInput, Element: e, Input: inputDead}}, Rate: rateChannel, Repair: "replace-channel"})
		})
	},
}

// Choices of the model.
const (
	sensePull   = 10e6  // ohms, pulls c up when its lead is broken
	measureToM  = 100e3 // ohms, holds the measuring circuit near the card's 0 V
	compliance  = 5.0   // V of the measuring source
	sourceSlope = 0.01  // S at its compliance
)

// An rtdChannel drives its current while it is fed, up to its compliance.
type rtdChannel struct {
	feed, m, a, b, c circuit.Node
	source           int
	amps, least      float64
}

const (
	measureOff = iota
	measureDriving
	measureOpen // at its compliance
)

func (r *rtdChannel) Stamp(s State, _ float64, w Writer) {
	v := circuit.Value{G: unfedLeak}
	switch s.Mode {
	case measureDriving:
		v = circuit.Value{J: r.amps}
	case measureOpen:
		v = circuit.Value{G: sourceSlope, E: compliance}
	}
	w.DC(r.source, v)
}

func (r *rtdChannel) Next(s State, _ float64, v View) (State, Wait) {
	knee := compliance - r.amps/sourceSlope
	volts := v.DC(r.a, r.b)
	switch {
	case v.DC(r.feed, r.m) < r.least:
		return State{}, Wait{}
	case s.Mode == measureOff:
		return State{Mode: measureOpen}, Wait{}
	case s.Mode == measureOpen && volts < knee:
		return State{Mode: measureDriving}, Wait{}
	case s.Mode == measureDriving && volts > knee:
		return State{Mode: measureOpen}, Wait{}
	}
	return s, Wait{}
}

// Status takes a resistance that no Pt100 has for a broken lead.
func (r *rtdChannel) Status(s State, in float64, v View) Status {
	st := Status{State: "off", Volts: v.DC(r.a, r.b), Amps: v.Volts.I(r.source)}
	if s.Mode == measureOff || in == inputDead {
		return st
	}
	ohms := (st.Volts - float64(2*v.DC(r.c, r.b))) / r.amps
	switch {
	case s.Mode == measureOpen || ohms < -ptLow || ohms > 2*ptHigh:
		st.State, st.Grade = "line-break", Weak
	case ohms < ptLow:
		st.State, st.Grade = "under-range", Weak
	case ohms > ptHigh:
		st.State, st.Grade = "over-range", Weak
	default:
		st.State, st.Grade, st.Celsius = "measuring", On, PtCelsius(ohms)
	}
	return st
}

// The ends of the range of a Pt100, IEC 60751: -200 °C and 850 °C.
const (
	ptLow  = 18.52
	ptHigh = 390.48
)

// ModeName implements Namer.
func (r *rtdChannel) ModeName(s State) string {
	return [...]string{"unfed", "measuring", "line-break"}[s.Mode]
}
