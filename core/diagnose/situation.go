package diagnose

import (
	"strings"

	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A Situation is how the panel is held while a step is taken: as the condition
// leaves it, with a button held, or switched off.
type Situation struct {
	With    string     // the step that brings it about, "press S2"; empty for the condition itself
	Moves   []sim.Move // made in the condition
	Back    []sim.Move // undone before the next situation
	Minutes float64
	Off     bool // switched off, proved dead: resistance may be measured

	healthy []parts.Status // by device
	sound   sight          // what the healthy panel's probes meet
}

// Effort in minutes: common practice. Switching off means locking and proving.
const (
	minutesHold = 0.2
	minutesOff  = 5
)

// situations lists the condition itself, each button of its steps held down,
// and power-off.
func situations(m *sim.Model, c sim.Condition) []Situation {
	list := []Situation{{}}
	rest := map[int]float64{}
	for i, e := range m.Net.Elements {
		rest[i] = e.Rest
	}
	now := map[int]float64{}
	for _, mv := range append(append([]sim.Move{}, c.Set...), c.Steps...) {
		now[mv.Element] = mv.Input
	}
	seen := map[int]bool{}
	for _, mv := range c.Steps {
		e := &m.Net.Elements[mv.Element]
		if seen[mv.Element] || mv.Input == e.Rest || now[mv.Element] != e.Rest {
			continue
		}
		seen[mv.Element] = true
		for _, p := range e.Kind.Positions {
			if p.Value == mv.Input {
				list = append(list, Situation{With: p.Verb + " " + e.Ref, Minutes: minutesHold,
					Moves: []sim.Move{mv}, Back: []sim.Move{{Element: mv.Element, Input: e.Rest}}})
			}
		}
	}
	off := Situation{With: sim.PowerOff, Minutes: minutesOff, Off: true}
	for i, e := range m.Net.Elements {
		if e.Kind != nil && e.Kind.Source {
			off.Moves = append(off.Moves, sim.Move{Element: i, Input: e.Kind.Positions[1].Value})
		}
	}
	return append(list, off)
}

// walk brings a machine through some powered situations in turn and calls f in
// each. What a switched-off panel would show is solved when it is asked for.
func (e *Engine) walk(x *sim.Machine, situations []int, f func(situation int)) {
	for n, k := range situations {
		e.hold(x, k)
		f(k)
		if back := e.Situations[k].Back; len(back) > 0 && n < len(situations)-1 {
			move(x, back)
		}
	}
}

// hold brings a machine from the condition into a situation.
func (e *Engine) hold(x *sim.Machine, k int) {
	if len(e.Situations[k].Moves) > 0 {
		move(x, e.Situations[k].Moves)
	}
}

func move(x *sim.Machine, moves []sim.Move) {
	for _, mv := range moves {
		x.Set(mv.Element, mv.Input)
	}
	x.Settle()
}

// Hold brings a machine from the condition into a situation, for those who take
// the step.
func (e *Engine) Hold(x *sim.Machine, situation int) { e.hold(x, situation) }

// Situation finds the situation brought about by a step, -1 without one.
func (e *Engine) Situation(with string) int {
	with = strings.Join(strings.Fields(with), " ")
	for k := range e.Situations {
		if e.Situations[k].With == with {
			return k
		}
	}
	return -1
}
