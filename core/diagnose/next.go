package diagnose

import (
	"math"
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

// next is the step with the most information per minute that disturbs nothing;
// nil when none is worth taking. Switching off is considered when no step with
// power on helps.
func (e *Engine) next(suspects []Suspect, p posterior) *Step {
	if s := e.best(suspects, p); s != nil {
		return s
	}
	for i := range suspects {
		if i < tried*4 {
			e.switchedOff(suspects[i].hyps)
		}
	}
	return e.best(suspects, p)
}

func (e *Engine) best(suspects []Suspect, p posterior) *Step {
	gains := e.gains(suspects, p)
	order := make([]int, 0, len(gains))
	for c := range gains {
		if gains[c] >= leastBits {
			order = append(order, c)
		}
	}
	rate := func(c int) float64 { return round(gains[c] / e.Candidates[c].Minutes) }
	sort.SliceStable(order, func(i, j int) bool { return rate(order[i]) > rate(order[j]) })
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

// entry is how much of a suspect predicts one value of a candidate.
type entry struct {
	outcome
	weight  float64
	suspect int
}

// gains is the mutual information, in bits, between suspect and outcome, for
// every candidate. Its cost goes with the outcomes that faults change: everybody
// else shows what the healthy panel shows.
func (e *Engine) gains(suspects []Suspect, p posterior) []float64 {
	changed := make([][]entry, len(e.Candidates))
	total := make([]float64, len(suspects))
	all := 0.0
	for s := range suspects {
		for _, i := range suspects[s].hyps {
			total[s] += p.weight[i]
			for _, r := range e.hyps[i].shows {
				if !e.Candidates[r.candidate].Asked {
					changed[r.candidate] = append(changed[r.candidate], entry{r.outcome, p.weight[i], s})
				}
			}
		}
		all += total[s]
	}
	gains := make([]float64, len(e.Candidates))
	left := make([]float64, len(suspects))
	for c, list := range changed {
		if len(list) == 0 {
			continue
		}
		copy(left, total)
		for _, en := range list {
			left[en.suspect] -= en.weight
		}
		for s, w := range left {
			if w > 1e-9*all {
				list = append(list, entry{e.expect[c], w, s})
			}
		}
		gains[c] = e.information(c, list, total, all)
	}
	return gains
}

// information is H(outcome) - H(outcome | suspect), in bits.
func (e *Engine) information(c int, list []entry, total []float64, all float64) float64 {
	h := 0.0
	within := make([]float64, len(total)) // of one band, by suspect
	for _, band := range e.bands(c, list) {
		sum := 0.0
		for _, en := range band {
			sum += en.weight
			within[en.suspect] += en.weight
		}
		h -= plogp(sum / all)
		for _, en := range band {
			if w := within[en.suspect]; w > 0 {
				h += float64(plogp(math.Min(1, w/total[en.suspect])) * total[en.suspect] / all)
				within[en.suspect] = 0
			}
		}
	}
	return math.Max(0, h)
}

func plogp(p float64) float64 {
	if p <= 0 {
		return 0
	}
	return float64(p * log2(p))
}

// bands sorts the entries by value and cuts them where two neighbours could not
// be confused.
func (e *Engine) bands(c int, list []entry) [][]entry {
	sort.SliceStable(list, func(i, j int) bool { return list[i].value < list[j].value })
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

// step describes a candidate with its outcomes.
func (e *Engine) step(c int, suspects []Suspect, p posterior) *Step {
	st := &Step{Candidate: e.Candidates[c], Index: c, Expect: e.expect[c].value}
	var list []entry
	all := 0.0
	for s := range suspects {
		for _, i := range suspects[s].hyps {
			list = append(list, entry{e.outcomeOf(&e.hyps[i], c), p.weight[i], s})
			all += p.weight[i]
		}
	}
	for _, band := range e.bands(c, list) {
		o := Outcome{Low: band[0].value, High: band[len(band)-1].value}
		most := -1.0
		share := make([]float64, len(suspects))
		for _, en := range band {
			o.Probability += en.weight / all
			share[en.suspect] += en.weight
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

// disturbs solves a reading with the meter in circuit, on the healthy panel and
// under the likeliest faults: one that changes a device's state is not proposed.
func (e *Engine) disturbs(c int, suspects []Suspect) bool {
	cand := &e.Candidates[c]
	if cand.Look != NoLook || cand.Mode == meter.Ohms {
		return false
	}
	red, black := e.Probes[cand.Red].Node, e.Probes[cand.Black].Node
	changes := [][]parts.Change{nil}
	for s := 0; s < len(suspects) && s < tried; s++ {
		changes = append(changes, e.Set.Faults[suspects[s].Faults[0]].Changes)
	}
	for _, ch := range changes {
		x := e.Base.Enter(ch, sim.Running)
		e.hold(x, cand.Situation)
		r, refused := e.Meter.Read(x, cand.Mode, red, black)
		e.Base.Leave()
		if refused != nil || len(r.Disturbs) > 0 {
			return true
		}
	}
	return false
}
