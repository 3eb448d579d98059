package diagnose

import (
	"math"
	"slices"
)

// A bad joint stops what hangs on it, and where nothing draws a current a meter shows
// behind it what it shows behind a sound one. Its resistance is seldom one that is
// listed; so before something is called found it is asked whether a joint elsewhere, of
// whatever resistance, would have come out the same. Then one more reading is due.

// A hidden joint explains all that was observed with a resistance that is not listed.
type hidden struct {
	fault int
	shows []shown // as of a hypothesis
}

// hiddenJoints lists the joints elsewhere that explain what was observed as well as
// what was found, one a place.
func (e *Engine) hiddenJoints(found *Suspect, obs []Observation) (list []hidden) {
	if slices.ContainsFunc(obs, e.notAsDrawn) {
		return nil
	}
	seen, places := e.telling(obs), slices.Clone(found.Places)
	for _, f := range e.families() {
		place := e.Set.Faults[f].Place
		if e.Set.Faults[f].Name != "loose" || slices.Contains(places, place) || !e.mayHide(f, seen) {
			continue
		}
		e.Pace.Breathe()
		if ohms, ok := e.fitted(f, seen); ok {
			list, places = append(list, hidden{f, e.showsWith(f, ohms)}), append(places, place)
		}
	}
	return list
}

// notAsDrawn says that a close look has found something where it should not be.
func (e *Engine) notAsDrawn(o Observation) bool {
	in := o.In
	if in == nil {
		in = e
	}
	return in.Candidates[o.Candidate].Look == AtPlace && o.Kind == Saw && in.StateName(o.Value) == NotAsDrawn
}

// mayHide says whether a joint is worth solving: everything seen lies between what the
// healthy panel shows and what it shows with the wire out of the clamp, as far as that
// is known. What only insulation holds then, kilohms hold better.
func (e *Engine) mayHide(f int, seen []Observation) bool {
	out := f
	for e.Set.Faults[out].Name != "lifted" {
		if out--; out < 0 || e.Set.Faults[out].Thing != e.Set.Faults[f].Thing {
			return false
		}
	}
	for k := range seen {
		o := &seen[k]
		open := o.In.outcomeOf(o.In.running(int32(out)), o.Candidate)
		x := trials{o.In.expect[o.Candidate]}
		for j := range x[1:] {
			x[1+j] = open
		}
		if !open.ghost && !x.allow(o) {
			return false
		}
	}
	return true
}

// showsWith is what a fault of some resistance shows in the scope, fragile readings
// left out.
func (e *Engine) showsWith(f int, ohms float64) (list []shown) {
	e.with(f, ohms, func() {
		e.still, e.unsure = false, e.unsure[:0]
		list = e.observe(e.enter(e.running(int32(f))))
		e.leave()
		e.buffer = list
		list = e.inOrder(list)
	})
	return list
}

// tellApart asks for the reading that tells what was found from most of the hidden
// joints; nil where none does.
func (e *Engine) tellApart(found *Suspect, p posterior, joints []hidden, obs []Observation) *Step {
	choice, score := -1, 0.0
	for _, c := range e.readings {
		k := &e.Candidates[c]
		if e.Situations[k.Situation].Off || e.observed(int(c), obs) {
			continue
		}
		was, v := e.outcomeOf(found.best, int(c)), 0.0
		for i := range joints {
			if is := e.shownIn(joints[i].shows, int(c)); e.distinct(int(c), was, is) {
				v += math.Min(math.Abs(was.value-is.value)/e.spread(k, was), 20) / k.Minutes
			}
		}
		if v > score && !e.disturbs(int(c), []Suspect{*found}) {
			choice, score = int(c), v
		}
	}
	if choice < 0 {
		return nil
	}
	return e.step(choice, []Suspect{*found}, p)
}
