package parts

import (
	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// The interface of NAMUR sensors, IEC 60947-5-6: 8.2 V behind 1 kΩ; at least
// 2.1 mA is one state, at most 1.2 mA the other. A centred hysteresis of 0.2 mA is
// preferred.
const (
	namurVolts = 8.2
	namurOhms  = 1000.0
	namurUp    = 1.75e-3 // A, midway and half the hysteresis
	namurDown  = 1.55e-3
)

// namurSensor is a two-wire sensor whose resistance rises with a target before
// it.
var namurSensor = &Kind{
	Name: "namur-sensor", Letters: []string{"B", "S", "PRS"}, Tags: []string{"ZS", "ZSO", "ZSC", "ZSH", "ZSL", "GS"}, Symbol: "proximity", Positions: targetPositions,
	Ratings: []Rating{
		{Name: "free", Dim: unit.Current, Default: "3 mA", Source: "without a target, at 8.2 V and 1 kohm: at least 3 mA, instrument data; IEC 60947-5-6 asks 2.1 mA"},
		{Name: "reached", Dim: unit.Current, Default: "1 mA", Source: "with a target: at most 1 mA, instrument data; IEC 60947-5-6 allows 1.2 mA"},
	},
	Terminals: func(*panel.Part) []Terminal { return []Terminal{{"+", Positive}, {"-", Negative}} },
	Build: func(b *Builder) {
		plus, minus := b.Terminal("+"), b.Terminal("-")
		n := &namur{free: namurConductance(b.R["free"]), reached: namurConductance(b.R["reached"])}
		n.branch = b.Branch(RoleLoad, b.Ref, plus, minus, circuit.Value{G: unfedLeak}, circuit.ACValue{Y: unfedLeak})
		e := b.Element(b.Ref, n, 0, plus, minus)
		b.Mode(Mode{Thing: b.Ref, Name: "open", Class: "open", Changes: []Change{Open(n.branch)}, Rate: rateSensor * 0.2, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "shorted", Class: "short", Changes: []Change{Resist(n.branch, burntOhms)}, Rate: rateSensor * 0.2, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "stuck-on", Changes: []Change{{What: FixInput, Element: e, Input: 1}}, Rate: rateSensor * 0.2, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "stuck-off", Changes: []Change{{What: FixInput, Element: e}}, Rate: rateSensor * 0.3, Repair: "replace-part"})
	},
}

// namurConductance is that of a sensor behind its guard diode which lets a current
// flow at the interface's 8.2 V and 1 kΩ.
func namurConductance(amps float64) float64 {
	return amps / max(namurVolts-feedDrop-float64(namurOhms*amps), 0.1)
}

// A namur is a resistance that a target changes, behind a diode: mode 1 conducts.
type namur struct {
	branch        int
	free, reached float64 // S
}

func (n *namur) Stamp(s State, in float64, w Writer) {
	v := circuit.Value{G: unfedLeak}
	if s.Mode == 1 {
		v = circuit.Value{G: n.free, E: -feedDrop}
		if in != 0 {
			v.G = n.reached
		}
	}
	w.DC(n.branch, v)
	w.AC(n.branch, circuit.ACValue{Y: complex(v.G, 0)})
}

func (n *namur) Next(s State, _ float64, v View) (State, Wait) {
	e := v.Ends(n.branch)
	if on := v.DC(e.A, e.B) > feedDrop; on != (s.Mode == 1) {
		return State{Mode: 1 - s.Mode}, Wait{}
	}
	return s, Wait{}
}

// namurAmplifier feeds a NAMUR sensor, apart from its own supply, and passes its
// state on by relay contacts, or by a transistor from O+ to O-. A current that no
// sound sensor draws is a broken or a shorted line, and releases the output.
var namurAmplifier = &Kind{
	Name: "namur-amplifier", Letters: []string{"K", "T", "A"}, Symbol: "amplifier",
	Ratings: []Rating{
		{Name: "power", Dim: unit.Power, Default: "0.8 W", Source: "choice: one channel at 24 V"},
		{Name: "least", Dim: unit.Voltage, Default: "18 V", Source: "choice: -25 % of 24 V"},
		{Name: "break", Dim: unit.Current, Default: "0.15 mA", Source: "IEC 60947-5-6: between 0.05 and 0.35 mA (from memory)"},
		{Name: "short", Dim: unit.Current, Default: "6.5 mA", Source: "IEC 60947-5-6: above 6 mA (from memory)"},
		{Name: "action", Words: []string{"direct", "inverse"}, Source: "the document: direct operates without a target, inverse with one; direct where unsaid"},
		{Name: "output", Words: []string{"relay", "transistor"}, Source: "the document; relay where unsaid"},
		{Name: "leakage", Dim: unit.Current, Default: "0.01 mA", Source: "choice: of a transistor that is off, at 24 V"},
	},
	Terminals: func(p *panel.Part) []Terminal {
		own := []Terminal{{"L+", Positive}, {"M", Negative}, {"S+", Any}, {"S-", Any}}
		if byTransistor(p) {
			return append(own, Terminal{"O+", Any}, Terminal{"O-", Any})
		}
		return append(own, contactTerminals(p, "11-12-14")...)
	},
	Build: func(b *Builder) {
		feed, m, plus, minus := b.Terminal("L+"), b.Terminal("M"), b.Terminal("S+"), b.Terminal("S-")
		a := &amplifier{least: b.R["least"], broken: b.R["break"], short: b.R["short"], inverse: b.Part.Ratings["action"] == "inverse"}
		a.supply = b.Resistor(RoleLoad, b.Ref, feed, m, nominalVolts*nominalVolts/b.R["power"])
		a.source = b.Branch(RoleSource, b.Ref, minus, plus, Resistor(namurIdle), ResistorAC(namurIdle))
		if byTransistor(b.Part) {
			a.leak = b.R["leakage"] / nominalVolts
			a.transistor = addTransistor(b, a.leak)
		} else {
			a.made, a.closed = addContacts(b, rateRelay*shareRelaySpurious/2, "11-12-14")
		}
		e := b.Element(b.Ref, a, 0, feed, m, plus, minus)
		b.Device(b.Ref, e, a)
		b.Mode(Mode{Thing: b.Ref, Name: "dead", Changes: []Change{{What: FixState, Element: e}}, Rate: rateMonitor, Repair: "replace-part"})
	},
}

// byTransistor says that an amplifier's output is no relay.
func byTransistor(p *panel.Part) bool { return p != nil && p.Ratings["output"] == "transistor" }

// addTransistor makes the output from O+ to O-. The model lets it carry either way:
// what is wired the wrong way round is not told.
func addTransistor(b *Builder, leak float64) (branches []int) {
	thing := b.Ref + ":O+"
	k := b.Branch(RoleContact, thing, b.Terminal("O+"), b.Terminal("O-"), circuit.Value{G: leak}, circuit.ACValue{Y: complex(leak, 0)})
	b.Mode(Mode{Thing: thing, Name: "open", Class: "open", Changes: []Change{Open(k)}, Rate: rateDiode * 0.27, Repair: "replace-part"})
	b.Mode(Mode{Thing: thing, Name: "shorted", Class: "short", Changes: []Change{Resist(k, burntOhms)}, Rate: rateDiode * 0.73, Repair: "replace-part"})
	return []int{k}
}

const (
	namurIdle   = 1e6  // ohms, the sensor side without supply: choice
	amplifierMS = 10.0 // choice: relay and filter
)

// An amplifier knows four bands of sensor current.
type amplifier struct {
	supply, source       int
	least, broken, short float64
	inverse              bool
	made, closed         []int
	transistor           []int
	leak                 float64 // S of the transistor when off
}

const (
	amplifierOff = iota
	amplifierBreak
	amplifierLow
	amplifierHigh
	amplifierShort
)

func (a *amplifier) operated(mode int) bool {
	if a.inverse {
		return mode == amplifierLow
	}
	return mode == amplifierHigh
}

func (a *amplifier) Stamp(s State, _ float64, w Writer) {
	dc, ac := Resistor(namurIdle), ResistorAC(namurIdle)
	if s.Mode != amplifierOff {
		dc, ac = circuit.Value{G: 1 / namurOhms, E: namurVolts}, ResistorAC(namurOhms)
	}
	w.DC(a.source, dc)
	w.AC(a.source, ac)
	stampContacts(w, a.made, a.operated(s.Mode), contactOhms)
	stampContacts(w, a.closed, !a.operated(s.Mode), contactOhms)
	g := a.leak
	if a.operated(s.Mode) {
		g = outputSlope
	}
	for _, k := range a.transistor {
		w.DC(k, circuit.Value{G: g})
		w.AC(k, circuit.ACValue{Y: complex(g, 0)})
	}
}

func (a *amplifier) Next(s State, _ float64, v View) (State, Wait) {
	feed, amps := v.Ends(a.supply), v.DCAmps(a.source)
	next := s.Mode
	switch {
	case v.DC(feed.A, feed.B) < a.least:
		next = amplifierOff
	case s.Mode == amplifierOff: // the sensor side comes up first
		next = amplifierBreak
	case amps < a.broken:
		next = amplifierBreak
	case amps > a.short:
		next = amplifierShort
	case amps >= namurUp:
		next = amplifierHigh
	case amps <= namurDown || s.Mode != amplifierHigh:
		next = amplifierLow
	}
	if next == s.Mode {
		return s, Wait{}
	}
	return State{Mode: next}, Wait{amplifierMS, amplifierMS}
}

func (a *amplifier) Status(s State, _ float64, v View) Status {
	feed := v.Ends(a.supply)
	st := Status{State: "off", Volts: v.DC(feed.A, feed.B), Amps: v.Volts.I(a.source)}
	switch {
	case s.Mode == amplifierBreak:
		st.State, st.Grade = "line-break", Weak
	case s.Mode == amplifierShort:
		st.State, st.Grade = "line-short", Weak
	case a.operated(s.Mode):
		st.State, st.Grade = "operated", On
	case s.Mode != amplifierOff:
		st.State = "released"
	}
	return st
}

// ModeName implements Namer.
func (a *amplifier) ModeName(s State) string {
	return [...]string{"unfed", "line-break", "low", "high", "line-short"}[s.Mode]
}
