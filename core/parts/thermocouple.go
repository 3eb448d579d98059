package parts

import (
	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// typeK is the electromotive force of a type K couple in mV against 0 °C at the
// other end, IEC 60584-1 (as in ITS-90 tables), on straight lines between.
var typeK = []struct{ celsius, millivolts float64 }{
	{-200, -5.891}, {-100, -3.554}, {-70, -2.587}, {-50, -1.889}, {0, 0}, {20, 0.798}, {50, 2.023}, {100, 4.096}, {150, 6.138}, {200, 8.138},
	{250, 10.153}, {300, 12.209}, {400, 16.397}, {500, 20.644}, {600, 24.905}, {700, 29.129}, {800, 33.275},
	{900, 37.326}, {1000, 41.276}, {1100, 45.119}, {1200, 48.838}, {1300, 52.410},
}

// coldJunction is the temperature of all copper and of every other joint: the
// model has no other. A couple's terminals and its input's are taken to be at it, and
// the extension leads between to be of the couple's own metals.
const coldJunction = 20.0 // °C

// TypeKVolts is the electromotive force of a type K couple at celsius, its other
// end at 20 °C.
func TypeKVolts(celsius float64) float64 {
	return (kMillivolts(celsius) - kMillivolts(coldJunction)) * 1e-3
}

// TypeKCelsius is the temperature at which it has so many volts.
func TypeKCelsius(volts float64) float64 {
	mv := float64(1e3*volts) + kMillivolts(coldJunction)
	k := 1
	for k < len(typeK)-1 && mv > typeK[k].millivolts {
		k++
	}
	a, b := typeK[k-1], typeK[k]
	return a.celsius + float64((b.celsius-a.celsius)*((mv-a.millivolts)/(b.millivolts-a.millivolts)))
}

func kMillivolts(celsius float64) float64 {
	k := 1
	for k < len(typeK)-1 && celsius > typeK[k].celsius {
		k++
	}
	a, b := typeK[k-1], typeK[k]
	return a.millivolts + float64((b.millivolts-a.millivolts)*((celsius-a.celsius)/(b.celsius-a.celsius)))
}

// thermocouple is a type K couple. Shorted anywhere on its way, it shows the
// temperature there.
var thermocouple = &Kind{
	Name: "thermocouple", Letters: []string{"B"}, Tags: []string{"TE"}, Symbol: "thermocouple", Analogue: true,
	Ratings: []Rating{
		spanRating("500"),
		{Name: "resistance", Dim: unit.Resistance, Default: "10 ohm", Source: "choice: some metres of extension lead"},
	},
	Terminals: func(*panel.Part) []Terminal { return []Terminal{{"+", Positive}, {"-", Negative}} },
	Build: func(b *Builder) {
		c := &couple{span: b.R["span"], ohms: b.R["resistance"]}
		c.branch = b.Branch(RoleSource, b.Ref, b.Terminal("-"), b.Terminal("+"), Resistor(c.ohms), ResistorAC(c.ohms))
		b.Element(b.Ref, c, 0.5)
		b.Mode(Mode{Thing: b.Ref, Name: "open", Class: "open", Changes: []Change{Open(c.branch)}, Rate: rateElement * 0.7, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "shorted", Class: "short", Changes: []Change{Resist(c.branch, burntOhms)}, Rate: rateElement * 0.3, Repair: "replace-part"})
	},
}

// A couple has no states; its input sets its voltage.
type couple struct {
	branch     int
	span, ohms float64
}

func (c *couple) Stamp(_ State, in float64, w Writer) {
	w.DC(c.branch, circuit.Value{G: 1 / c.ohms, E: TypeKVolts(in * c.span)})
	w.AC(c.branch, ResistorAC(c.ohms))
}

func (*couple) Next(s State, _ float64, _ View) (State, Wait) { return s, Wait{} }

// thermocoupleInput measures type K couples between a channel's terminal and its
// b. A little current out of the first drives the reading up when the line breaks.
var thermocoupleInput = &Kind{
	Name: "thermocouple-input", Letters: []string{"A", "K"}, Symbol: "card",
	Ratings: []Rating{
		{Name: "burnout", Dim: unit.Current, Default: "0.1 uA", Source: "order of magnitude of break detection, from memory"},
		{Name: "least", Dim: unit.Voltage, Default: "19.2 V", Source: "controller supply range 19.2 to 30 V, module data"},
	},
	Terminals: func(p *panel.Part) []Terminal { return temperatureTerminals(p, "b") },
	Build: func(b *Builder) {
		b.temperatureChannels(func(ref, name string, feed, m circuit.Node) {
			c := &coupleChannel{feed: feed, m: m, plus: b.Terminal(name), minus: b.Terminal(name + "b"), burnout: b.R["burnout"], least: b.R["least"]}
			c.branch = b.Branch(RoleLoad, ref, c.minus, c.plus, circuit.Value{G: 1 / coupleInputOhms}, circuit.ACValue{Y: 1 / coupleInputOhms})
			b.Resistor(RoleContact, ref, c.minus, m, coupleToM)
			e := b.Element(ref, c, inputSound, c.plus, c.minus, feed, m)
			b.Device(ref, e, c)
			b.Mode(Mode{Thing: ref, Name: "input-dead", Place: ref, Changes: []Change{{What: FixInput, Element: e, Input: inputDead}}, Rate: rateChannel, Repair: "replace-channel"})
		})
	},
}

// Choices of the model.
const (
	coupleInputOhms = 10e6
	coupleToM       = 1e6 // holds the couple near the card's 0 V
)

// A coupleChannel is a voltmeter with a little current of its own: mode 1 is fed.
type coupleChannel struct {
	feed, m, plus, minus circuit.Node
	branch               int
	burnout, least       float64
}

func (c *coupleChannel) Stamp(s State, _ float64, w Writer) {
	v := Resistor(coupleInputOhms)
	if s.Mode == 1 {
		v.J = c.burnout
	}
	w.DC(c.branch, v)
}

func (c *coupleChannel) Next(_ State, _ float64, v View) (State, Wait) {
	if v.DC(c.feed, c.m) < c.least {
		return State{}, Wait{}
	}
	return State{Mode: 1}, Wait{}
}

// Status takes a voltage that no couple gives for a broken line.
func (c *coupleChannel) Status(s State, in float64, v View) Status {
	st := Status{State: "off", Volts: v.DC(c.plus, c.minus), Amps: v.Volts.I(c.branch)}
	if s.Mode == 0 || in == inputDead {
		return st
	}
	switch low, high := TypeKVolts(typeK[0].celsius), TypeKVolts(typeK[len(typeK)-1].celsius); {
	case st.Volts > 2*high:
		st.State, st.Grade = "line-break", Weak
	case st.Volts > high:
		st.State, st.Grade = "over-range", Weak
	case st.Volts < low:
		st.State, st.Grade = "under-range", Weak
	default:
		st.State, st.Grade, st.Celsius = "measuring", On, TypeKCelsius(st.Volts)
	}
	return st
}

// ModeName implements Namer.
func (c *coupleChannel) ModeName(s State) string { return [...]string{"unfed", "fed"}[s.Mode] }
