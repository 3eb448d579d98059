package drill

import (
	"slices"
	"strings"

	"halfsplit/core/fault"
	"halfsplit/core/parts"
)

// tighten turns the screw of one clamp.
func (a *Attempt) tighten(e *Entry) *Refusal {
	end, ok := a.Case.end(e.Act.Thing)
	if !ok {
		return a.noEnd(e.Act.Thing)
	}
	name := end.No + "@" + end.At
	a.hands(e, name)
	gave := a.mend(func(f *fault.Fault) bool { return f.Thing == name && f.Class == "resistive" })
	if gave {
		e.tell("drill.gave-a-turn", name)
	} else {
		e.tell("drill.was-tight", name)
	}
	return nil
}

func (a *Attempt) noEnd(thing string) *Refusal {
	var choices []string
	for _, e := range a.Case.Rig.Model.Net.Ends {
		if e.No == a.Case.name(thing) || e.At == a.Case.name(thing) || strings.HasPrefix(e.At, a.Case.name(thing)+"/") {
			choices = append(choices, e.No+"@"+e.At)
		}
	}
	return &Refusal{Code: "drill.no-wire-end", Args: []string{thing}, Choices: choices}
}

// lift takes a wire end out of its clamp.
func (a *Attempt) lift(e *Entry) *Refusal {
	end, ok := a.Case.end(e.Act.Thing)
	if !ok {
		return a.noEnd(e.Act.Thing)
	}
	name := end.No + "@" + end.At
	if slices.Contains(a.lifted, name) {
		return &Refusal{Code: "drill.lifted-already", Args: []string{name}}
	}
	if a.marked(name) {
		e.Gates = append(e.Gates, MarkedPost)
	}
	a.hands(e, name)
	before := a.running()
	a.lifted = append(a.lifted, name)
	a.moved = true
	a.x.Apply([]parts.Change{parts.Open(end.Clamp)})
	a.x.Settle()
	a.x.Checkpoint()
	e.tell("drill.lifted", name)
	a.down(e, before)
	return nil
}

// land puts a wire end where it belongs: one the learner lifted, or one found out of
// its clamp or on another terminal.
func (a *Attempt) land(e *Entry) *Refusal {
	end, ok := a.Case.end(e.Act.Thing)
	if !ok {
		return a.noEnd(e.Act.Thing)
	}
	name := end.No + "@" + end.At
	own := slices.Contains(a.lifted, name)
	if !own && !a.free(name) {
		return &Refusal{Code: "drill.strand-landed", Args: []string{name}}
	}
	a.hands(e, name)
	a.lifted = slices.DeleteFunc(a.lifted, func(l string) bool { return l == name })
	if !a.mend(func(f *fault.Fault) bool { return f.Visible && f.Thing == name }) {
		a.rebuild()
	}
	e.tell("drill.landed", name)
	return nil
}

// replace fits a new part, fuse or wire. Whether the old one was bad shows later.
func (a *Attempt) replace(e *Entry) *Refusal {
	c := a.Case
	thing := c.placeOf(e.Act.Thing)
	if len(c.metals(thing)) == 0 {
		return c.unknown(e.Act.Thing)
	}
	a.hands(e, thing)
	e.Seconds += c.effort.Replace
	if !a.mend(func(f *fault.Fault) bool { return f.Place == thing }) {
		a.Good = append(a.Good, thing)
	}
	e.tell("drill.replaced", thing)
	return nil
}

// bypass jumps something out: shown, and the end of the attempt.
func (a *Attempt) bypass(e *Entry) *Refusal {
	red, black, refused := a.pair(e)
	if refused != nil {
		return refused
	}
	e.Gates = append(e.Gates, Bypassed)
	before := a.running()
	a.x.Apply([]parts.Change{parts.Join(red.Node, black.Node, bypassOhms)})
	a.x.Settle()
	e.tell("drill.bypassed", red.Name, black.Name)
	a.down(e, before)
	var started []string
	for _, i := range a.running() {
		if !slices.Contains(before, i) {
			started = append(started, a.Case.Rig.Model.Net.Devices[i].Ref)
		}
	}
	if len(started) > 0 {
		e.tell("drill.started", strings.Join(started, ", "))
	}
	a.x.Revert()
	return nil
}

// bypassOhms is a short length of wire in two hands: choice.
const bypassOhms = 0.02
