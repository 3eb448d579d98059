package drill

import (
	"slices"

	"halfsplit/core/diagnose"
	"halfsplit/core/fault"
	"halfsplit/core/meter"
	"halfsplit/core/sim"
)

// A Planned is one step of the best plan with what it shows.
type Planned struct {
	*diagnose.Step
	Value   float64
	Shown   string // of a reading
	Seconds int
	Round   int // how often something was mended before it
}

// A Best is the plan of package diagnose for a case: its own prompts followed with
// its own meter, each fault mended as it is found.
type Best struct {
	Steps   []Planned
	Seconds int
	Found   int // hidden faults it came upon
	Status  diagnose.Status
	// Because is looked at last, where nothing is wrong: the thing that explains it.
	Because string
}

// Count is how many looks and readings the plan has.
func (b *Best) Count() int {
	if b.Because != "" {
		return len(b.Steps) + 1
	}
	return len(b.Steps)
}

// Readings counts the steps that take a meter.
func (b *Best) Readings() (n int) {
	for i := range b.Steps {
		if b.Steps[i].Look == diagnose.NoLook {
			n++
		}
	}
	return n
}

// longest is more steps than any sensible search takes.
const longest = 60

// best plays the case with the engine's own prompts.
func (c *Case) best(e *diagnose.Engine) Best {
	var b Best
	present := slices.Clone(c.Faults)
	for round := 0; round <= len(c.Faults); round++ {
		var obs []diagnose.Observation
		if round == 0 {
			obs = c.toldTo(e)
		} else if obs = c.still(e, present); len(obs) == 0 {
			break
		}
		a := c.search(e, present, &b, obs, round)
		b.Status = a.Status
		if len(present) > 0 {
			c.closer(e, present, &b, &a, round)
		}
		k := -1
		if len(a.Suspects) > 0 {
			k = slices.IndexFunc(present, func(f *fault.Fault) bool {
				i, ok := c.Rig.Set.Index(f.Key())
				return ok && slices.Contains(a.Suspects[0].Faults, i)
			})
		}
		if k < 0 {
			break
		}
		present = slices.Delete(present, k, k+1)
		b.Found++
		if len(present) == 0 {
			break
		}
	}
	for i := range b.Steps {
		b.Seconds += b.Steps[i].Seconds
	}
	if b.Because = c.Drill.Hidden.Because; b.Because != "" {
		b.Seconds += c.effort.Look
		if c.inField(b.Because) {
			b.Seconds += c.effort.Walk
		}
	}
	return b
}

// search follows the prompts until there is none.
func (c *Case) search(e *diagnose.Engine, present []*fault.Fault, b *Best, obs []diagnose.Observation, round int) diagnose.Answer {
	for {
		a := e.Find(obs)
		if a.Next == nil || len(obs) >= longest {
			return a
		}
		p := Planned{Step: a.Next, Round: round, Seconds: c.takes(e, &a.Next.Candidate)}
		o := diagnose.Observation{Kind: diagnose.Saw, Candidate: a.Next.Index}
		o.Value, p.Shown = c.take(e, present, &a.Next.Candidate)
		if a.Next.Look == diagnose.NoLook {
			o.Kind = diagnose.Read
		}
		p.Value = o.Value
		if !slices.ContainsFunc(b.Steps, func(was Planned) bool { return was.Round == round && was.Index == p.Index }) {
			b.Steps = append(b.Steps, p) // looking twice to be sure is no further step
		}
		obs = append(obs, o)
	}
}

// closer looks at the places of the likeliest suspect where something could be seen,
// until something is: package diagnose is content with one place of repair, a call
// names the end of the wire.
func (c *Case) closer(e *diagnose.Engine, present []*fault.Fault, b *Best, a *diagnose.Answer, round int) {
	if len(a.Suspects) == 0 {
		return
	}
	for _, i := range Closer(e, &a.Suspects[0]) {
		p := Planned{Step: &diagnose.Step{Candidate: e.Candidates[i], Index: i, Expect: e.StateValue(diagnose.AsDrawn)}, Round: round}
		p.Seconds = c.takes(e, &p.Candidate)
		p.Value, _ = c.take(e, present, &p.Candidate)
		if !slices.ContainsFunc(b.Steps, func(was Planned) bool { return was.Round == round && was.Index == i }) {
			b.Steps = append(b.Steps, p)
		}
		if p.Value != p.Expect {
			return
		}
	}
}

// Closer lists the close looks that would part the faults of one suspect, the
// likeliest first.
func Closer(e *diagnose.Engine, s *diagnose.Suspect) (looks []int) {
	for _, f := range s.Faults {
		m := &e.Set.Faults[f]
		if !m.Visible || len(s.Faults) == 1 {
			continue
		}
		if k := slices.Index(e.Places, spot(m)); k >= 0 {
			if i := e.LookCandidate(0, diagnose.AtPlace, k); i >= 0 && !slices.Contains(looks, i) {
				looks = append(looks, i)
			}
		}
	}
	return looks
}

// take takes one step on the panel with some faults present.
func (c *Case) take(e *diagnose.Engine, present []*fault.Fault, k *diagnose.Candidate) (value float64, shown string) {
	if k.Look == diagnose.AtPlace {
		for _, f := range present {
			if v := e.Inspect(f.Mode, k.Thing); v != e.StateValue(diagnose.AsDrawn) {
				return v, ""
			}
		}
		return e.StateValue(diagnose.AsDrawn), ""
	}
	x := e.Base.Enter(changes(present), c.onset)
	defer e.Base.Leave()
	e.Hold(x, k.Situation)
	switch k.Look {
	case diagnose.AtDevice:
		return e.StateValue(x.Status(k.Thing).State), ""
	case diagnose.AtLight:
		return e.StateValue(x.Light(k.Thing).State), ""
	}
	r, refused := meter.Typical.Read(x, k.Mode, e.Probes[k.Red].Node, e.Probes[k.Black].Node)
	if refused != nil {
		return 0, ""
	}
	if r.Overload {
		r.Value = overload
	}
	return r.Value, r.Shown
}

// overload is an open circuit as a figure: above all that package diagnose compares.
const overload = 1e12

// still is what proving the function shows after a repair: every device that is not
// as it should be.
func (c *Case) still(e *diagnose.Engine, present []*fault.Fault) (list []diagnose.Observation) {
	for i, st := range c.statuses(present) {
		if st.State != c.base.Healthy[i].State {
			list = append(list, diagnose.Observation{Kind: diagnose.Saw, Candidate: e.LookCandidate(0, diagnose.AtDevice, i), Value: e.StateValue(st.State)})
		}
	}
	return list
}

// takes is the effort of a step in this drill.
func (c *Case) takes(e *diagnose.Engine, k *diagnose.Candidate) int {
	f := &c.effort
	n := 0
	switch k.Look {
	case diagnose.AtDevice:
		n = f.Look
		if c.inField(c.Rig.Model.Net.Devices[k.Thing].Part) {
			n += f.Walk
		}
	case diagnose.AtLight:
		n = f.Look
	case diagnose.AtPlace:
		n = f.Inspect
		if c.inField(e.Places[k.Thing]) {
			n += f.Walk
		}
	default:
		n = f.Read
		red, black := e.Probes[k.Red], e.Probes[k.Black]
		if red.Field || black.Field {
			n += f.Walk
		}
		if red.Mains || black.Mains {
			n += f.Mains
		}
	}
	switch with := e.Situations[k.Situation].With; with {
	case "":
	case sim.PowerOff:
		n += f.Isolate + f.Operate + 3*f.Prove
	default:
		n += 2 * f.Operate
	}
	return n
}
