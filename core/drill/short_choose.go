package drill

import (
	"slices"

	"halfsplit/core/diagnose"
)

// options is how many steps are to choose from, and mostSuspects how many suspects an
// outcome can point to.
const (
	options      = 4
	mostSuspects = 6
)

// choose gives what is known and asks for the next step, and for each of its outcomes
// which suspects predict it.
func (s *Short) choose(r *random) bool {
	e := s.Engine
	obs := s.see(1 + r.upTo(3))
	a := e.Find(obs)
	if a.Next == nil || e.Situations[a.Next.Situation].With != "" || len(a.Next.Outcomes) < 2 {
		return false
	}
	for i := range a.Suspects {
		if sus := &a.Suspects[i]; sus.Consistent && sus.Probability >= 0.01 && !sus.Silent && len(s.Suspects) < mostSuspects && i == len(s.Suspects) {
			s.Suspects = append(s.Suspects, *sus)
		}
	}
	if len(s.Suspects) < 3 {
		return false
	}
	s.Known = obs[1:]
	s.Options = []*diagnose.Step{s.option(obs, a.Next.Index)}
	for try := range 300 {
		c := r.upTo(len(e.Candidates))
		k := &e.Candidates[c]
		if len(s.Options) == options || k.Situation != 0 || k.Look == diagnose.AtPlace || s.has(c) || k.Look == diagnose.NoLook && e.Probes[k.Red].Mains {
			continue
		}
		if o := s.option(obs, c); len(o.Outcomes) > 1 || try > 100 { // steps that say something first
			s.Options = append(s.Options, o)
		}
	}
	shuffle(r, s.Options)
	return len(s.Options) == options && s.bestRate() > 0
}

// option is a step with those of its outcomes that a suspect of the exercise predicts.
func (s *Short) option(obs []diagnose.Observation, c int) *diagnose.Step {
	o := s.Engine.Ask(obs, c)
	o.Outcomes = slices.DeleteFunc(o.Outcomes, func(one diagnose.Outcome) bool { return len(s.predicting(&one)) == 0 })
	return o
}

func (s *Short) has(c int) bool {
	for _, o := range s.Options {
		if o.Index == c {
			return true
		}
	}
	return false
}

func (s *Short) bestRate() float64 {
	best := 0.0
	for _, o := range s.Options {
		best = max(best, o.Bits/o.Minutes)
	}
	return best
}

// nearly is the share of the best rate from which a choice is as good: choice.
const nearly = 0.9

// gradeChoice marks the choice first, then each outcome of it.
func (s *Short) gradeChoice(m Marks) []Mark {
	best := s.bestRate()
	list := []Mark{{Want: "none"}}
	for i, o := range s.Options {
		if o.Bits/o.Minutes >= nearly*best && list[0].Want == "none" {
			list[0].Want = itoa(i)
		}
	}
	if m.Choice < 0 || m.Choice >= len(s.Options) {
		return list
	}
	chosen := s.Options[m.Choice]
	list[0].Right = chosen.Bits/chosen.Minutes >= nearly*best
	for i := range chosen.Outcomes {
		want := s.predicting(&chosen.Outcomes[i])
		right := i < len(m.Means) && sameSet(m.Means[i], want)
		list = append(list, Mark{Right: right, Want: join(want)})
	}
	return list
}

// predicting lists the suspects of the exercise that predict an outcome.
func (s *Short) predicting(o *diagnose.Outcome) (list []int) {
	for _, k := range o.Suspects {
		if k < len(s.Suspects) {
			list = append(list, k)
		}
	}
	return list
}
