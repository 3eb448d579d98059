package parts

import (
	"hash/fnv"
	"slices"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
)

// Insulation is what remains between a piece of metal and earth: 1 GΩ a
// terminal, 1 GΩ·km of conductor. Choice of the model, well above the 1 MΩ that
// IEC 60204-1 asks of a whole machine (from memory).
const (
	insulation   = 1e-9 // S a terminal
	insulationKM = 1e-9 // S a kilometre of conductor
)

// A Builder is the pen a kind writes its part of the Net with.
type Builder struct {
	net    *Net
	index  map[string]circuit.Node // node name → node
	Kind   *Kind
	Part   *panel.Part  // the part being built; nil for a block
	Block  *panel.Block // the block being built; nil for a part
	Ref    string       // "K1" or "X1:4"
	R      Ratings
	System string // the earthing system of the mains being built
	metals []circuit.Node
	rail   circuit.Node
}

// Node gives the node of that name, made when new.
func (b *Builder) Node(name string) circuit.Node {
	if n, ok := b.index[name]; ok {
		return n
	}
	n := circuit.Node(len(b.net.Nodes))
	leak := insulation * spread(name)
	b.net.Nodes = append(b.net.Nodes, Node{Name: name, Leak: leak, LeakAC: complex(leak, 0)})
	b.index[name] = n
	return n
}

// spread varies insulation between 0.8 and 1.2 by a hash of the name, so that
// no two floating pieces of metal sit at exactly the same voltage.
func spread(name string) float64 {
	h := fnv.New32a()
	h.Write([]byte(name))
	return 0.8 + float64(0.4*float64(h.Sum32()%1024)/1024)
}

// Terminal gives the node of a terminal of this part, where probes and wires go.
func (b *Builder) Terminal(name string) circuit.Node { return b.Node(b.Ref + ":" + name) }

// Inner gives a node inside this thing that nobody can touch.
func (b *Builder) Inner(name string) circuit.Node { return b.Node(b.Ref + " " + name) }

// Metal gives the k-th piece of metal of this block, in the order of its kind.
func (b *Builder) Metal(k int) circuit.Node { return b.metals[k] }

// Branch adds a connection and returns its index.
func (b *Builder) Branch(role Role, thing string, from, to circuit.Node, dc circuit.Value, ac circuit.ACValue) int {
	b.net.Branches = append(b.net.Branches, Branch{Ends: circuit.Ends{A: from, B: to}, DC: dc, AC: ac, Thing: thing, Role: role})
	return len(b.net.Branches) - 1
}

// Resistor adds a plain resistance in ohms.
func (b *Builder) Resistor(role Role, thing string, from, to circuit.Node, ohms float64) int {
	return b.Branch(role, thing, from, to, Resistor(ohms), ResistorAC(ohms))
}

// Element adds what changes state and returns its index. ref is what a
// condition calls it; sense are the nodes it looks at.
func (b *Builder) Element(ref string, e Element, rest float64, sense ...circuit.Node) int {
	b.net.Elements = append(b.net.Elements, Instance{Ref: ref, Kind: b.Kind, Element: e, Rest: rest, Sense: slices.Clone(sense)})
	i := len(b.net.Elements) - 1
	if _, taken := b.net.inputs[ref]; !taken {
		b.net.inputs[ref] = i
	}
	return i
}

// Device says that a person would call ref working or dead.
func (b *Builder) Device(ref string, element int, w Watcher) {
	d := Device{Ref: ref, Part: b.Ref, Kind: b.Kind, Element: element, Watch: w, Rated: b.R["voltage"]}
	if b.Part != nil {
		d.Process = b.Part.Process
		if ref == b.Ref {
			d.Tag = b.Part.Tag
		}
	}
	b.net.Devices = append(b.net.Devices, d)
}

// Frame says that node is touchable metal of this part that relies on earth.
func (b *Builder) Frame(node circuit.Node) {
	b.net.Frames = append(b.net.Frames, Frame{Ref: b.Ref, Node: node})
}

// Mode adds a fault of this thing.
func (b *Builder) Mode(m Mode) {
	if m.Place == "" {
		m.Place = b.Ref
	}
	if m.Class == "" {
		m.Class = "part"
	}
	b.net.Modes = append(b.net.Modes, m)
}

// Earthing marks a node as part of the protective earth.
func (b *Builder) Earthing(n circuit.Node) { b.net.Nodes[n].Earthing = true }

// Rail gives the metal of the mounting rail this block stands on.
func (b *Builder) Rail() circuit.Node { return b.rail }
