package sim

import (
	"fmt"
	"sort"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/unit"
)

// PowerOff is the condition every panel has: all its sources switched off.
const PowerOff = "power-off"

// A Condition is a state of the plant, resolved: where inputs stand from the
// start, then steps in order.
type Condition struct {
	Name  string
	Set   []Move
	Steps []Move
}

// A Move puts one input somewhere.
type Move struct {
	Element int
	Input   float64
}

// A ConditionError says what of "NAME; VERB REF; ..." is not understood.
type ConditionError struct {
	Code    string // "unknown-condition", "unknown-verb", "unknown-position", "nothing-to-set"
	Text    string // the word that is wrong
	Thing   string // what it is about
	Choices []string
}

func (e *ConditionError) Error() string {
	return fmt.Sprintf("%s: %s %s", e.Code, e.Thing, e.Text)
}

// Conditions lists the names a panel has, PowerOff last.
func (m *Model) Conditions() []string {
	var names []string
	seen := map[string]bool{}
	for _, c := range m.Panel.Conditions {
		names = append(names, c.Name)
		seen[c.Name] = true
	}
	if !seen["normal"] {
		names = append([]string{"normal"}, names...)
	}
	return append(names, PowerOff)
}

// Condition reads "NAME; STEP; STEP": the name of a condition of the panel, then
// further steps, each "VERB REF" or "set REF POSITION". An empty text is
// "normal". The error is a *ConditionError.
func (m *Model) Condition(text string) (Condition, error) {
	words := strings.Split(text, ";")
	name := strings.TrimSpace(words[0])
	if name == "" {
		name = "normal"
	}
	c := Condition{Name: name}
	found := name == "normal" || name == PowerOff
	for _, d := range m.Panel.Conditions {
		if d.Name != name {
			continue
		}
		found = true
		for _, ref := range sorted(d.Set) {
			mv, err := m.move(ref, d.Set[ref])
			if err != nil {
				return Condition{}, err
			}
			c.Set = append(c.Set, mv)
		}
		for _, s := range d.Steps {
			mv, err := m.Step(s)
			if err != nil {
				return Condition{}, err
			}
			c.Steps = append(c.Steps, mv)
		}
	}
	if !found {
		return Condition{}, &ConditionError{Code: "unknown-condition", Text: name, Choices: m.Conditions()}
	}
	if name == PowerOff {
		for i, e := range m.Net.Elements {
			if e.Kind != nil && e.Kind.Source {
				c.Set = append(c.Set, Move{i, e.Kind.Positions[1].Value})
			}
		}
	}
	for _, s := range words[1:] {
		if strings.TrimSpace(s) == "" {
			continue
		}
		mv, err := m.Step(s)
		if err != nil {
			return Condition{}, err
		}
		c.Steps = append(c.Steps, mv)
	}
	return c, nil
}

func sorted(set map[string]string) []string {
	refs := make([]string, 0, len(set))
	for r := range set {
		refs = append(refs, r)
	}
	sort.Strings(refs)
	return refs
}

// Step reads "press S2", "open X1:7", "set B3 50 %".
func (m *Model) Step(text string) (Move, error) {
	f := strings.Fields(text)
	if len(f) < 2 {
		return Move{}, &ConditionError{Code: "unknown-step", Text: strings.TrimSpace(text)}
	}
	if f[0] == "set" {
		return m.move(f[1], strings.Join(f[2:], " "))
	}
	i, kind, err := m.target(f[1])
	if err != nil {
		return Move{}, err
	}
	var verbs []string
	for _, p := range kind.Positions {
		if p.Verb == f[0] {
			return Move{i, p.Value}, nil
		}
		verbs = append(verbs, p.Verb)
	}
	return Move{}, &ConditionError{Code: "unknown-verb", Text: f[0], Thing: f[1], Choices: verbs}
}

func (m *Model) target(ref string) (int, *parts.Kind, error) {
	i, ok := m.Net.Input(panel.Designation(ref))
	if !ok {
		return 0, nil, &ConditionError{Code: "unknown-thing", Text: ref, Choices: m.settable()}
	}
	k := m.Net.Elements[i].Kind
	if k == nil || len(k.Positions) == 0 && !k.Analogue {
		return 0, nil, &ConditionError{Code: "nothing-to-set", Text: ref, Choices: m.settable()}
	}
	return i, k, nil
}

func (m *Model) settable() []string {
	var refs []string
	for _, e := range m.Net.Elements {
		if e.Kind != nil && (len(e.Kind.Positions) > 0 || e.Kind.Analogue) && !strings.Contains(e.Ref, " ") {
			refs = append(refs, e.Ref)
		}
	}
	return refs
}

// move reads a position of ref: one of its kind's, or a process value as a
// percentage of the range or as the loop current.
func (m *Model) move(ref, position string) (Move, error) {
	i, k, err := m.target(ref)
	if err != nil {
		return Move{}, err
	}
	if k.Analogue {
		if v, err := unit.Parse(position, unit.Ratio); err == nil && v >= 0 && v <= 1 {
			return Move{i, v}, nil
		}
		if a, err := unit.Parse(position, unit.Current); err == nil && a >= 0 && a <= 0.025 {
			return Move{i, (a - 4e-3) / 16e-3}, nil
		}
		return Move{}, &ConditionError{Code: "unknown-position", Text: position, Thing: ref, Choices: []string{"50 %", "12 mA"}}
	}
	var names []string
	for _, p := range k.Positions {
		if p.Name == position {
			return Move{i, p.Value}, nil
		}
		names = append(names, p.Name)
	}
	return Move{}, &ConditionError{Code: "unknown-position", Text: position, Thing: ref, Choices: names}
}

// An Onset says when a fault came.
type Onset int

// The onsets: in the running plant, or before it was started.
const (
	Running Onset = iota
	Start
)

// Replay brings the panel from cold to the condition, with the changes of a
// fault made at their onset, and leaves it settled.
func (m *Model) Replay(c Condition, onset Onset, changes []parts.Change) *Machine {
	x := m.Cold()
	if onset == Start {
		x.Apply(changes)
	}
	x.Enter(c)
	if onset == Running && len(changes) > 0 {
		x.Apply(changes)
		x.Settle()
	}
	return x
}

// Enter moves the inputs where the condition has them, then does its steps,
// settling after each.
func (x *Machine) Enter(c Condition) {
	x.PowerUp(c)
	x.Do(c.Steps)
}

// PowerUp moves the inputs where the condition has them, and settles.
func (x *Machine) PowerUp(c Condition) {
	for _, mv := range c.Set {
		x.Set(mv.Element, mv.Input)
	}
	x.Settle()
}

// Do takes steps, settling after each.
func (x *Machine) Do(steps []Move) {
	for i, mv := range steps {
		x.Set(mv.Element, mv.Input)
		x.attention.hasty = i < len(steps)-1
		x.Settle()
	}
}
