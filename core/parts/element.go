package parts

import (
	"math"

	"halfsplit/core/circuit"
)

// A State is all that an element remembers.
type State struct {
	Mode int     // which of its linear regions it is in; 0 is cold
	X    float64 // a continuous memory, such as the power a supply draws
}

// An Element is what changes state: each state is linear, and the solution says
// when to leave it. Elements are immutable; the State is handed in.
type Element interface {
	// Stamp writes the values of its branches in state s, with its input at in
	// (a position or a process value).
	Stamp(s State, in float64, w Writer)
	// Next says which state the solution v asks for, and how long it takes.
	// It returns s itself when content.
	Next(s State, in float64, v View) (State, Wait)
}

// A Writer takes branch values.
type Writer interface {
	DC(branch int, v circuit.Value)
	AC(branch int, v circuit.ACValue)
}

// Wait is how long a change of state takes, in milliseconds, at the least and
// at the most. Zero for electronics.
type Wait struct{ Min, Max float64 }

// Mid is the middle of the window, by which changes are put in order.
func (w Wait) Mid() float64 { return float64((w.Min + w.Max) / 2) }

// View is a solved network for elements and watchers to look at.
type View struct {
	Net     *Net
	Volts   *circuit.DC
	VoltsAC *circuit.AC // nil in a panel without mains
	// Bias is added to every voltage between two points, in volts: an element that
	// answers otherwise with it is close to changing its mind.
	Bias float64
}

// Ends gives the two nodes of a branch.
func (v View) Ends(branch int) circuit.Ends { return v.Net.Branches[branch].Ends }

// DC is the direct voltage from b to a.
func (v View) DC(a, b circuit.Node) float64 { return v.Volts.VBetween(a, b) + v.Bias }

// AC is the rms voltage between a and b at the mains frequency.
func (v View) AC(a, b circuit.Node) float64 {
	if v.VoltsAC == nil {
		return 0
	}
	if volts := v.VoltsAC.VBetween(a, b) + v.Bias; volts > 0 {
		return volts
	}
	return 0
}

// Level is the voltage a coil, lamp or input answers to: the larger of the
// direct and the alternating one. mixed says that both are above half a volt,
// where neither alone is the truth.
func (v View) Level(a, b circuit.Node) (volts float64, mixed bool) {
	return larger(math.Abs(v.DC(a, b)), v.AC(a, b))
}

// larger is the larger of a direct and an alternating voltage; mixed says that both
// are above half a volt.
func larger(dc, ac float64) (volts float64, mixed bool) {
	if ac > dc { // max of floats is a call under WebAssembly
		return ac, dc > 0.5
	}
	return dc, ac > 0.5
}

// DCAmps is the direct current through a branch, from its first end.
func (v View) DCAmps(branch int) float64 {
	i := v.Volts.I(branch)
	if v.Bias != 0 {
		i += float64(v.Bias * v.Volts.Value(branch).G)
	}
	return i
}

// ACAmps is the rms current through a branch.
func (v View) ACAmps(branch int) float64 {
	if v.VoltsAC == nil {
		return 0
	}
	i := v.VoltsAC.Amps(branch)
	if v.Bias != 0 {
		i = math.Max(0, i+float64(v.Bias*magnitude(v.VoltsAC.Value(branch).Y)))
	}
	return i
}

// Amps is the current through a branch, the larger of direct and rms.
func (v View) Amps(branch int) float64 {
	dc, ac := math.Abs(v.DCAmps(branch)), v.ACAmps(branch)
	if ac > dc { // max of floats is a call under WebAssembly
		return ac
	}
	return dc
}

// magnitude is |c| from a square root, which every host rounds alike.
func magnitude(c complex128) float64 {
	return math.Sqrt(float64(real(c)*real(c)) + float64(imag(c)*imag(c)))
}

// A Grade says how far a device does its work.
type Grade int

// The grades. Weak covers dim lamps, inputs in the undefined band and starved
// transmitters.
const (
	Off Grade = iota
	Weak
	On
)

// A Status is what a person would say of a device.
type Status struct {
	State   string // code: "on", "off", "dim", "undefined", "measuring" ...
	Grade   Grade
	Volts   float64
	Amps    float64
	Signal  float64 // what it reports: mA of a loop; 0 where it reports nothing
	Celsius float64 // temperature it reports, °C; 0 where it reports none
	Mixed   bool    // DC and AC together: no figure can be trusted
	// Starves says that it cannot give its signal for want of voltage.
	Starves bool
}

// A Watcher tells the status of a device from a solved network.
type Watcher interface {
	Status(s State, in float64, v View) Status
}

// A Namer has names for its modes, for timelines: "operated", "blown". The ref
// of an inner element ("X3:7.2 link") names its owner before the space.
type Namer interface {
	ModeName(s State) string
}

// A Holder can stay in a state it would not have reached from cold: a coil that
// holds what it could not pull in.
type Holder interface {
	Holds(s State, v View) bool
}
