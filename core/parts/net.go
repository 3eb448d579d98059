package parts

import "halfsplit/core/circuit"

// A Net is a whole panel as nodes, branches, elements and devices. Nodes and
// branches are dense indices shared with package circuit. A Net is read-only
// once built.
type Net struct {
	Frequency float64 // of the mains, Hz; 0 without
	Nodes     []Node
	Branches  []Branch
	Elements  []Part // what changes state, in the order of the document
	Devices   []Device
	Modes     []Mode         // single faults of one thing, declared by its kind
	Points    []Point        // where a probe can touch, in the order of the document
	Ends      []WireEnd      // both ends of every wire, from then to
	Inputs    map[string]int // REF → index into Elements of what a condition moves
}

// A Node is one continuous piece of metal.
type Node struct {
	Name     string       // "X1:4", "X3:7.2/in", "W12@X1:4/out", or an inner "K1 coil"
	Leak     float64      // insulation to earth, S
	LeakAC   complex128   // with capacitance at the mains frequency, S
	Exposed  bool         // metal a person touches by design: rails, frames
	Earthing bool         // part of the protective earth: rails, ground blocks, PE bars
	Outer    circuit.Node // reserved metal this one stands for; itself
}

// A Branch is one physical connection or load between two nodes.
type Branch struct {
	Ends  circuit.Ends
	DC    circuit.Value
	AC    circuit.ACValue
	Thing string // what a person would call it: "W12", "X3:7.2", "K1:13-14"
	Role  Role
}

// A Role says what a branch is, for reasons and pictures.
type Role string

// The roles.
const (
	RoleWire      Role = "wire"
	RoleClamp     Role = "clamp"
	RoleJumper    Role = "jumper"
	RoleFuse      Role = "fuse"
	RoleLever     Role = "lever"
	RoleBlade     Role = "blade"
	RoleContact   Role = "contact"
	RoleFoot      Role = "foot"
	RoleLoad      Role = "load"
	RoleSource    Role = "source"
	RoleIndicator Role = "indicator"
	RoleBond      Role = "bond"
)

// A Point is a place a probe can touch.
type Point struct {
	Name string // canonical: "X1:4/in", "K1:A1"
	Node circuit.Node
	At   string // "panel" or "field"
}

// A WireEnd is one end of a wire: its strand and the clamp that holds it.
type WireEnd struct {
	Wire   int // index into the panel's wires
	No     string
	At     string // the point it lands on, canonical
	Strand circuit.Node
	Metal  circuit.Node
	Clamp  int // branch
}
