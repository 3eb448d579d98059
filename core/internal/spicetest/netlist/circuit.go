package netlist

import "hash/fnv"

// A Circuit is a panel as two linear networks over the same nodes: for direct
// current, and for the mains frequency. Node 0 is earth.
type Circuit struct {
	Names     []string  // of the nodes
	Leaks     []float64 // of each node to earth, siemens; alike for both networks
	Lines     []Line
	Claims    []Claim
	Frequency float64 // Hz; 0 without mains

	index map[string]int
	byID  map[string]int // line by what it is
}

// A Line is one connection between two nodes.
type Line struct {
	ID     string // what it is: "W12", "W12@X1:4/out", "K1 coil", "K1:13-14"
	A, B   int
	DC, AC Two
}

// A Two is what stands between two nodes. It carries from A to B
//
//	(V(A) − V(B) + Volts)/Ohms + (V(A) − V(B))/(j·Reactance) + Amps
//
// where a term with 0 in its denominator is absent.
type Two struct {
	Ohms      float64
	Reactance float64 // ohms at the mains frequency; inductive, or below 0 capacitive
	Volts     float64
	Amps      float64
}

// Present says whether anything is there.
func (t Two) Present() bool { return t.Ohms != 0 || t.Reactance != 0 || t.Amps != 0 }

// Through is the current at a voltage from A to B.
func (t Two) Through(v complex128) complex128 {
	i := complex(t.Amps, 0)
	if t.Ohms != 0 {
		i += (v + complex(t.Volts, 0)) / complex(t.Ohms, 0)
	}
	if t.Reactance != 0 {
		i += v / complex(0, t.Reactance)
	}
	return i
}

func ohms(r float64) Two { return Two{Ohms: r} }

// node gives the node of that name, made when new, with its insulation: 1 GΩ,
// times 1/0.8 to 1/1.2 by a hash of the name.
func (c *Circuit) node(name string) int {
	if n, ok := c.index[name]; ok {
		return n
	}
	h := fnv.New32a()
	h.Write([]byte(name))
	n := len(c.Names)
	c.index[name] = n
	c.Names = append(c.Names, name)
	c.Leaks = append(c.Leaks, terminalLeak*(0.8+0.4*float64(h.Sum32()%1024)/1024))
	return n
}

func (c *Circuit) line(id, from, to string, dc, ac Two) int {
	c.Lines = append(c.Lines, Line{ID: id, A: c.node(from), B: c.node(to), DC: dc, AC: ac})
	c.byID[id] = len(c.Lines) - 1
	return len(c.Lines) - 1
}

func (c *Circuit) resistor(id, from, to string, r float64) int {
	return c.line(id, from, to, ohms(r), ohms(r))
}

// Node finds a node by its name.
func (c *Circuit) Node(name string) (int, bool) {
	n, ok := c.index[name]
	return n, ok
}

// A Solution is the voltages of a circuit's nodes to earth, one an entry; AC is
// nil without mains.
type Solution struct {
	DC []float64
	AC []complex128
}

// A Claim is what must be so for a part to stand in the state it was frozen in:
// the value lies between Low and High.
type Claim struct {
	What      string
	Value     func(Solution) float64
	Low, High float64
}
