package meter

// A Mode is one position of the selector.
type Mode string

// The modes of voltage, current and resistance.
const (
	VDC    Mode = "vdc"    // direct voltage
	VAC    Mode = "vac"    // alternating voltage
	LowZ   Mode = "lowz"   // voltage with a low input resistance
	Tester Mode = "tester" // two-pole voltage tester
	MA     Mode = "ma"     // current, in series where the circuit is opened
	Clamp  Mode = "clamp"  // current of a conductor without opening it
	Ohms   Mode = "ohms"
	Beep   Mode = "beep"  // continuity
	Diode  Mode = "diode" // drop of a junction
)

// Modes lists them in the order of a selector.
var Modes = []Mode{VDC, VAC, LowZ, Tester, MA, Clamp, Ohms, Beep, Diode}

// Passive says that the mode drives a current of its own and wants no other: it is
// refused on a live circuit.
func (mode Mode) Passive() bool { return mode == Ohms || mode == Beep || mode == Diode }
