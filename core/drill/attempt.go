package drill

import (
	"slices"

	"halfsplit/core/fault"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// An Attempt is the acts of one learner on one case, and all that follows from
// them.
type Attempt struct {
	Case  *Case
	Log   []Entry
	Fired []Fired // gates, in order
	Calls []Called
	Good  []string // good parts replaced, as named
	Ended string   // "", "done", "gave-up" or "gate"

	x       *sim.Machine
	present []*fault.Fault // hidden and not mended yet
	lifted  []string       // wire ends, as WireEnd names them
	moves   []sim.Move     // positions that differ from the condition's, in order
	moved   bool           // something was moved since the condition was reached
	locked  []int          // elements
	epoch   int
	where   string // the field device the learner stands at; empty at the panel
	checked bool   // the function was proved after the last repair

	tester bool // the tester was proved and nothing was proved dead since
	dead   []proof
}

// Fired is a gate and the act that fell into it.
type Fired struct {
	Gate Gate
	Act  int // index into Log
}

// Called is a call and the act it was made by.
type Called struct {
	Thing, Class string
	Act          int
	epoch        int
}

// Begin puts the learner in front of the panel.
func (c *Case) Begin() *Attempt {
	a := &Attempt{Case: c, present: slices.Clone(c.Faults)}
	a.rebuild()
	return a
}

// Replay does acts one after another. An act that is refused ends it: the attempt
// as it was before is returned with the Refusal.
func (c *Case) Replay(acts []Act) (*Attempt, *Refusal) {
	a := c.Begin()
	for _, act := range acts {
		if _, refused := a.Do(act); refused != nil {
			return a, refused
		}
	}
	return a, nil
}

// Do does one act and notes it. A refused one is not noted.
func (a *Attempt) Do(act Act) (*Entry, *Refusal) {
	if a.Ended != "" {
		return nil, &Refusal{Code: "drill.ended"}
	}
	do, known := doing[act.Kind]
	if !known {
		return nil, &Refusal{Code: "drill.unknown-act", Args: []string{act.Kind}, Choices: Kinds}
	}
	e := Entry{Act: act, epoch: a.epoch}
	if refused := do(a, &e); refused != nil {
		return nil, refused
	}
	a.Log = append(a.Log, e)
	for _, g := range e.Gates {
		a.Fired = append(a.Fired, Fired{g, len(a.Log) - 1})
		if a.Case.Drill.effect(g) == Ends {
			a.Ended = "gate"
		}
	}
	return &a.Log[len(a.Log)-1], nil
}

var doing = map[string]func(*Attempt, *Entry) *Refusal{
	DoLook: (*Attempt).look, DoAsk: (*Attempt).ask, DoOperate: (*Attempt).operate, DoPull: (*Attempt).pull, DoRead: (*Attempt).read,
	DoLock: (*Attempt).lock, DoUnlock: (*Attempt).unlock, DoProveTester: (*Attempt).proveTester, DoProveDead: (*Attempt).proveDead,
	DoTighten: (*Attempt).tighten, DoLift: (*Attempt).lift, DoLand: (*Attempt).land, DoReplace: (*Attempt).replace, DoBypass: (*Attempt).bypass,
	DoCall: (*Attempt).call, DoRepair: (*Attempt).repair, DoProveFunction: (*Attempt).proveFunction,
	DoDone:   func(a *Attempt, _ *Entry) *Refusal { a.Ended = "done"; return nil },
	DoGiveUp: func(a *Attempt, _ *Entry) *Refusal { a.Ended = "gave-up"; return nil },
}

// Seconds is what the attempt has taken by the drill's effort.
func (a *Attempt) Seconds() int {
	n := 0
	for i := range a.Log {
		n += a.Log[i].Seconds
	}
	return n
}

// rebuild brings the panel from cold to the condition with what is wrong with it
// now, and then moves what the learner has moved.
func (a *Attempt) rebuild() {
	c := a.Case
	list := changes(a.present)
	for _, name := range a.lifted {
		if e, ok := c.end(name); ok {
			list = append(list, parts.Open(e.Clamp))
		}
	}
	a.x = c.Rig.Model.Replay(c.base.Cond, c.onset, list)
	for _, mv := range a.moves {
		a.x.Set(mv.Element, mv.Input)
		a.x.Settle()
	}
	a.x.Checkpoint()
}

// move puts an input somewhere and lets the panel come to rest.
func (a *Attempt) move(mv sim.Move) {
	a.moves = slices.DeleteFunc(a.moves, func(m sim.Move) bool { return m.Element == mv.Element })
	if mv.Input != a.Case.base.Machine.Input(mv.Element) {
		a.moves = append(a.moves, mv)
	}
	a.moved = true
	a.x.Set(mv.Element, mv.Input)
	a.x.Settle()
	a.x.Checkpoint()
}

// with says how the panel is held: "" as the condition has it, "press S2", or
// "power-off". ok is false where it is held in a way package diagnose has no
// hypotheses for.
func (a *Attempt) with() (with string, ok bool) {
	net := a.Case.Rig.Model.Net
	if len(a.lifted) > 0 {
		return "", false
	}
	sources, off := 0, 0
	for i := range net.Elements {
		if k := net.Elements[i].Kind; k != nil && k.Source {
			sources++
			if a.x.Input(i) == k.Positions[1].Value {
				off++
			}
		}
	}
	switch {
	case off > 0 && off == sources && off == len(a.moves):
		return sim.PowerOff, true
	case len(a.moves) > 1:
		return "", false
	case len(a.moves) == 1:
		mv := a.moves[0]
		for _, p := range net.Elements[mv.Element].Kind.Positions {
			if p.Value == mv.Input {
				with = p.Verb + " " + net.Elements[mv.Element].Ref
			}
		}
	}
	return with, !a.moved || a.asReplayed()
}

// asReplayed says whether the panel is in the state a replay would bring it to: a
// relay that held itself in may have dropped on the way.
func (a *Attempt) asReplayed() bool {
	c := a.Case
	ref := c.Rig.Model.Replay(c.base.Cond, c.onset, changes(a.present))
	for _, mv := range a.moves {
		ref.Set(mv.Element, mv.Input)
		ref.Settle()
	}
	for i := range c.Rig.Model.Net.Elements {
		if ref.State(i).Mode != a.x.State(i).Mode {
			return false
		}
	}
	return true
}

// mend takes faults away. It says whether there was one.
func (a *Attempt) mend(which func(*fault.Fault) bool) bool {
	before := len(a.present)
	a.present = slices.DeleteFunc(a.present, which)
	if len(a.present) == before {
		return false
	}
	a.epoch++
	a.checked = false
	a.rebuild()
	return true
}

// Whole says that nothing hidden is left.
func (a *Attempt) Whole() bool { return len(a.present) == 0 }
