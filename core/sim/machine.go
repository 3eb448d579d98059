package sim

import (
	"halfsplit/core/circuit"
	"halfsplit/core/parts"
)

// A Machine is one panel in operation. Set, Apply and Settle move it on;
// Checkpoint and Revert bracket an experiment. It is not safe for concurrent use.
type Machine struct {
	Model  *Model
	dc     *circuit.DC
	ac     *alternating // nil without mains
	states []parts.State
	inputs []float64
	held   []hold
	forced []bool // branches a fault has taken from their element
	due    []pending
	wishes []wish
	now    float64 // ms since the last Settle began
	log    []Event
	cycle  *Cycle
	err    error

	links []circuit.Ends // what faults have joined

	attention
	seen    map[uint64]seenAt // buffer: the states since the last Settle began
	spare   []int32           // buffer
	moved   []circuit.Node    // buffer
	bridged []Event           // buffer: the log of what is bridged
	undo    journal
}

// hold says what a fault has fixed on an element.
type hold struct{ state, input bool }

// pending is a change of state under way.
type pending struct {
	on   bool
	mode int
	at   float64 // ms
	from float64
	wait parts.Wait
}

// An Event is one change of state of one element.
type Event struct {
	Element    int
	From, To   parts.State
	MinMS      float64 // since the fault or step, at the earliest
	MaxMS      float64 // and at the latest, given the order of events
	Electronic bool    // took no time
}

// A Cycle is a state that keeps coming back.
type Cycle struct {
	Members  []int // elements that change within it
	PeriodMS float64
}

// View is the present solution, for watchers.
func (x *Machine) View() parts.View {
	v := parts.View{Net: x.Model.Net, Volts: x.dc}
	if x.ac != nil {
		v.VoltsAC = x.ac.net
	}
	return v
}

// V is the direct voltage of a node to earth.
func (x *Machine) V(n circuit.Node) float64 { return x.dc.V(n) }

// VAC is the rms voltage of a node to earth as a phasor at the mains frequency.
func (x *Machine) VAC(n circuit.Node) complex128 {
	if x.ac == nil {
		return 0
	}
	return x.ac.net.V(n)
}

// DC gives the solved direct-voltage network, for probes that need more than a
// voltage.
func (x *Machine) DC() *circuit.DC { return x.dc }

// AC is the same at the mains frequency; nil without mains.
func (x *Machine) AC() *circuit.AC {
	if x.ac == nil {
		return nil
	}
	if len(x.ac.aside) > 0 || !x.ac.net.Solved() {
		if err := x.ac.flush(); err != nil && x.err == nil {
			x.err = err
		}
	}
	return x.ac.net
}

// Moved lists the nodes that are more than bound, in volts, from where the
// checkpoint had them; some twice, once for each kind of current. The list is good
// until the next call.
func (x *Machine) Moved(bound float64) []circuit.Node {
	x.moved = append(x.moved[:0], x.dc.Moved(nil, bound)...)
	if x.ac != nil {
		x.moved = append(x.moved, x.ac.net.Moved(nil, bound)...)
	}
	return x.moved
}

// Log lists the events since the last call of Settle began.
func (x *Machine) Log() []Event { return x.log }

// Cycle tells the repeating cycle the panel is in, nil when it is at rest.
func (x *Machine) Cycle() *Cycle { return x.cycle }

// Err is why the network could not be solved, nil when it was.
func (x *Machine) Err() error { return x.err }

// State of an element.
func (x *Machine) State(element int) parts.State { return x.states[element] }

// Input of an element.
func (x *Machine) Input(element int) float64 { return x.inputs[element] }

// Status of the i-th device.
func (x *Machine) Status(i int) parts.Status {
	d := &x.Model.Net.Devices[i]
	st := d.Watch.Status(x.states[d.Element], x.inputs[d.Element], x.View())
	if x.cycle != nil {
		for _, m := range x.cycle.Members {
			if m == d.Element {
				st.State, st.Grade = "chattering", parts.Weak
			}
		}
	}
	return st
}

// Light is the status of the i-th indicator.
func (x *Machine) Light(i int) parts.Status {
	l := &x.Model.Net.Lights[i]
	return l.Watch.Status(x.states[l.Element], x.inputs[l.Element], x.View())
}

// Holds says whether some element holds a state it would not have reached from
// cold. What is as the checkpoint has it counts as reached: of a checkpoint of the
// panel powered up that is true.
func (x *Machine) Holds() bool { return len(x.holding()) > 0 }

func (x *Machine) holding() (list []int) {
	v := x.View()
	for _, i := range x.Model.holders {
		if x.asBefore(i) || x.held[i].state {
			continue
		}
		if x.Model.Net.Elements[i].Element.(parts.Holder).Holds(x.states[i], v) {
			list = append(list, i)
		}
	}
	return list
}

// Release lets go whatever holds a state it would not have reached from cold, and
// settles: as after a dip of the supply just long enough for that. It says whether
// anything is in another state for it.
func (x *Machine) Release() (changed bool) {
	modes := x.attention.modes
	for _, i := range x.holding() {
		x.setState(i, parts.State{})
	}
	x.Settle()
	return x.attention.modes != modes
}

// Links lists what faults have joined.
func (x *Machine) Links() []circuit.Ends { return x.links }

// Set moves an input: a button, a selector, a process value. A fault that holds
// the input wins.
func (x *Machine) Set(element int, input float64) {
	if x.held[element].input || x.inputs[element] == input {
		return
	}
	x.setInput(element, input)
}

func (x *Machine) setInput(element int, input float64) {
	x.undo.state(x, element)
	x.inputs[element] = input
	x.stamp(element)
}

func (x *Machine) setState(element int, s parts.State) {
	x.undo.state(x, element)
	x.put(element, s)
}

// put is setState without a way back.
func (x *Machine) put(element int, s parts.State) {
	x.attention.modes ^= mix(element, x.states[element].Mode) ^ mix(element, s.Mode)
	x.states[element] = s
	x.stamp(element)
}

func (x *Machine) stamp(element int) {
	x.touch(element)
	x.Model.Net.Elements[element].Element.Stamp(x.states[element], x.inputs[element], writer{x})
}

// touchEnds has everybody who looks at a branch's ends asked again.
func (x *Machine) touchEnds(e circuit.Ends) {
	for _, n := range []circuit.Node{e.A, e.B} {
		for _, i := range x.Model.sensors[n] {
			x.touch(int(i))
		}
	}
	x.attention.atRest = false
}

// writer passes stamps on, but for branches a fault has taken.
type writer struct{ x *Machine }

func (w writer) DC(branch int, v circuit.Value) {
	if !w.x.forced[branch] {
		w.x.dc.Set(branch, v)
	}
}

func (w writer) AC(branch int, v circuit.ACValue) {
	if w.x.ac != nil && !w.x.forced[branch] {
		w.x.ac.set(branch, v)
	}
}

// Apply makes the changes of a fault.
func (x *Machine) Apply(changes []parts.Change) {
	for _, c := range changes {
		dc, ac := circuit.Value{G: c.G}, circuit.ACValue{Y: complex(c.G, 0)}
		switch c.What {
		case parts.SetBranch:
			x.undo.branch(x, c.Branch)
			x.forced[c.Branch] = true
			x.touchEnds(x.Model.Net.Branches[c.Branch].Ends)
			x.dc.Set(c.Branch, dc)
			if x.ac != nil {
				x.ac.set(c.Branch, ac)
			}
		case parts.AddLink:
			x.links = append(x.links, c.Ends)
			x.touchEnds(c.Ends)
			x.dc.Link(c.Ends.A, c.Ends.B, dc)
			if x.ac != nil {
				x.ac.link(c.Ends, ac)
			}
		case parts.FixState:
			x.undo.state(x, c.Element)
			x.held[c.Element].state = true
			x.setState(c.Element, c.State)
		case parts.FixInput:
			x.undo.state(x, c.Element)
			x.held[c.Element].input = true
			x.setInput(c.Element, c.Input)
		}
	}
}

// Powered says whether any source of the panel is switched on.
func (x *Machine) Powered() bool {
	for i := range x.Model.Net.Elements {
		if k := x.Model.Net.Elements[i].Kind; k != nil && k.Source && x.inputs[i] != k.Positions[1].Value {
			return true
		}
	}
	return false
}
