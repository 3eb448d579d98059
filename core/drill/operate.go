package drill

import (
	"errors"
	"slices"

	"halfsplit/core/fault"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

func moveTo(element int, input float64) sim.Move { return sim.Move{Element: element, Input: input} }

// operate moves a button, selector, lever, breaker or the switch of a source.
func (a *Attempt) operate(e *Entry) *Refusal {
	c, net := a.Case, a.Case.Rig.Model.Net
	mv, err := c.Rig.Model.Step(e.Act.Step)
	if err != nil {
		var ce *sim.ConditionError
		if errors.As(err, &ce) {
			return &Refusal{Code: ce.Code, Args: []string{ce.Text, ce.Thing}, Choices: ce.Choices}
		}
		return &Refusal{Code: "unknown-step", Args: []string{e.Act.Step}}
	}
	el := &net.Elements[mv.Element]
	if slices.Contains(a.locked, mv.Element) {
		return &Refusal{Code: "drill.locked", Args: []string{el.Ref}}
	}
	if len(el.Kind.Positions) == 0 || !a.inReach(el.Ref) {
		return &Refusal{Code: "drill.process", Args: []string{el.Ref}}
	}
	away := mv.Input != el.Kind.Positions[0].Value
	if a.marked(el.Ref) && away {
		e.Gates = append(e.Gates, MarkedPost)
	}
	e.Seconds = c.effort.Operate
	if a.isolates(mv.Element) && away {
		e.Seconds = c.effort.Isolate
	}
	e.Seconds += a.walkTo(el.Ref)
	if !away && a.putBack(e, mv.Element) {
		return nil
	}
	before := a.running()
	a.move(mv)
	e.tell("drill.operated", "@verb."+verb(el.Kind, mv.Input), el.Ref)
	if len(el.Kind.Positions) > 0 && (el.Kind.Isolates || el.Kind.Source || el.Kind.Block) {
		a.down(e, before)
	}
	if a.x.Powered() && !away {
		a.tester, a.dead = false, nil // what was proved dead may be live again
	}
	return nil
}

func verb(k *parts.Kind, input float64) string {
	for _, p := range k.Positions {
		if p.Value == input {
			return p.Verb
		}
	}
	return ""
}

// putBack mends a lever found open or a breaker found tripped by moving it home.
func (a *Attempt) putBack(e *Entry, element int) bool {
	ref := a.Case.Rig.Model.Net.Elements[element].Ref
	home := a.mend(func(f *fault.Fault) bool {
		if !f.Visible {
			return false
		}
		for _, ch := range f.Changes {
			if (ch.What == parts.FixInput || ch.What == parts.FixState) && ch.Element == element {
				return true
			}
		}
		return false
	})
	if home {
		e.tell("drill.moved-back", ref)
	}
	return home
}

// inReach says whether a person moves it by hand: what the process moves (a level, a
// flow, an output of the controller) is not the learner's to move.
func (a *Attempt) inReach(ref string) bool {
	i, ok := a.Case.Rig.Model.Net.Input(ref)
	return ok && ByHand(a.Case.Rig.Model.Net.Elements[i].Kind)
}

// ByHand says whether people at the panel move things of a kind: levers, breakers,
// sources and buttons; not field switches and not channels of a card.
func ByHand(k *parts.Kind) bool {
	if k == nil || len(k.Positions) < 2 {
		return false
	}
	return k.Block || k.Isolates || k.Source || slices.Contains(k.Letters, "S") && !slices.Contains(k.Letters, "B")
}

func (a *Attempt) isolates(element int) bool {
	k := a.Case.Rig.Model.Net.Elements[element].Kind
	return k != nil && (k.Isolates || k.Source)
}

// marked says whether the drill marks this terminal.
func (a *Attempt) marked(thing string) bool {
	c := a.Case
	nodes := c.metals(thing)
	for _, m := range c.Drill.Marked {
		if c.name(m) == c.name(thing) {
			return true
		}
		for _, n := range c.metals(m) {
			if slices.Contains(nodes, n) {
				return true
			}
		}
	}
	return false
}

// lock puts a padlock on an isolating point that is off.
func (a *Attempt) lock(e *Entry) *Refusal {
	thing := a.Case.name(e.Act.Thing)
	i, ok := a.Case.Rig.Model.Net.Input(thing)
	if !ok || !a.isolates(i) {
		return &Refusal{Code: "drill.no-isolator", Args: []string{e.Act.Thing}, Choices: a.isolators()}
	}
	if a.x.Input(i) == a.Case.Rig.Model.Net.Elements[i].Kind.Positions[0].Value {
		return &Refusal{Code: "drill.lock-while-on", Args: []string{thing}}
	}
	if !slices.Contains(a.locked, i) {
		a.locked = append(a.locked, i)
	}
	e.Seconds = a.Case.effort.Operate
	e.tell("drill.lock-on", thing)
	return nil
}

func (a *Attempt) unlock(e *Entry) *Refusal {
	i, ok := a.Case.Rig.Model.Net.Input(a.Case.name(e.Act.Thing))
	k := slices.Index(a.locked, i)
	if !ok || k < 0 {
		return &Refusal{Code: "drill.not-locked", Args: []string{e.Act.Thing}}
	}
	a.locked = slices.Delete(a.locked, k, k+1)
	e.Seconds = a.Case.effort.Operate
	e.tell("drill.lock-off", e.Act.Thing)
	return nil
}

// isolators lists the isolating points by name.
func (a *Attempt) isolators() (list []string) {
	for i := range a.Case.Rig.Model.Net.Elements {
		el := &a.Case.Rig.Model.Net.Elements[i]
		if a.isolates(i) && len(el.Kind.Positions) > 1 && !slices.Contains(list, el.Ref) && !hasSpace(el.Ref) {
			list = append(list, el.Ref)
		}
	}
	return list
}

func hasSpace(s string) bool { return slices.Contains([]byte(s), ' ') }
