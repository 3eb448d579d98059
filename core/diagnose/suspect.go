package diagnose

import (
	"math"
	"sort"
)

// A Suspect is a group of faults: one repair at one place mends them, or no
// permitted step tells them apart.
type Suspect struct {
	Faults      []int    // indices into Set.Faults, most likely first
	Places      []string // where they are repaired
	OnePlace    bool
	Silent      bool // nothing in this condition would show it
	Probability float64
	Consistent  bool
	Evidence    []Evidence // of its most likely hypothesis
	hyps        []int32
	best        int32
}

// Evidence is how one observation bears on a suspect.
type Evidence struct {
	Observation int
	Predicted   float64 // volts or ohms; the state of a look
	Ghost       bool    // the prediction hangs on insulation
	Agrees      bool
}

// Shares of the likeliest hypothesis below which another is not listed, and
// below which it does not count when asking whether a class spans more places.
const (
	listed = 1e-4
	counts = 0.01
)

// suspects groups the hypotheses that are still alive: a class that spans more
// places is a suspect of its own, all else goes by place.
func (e *Engine) suspects(p posterior, obs []Observation) []Suspect {
	most := 0.0
	for _, w := range p.weight {
		most = math.Max(most, w)
	}
	var list []Suspect
	byPlace := map[string]int{}
	place := func(hyps []int32) {
		for _, i := range hyps {
			k, ok := byPlace[e.place(i)]
			if !ok {
				k = len(list)
				byPlace[e.place(i)] = k
				list = append(list, Suspect{})
			}
			list[k].hyps = append(list[k].hyps, i)
		}
	}
	for c := range e.classes {
		var alive []int32
		for _, i := range e.classes[c] {
			if e.hyps[i].fault != healthyPanel && p.weight[i] >= listed*most {
				alive = append(alive, i)
			}
		}
		if e.onePlace(alive, p, most) {
			place(alive)
			continue
		}
		if c == e.hyps[0].class { // what nobody would notice is not worth parting
			list = append(list, Suspect{hyps: alive, Silent: true})
			continue
		}
		for _, part := range e.refine(alive) {
			if e.onePlace(part, p, most) {
				place(part)
			} else {
				list = append(list, Suspect{hyps: part})
			}
		}
	}
	for k := range list {
		e.fill(&list[k], p, obs)
	}
	sort.SliceStable(list, func(i, j int) bool { return round(list[i].Probability) > round(list[j].Probability) })
	return list
}

// onePlace says whether the hypotheses that count are all repaired at one place.
func (e *Engine) onePlace(hyps []int32, p posterior, most float64) bool {
	at := ""
	for _, i := range hyps {
		if p.weight[i] < counts*most {
			continue
		}
		if at != "" && at != e.place(i) {
			return false
		}
		at = e.place(i)
	}
	return true
}

func (e *Engine) place(i int32) string { return e.Set.Faults[e.hyps[i].fault].Place }

// fill computes what is told of a suspect from its hypotheses.
func (e *Engine) fill(s *Suspect, p posterior, obs []Observation) {
	weight := map[int]float64{}
	s.best = s.hyps[0]
	for _, i := range s.hyps {
		s.Probability += p.weight[i]
		f := e.hyps[i].fault
		if _, seen := weight[f]; !seen {
			s.Faults = append(s.Faults, f)
		}
		weight[f] += p.weight[i]
		s.Consistent = s.Consistent || p.worst[i] <= within
		if p.weight[i] > p.weight[s.best] {
			s.best = i
		}
	}
	sort.SliceStable(s.Faults, func(i, j int) bool {
		x, y := round(weight[s.Faults[i]]), round(weight[s.Faults[j]])
		if x != y {
			return x > y
		}
		return s.Faults[i] < s.Faults[j]
	})
	seen := map[string]bool{}
	for _, f := range s.Faults {
		place := e.Set.Faults[f].Place
		if !seen[place] && weight[f] >= counts*s.Probability {
			seen[place] = true
			s.Places = append(s.Places, place)
		}
	}
	s.OnePlace = len(s.Places) == 1
	for k := range obs {
		f := e.fitOf(int(s.best), &obs[k])
		s.Evidence = append(s.Evidence, Evidence{Observation: k, Predicted: f.predicted.value, Ghost: f.predicted.ghost, Agrees: f.sigmas <= within})
	}
}

// proof asks for the reading that proves a suspect, nil when it has been taken:
// one that agrees with the suspect and not with the healthy panel, or where no
// reading can differ from that, the one across the suspect's own terminals.
func (e *Engine) proof(s *Suspect, p posterior, obs []Observation) *Step {
	h := &e.hyps[s.best]
	choice, score := -1, 0.0
	for _, r := range h.shows {
		c := &e.Candidates[r.candidate]
		if c.Look != NoLook || !e.distinct(int(r.candidate), r.outcome, e.expect[r.candidate]) {
			continue
		}
		gap := math.Abs(r.value-e.expect[r.candidate].value) / e.spread(c, r.outcome)
		if v := math.Min(gap, 20) / c.Minutes; !c.Asked && v > score {
			choice, score = int(r.candidate), v
		}
		if e.agreed(h, int(r.candidate), obs) {
			return nil
		}
	}
	if choice < 0 {
		if choice = e.ownReading(s); choice < 0 || e.agreed(h, choice, obs) {
			return nil
		}
	}
	return e.step(choice, []Suspect{*s}, p)
}

// agreed says whether a candidate has been read and fits the hypothesis.
func (e *Engine) agreed(h *hypothesis, c int, obs []Observation) bool {
	for k := range obs {
		o := &obs[k]
		if o.Kind == Read && o.Candidate == c && (o.In == nil || o.In == e) && e.fit(h, o).sigmas <= within {
			return true
		}
	}
	return false
}

// ownReading is the voltage across the terminals of the device at the suspect's
// place, -1 without one.
func (e *Engine) ownReading(s *Suspect) int {
	net := e.Base.Model.Net
	for _, d := range net.Devices {
		if d.Ref != s.Places[0] && d.Part != s.Places[0] {
			continue
		}
		sense := net.Elements[d.Element].Sense
		if len(sense) < 2 {
			continue
		}
		a, ok1 := e.Probe(sense[0])
		b, ok2 := e.Probe(sense[1])
		for c := range e.Candidates {
			k := &e.Candidates[c]
			if ok1 && ok2 && k.Look == NoLook && (k.Red == a && k.Black == b || k.Red == b && k.Black == a) {
				return c
			}
		}
	}
	return -1
}
