package parts

import (
	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// Three-wire proximity sensors. Terminals are numbered after IEC 60947-5-2: 1
// brown, plus; 3 blue, minus; 4 black, the output. PNP joins the output to plus,
// its load lies to 0 V; NPN joins it to minus, its load lies to plus.
var (
	proximityPNP = proximity3("proximity-pnp", "1", "4", Positive)
	proximityNPN = proximity3("proximity-npn", "4", "3", Negative)
)

// targetPositions are those of whatever senses an approaching target.
var targetPositions = []Position{{"free", "free", 0}, {"reached", "reach", 1}}

// functionRating says whether the output is on with a target or without.
var functionRating = Rating{Name: "function", Words: []string{"NO", "NC"}, Source: "the document: NO is on with a target, NC without (IEC 60947-5-2, make and break function); NO where unsaid"}

func proximity3(name, from, to string, switches Pole) *Kind {
	return &Kind{
		Name: name, Letters: []string{"B", "S", "PRS"}, Tags: []string{"ZS", "ZSO", "ZSC", "ZSH", "ZSL", "GS"}, Symbol: "proximity", Positions: targetPositions, Switches: switches,
		Ratings: []Rating{
			{Name: "least", Dim: unit.Voltage, Default: "10 V", Source: "10 to 30 V supply, instrument data"},
			{Name: "consumption", Dim: unit.Current, Default: "10 mA", Source: "own consumption at 24 V: at most 9 to 15 mA, instrument data"},
			{Name: "drop", Dim: unit.Voltage, Default: "1 V", Source: "with 10 ohm it is 2 V at 100 mA, instrument data: 1.5 to 2.5 V; IEC 60947-5-2 allows 3.5 V (from memory)"},
			{Name: "leakage", Dim: unit.Current, Default: "0.1 mA", Source: "off, at 24 V: at most 0.1 mA, instrument data; IEC 60947-5-2 allows 0.5 mA (from memory)"},
			{Name: "load", Dim: unit.Current, Default: "200 mA", Source: "100 to 200 mA, instrument data"},
			functionRating,
		},
		Terminals: func(*panel.Part) []Terminal {
			return []Terminal{{"1", Positive}, {"3", Negative}, {"4", Any}}
		},
		Build: func(b *Builder) {
			plus, minus := b.Terminal("1"), b.Terminal("3")
			p := &proximity{
				least: b.R["least"], feed: b.R["consumption"] / (nominalVolts - feedDrop), drop: b.R["drop"],
				leak: b.R["leakage"] / nominalVolts, limit: b.R["load"], opens: b.Part.Ratings["function"] == "NC",
			}
			p.supply = b.Branch(RoleLoad, b.Ref, plus, minus, circuit.Value{G: unfedLeak}, circuit.ACValue{Y: unfedLeak})
			p.output = b.Branch(RoleContact, b.Ref, b.Terminal(from), b.Terminal(to), circuit.Value{G: p.leak}, circuit.ACValue{Y: complex(p.leak, 0)})
			e := b.Element(b.Ref, p, 0, plus, minus, b.Terminal("4"))
			b.Device(b.Ref, e, p)
			sensorModes(b, e)
			b.Mode(Mode{Thing: b.Ref, Name: "dead", Changes: []Change{{What: FixState, Element: e}}, Rate: rateSensor * 0.3, Repair: "replace-part"})
		},
	}
}

// sensorModes are an output that no longer follows the target.
func sensorModes(b *Builder, e int) {
	b.Mode(Mode{Thing: b.Ref, Name: "stuck-off", Changes: []Change{{What: FixInput, Element: e, Input: stuckOff}}, Rate: rateSensor * 0.3, Repair: "replace-part"})
	b.Mode(Mode{Thing: b.Ref, Name: "stuck-on", Changes: []Change{{What: FixInput, Element: e, Input: stuckOn}}, Rate: rateSensor * 0.2, Repair: "replace-part"})
}

// Inputs of a sensor beside its positions: the output stays as it is whatever its
// target and its function.
const (
	stuckOff = -1
	stuckOn  = 2
)

// switchedOn says whether an output is on at an input; opens is an NC function.
func switchedOn(in float64, opens bool) bool {
	switch in {
	case stuckOff:
		return false
	case stuckOn:
		return true
	}
	return (in != 0) != opens
}

const (
	nominalVolts = 24.0 // at which consumption and leakage are told
	unfedLeak    = 1e-7 // S, unpowered or reversed electronics: choice
	feedDrop     = 0.7  // V, the diode that guards against reversal, silicon
	outputSlope  = 0.1  // S, output transistor beyond its drop: choice, 10 Ω
	proximityMS  = 10.0 // to the first valid output; IEC 60947-5-2 allows 300 ms (from memory), choice
)

// A proximity is a three-wire sensor: electronics behind a diode, and an output
// transistor that carries current one way, up to a limit.
type proximity struct {
	supply, output          int
	least                   float64 // volts
	feed, leak, drop, limit float64
	opens                   bool
}

const (
	proximityUnfed = iota // no supply, or reversed
	proximityStarting
	proximityOff
	proximityOn
	proximityHeld // switched on; its output is held beyond its supply from outside
	proximityLimiting
)

func (p *proximity) Stamp(s State, _ float64, w Writer) {
	supply, out := circuit.Value{G: p.feed, E: -feedDrop}, circuit.Value{G: p.leak}
	y := p.leak
	switch s.Mode {
	case proximityUnfed:
		supply = circuit.Value{G: unfedLeak}
	case proximityOn:
		out, y = circuit.Value{G: outputSlope, E: -p.drop}, outputSlope
	case proximityLimiting:
		out.G, out.J = 0, p.limit
	}
	w.DC(p.supply, supply)
	w.AC(p.supply, circuit.ACValue{Y: complex(supply.G, 0)})
	w.DC(p.output, out)
	w.AC(p.output, circuit.ACValue{Y: complex(y, 0)})
}

func (p *proximity) Next(s State, in float64, v View) (State, Wait) {
	e := v.Ends(p.supply)
	volts := v.DC(e.A, e.B)
	switch {
	case s.Mode == proximityUnfed && volts <= feedDrop:
		return s, Wait{}
	case s.Mode == proximityUnfed:
		return State{Mode: proximityStarting}, Wait{}
	case volts <= feedDrop:
		return State{}, Wait{}
	case s.Mode == proximityStarting && volts < p.least:
		return s, Wait{}
	case s.Mode == proximityStarting:
		return State{Mode: proximityOff}, Wait{proximityMS, proximityMS}
	case volts < p.least:
		return State{Mode: proximityStarting}, Wait{}
	case !switchedOn(in, p.opens):
		return State{Mode: proximityOff}, Wait{}
	}
	out := v.Ends(p.output)
	return State{Mode: p.drive(s.Mode, v.DC(out.A, out.B), v.DCAmps(p.output))}, Wait{}
}

// drive is the mode of a switched-on output at a voltage across and a current
// through it.
func (p *proximity) drive(mode int, across, amps float64) int {
	switch mode {
	case proximityOn:
		if amps > p.limit {
			return proximityLimiting
		} else if amps < -1e-9 {
			return proximityHeld
		}
	case proximityLimiting:
		if across < p.drop+p.limit/outputSlope {
			return proximityOn
		}
	default: // off or held
		if across > p.drop {
			return proximityOn
		}
		return proximityHeld
	}
	return mode
}

// Status is what the sensor's light shows.
func (p *proximity) Status(s State, _ float64, v View) Status {
	e := v.Ends(p.supply)
	st := Status{State: "off", Volts: v.DC(e.A, e.B), Amps: v.Volts.I(p.output)}
	switch s.Mode {
	case proximityOn, proximityHeld:
		st.State, st.Grade = "on", On
	case proximityLimiting:
		st.State, st.Grade = "limiting", Weak
	}
	return st
}

// ModeName implements Namer.
func (p *proximity) ModeName(s State) string {
	return [...]string{"unfed", "starting", "off", "on", "held", "limiting"}[s.Mode]
}
