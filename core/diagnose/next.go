package diagnose

import (
	"cmp"
	"slices"
	"sort"

	"halfsplit/core/meter"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A Step is what to do next: a candidate with what it would tell.
type Step struct {
	Candidate
	Index    int     // of the candidate
	Expect   float64 // on the healthy panel
	Bits     float64
	Outcomes []Outcome // rising values
}

// An Outcome is a band of values that the step may show, with who predicts it.
type Outcome struct {
	Value       float64 // of its most likely hypothesis
	Low, High   float64 // of all its hypotheses
	Ghost       bool
	Probability float64
	Suspects    []int // indices into Answer.Suspects
}

// tried bounds how many of the best steps are solved with the meter in circuit
// before one is proposed.
const tried = 5

// next is the step with the most information per minute that disturbs nothing and has
// not been taken; nil when none is worth taking. Switching off is considered when no
// step with power on helps.
func (e *Engine) next(suspects []Suspect, p posterior, obs []Observation) *Step {
	if s := e.best(suspects, p, obs, false); s != nil {
		return s
	}
	few := suspects[:min(len(suspects), mostOff)]
	for i := range few {
		e.switchedOff(few[i].hyps)
	}
	return e.best(few, p, obs, true)
}

// mostOff bounds the suspects whose switched-off panel is solved.
const mostOff = 20

func (e *Engine) best(suspects []Suspect, p posterior, obs []Observation, off bool) *Step {
	gains := e.gains(suspects, p, off)
	order := make([]int, 0, len(gains))
	for c := range gains {
		if gains[c] >= leastBits && !e.observed(c, obs) {
			order = append(order, c)
		}
	}
	rate := func(c int) float64 { return round(gains[c] / e.Candidates[c].Minutes) }
	sort.Slice(order, func(i, j int) bool {
		if x, y := rate(order[i]), rate(order[j]); x != y {
			return x > y
		}
		return e.order[order[i]] < e.order[order[j]]
	})
	for k, c := range order {
		if k == tried {
			break
		}
		if e.disturbs(c, suspects) {
			continue
		}
		s := e.step(c, suspects, p)
		s.Bits = gains[c]
		return s
	}
	return nil
}

// observed says that a step has been taken in this condition: what it told is known, even
// where those who are not worth naming still count as undecided about it.
func (e *Engine) observed(c int, obs []Observation) bool {
	return slices.ContainsFunc(obs, func(o Observation) bool {
		return o.Candidate == c && (o.In == nil || o.In == e) && (o.Kind == Saw || o.Kind == Read)
	})
}

// step describes a candidate with its outcomes.
func (e *Engine) step(c int, suspects []Suspect, p posterior) *Step {
	st := &Step{Candidate: e.Candidates[c], Index: c, Expect: e.expect[c].value}
	var list []entry
	all := 0.0
	for s := range suspects {
		for _, i := range suspects[s].hyps {
			list = append(list, entry{e.outcomeOf(i, c), p.weight[i], s})
			all += p.weight[i]
		}
	}
	if !e.Situations[st.Situation].Off {
		aside := e.aside(suspects, p)
		list = append(list, entry{e.expect[c], aside, -1})
		all += aside
	}
	for _, band := range e.bands(c, list) {
		o := Outcome{Low: band[0].value, High: band[len(band)-1].value}
		most := -1.0
		share := make([]float64, len(suspects))
		for _, en := range band {
			o.Probability += en.weight / all
			if en.suspect >= 0 {
				share[en.suspect] += en.weight
			}
			if en.weight > most {
				most, o.Value, o.Ghost = en.weight, en.value, en.ghost
			}
		}
		for s, w := range share {
			if w > 0.05*suspects[s].Probability {
				o.Suspects = append(o.Suspects, s)
			}
		}
		st.Outcomes = append(st.Outcomes, o)
	}
	return st
}

// entry is how much of a suspect predicts one value of a candidate.
type entry struct {
	outcome
	weight  float64
	suspect int // -1: nobody worth naming
}

// bands sorts the entries by value and cuts them where two neighbours could not
// be confused.
func (e *Engine) bands(c int, list []entry) [][]entry {
	slices.SortStableFunc(list, func(a, b entry) int { return cmp.Compare(a.value, b.value) })
	var bands [][]entry
	from := 0
	for i := 1; i <= len(list); i++ {
		if i == len(list) || e.distinct(c, list[i-1].outcome, list[i].outcome) {
			bands = append(bands, list[from:i])
			from = i
		}
	}
	return bands
}

// probed is how many of the likeliest faults a reading is tried on.
const probed = 2

// disturbs solves a reading with the meter in circuit, on the healthy panel and
// under the likeliest faults: one that changes a device's state is not proposed.
func (e *Engine) disturbs(c int, suspects []Suspect) bool {
	cand := &e.Candidates[c]
	if cand.Look != NoLook || cand.Mode == meter.Ohms {
		return false
	}
	red, black := e.Probes[cand.Red].Node, e.Probes[cand.Black].Node
	changes := [][]parts.Change{nil}
	for s := 0; s < len(suspects) && s < probed; s++ {
		changes = append(changes, e.Set.Faults[suspects[s].Faults[0]].Changes)
	}
	for _, ch := range changes {
		x := e.Base.Enter(ch, sim.Running)
		e.hold(x, cand.Situation)
		r, refused := e.Meter.Read(x, cand.Mode, red, black)
		e.Base.Leave()
		e.Pace.Spend(1 + e.large(tryEffort))
		e.Pace.Breathe()
		if refused != nil || len(r.Disturbs) > 0 {
			return true
		}
	}
	return false
}
