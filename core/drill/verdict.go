package drill

import (
	"slices"
	"strings"

	"halfsplit/core/fault"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// call says where the fault is and what it is. Whether that is right is not told
// now: the function proves it, and the debrief.
func (a *Attempt) call(e *Entry) *Refusal {
	c := a.Case
	if !slices.Contains(Classes, e.Act.Class) {
		return &Refusal{Code: "drill.unknown-class", Args: []string{e.Act.Class}, Choices: Classes}
	}
	thing := c.name(e.Act.Thing)
	if _, isDevice := c.device(thing); !isDevice && len(c.metals(thing)) == 0 && c.placeOf(thing) == thing && !c.isPlace(thing) {
		return c.unknown(e.Act.Thing)
	}
	a.Calls = append(a.Calls, Called{Thing: thing, Class: e.Act.Class, Act: len(a.Log), epoch: a.epoch})
	e.tell("drill.called", bare(thing), "@class."+e.Act.Class)
	return nil
}

func (c *Case) isPlace(thing string) bool {
	for i := range c.Rig.Set.Faults {
		if c.Rig.Set.Faults[i].Place == thing {
			return true
		}
	}
	return false
}

// repair mends what was called last, if that is where something is wrong.
func (a *Attempt) repair(e *Entry) *Refusal {
	c := a.Case
	if len(a.Calls) == 0 {
		return &Refusal{Code: "drill.call-first"}
	}
	last := a.Calls[len(a.Calls)-1]
	if last.Class == Nothing {
		return &Refusal{Code: "drill.nothing-to-repair", Args: []string{last.Thing}}
	}
	place := c.placeOf(last.Thing)
	there := func(f *fault.Fault) bool { return f.Place == place || f.Thing == last.Thing }
	byHand := slices.ContainsFunc(a.present, func(f *fault.Fault) bool { return there(f) && lever(f) })
	if !byHand {
		a.hands(e, place)
		e.Seconds += c.effort.Replace
	} else {
		e.Seconds = c.effort.Operate
	}
	if !a.mend(there) {
		a.Good = append(a.Good, place)
		a.checked = false
	}
	e.tell("drill.repaired", bare(place))
	return nil
}

// lever says that a fault is a lever or breaker in the wrong position.
func lever(f *fault.Fault) bool {
	return f.Visible && slices.ContainsFunc(f.Changes, func(ch parts.Change) bool { return ch.What == parts.FixInput || ch.What == parts.FixState })
}

// proveFunction starts the plant as the condition has it and looks at every device.
func (a *Attempt) proveFunction(e *Entry) *Refusal {
	c := a.Case
	for _, mv := range a.moves {
		if k := c.Rig.Model.Net.Elements[mv.Element].Kind; k != nil && k.Source {
			return &Refusal{Code: "drill.still-off", Args: []string{c.Rig.Model.Net.Elements[mv.Element].Ref}}
		}
	}
	a.moves = slices.DeleteFunc(a.moves, func(mv sim.Move) bool { // the start moves what it moves
		return slices.ContainsFunc(c.base.Cond.Steps, func(s sim.Move) bool { return s.Element == mv.Element })
	})
	a.rebuild()
	a.moved = len(a.moves) > 0 || len(a.lifted) > 0
	a.tester, a.dead = false, nil
	e.Seconds = c.effort.Look*2 + c.effort.Operate*len(c.base.Cond.Steps)
	with, held := a.with()
	var wrong []string
	for i := range c.Rig.Model.Net.Devices {
		st := a.x.Status(i)
		if st.State != c.base.Healthy[i].State {
			wrong = append(wrong, c.call(i))
			e.sights = append(e.sights, sight{thing: i, look: 1, state: st.State, with: with, held: held})
		}
	}
	a.checked = len(wrong) == 0
	if a.checked {
		e.tell("drill.function-good")
	} else {
		e.tell("drill.still-wrong", strings.Join(wrong, ", "))
	}
	return nil
}
