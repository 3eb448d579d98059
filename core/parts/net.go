package parts

import "halfsplit/core/circuit"

// A Net is a whole panel as nodes, branches, elements and devices. Nodes and
// branches are dense indices shared with package circuit; node 0 is earth. A
// Net is read-only once Assemble has returned it.
type Net struct {
	Frequency float64 // of the mains, Hz; 0 without
	Nodes     []Node
	Branches  []Branch
	Elements  []Instance
	Devices   []Device // in the order of the document
	Lights    []Light
	Frames    []Frame
	Modes     []Mode    // single faults of one thing, as its kind declares them
	Points    []Point   // where a probe can touch, in the order of the document
	Ends      []WireEnd // both ends of every wire, from then to
	Places    []Place   // where a wire could land, in strip order

	points map[string]int // every accepted spelling → index into Points
	inputs map[string]int // REF → index into Elements of what a condition moves
}

// A Node is one continuous piece of metal.
type Node struct {
	Name     string     // "X1:4", "X3:7.2/in", "W12@X1:4/out", or an inner "F3 link"
	Leak     float64    // insulation to earth, S
	LeakAC   complex128 // the same at the mains frequency, S
	Earthing bool       // part of the protective earth: rails, ground blocks, PE bars
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
	RoleFilter    Role = "filter"
)

// An Instance is an element in its place.
type Instance struct {
	Ref     string // the thing it belongs to: "K1", "A1:3", "X3:7.2"
	Kind    *Kind
	Element Element
	Rest    float64        // its input until a condition sets another
	Sense   []circuit.Node // nodes whose voltage its Next and Status depend on
}

// A Device is something a person calls working or dead.
type Device struct {
	Ref     string
	Tag     string
	Part    string // the part it belongs to: "A1" for "A1:3"
	Kind    *Kind
	Element int
	Watch   Watcher
	Process string  // what the plant does when it drops
	Rated   float64 // volts it is for; 0 where nothing says
}

// A Light is a lamp that tells about another thing: a blown-link indicator, or
// one that shows a voltage.
type Light struct {
	Ref     string
	Link    bool // it lights when a link has blown
	Element int
	Watch   Watcher
}

// A Frame is touchable metal that relies on the protective earth.
type Frame struct {
	Ref  string
	Node circuit.Node
}

// A Point is a place a probe can touch.
type Point struct {
	Hidden bool   // a strand: in reach only when lifted or marked bare
	Name   string // canonical: "X1:4", "X3:7.2/in", "K1:A1"
	Ref    string // the strip or part
	Node   circuit.Node
	Field  bool // out of the panel
}

// A WireEnd is one end of a wire: its strand and the clamp that holds it.
type WireEnd struct {
	Cable  string // it is a core of
	Wire   int    // index into the panel's wires
	No     string // of the wire
	At     string // the place it lands on, canonical with the side: "X1:4/out"
	Strand circuit.Node
	Metal  circuit.Node
	Clamp  int // branch
	Place  Place
}

// A Place is a clamp a wire could land on.
type Place struct {
	Return bool   // negative or neutral of a source: where its current comes back
	Feed   bool   // positive or line of a source
	Side   string // "in", "out", or empty on a part
	Name   string // "X1:4/out"
	Node   circuit.Node
	Row    string // places of one row are neighbours: "X1/out", "X3.2/out", "A1"
	Pole   Pole
	Field  bool
}

// FindPoint looks up a point by any accepted spelling.
func (n *Net) FindPoint(name string) (Point, bool) {
	i, ok := n.points[name]
	if !ok {
		return Point{}, false
	}
	return n.Points[i], true
}

// Input gives the element a condition moves by naming ref.
func (n *Net) Input(ref string) (element int, ok bool) {
	element, ok = n.inputs[ref]
	return element, ok
}
