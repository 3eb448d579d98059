package parts

import (
	"math"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// currentTransformer drives a current through its secondary, S1 and S2, that is the
// primary's, P1 to P2, by its ratio, whatever stands in the way: up to the voltage at
// which its core saturates. Open, it stands at that voltage. Markings after IEC
// 61869-2. What the secondary adds to the primary's impedance is left out, a few
// millivolts with a sound burden; so is the phase between the two.
var currentTransformer = &Kind{
	Name: "current-transformer", Letters: []string{"B", "T", "CT"}, Symbol: "current-transformer", Keeps: "current", Drives: true,
	Ratings: []Rating{
		{Name: "primary", Dim: unit.Current, Default: "50 A", Source: "choice: a common size"},
		{Name: "current", Dim: unit.Current, Default: "5 A", Source: "rated secondary current 1 A or 5 A, IEC 61869-2 (from memory)"},
		{Name: "resistance", Dim: unit.Resistance, Default: "0.2 ohm", Source: "choice: of the secondary winding"},
		{Name: "saturation", Dim: unit.Voltage, Default: "250 V", Source: "choice: effective value with the secondary open; peaks are several times as high, and IEC 61869-2 states a knee point for some classes only (from memory)"},
	},
	Terminals: func(*panel.Part) []Terminal { return []Terminal{{"P1", Any}, {"P2", Any}, {"S1", Any}, {"S2", Any}} },
	Build: func(b *Builder) {
		p1, p2, s1, s2 := b.Terminal("P1"), b.Terminal("P2"), b.Terminal("S1"), b.Terminal("S2")
		rated, knee := b.R["current"], b.R["saturation"]
		w := &woundSecondary{ratio: rated / b.R["primary"], own: circuit.Value{G: 1 / b.R["resistance"]}}
		w.primary = b.Resistor(RoleContact, b.Ref, p1, p2, barOhms)
		w.secondary = b.Branch(RoleSource, b.Ref, s2, s1, w.own, circuit.ACValue{Y: magnetising})
		c := &core{secondary: w.secondary, rated: rated, knee: knee}
		c.iron = b.Branch(RoleSource, b.Ref, s2, s1, circuit.Value{}, circuit.ACValue{})
		e := b.Element(b.Ref, c, 0, s1, s2)
		b.Element(b.Ref+" primary", w, 0, p1, p2)
		b.Device(b.Ref, e, c)
		b.Mode(Mode{Thing: b.Ref, Name: "winding-open", Class: "open", Changes: []Change{Open(w.secondary), Open(c.iron)}, Rate: rateTransformer * shareCoilOpen, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "shorted", Class: "short", Changes: []Change{Resist(w.secondary, burntOhms)}, Rate: rateTransformer * shareCoilShort, Repair: "replace-part"})
	},
}

// Choices of the model.
const (
	barOhms     = 1e-3 // the primary: a bar or a few turns
	magnetising = 1e-6 // S, what the sound core takes for itself
	ironOhms    = 1.0  // of the saturated core beyond its voltage
	leastShare  = 0.01 // of the rated secondary current, below which it counts as none
)

// A woundSecondary follows the current of the primary. State.X is that of the
// secondary, in amperes.
type woundSecondary struct {
	primary, secondary int
	ratio              float64
	own                circuit.Value
}

func (w *woundSecondary) Stamp(s State, _ float64, out Writer) {
	out.DC(w.secondary, w.own)
	out.AC(w.secondary, circuit.ACValue{Y: magnetising, J: complex(s.X, 0)})
}

func (w *woundSecondary) Next(s State, _ float64, v View) (State, Wait) {
	x := float64(w.ratio * v.ACAmps(w.primary))
	if math.Abs(x-s.X) > 1e-9*(x+1e-6) {
		s.X = x
	}
	return s, Wait{}
}

// A core takes the current that the secondary's circuit leaves it beyond the
// saturation voltage: mode 1.
type core struct {
	secondary, iron int
	rated, knee     float64
}

func (c *core) Stamp(s State, _ float64, w Writer) {
	v := circuit.ACValue{}
	if s.Mode == 1 {
		v = circuit.ACValue{Y: 1 / ironOhms, E: complex(c.knee, 0)}
	}
	w.DC(c.iron, circuit.Value{})
	w.AC(c.iron, v)
}

// Next asks whether the driven current, all of it through the circuit outside, would
// need more than the saturation voltage.
func (c *core) Next(s State, _ float64, v View) (State, Wait) {
	if v.VoltsAC == nil {
		return State{}, Wait{}
	}
	e := v.Ends(c.secondary)
	volts := v.AC(e.A, e.B)
	if s.Mode == 0 && volts > c.knee {
		return State{Mode: 1}, Wait{}
	}
	driven := magnitude(v.VoltsAC.Value(c.secondary).J)
	if s.Mode == 1 && float64(driven*volts) <= float64(c.knee*c.outside(v)) {
		return State{}, Wait{}
	}
	return s, Wait{}
}

// outside is the current that leaves the terminals.
func (c *core) outside(v View) float64 {
	return magnitude(v.VoltsAC.I(c.secondary) + v.VoltsAC.I(c.iron))
}

func (c *core) Status(s State, _ float64, v View) Status {
	st := Status{State: "off"}
	if v.VoltsAC == nil {
		return st
	}
	e := v.Ends(c.secondary)
	st.Volts, st.Amps = v.AC(e.A, e.B), c.outside(v)
	switch {
	case s.Mode == 1:
		st.State, st.Grade = "core-saturated", Weak
	case st.Amps >= leastShare*c.rated:
		st.State, st.Grade = "on", On
	}
	return st
}

// ModeName implements Namer.
func (c *core) ModeName(s State) string { return [...]string{"transforming", "core-saturated"}[s.Mode] }

// ammeter is a panel meter in series, of its own or behind a current transformer.
var ammeter = &Kind{
	Name: "ammeter", Letters: []string{"P", "AM"}, Symbol: "ammeter",
	Ratings: []Rating{
		{Name: "current", Dim: unit.Current, Default: "5 A", Source: "rated secondary current of a current transformer, IEC 61869-2 (from memory)"},
		{Name: "power", Dim: unit.Power, Default: "0.5 VA", Source: "choice: its burden at rated current"},
	},
	Terminals: func(*panel.Part) []Terminal { return []Terminal{{"1", Any}, {"2", Any}} },
	Build: func(b *Builder) {
		m := &pointer{rated: b.R["current"]}
		m.branch = b.Resistor(RoleLoad, b.Ref, b.Terminal("1"), b.Terminal("2"), b.R["power"]/(m.rated*m.rated))
		b.Device(b.Ref, b.Element(b.Ref, m, 0, b.Terminal("1"), b.Terminal("2")), m)
		b.Mode(Mode{Thing: b.Ref, Name: "open", Class: "open", Changes: []Change{Open(m.branch)}, Rate: ratePassive, Repair: "replace-part"})
	},
}

// A pointer shows a current. It never changes state.
type pointer struct {
	branch int
	rated  float64
}

func (*pointer) Stamp(State, float64, Writer) {}

func (*pointer) Next(s State, _ float64, _ View) (State, Wait) { return s, Wait{} }

// Status above the scale is weak: choice, 120 % of rated current, the extended
// range most have.
func (m *pointer) Status(_ State, _ float64, v View) Status {
	e := v.Ends(m.branch)
	st := Status{State: "no-current", Amps: v.Amps(m.branch)}
	st.Volts, st.Mixed = v.Level(e.A, e.B)
	switch {
	case st.Amps > 1.2*m.rated:
		st.State, st.Grade = "over-range", Weak
	case st.Amps >= leastShare*m.rated:
		st.State, st.Grade = "on", On
	}
	return st
}

// currentTransformerBlock carries both conductors of a current transformer's
// secondary, and a link that shorts them before anything behind is opened.
var currentTransformerBlock = &Kind{
	Name: "current-transformer-block", Block: true, Letters: []string{"X"}, Symbol: "terminal-double", Shorts: true,
	Positions: []Position{{Name: "open", Verb: "open", Value: 0}, {Name: "closed", Verb: "close", Value: 1}},
	Metals:    []Metal{{Level: 1}, {Level: 2}},
	Build: func(b *Builder) {
		link := b.Resistor(RoleContact, b.Ref, b.Metal(1), b.Metal(0), bladeOhms)
		e := b.Element(b.Ref, &contacts{made: []int{link}, ohms: bladeOhms}, 0)
		b.Mode(Mode{Thing: b.Ref, Name: "link-closed", Class: "short", Changes: []Change{{What: FixInput, Element: e, Input: 1}}, Rate: rateLever, Repair: "open-link", Visible: true})
	},
}
