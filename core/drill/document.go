package drill

import (
	"halfsplit/core/panel"
)

// Format and Version stand at the head of every drill.
const (
	Format  = "halfsplit-drill"
	Version = 1
)

// A Drill is one exercise. What the learner must not see is in Hidden, or in
// Sealed once it is handed out.
type Drill struct {
	Format    string            `json:"format"`
	Version   int               `json:"version"`
	Name      string            `json:"name"`
	Grade     int               `json:"grade"`               // 1 a clean open, 4 the hardest
	Demo      string            `json:"demo,omitempty"`      // an embedded panel; or
	Panel     *panel.Panel      `json:"panel,omitempty"`     // a panel of its own
	At        string            `json:"at,omitempty"`        // what the plant is said to be doing: a condition and steps
	Complaint string            `json:"complaint"`           // the words of the call
	Dead      []string          `json:"dead,omitempty"`      // devices the caller says are dead
	Works     []string          `json:"works,omitempty"`     // devices the caller says are as they should be
	Sees      map[string]string `json:"sees,omitempty"`      // states the caller saw, by device
	Reads     []Measured        `json:"reads,omitempty"`     // what somebody has measured
	Questions []string          `json:"questions,omitempty"` // what the operator can be asked
	Tools     []string          `json:"tools,omitempty"`     // meter modes allowed; all when empty
	Effort    *Effort           `json:"effort,omitempty"`    // what acts take here; the usual where it is silent
	Gates     map[string]string `json:"gates,omitempty"`     // gate → "end", "cap" or "note", where it differs from the usual
	Marked    []string          `json:"marked,omitempty"`    // terminals nobody opens or lifts
	Goals     []string          `json:"goals,omitempty"`     // what the learner is to show, in the trainer's words
	Hidden    *Hidden           `json:"hidden,omitempty"`    // while it is written
	Sealed    string            `json:"sealed,omitempty"`    // once it is handed out: Seal
}

// Measured is a reading somebody else took, as the call tells it.
type Measured struct {
	Mode  string `json:"mode"`
	Red   string `json:"red"`
	Black string `json:"black"`
	Shown string `json:"shown"` // "11.8 V"
}

// Hidden is what the learner is to find out.
type Hidden struct {
	Faults      []string     `json:"faults,omitempty"`  // canonical; none where nothing is wrong electrically
	Onset       string       `json:"onset,omitempty"`   // "running" (when empty) or "start"
	At          string       `json:"at,omitempty"`      // what the plant really does, where the caller is wrong
	Because     string       `json:"because,omitempty"` // the thing that explains it, where nothing is wrong
	Drawing     []panel.Edit `json:"drawing,omitempty"` // what the drawing shows differently from the panel
	Answers     []Answer     `json:"answers,omitempty"` // to the questions, in their order
	Again       string       `json:"again,omitempty"`   // complaint of a variation; {dead} stands for what is dead
	Traps       []Trap       `json:"traps,omitempty"`
	Plan        Plan         `json:"plan"` // stated best plan
	Explanation string       `json:"explanation"`
	Sources     []string     `json:"sources,omitempty"`
	Elsewhere   []string     `json:"elsewhere,omitempty"` // faults of the variations; found by kind when empty
}

// An Answer of the operator.
type Answer struct {
	Say   string `json:"say"`
	Again string `json:"again,omitempty"` // in a variation; "I do not know" when empty
}

// A Trap is one thing that fools people here, as a place where a solved state
// proves it.
type Trap struct {
	Code  string `json:"code"` // one of the Trap constants
	Red   string `json:"red,omitempty"`
	Black string `json:"black,omitempty"`
	Ref   string `json:"ref,omitempty"` // of a device or light
}

// A Plan is the length of the best plan as the author states it.
type Plan struct {
	Steps int `json:"steps"` // looks and readings
}

// Effort is what acts take, in seconds; zero stands for the usual.
type Effort struct {
	Look    int `json:"look_s,omitempty"`
	Inspect int `json:"inspect_s,omitempty"` // a close look at one clamp
	Ask     int `json:"ask_s,omitempty"`
	Operate int `json:"operate_s,omitempty"`
	Read    int `json:"read_s,omitempty"`
	Walk    int `json:"walk_s,omitempty"`  // to a field device and back, on top
	Mains   int `json:"mains_s,omitempty"` // gloves and care, on top
	Isolate int `json:"isolate_s,omitempty"`
	Prove   int `json:"prove_s,omitempty"` // one pair, or the tester
	Hands   int `json:"hands_s,omitempty"` // tighten, lift, land
	Replace int `json:"replace_s,omitempty"`
	Meter   int `json:"meter_s,omitempty"` // to put right a meter that was abused
}

// usual effort: common practice, as package diagnose reckons it; the rest choices.
var usual = Effort{Look: 12, Inspect: 24, Ask: 20, Operate: 12, Read: 30, Walk: 240, Mains: 30, Isolate: 120, Prove: 30, Hands: 60, Replace: 300, Meter: 300}

// effort of this drill with the gaps filled.
func (d *Drill) effort() Effort {
	e := usual
	if d.Effort == nil {
		return e
	}
	for _, f := range []struct {
		to   *int
		from int
	}{
		{&e.Look, d.Effort.Look}, {&e.Inspect, d.Effort.Inspect}, {&e.Ask, d.Effort.Ask}, {&e.Operate, d.Effort.Operate},
		{&e.Read, d.Effort.Read}, {&e.Walk, d.Effort.Walk}, {&e.Mains, d.Effort.Mains}, {&e.Isolate, d.Effort.Isolate},
		{&e.Prove, d.Effort.Prove}, {&e.Hands, d.Effort.Hands}, {&e.Replace, d.Effort.Replace}, {&e.Meter, d.Effort.Meter},
	} {
		if f.from > 0 {
			*f.to = f.from
		}
	}
	return e
}
