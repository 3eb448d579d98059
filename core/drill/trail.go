package drill

import (
	"math"
	"slices"
	"strings"

	"halfsplit/core/diagnose"
	"halfsplit/core/fault"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A Step of the debrief is one look, reading or question of the learner's, seen from
// what was known before it.
type Step struct {
	Entry   int // index into Attempt.Log
	Verdict Verdict
	Why     Fact // of a verdict that is not Useful
	Bits    float64
	Before  int      // suspects alive
	After   int      //
	Alive   []string // places of the likeliest of them afterwards
	// Best is what package diagnose would have asked for there; nil where nothing was
	// left to ask.
	Best *diagnose.Step
}

// A Verdict on a step.
type Verdict string

// The verdicts.
const (
	Useful     Verdict = "useful"
	Little     Verdict = "little"      // told something; another would have told much more a minute
	Proof      Verdict = "proof"       // told nothing new and proves the fault
	Redundant  Verdict = "redundant"   // what it would show was known
	Repeated   Verdict = "repeated"    // the same again, with nothing changed
	CannotHelp Verdict = "cannot-help" // no fault of this panel would change it
	Unjudged   Verdict = "unjudged"    // the panel was held in a way nothing was worked out for
)

// alive is the probability below which a suspect is not counted as one.
const alive = 0.002

// A trail is the search as the learner made it.
type trail struct {
	steps []Step
	known [][]diagnose.Observation // by log entry, and after the last: what was known before it
}

// known gathers what the learner knew before each entry, and after the last. After a
// repair it begins anew: the panel is another.
func (a *Attempt) known(e *diagnose.Engine) (list [][]diagnose.Observation) {
	obs := a.Case.toldTo(e)
	epoch := 0
	for i := range a.Log {
		entry := &a.Log[i]
		if entry.epoch != epoch {
			epoch, obs = entry.epoch, nil
		}
		list = append(list, slices.Clip(obs))
		for k := range entry.sights {
			if o, ok := observation(e, &entry.sights[k]); ok {
				obs = append(obs, o)
			}
		}
	}
	if a.epoch != epoch {
		obs = nil
	}
	return append(list, obs)
}

// trail walks the attempt with an engine of its condition.
func (a *Attempt) trail(e *diagnose.Engine) trail {
	t := trail{known: a.known(e)}
	blown := map[string]bool{}
	epoch := 0
	for i := range a.Log {
		entry := &a.Log[i]
		if entry.epoch != epoch {
			epoch, blown = entry.epoch, map[string]bool{}
		}
		if len(entry.sights) == 0 || entry.Act.Kind == DoProveFunction {
			continue
		}
		s := Step{Entry: i, Verdict: Unjudged, Why: Fact{Code: "drill.unjudged"}}
		before := e.Find(t.known[i])
		s.Before, _ = living(e, &before, blown)
		s.Best = before.Next
		seen := slices.Clone(t.known[i])
		for k := range entry.sights {
			g := &entry.sights[k]
			if g.look == atLink {
				blown[g.place] = g.state == "drill.fuse-blown"
				s.judge(Useful, Fact{})
			} else if o, ok := observation(e, g); ok {
				s.weigh(a, e, seen, &before, o)
				seen = append(seen, o)
			}
		}
		after := e.Find(seen)
		s.After, s.Alive = living(e, &after, blown)
		t.steps = append(t.steps, s)
	}
	return t
}

// judge keeps the best verdict of all that one act showed.
func (s *Step) judge(v Verdict, why Fact) {
	order := []Verdict{Unjudged, CannotHelp, Repeated, Redundant, Proof, Little, Useful}
	if slices.Index(order, v) > slices.Index(order, s.Verdict) {
		s.Verdict, s.Why = v, why
	}
}

// enough is the share of the best step's information a minute from which a step
// counts as well chosen: choice.
const enough = 0.4

func (s *Step) weigh(a *Attempt, e *diagnose.Engine, seen []diagnose.Observation, before *diagnose.Answer, o diagnose.Observation) {
	for k := range seen {
		if seen[k].Candidate == o.Candidate && seen[k].Kind == o.Kind && math.Abs(seen[k].Value-o.Value) <= 0.05+float64(0.02*math.Abs(o.Value)) {
			s.judge(Repeated, Fact{Code: "drill.repeated"})
			return
		}
	}
	w := e.Worth(seen, o.Candidate)
	s.Bits = max(s.Bits, w.Bits)
	switch {
	case !w.Able:
		s.judge(CannotHelp, Fact{Code: "drill.cannot-help"})
	case w.Bits < 0.01 && len(before.Suspects) > 0 && before.Suspects[0].Probability >= 0.95 && differs(e, o):
		s.judge(Proof, Fact{Code: "drill.proves"})
	case w.Bits < 0.01:
		s.judge(Redundant, known(e, before, o))
	case before.Next != nil && rate(w.Bits, a.Case.takes(e, &e.Candidates[o.Candidate])) < enough*rate(before.Next.Bits, a.Case.takes(e, &before.Next.Candidate)):
		s.judge(Little, Fact{Code: "drill.little"})
	default:
		s.judge(Useful, Fact{})
	}
}

func rate(bits float64, seconds int) float64 { return bits / float64(max(1, seconds)) }

// known says why a step could tell nothing: every suspect alive predicts the same.
func known(e *diagnose.Engine, before *diagnose.Answer, o diagnose.Observation) Fact {
	var places []string
	for i := range before.Suspects {
		if s := &before.Suspects[i]; s.Consistent && s.Probability >= alive && len(places) < 3 {
			places = append(places, bare(strings.Join(s.Places, ", ")))
		}
	}
	if len(places) == 0 {
		return Fact{Code: "drill.cleared"}
	}
	return Fact{Code: "drill.all-predict", Args: []string{strings.Join(places, "; ")}}
}

// differs says whether an observation is not what the healthy panel shows.
func differs(e *diagnose.Engine, o diagnose.Observation) bool {
	if o.Kind == diagnose.Dead {
		return true
	}
	healthy, _ := e.Predict(-1, sim.Running, o.Candidate)
	if o.Kind == diagnose.Saw {
		return o.Value != healthy
	}
	return math.Abs(o.Value-healthy) > 0.1+float64(0.06*math.Abs(healthy))
}

// living counts the suspects that everything seen fits, and names the likeliest. A
// fuse that was pulled and looked at speaks for itself.
func living(e *diagnose.Engine, a *diagnose.Answer, blown map[string]bool) (n int, places []string) {
	for i := range a.Suspects {
		s := &a.Suspects[i]
		if !s.Consistent || s.Probability < alive {
			continue
		}
		if slices.ContainsFunc(s.Faults, func(f int) bool { return fits(e, f, blown) }) {
			n++
			if len(places) < 5 && !s.Silent {
				places = append(places, bare(strings.Join(s.Places, ", ")))
			}
		}
	}
	return n, places
}

// fits says whether a fault goes with the fuses that were looked at.
func fits(e *diagnose.Engine, f int, blown map[string]bool) bool {
	is := &e.Set.Faults[f]
	for place, was := range blown {
		one := opensLink(is) && (is.Place == place || strings.HasPrefix(is.Place, place+"."))
		if one != was {
			return false
		}
	}
	return true
}

// observation turns a sight into one of an engine's; ok is false where the engine
// has no hypotheses for how the panel was held.
func observation(e *diagnose.Engine, g *sight) (o diagnose.Observation, ok bool) {
	k := e.Situation(g.with)
	if !g.held || k < 0 || g.look == atLink {
		return o, false
	}
	off := e.Situations[k].Off
	switch g.look {
	case diagnose.AtDevice, diagnose.AtLight:
		o = diagnose.Observation{Kind: diagnose.Saw, Candidate: e.LookCandidate(k, g.look, g.thing), Value: e.StateValue(g.state)}
		return o, o.Candidate >= 0
	case diagnose.AtPlace:
		if i := slices.Index(e.Places, g.place); i >= 0 && k == 0 {
			o = diagnose.Observation{Kind: diagnose.Saw, Candidate: e.LookCandidate(0, diagnose.AtPlace, i), Value: e.StateValue(g.state)}
			return o, o.Candidate >= 0
		}
		return o, false
	}
	red, ok1 := e.Probe(g.red)
	black, ok2 := e.Probe(g.black)
	if !ok1 || !ok2 || off != (g.mode == meter.Ohms) || g.mode != meter.VDC && g.mode != meter.VAC && g.mode != meter.Ohms {
		return o, false
	}
	c, flipped := e.Candidate(k, g.mode, red, black)
	o = diagnose.Observation{Kind: diagnose.Read, Candidate: c, Value: min(g.value, overload)}
	if flipped && g.mode == meter.VDC {
		o.Value = -o.Value
	}
	return o, true
}

// opensLink says whether a fault is a fuse link that has opened.
func opensLink(f *fault.Fault) bool {
	return slices.ContainsFunc(f.Changes, func(ch parts.Change) bool { return ch.What == parts.FixState }) && !f.Visible && f.Class == "open"
}
