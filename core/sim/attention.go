package sim

import (
	"slices"

	"halfsplit/core/circuit"
	"halfsplit/core/parts"
)

// How far a node's voltage must move before the elements that look at it are
// asked again, in volts.
const (
	// After a checkpoint, in each look. Over looks in a row a difference of two
	// nodes may creep by twice this each, so after enough of them to come near
	// tenderVolts all that moved since the checkpoint are asked once more.
	anchoredVolts = 2e-3
	enoughLooks   = 4
	// From the last asking, before there is a checkpoint. All are asked once more
	// before the panel is left at rest.
	rollingVolts = 1e-4
	// An element that answers otherwise with this much added to or taken from its
	// voltages is tender: it is asked every time.
	tenderVolts = 20e-3
)

// attention keeps the cost of an event to what the event moved. Elements are
// asked again only when a voltage they look at has moved, or when they
// themselves were touched.
//
// # What movement is measured from
//
// Up to the first Checkpoint the machine goes on without return: movement is
// counted from the last time of asking (rolling). After a Checkpoint of a panel
// at rest, movement is counted from there, where every element was content
// (anchored): whoever does not differ from the checkpoint need not be asked. After
// a Checkpoint of anything else, all are asked every time.
type attention struct {
	how      footing
	touched  []int32 // elements changed since the last asking
	isTouch  []bool
	asked    []int32 // in the last round
	differ   []int32 // asked in any round since the checkpoint
	differs  []bool
	looks    int // since the checkpoint
	mark     []uint32
	round    uint32
	restless []int32 // elements that want to change or have a clock running, ascending
	modes    uint64  // hash of all modes
	atRest   bool    // nobody wants anything
	checked  bool    // nobody can have been missed since the last event
	hasty    bool    // more steps follow at once: who crept little by little is asked after the last
	tender   []int32 // close to a threshold at the checkpoint
}

type footing int

const (
	fresh    footing = iota // nothing known: ask all, then roll
	rolling                 // from the last asking
	anchored                // from a checkpoint at rest
	lost                    // from a checkpoint that was not at rest: ask all
)

func newAttention(elements int) attention {
	return attention{isTouch: make([]bool, elements), mark: make([]uint32, elements), differs: make([]bool, elements)}
}

// touch notes that an element's state, input or branches have changed.
func (a *attention) touch(i int) {
	a.atRest = false
	if !a.isTouch[i] {
		a.isTouch[i] = true
		a.touched = append(a.touched, int32(i))
	}
}

func (a *attention) forget() {
	for _, i := range a.touched {
		a.isTouch[i] = false
	}
	a.touched = a.touched[:0]
}

// wish is what an element asks for in the present solution.
type wish struct {
	state parts.State
	wait  parts.Wait
}

// ask brings the wishes of all elements up to date with the present solution.
func (x *Machine) ask() {
	a := &x.attention
	switch a.how {
	case fresh, lost:
		if a.how == fresh {
			a.how = rolling
			x.gather(rollingVolts)
		}
		x.askAll()
		return
	case rolling:
		a.checked = false
		x.gather(rollingVolts)
		a.forget()
	case anchored:
		a.looks++
		a.checked = a.looks <= enoughLooks
		x.gather(anchoredVolts)
		a.forget()
	}
	x.hear()
}

// rest forgets who was asked: the panel is as at the checkpoint.
func (a *attention) rest() {
	for _, i := range a.differ {
		a.differs[i] = false
	}
	a.differ, a.asked, a.restless, a.looks = a.differ[:0], a.asked[:0], a.restless[:0], 0
}

// askMoved asks everybody who looks at a node that is not where the checkpoint
// had it, however it came there.
func (x *Machine) askMoved() {
	a := &x.attention
	x.begin()
	x.addSensors(x.dc.Moved(x.Model.watch, anchoredVolts))
	if x.ac != nil {
		x.addSensors(x.ac.net.Moved(x.Model.watch, anchoredVolts))
	}
	for _, i := range a.differ {
		a.add(i)
	}
	a.checked = true
	x.hear()
}

// askAll asks everybody.
func (x *Machine) askAll() {
	a := &x.attention
	a.checked = true
	a.asked = a.asked[:0]
	a.round++
	for i := range x.wishes {
		a.add(int32(i))
	}
	a.forget()
	x.hear()
}

// hear takes the wishes of those to be asked.
func (x *Machine) hear() {
	a := &x.attention
	v := x.View()
	for _, i := range a.asked {
		x.wishes[i] = x.wishOf(int(i), v)
		if !a.differs[i] {
			a.differs[i] = true
			a.differ = append(a.differ, i)
		}
	}
	x.rouse()
}

// findTender lists the elements that are close to changing their mind.
func (x *Machine) findTender() {
	a := &x.attention
	a.tender = a.tender[:0]
	up, down := x.View(), x.View()
	up.Bias, down.Bias = tenderVolts, -tenderVolts
	for i := range x.states {
		if x.wishOf(i, up).state.Mode != x.states[i].Mode || x.wishOf(i, down).state.Mode != x.states[i].Mode || x.states[i].X != 0 {
			a.tender = append(a.tender, int32(i))
		}
	}
}

func (x *Machine) wishOf(i int, v parts.View) wish {
	if x.held[i].state {
		return wish{state: x.states[i]}
	}
	s, wait := x.Model.Net.Elements[i].Element.Next(x.states[i], x.inputs[i], v)
	return wish{s, wait}
}

// gather lists the elements to be asked: with those of begin, those that look at a
// node that moved since the last look.
func (x *Machine) gather(bound float64) {
	x.begin()
	x.addSensors(x.dc.Look(x.Model.watch, bound))
	if x.ac != nil {
		x.addSensors(x.ac.net.Look(x.Model.watch, bound))
	}
}

// begin starts a round of asking with the touched and the tender elements.
func (x *Machine) begin() {
	a := &x.attention
	a.asked = a.asked[:0]
	a.round++
	for _, i := range a.touched {
		a.add(i)
	}
	for _, i := range a.tender {
		a.add(i)
	}
}

// addSensors has the elements asked that look at a node.
func (x *Machine) addSensors(nodes []circuit.Node) {
	round, mark, asked := x.attention.round, x.attention.mark, x.attention.asked
	for _, n := range nodes {
		for _, i := range x.Model.sensors[n] {
			if mark[i] != round {
				mark[i] = round
				asked = append(asked, i)
			}
		}
	}
	x.attention.asked = asked
}

// add has an element asked in this round.
func (a *attention) add(i int32) {
	if a.mark[i] != a.round {
		a.mark[i] = a.round
		a.asked = append(a.asked, i)
	}
}

// rouse brings the list of restless elements up to date after an asking.
func (x *Machine) rouse() {
	a := &x.attention
	list := x.spare[:0]
	if a.how == rolling || a.how == anchored { // those not asked again still want what they wanted
		for _, i := range a.restless {
			if a.mark[i] != a.round && x.restless(int(i)) {
				list = append(list, i)
			}
		}
	}
	for _, i := range a.asked {
		if x.wishes[i].state.Mode == x.states[i].Mode {
			x.due[i].on = false
		}
		if x.restless(int(i)) {
			list = append(list, i)
		}
	}
	if len(list) > 1 {
		slices.Sort(list)
		list = slices.Compact(list)
	}
	a.restless, x.spare = list, a.restless
}

func (x *Machine) restless(i int) bool { return x.wishes[i].state != x.states[i] || x.due[i].on }

// Differing lists the elements that may differ from the checkpoint, in no order;
// ok is false where the checkpoint was not at rest and any may.
func (x *Machine) Differing() (elements []int32, ok bool) {
	return x.attention.differ, x.attention.how == anchored
}

// asBefore says that an element is surely as the checkpoint has it, and so are the
// voltages it looks at.
func (x *Machine) asBefore(element int) bool {
	return x.attention.how == anchored && !x.attention.differs[element]
}
