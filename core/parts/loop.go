package parts

import (
	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// The 4-20 mA signal. Source: IEC 60381-1 for the range, NAMUR NE 43 for the
// limits of measurement and the failure signals.
const (
	loopZero     = 4e-3
	loopSpan     = 16e-3
	loopLow      = 3.8e-3
	loopHigh     = 20.5e-3
	loopFailLow  = 3.6e-3
	loopFailHigh = 21.0e-3
)

// LoopAmps gives the signal current of a process value from 0 to 1, held within
// the measuring range; a value of failLow or failHigh is the failure signal.
func LoopAmps(x float64) float64 {
	switch x {
	case failLow: // both a little beyond their limits, so that insulation does not
		return loopFailLow - 0.1e-3 // lift one back over it on its way to the input
	case failHigh:
		return loopFailHigh + 0.5e-3
	}
	return min(max(loopZero+float64(loopSpan*x), loopLow), loopHigh)
}

// Process values that no process gives: the instrument's own failure signals.
const (
	failLow  = -1
	failHigh = 2
)

// BandOf names a loop current after NE 43.
func BandOf(amps float64) string {
	switch {
	case amps < 0.5e-3: // choice: below any signal, above leakage
		return "no-current"
	case amps <= loopFailLow:
		return "fail-low"
	case amps < loopLow:
		return "under-range"
	case amps <= loopHigh:
		return "measuring"
	case amps < loopFailHigh:
		return "over-range"
	}
	return "fail-high"
}

// gradeOf a loop signal: measuring is on, anything else that flows is weak.
func gradeOf(band string) Grade {
	switch band {
	case "no-current":
		return Off
	case "measuring":
		return On
	}
	return Weak
}

func failModes(b *Builder, e int) {
	for _, m := range []struct {
		name string
		in   float64
	}{{"fail-low", failLow}, {"fail-high", failHigh}} {
		b.Mode(Mode{Thing: b.Ref, Name: m.name, Changes: []Change{{What: FixInput, Element: e, Input: m.in}}, Rate: rateSensor * 0.1, Repair: "replace-part"})
	}
}

var transmitter2 = &Kind{
	Name: "transmitter-2wire", Letters: []string{"B"}, Tags: []string{"*T", "*IT"}, Symbol: "transmitter", Analogue: true,
	Ratings: []Rating{
		{Name: "lift-off", Dim: unit.Voltage, Default: "12 V", Source: "lift-off voltages of two-wire transmitters lie between 10.5 and 12 V, instrument data"},
		{Name: "lift-off-4ma", Dim: unit.Voltage, Source: "given where it is another at 4 mA, lift-off then being that at 20 mA: one level transmitter wants 18 V at 4 mA and 10 V at 22 mA, instrument data"},
	},
	Terminals: func(*panel.Part) []Terminal {
		return []Terminal{{"+", Positive}, {"-", Negative}, {"PE", Earth}}
	},
	Build: func(b *Builder) {
		plus, minus := b.Terminal("+"), b.Terminal("-")
		t := &twoWire{empty: b.R["lift-off"], full: b.R["lift-off"]}
		if v := b.R["lift-off-4ma"]; v > 0 {
			t.empty = v
		}
		t.branch = b.Branch(RoleLoad, b.Ref, plus, minus, circuit.Value{G: twoWireLeak}, circuit.ACValue{Y: twoWireLeak})
		b.Frame(b.Terminal("PE"))
		e := b.Element(b.Ref, t, 0.5, plus, minus)
		b.Device(b.Ref, e, t)
		failModes(b, e)
		b.Mode(Mode{Thing: b.Ref, Name: "open", Class: "open", Changes: []Change{Open(t.branch)}, Rate: rateSensor * 0.2, Repair: "replace-part"})
	},
}

// A twoWire is a transmitter that draws its signal from the loop that feeds it:
// blocked below its lift-off voltage and when reversed, starved where the loop
// cannot hold lift-off at the wanted current, regulating otherwise.
type twoWire struct {
	branch int
	// lift-off at 4 and at 20 mA, volts: it goes in a straight line between
	empty, full float64
}

const (
	twoWireLeak    = 1e-7 // S, unpowered electronics: choice
	twoWireStarved = 1.0  // S, slope of the starved region: choice, nearly a voltage drop
)

const (
	loopBlocked = iota
	loopStarved
	loopRegulating
)

// lift is the lift-off voltage at the signal of an input.
func (t *twoWire) lift(in float64) float64 {
	return t.empty + float64((t.full-t.empty)*(LoopAmps(in)-loopZero)/loopSpan)
}

func (t *twoWire) Stamp(s State, in float64, w Writer) {
	v := circuit.Value{G: twoWireLeak}
	switch s.Mode {
	case loopStarved:
		v = circuit.Value{G: twoWireStarved, E: -t.lift(in)}
	case loopRegulating:
		v = circuit.Value{J: LoopAmps(in)}
	}
	w.DC(t.branch, v)
}

func (t *twoWire) Next(s State, in float64, v View) (State, Wait) {
	e := v.Ends(t.branch)
	volts := v.DC(e.A, e.B)
	lift := t.lift(in)
	knee := lift + LoopAmps(in)/twoWireStarved
	switch {
	case s.Mode == loopBlocked && volts > lift,
		s.Mode == loopRegulating && volts < knee:
		return State{Mode: loopStarved}, Wait{}
	case s.Mode == loopStarved && volts < lift:
		return State{Mode: loopBlocked}, Wait{}
	case s.Mode == loopStarved && volts > knee:
		return State{Mode: loopRegulating}, Wait{}
	}
	return s, Wait{}
}

func (t *twoWire) Status(s State, _ float64, v View) Status {
	e := v.Ends(t.branch)
	amps := v.Volts.I(t.branch)
	st := Status{State: BandOf(amps), Volts: v.DC(e.A, e.B), Amps: amps, Signal: amps * 1e3}
	if s.Mode == loopStarved && st.State != "no-current" {
		st.State, st.Starves = "starved", true
	}
	st.Grade = gradeOf(st.State)
	return st
}

var transmitter4 = &Kind{
	Name: "transmitter-4wire", Letters: []string{"B"}, Tags: []string{"*T", "*IT"}, Symbol: "transmitter", Analogue: true,
	Ratings: []Rating{
		{Name: "power", Dim: unit.Power, Default: "2 W", Source: "choice: a small field instrument at 24 V"},
		{Name: "least", Dim: unit.Voltage, Default: "18 V", Source: "common practice: 18 to 30 V supply"},
		{Name: "compliance", Dim: unit.Voltage, Default: "15 V", Source: "750 Ω at 20 mA, common practice"},
	},
	Terminals: func(*panel.Part) []Terminal {
		return []Terminal{{"L+", Positive}, {"M", Negative}, {"+", Positive}, {"-", Negative}, {"PE", Earth}}
	},
	Build: func(b *Builder) {
		plus, minus := b.Terminal("+"), b.Terminal("-")
		t := &fourWire{least: b.R["least"], compliance: b.R["compliance"]}
		t.supply = b.Resistor(RoleLoad, b.Ref, b.Terminal("L+"), b.Terminal("M"), 24*24/b.R["power"])
		t.output = b.Branch(RoleSource, b.Ref, minus, plus, circuit.Value{G: fourWireLeak}, circuit.ACValue{Y: fourWireLeak})
		b.Frame(b.Terminal("PE"))
		e := b.Element(b.Ref, t, 0.5, b.Terminal("L+"), b.Terminal("M"), plus, minus)
		b.Device(b.Ref, e, t)
		failModes(b, e)
		b.Mode(Mode{Thing: b.Ref, Name: "no-output", Class: "open", Changes: []Change{Open(t.output)}, Rate: rateSensor * 0.2, Repair: "replace-part"})
	},
}

// A fourWire is fed apart from its signal and drives the signal current itself,
// up to its compliance voltage.
type fourWire struct {
	supply, output int
	least          float64
	compliance     float64
}

const (
	fourWireLeak      = 1e-6 // S, unpowered output: choice
	fourWireSaturated = 0.1  // S, slope above the compliance knee: choice
)

const (
	sourceDead = iota
	sourceDriving
	sourceSaturated
)

func (t *fourWire) Stamp(s State, in float64, w Writer) {
	v := circuit.Value{G: fourWireLeak}
	switch s.Mode {
	case sourceDriving:
		v = circuit.Value{J: LoopAmps(in)}
	case sourceSaturated:
		v = circuit.Value{G: fourWireSaturated, E: t.compliance}
	}
	w.DC(t.output, v)
}

func (t *fourWire) Next(s State, in float64, v View) (State, Wait) {
	feed, out := v.Ends(t.supply), v.Ends(t.output)
	powered := v.DC(feed.A, feed.B) >= t.least
	if s.Mode == sourceDead {
		if powered {
			return State{Mode: sourceSaturated}, Wait{}
		}
		return s, Wait{}
	}
	if !powered {
		return State{}, Wait{}
	}
	volts := v.DC(out.B, out.A)
	knee := t.compliance - LoopAmps(in)/fourWireSaturated
	switch {
	case s.Mode == sourceDriving && volts > knee:
		return State{Mode: sourceSaturated}, Wait{}
	case s.Mode == sourceSaturated && volts < knee:
		return State{Mode: sourceDriving}, Wait{}
	}
	return s, Wait{}
}

func (t *fourWire) Status(s State, in float64, v View) Status {
	feed := v.Ends(t.supply)
	amps := v.Volts.I(t.output)
	st := Status{State: BandOf(amps), Volts: v.DC(feed.A, feed.B), Amps: amps, Signal: amps * 1e3}
	if s.Mode == sourceSaturated && st.State != "no-current" {
		st.State, st.Starves = "saturated", true
	}
	st.Grade = gradeOf(st.State)
	return st
}

// ModeName implements Namer.
func (t *twoWire) ModeName(s State) string {
	return [...]string{"unpowered", "starved", "regulating"}[s.Mode]
}

// ModeName implements Namer.
func (t *fourWire) ModeName(s State) string {
	return [...]string{"unpowered", "driving", "saturated"}[s.Mode]
}
