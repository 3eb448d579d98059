package parts

import "halfsplit/core/circuit"

// A Mode is one way one thing fails, as data: what changes in the network, how
// often, and what mends it.
type Mode struct {
	Thing   string // "X3:7.2", "W12@X1:4/out", "K1:13-14"
	Name    string // "fuse-blown"
	Value   string // "10ohm", or empty
	Changes []Change
	Rate    float64 // failures per million hours; only ratios matter
	Place   string  // where one repair mends it
	Repair  string  // code of the repair, in package words
	Visible bool    // can be seen without a meter: a lever, a lifted wire
	Class   string  // what kind of fault a person would call it: "open", "resistive", "short", "wrong-place", "part"
}

// Key is the canonical name: THING=MODE or THING=MODE:VALUE.
func (m *Mode) Key() string {
	k := m.Thing + "=" + m.Name
	if m.Value != "" {
		k += ":" + m.Value
	}
	return k
}

// A Change is one alteration of the network.
type Change struct {
	What    ChangeKind
	Branch  int
	Element int
	Ends    circuit.Ends
	G       float64 // siemens, direct and alternating
	State   State
	Input   float64
}

// A ChangeKind says which fields of a Change count.
type ChangeKind uint8

// The kinds of change.
const (
	SetBranch ChangeKind = iota // Branch is a resistor of G whatever its element says
	AddLink                     // a new resistor of G between Ends
	FixState                    // Element stays in State
	FixInput                    // Element sees Input whatever the condition says
)

// Open is the change that takes a branch away; what remains is insulation.
func Open(branch int) Change { return Change{What: SetBranch, Branch: branch} }

// Resist is the change that makes a branch a plain resistor.
func Resist(branch int, ohms float64) Change {
	return Change{What: SetBranch, Branch: branch, G: 1 / ohms}
}

// Join is the change that adds a resistor between two nodes.
func Join(a, b circuit.Node, ohms float64) Change {
	return Change{What: AddLink, Ends: circuit.Ends{A: a, B: b}, G: 1 / ohms}
}

// Resistor is the branch value of a resistance in ohms.
func Resistor(ohms float64) circuit.Value { return circuit.Value{G: 1 / ohms} }

// ResistorAC is the same at the mains frequency.
func ResistorAC(ohms float64) circuit.ACValue {
	return circuit.ACValue{Y: complex(1/ohms, 0)}
}
