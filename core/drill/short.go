package drill

import (
	"math"
	"slices"

	"halfsplit/core/diagnose"
	"halfsplit/core/fault"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A Form of short exercise, on paper or a phone, without an attempt. Trainers use them
// for a warm-up (common practice). All are made from a panel by a seed and graded by
// what the panel solved says: no answer is written down anywhere.
type Form string

// The forms.
const (
	Possible Form = "possible" // given readings: is each of these faults possible?
	Predict  Form = "predict"  // given a fault: source, zero or ghost at each point?
	Choose   Form = "choose"   // which step next, and what would each outcome mean?
)

// Forms lists them.
var Forms = []Form{Possible, Predict, Choose}

// A Short is one short exercise. Which fields it fills depends on its form.
type Short struct {
	Form     Form
	Seed     int
	Engine   *diagnose.Engine
	Fault    *fault.Fault           // hidden in possible and choose, given in predict
	Dead     int                    // device that is dead
	Known    []diagnose.Observation // what is given besides: of Engine
	Faults   []*fault.Fault         // of possible: to be marked
	Points   []Pair                 // of predict: to be marked
	Options  []*diagnose.Step       // of choose
	Suspects []diagnose.Suspect     // of choose: what is still alive
	marks    []string               // right answers of possible and predict
}

// A Pair of probes.
type Pair struct{ Red, Black int }

// Marks are a learner's answers.
type Marks struct {
	Each   []string // of possible: "possible" or "impossible"; of predict: "source", "zero" or "ghost"
	Choice int      // of choose: index into Options
	Means  [][]int  // of choose: for each outcome of the choice, the indices of the suspects that predict it
}

// A Mark is the verdict on one answer.
type Mark struct {
	Right bool
	Want  string
}

// Shorts makes the exercise of a form and a seed from an engine's panel and
// condition; nil where the panel is too small for it.
func Shorts(e *diagnose.Engine, form Form, seed int) *Short {
	r := random(uint64(seed)*2654435761 + seedOf(string(form)))
	for range 50 { // some faults make no exercise: the next one then
		s := &Short{Form: form, Seed: seed, Engine: e}
		if !s.hide(&r) {
			return nil
		}
		made := false
		switch form {
		case Possible:
			made = s.possible(&r)
		case Predict:
			made = s.predict(&r)
		case Choose:
			made = s.choose(&r)
		}
		if made {
			return s
		}
	}
	return nil
}

// hide picks a fault that stops a device.
func (s *Short) hide(r *random) bool {
	e := s.Engine
	for range 500 {
		f := &e.Set.Faults[r.upTo(len(e.Set.Faults))]
		x := e.Base.Enter(f.Changes, sim.Running)
		s.Dead = -1
		for i := range e.Base.Healthy {
			if e.Base.Healthy[i].Grade == parts.On && x.Status(i).Grade == parts.Off && e.LookCandidate(0, diagnose.AtDevice, i) >= 0 {
				s.Dead = i
				break
			}
		}
		e.Base.Leave()
		if s.Dead >= 0 {
			s.Fault = f
			return true
		}
	}
	return false
}

// told is what the exercise says first.
func (s *Short) told() []diagnose.Observation {
	return []diagnose.Observation{{Kind: diagnose.Dead, Candidate: s.Engine.LookCandidate(0, diagnose.AtDevice, s.Dead)}}
}

// see takes up to n steps as package diagnose prompts them, with the fault present.
func (s *Short) see(n int) []diagnose.Observation {
	obs := s.told()
	for range n {
		a := s.Engine.Find(obs)
		if a.Next == nil || s.Engine.Situations[a.Next.Situation].With != "" {
			break
		}
		obs = append(obs, s.observe(&a.Next.Candidate, a.Next.Index))
	}
	return obs
}

func (s *Short) observe(k *diagnose.Candidate, index int) diagnose.Observation {
	e := s.Engine
	o := diagnose.Observation{Kind: diagnose.Saw, Candidate: index}
	if k.Look == diagnose.AtPlace {
		o.Value = e.Inspect(s.Fault.Mode, k.Thing)
		return o
	}
	x := e.Base.Enter(s.Fault.Changes, sim.Running)
	defer e.Base.Leave()
	switch k.Look {
	case diagnose.AtDevice:
		o.Value = e.StateValue(x.Status(k.Thing).State)
	case diagnose.AtLight:
		o.Value = e.StateValue(x.Light(k.Thing).State)
	default:
		o.Kind = diagnose.Read
		if r, refused := e.Meter.Read(x, k.Mode, e.Probes[k.Red].Node, e.Probes[k.Black].Node); refused == nil {
			o.Value = r.Value
		}
	}
	return o
}

// Clearly, in sigmas: what is closer to the border than this is no fair question.
const (
	clearlyFits    = 2
	clearlyDoesNot = 6
)

// listedFaults is how many faults are to be marked.
const listedFaults = 6

// possible gives some readings and asks of each of some faults whether it is still
// possible. All of them were, before the readings.
func (s *Short) possible(r *random) bool {
	e := s.Engine
	obs := s.see(3 + r.upTo(2))
	if len(obs) < 3 {
		return false
	}
	before, after := e.Find(s.told()).All, e.Find(obs).All
	var yes, no []*fault.Fault
	for i := range e.Set.Faults {
		b, a := before[i+1], after[i+1]
		switch {
		case b.Worst > clearlyFits || &e.Set.Faults[i] == s.Fault:
		case a.Worst <= clearlyFits:
			yes = append(yes, &e.Set.Faults[i])
		case a.Worst >= clearlyDoesNot:
			no = append(no, &e.Set.Faults[i])
		}
	}
	if len(no) < listedFaults/2 {
		return false
	}
	s.Known = obs[1:]
	s.Faults = append([]*fault.Fault{s.Fault}, pick(r, yes, r.upTo(3))...)
	s.Faults = append(s.Faults, pick(r, no, listedFaults-len(s.Faults))...)
	shuffle(r, s.Faults)
	for _, f := range s.Faults {
		i, _ := e.Set.Index(f.Key())
		mark := "impossible"
		if after[i+1].Consistent() {
			mark = "possible"
		}
		s.marks = append(s.marks, mark)
	}
	return true
}

// pick takes up to n of a list without repeating places where it can.
func pick(r *random, list []*fault.Fault, n int) (out []*fault.Fault) {
	list = slices.Clone(list)
	shuffle(r, list)
	seen := map[string]bool{}
	for pass := range 2 {
		for _, f := range list {
			if len(out) < n && !slices.Contains(out, f) && (pass == 1 || !seen[f.Place]) {
				seen[f.Place] = true
				out = append(out, f)
			}
		}
	}
	return out
}

func shuffle[T any](r *random, list []T) {
	for i := len(list) - 1; i > 0; i-- {
		j := r.upTo(i + 1)
		list[i], list[j] = list[j], list[i]
	}
}

// Grade marks a learner's answers against the panel solved.
func (s *Short) Grade(m Marks) (list []Mark) {
	if s.Form == Choose {
		return s.gradeChoice(m)
	}
	for i, want := range s.marks {
		list = append(list, Mark{Right: i < len(m.Each) && m.Each[i] == want, Want: want})
	}
	return list
}

// kindOf says what a reading is: the source, nothing, or a ghost that a
// low-impedance meter takes away or that nothing holds. Empty where it is none of
// them clearly.
func kindOf(x *sim.Machine, m meter.Meter, e *diagnose.Engine, p Pair, source float64) string {
	red, black := e.Probes[p.Red].Node, e.Probes[p.Black].Node
	read := func(mode meter.Mode) float64 {
		r, refused := m.Read(x, mode, red, black)
		if refused != nil {
			return 0
		}
		return math.Abs(r.Value)
	}
	loose := x.DC().Z(red, black) > ghostOhms
	high := read(meter.VDC)
	low := read(meter.LowZ) // both meters in the network: the low one decides
	switch {
	case loose && high >= 0.5 || high >= 1 && low < 0.2*high:
		return "ghost"
	case loose:
		return ""
	case high >= 0.9*source:
		return "source"
	case high <= 0.2:
		return "zero"
	}
	return ""
}
