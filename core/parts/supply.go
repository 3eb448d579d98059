package parts

import (
	"math"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

var dcSupply = &Kind{
	Name: "dc-supply", Letters: []string{"T", "G", "PS", "PWS"}, Symbol: "supply", Feeds: true, Keeps: "stored",
	Ratings: []Rating{
		{Name: "voltage", Dim: unit.Voltage, Default: "24 V", Source: "IEC 61131-2 nominal control voltage"},
		{Name: "current", Dim: unit.Current, Default: "5 A", Source: "choice: a common size"},
		{Name: "input", Dim: unit.Voltage, Default: "85 V", Source: "least input of wide-range supplies, common practice"},
		{Name: "efficiency", Dim: unit.Ratio, Default: "88 %", Source: "common practice"},
		{Name: "hold-up", Dim: unit.Time, Default: "20 ms", Source: "common practice at full load"},
		{Name: "y-capacitor", Dim: unit.Capacitance, Source: "given where line and neutral each have one to the frame: 2.2 to 4.7 nF, common practice"},
		{Name: "coupling", Dim: unit.Capacitance, Source: "given where line and neutral each have one to the output's minus, against interference: 1 to 2.2 nF, order of magnitude from memory"},
		{Name: "class", Words: []string{"PELV", "SELV", "none"}, Source: "the document: PELV, SELV or none"},
		{Name: "bonded", Words: []string{"yes", "no"}, Source: "the document: \"no\" where 0 V floats on purpose"},
	},
	Terminals: func(*panel.Part) []Terminal {
		return []Terminal{{"L", Line}, {"N", Neutral}, {"PE", Earth}, {"+", Positive}, {"-", Negative}}
	},
	Build: func(b *Builder) {
		l, n := b.Terminal("L"), b.Terminal("N")
		plus, minus := b.Terminal("+"), b.Terminal("-")
		s := &supply{
			input:  b.Branch(RoleLoad, b.Ref, l, n, circuit.Value{G: inputLeak}, circuit.ACValue{Y: inputLeak}),
			output: b.Branch(RoleSource, b.Ref, minus, plus, circuit.Value{G: bleeder}, circuit.ACValue{Y: bleeder}),
			volts:  b.R["voltage"], limit: b.R["current"],
			start: b.R["input"], stop: 0.9 * b.R["input"], hold: b.R["hold-up"],
			efficiency: b.R["efficiency"],
		}
		e := b.Element(b.Ref, s, 0, l, n, plus, minus)
		b.Device(b.Ref, e, s)
		b.Frame(b.Terminal("PE"))
		for _, filter := range []struct {
			farads float64
			to     circuit.Node
		}{{b.R["y-capacitor"], b.Terminal("PE")}, {b.R["coupling"], minus}} {
			for _, pole := range []circuit.Node{l, n} {
				if filter.farads > 0 {
					b.Branch(RoleFilter, b.Ref, pole, filter.to, circuit.Value{}, b.capacitive(filterOhms, filter.farads))
				}
			}
		}
		b.Mode(Mode{Thing: b.Ref, Name: "no-output", Changes: []Change{{What: FixState, Element: e}}, Rate: rateSupply, Repair: "replace-part"})
	},
}

// Constants of a supply: choices of the model.
const (
	sourceOhms = 10e-3  // output resistance: 50 mV at 5 A, regulation of an electronic supply
	bleeder    = 100e-6 // S across the output: 10 kΩ
	inputLeak  = 1e-6   // S across the input when off
	idleWatts  = 1.0    // drawn with no load
	filterOhms = 100.0  // the loss of a Y capacitor, in series
	startMS    = 300.0
)

// A supply turns mains into a current-limited direct voltage. It never sinks
// current: a higher outside voltage puts it in blocked. State.X is the
// conductance that draws its power from the mains, in siemens.
type supply struct {
	input, output int
	volts, limit  float64
	start, stop   float64 // input volts
	hold          float64 // ms
	efficiency    float64
}

const (
	supplyOff = iota
	supplyOn
	supplyLimit   // constant current
	supplyBlocked // its output is held above its own voltage from outside
)

func (p *supply) Stamp(s State, _ float64, w Writer) {
	out := circuit.Value{G: bleeder}
	acOut := circuit.ACValue{Y: bleeder}
	switch s.Mode {
	case supplyOn:
		out = circuit.Value{G: 1 / sourceOhms, E: p.volts}
		acOut.Y = 1 / sourceOhms
	case supplyLimit:
		out = circuit.Value{G: bleeder, J: p.limit}
	}
	w.DC(p.output, out)
	w.AC(p.output, acOut)
	w.DC(p.input, circuit.Value{G: inputLeak})
	w.AC(p.input, circuit.ACValue{Y: complex(inputLeak+s.X, 0)})
}

func (p *supply) Next(s State, _ float64, v View) (State, Wait) {
	in := v.Ends(p.input)
	volts := v.AC(in.A, in.B)
	if s.Mode == supplyOff {
		if volts < p.start {
			return State{}, Wait{}
		}
		return State{Mode: supplyOn, X: idleWatts / (volts * volts)}, Wait{startMS, startMS}
	}
	if volts < p.stop {
		return State{}, Wait{p.hold, p.hold}
	}
	out := v.Ends(p.output)
	across, amps := v.DC(out.B, out.A), v.DCAmps(p.output)
	next := s
	switch s.Mode {
	case supplyOn:
		if amps > p.limit {
			next.Mode = supplyLimit
		} else if amps+float64(across*bleeder) < -1e-9 { // more comes in than its bleeder takes
			next.Mode = supplyBlocked
		}
	case supplyLimit:
		if across > p.volts-float64(p.limit*sourceOhms) {
			next.Mode = supplyOn
		}
	case supplyBlocked:
		if across < p.volts {
			next.Mode = supplyOn
		}
	}
	// The conductance that draws the output's power at this input voltage.
	watts := idleWatts + max(0, float64(across*amps))/p.efficiency
	if x := watts / (volts * volts); math.Abs(x-s.X) > 1e-9*x {
		next.X = x
	}
	return next, Wait{}
}

func (p *supply) Status(s State, _ float64, v View) Status {
	out := v.Ends(p.output)
	st := Status{State: "off", Volts: v.DC(out.B, out.A), Amps: v.Volts.I(p.output)}
	switch s.Mode {
	case supplyOn:
		st.State, st.Grade = "on", On
	case supplyLimit:
		st.State, st.Grade = "limiting", Weak
	case supplyBlocked:
		st.State, st.Grade = "standby", On
	}
	return st
}

var battery = &Kind{
	Name: "battery", Letters: []string{"G"}, Symbol: "battery", Source: true, Feeds: true,
	Ratings: []Rating{
		{Name: "voltage", Dim: unit.Voltage, Default: "24 V", Source: "nominal"},
		{Name: "resistance", Dim: unit.Resistance, Default: "50 mohm", Source: "order of magnitude, from memory"},
		{Name: "class", Words: []string{"PELV", "SELV", "none"}, Source: "the document: PELV, SELV or none"},
		{Name: "bonded", Words: []string{"yes", "no"}, Source: "the document: \"no\" where it floats on purpose"},
	},
	Positions: []Position{{"connected", "connect", 0}, {"disconnected", "disconnect", 1}},
	Terminals: func(*panel.Part) []Terminal { return []Terminal{{"+", Positive}, {"-", Negative}} },
	Build: func(b *Builder) {
		plus, minus := b.Terminal("+"), b.Terminal("-")
		c := &cell{volts: b.R["voltage"], ohms: b.R["resistance"]}
		c.branch = b.Branch(RoleSource, b.Ref, minus, plus, circuit.Value{}, circuit.ACValue{})
		e := b.Element(b.Ref, c, 0, plus, minus)
		b.Device(b.Ref, e, c)
		b.Mode(Mode{Thing: b.Ref, Name: "no-output", Changes: []Change{Open(c.branch)}, Rate: rateBattery, Repair: "replace-part"})
	},
}

// A cell is an electromotive force behind a resistance; input 1 disconnects it.
type cell struct {
	branch      int
	volts, ohms float64
}

func (c *cell) Stamp(_ State, in float64, w Writer) {
	if in != 0 {
		w.DC(c.branch, circuit.Value{})
		w.AC(c.branch, circuit.ACValue{})
		return
	}
	w.DC(c.branch, circuit.Value{G: 1 / c.ohms, E: c.volts})
	w.AC(c.branch, ResistorAC(c.ohms))
}

func (*cell) Next(s State, _ float64, _ View) (State, Wait) { return s, Wait{} }

func (c *cell) Status(_ State, _ float64, v View) Status {
	e := v.Ends(c.branch)
	st := Status{State: "off", Volts: v.DC(e.B, e.A), Amps: v.Volts.I(c.branch)}
	switch {
	case st.Volts >= 0.85*c.volts:
		st.State, st.Grade = "on", On
	case st.Volts >= 0.2*c.volts:
		st.State, st.Grade = "weak", Weak
	}
	return st
}

// ModeName implements Namer.
func (p *supply) ModeName(s State) string {
	return [...]string{"stopped", "running", "limiting", "standby"}[s.Mode]
}
