package meter

// A Mode is one position of the selector.
type Mode string

// The modes of voltage, current and resistance.
const (
	VDC    Mode = "vdc"    // direct voltage
	VAC    Mode = "vac"    // alternating voltage, true rms
	LowZ   Mode = "lowz"   // voltage with a low input resistance
	Tester Mode = "tester" // two-pole voltage tester
	Clamp  Mode = "clamp"  // current of a conductor without opening it
	Ohms   Mode = "ohms"
	Beep   Mode = "beep" // continuity
)

// Modes lists them in the order of a selector.
var Modes = []Mode{VDC, VAC, LowZ, Tester, Clamp, Ohms, Beep}

// A Meter is the instrument a person holds, as data.
type Meter struct {
	Input     float64 // ohms, voltage ranges
	LowInput  float64 // ohms, low-impedance mode
	Tester    float64 // ohms, two-pole tester without its load button
	BeepBelow float64 // ohms
	MostOhms  float64 // above it the display shows OL
	LiveVolts float64 // above it resistance is refused
}

// Typical is a hand-held multimeter with a two-pole tester beside it. Sources:
// 10 MΩ input and a beeper at 50 Ω are in common manuals (35 to 70 Ω in four of
// them); low-impedance mode about 3 kΩ; tester about 200 kΩ; the rest choices.
var Typical = Meter{Input: 10e6, LowInput: 3e3, Tester: 200e3, BeepBelow: 50, MostOhms: 50e6, LiveVolts: 0.1}

// input is the resistance the meter lays between its probes in a voltage mode.
func (m Meter) input(mode Mode) float64 {
	switch mode {
	case LowZ:
		return m.LowInput
	case Tester:
		return m.Tester
	}
	return m.Input
}
