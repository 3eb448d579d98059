package diagnose

import (
	"math"
	"slices"
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

// suspected lists the hypotheses worth naming: of those that no look contradicts,
// or where nothing explains everything, of all.
func (e *Engine) suspected(s *survey) []int32 {
	var list []int32
	if !s.consistent {
		list = s.weighty()
		list = list[:min(len(list), mostGuessed)]
		slices.Sort(list)
		if len(list) > 0 && list[0] == 0 {
			list = list[1:]
		}
		return list
	}
	most := s.most()
	for _, i := range s.living {
		if i != 0 && s.weight[i] >= listed*most {
			list = append(list, i)
		}
	}
	return list
}

// most is the weight of the likeliest hypothesis: of those that no look
// contradicts, where one of them explains everything.
func (s *survey) most() float64 {
	if !s.consistent {
		return slices.Max(s.weight)
	}
	most := 0.0
	for _, i := range s.living {
		most = math.Max(most, s.weight[i])
	}
	return most
}

// mostGuessed bounds the hypotheses named when nothing explains everything.
const mostGuessed = 200

// suspects groups the suspected hypotheses: a class that spans more places is a
// suspect of its own, all else goes by place.
func (e *Engine) suspects(s *survey, obs []Observation) []Suspect {
	p := s.posterior
	most := s.most()
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
	for c, class := range e.classify(append([]int32{0}, e.suspected(s)...)) {
		silent := c == 0 // what nobody would notice
		if silent {
			class = class[1:] // without the healthy panel itself
		}
		switch {
		case len(class) == 0:
		case e.onePlace(class, p, most):
			place(class)
		case silent, len(class) > mostRefined:
			list = append(list, Suspect{hyps: class, Silent: silent})
		default:
			for _, part := range e.refine(class) {
				if e.onePlace(part, p, most) {
					place(part)
				} else {
					list = append(list, Suspect{hyps: part})
				}
			}
		}
	}
	for k := range list {
		e.fill(&list[k], p, obs)
		e.walked(len(list[k].hyps))
	}
	sort.SliceStable(list, func(i, j int) bool { return round(list[i].Probability) > round(list[j].Probability) })
	return list
}

// mostRefined bounds the hypotheses of a class that are parted by what the
// switched-off panel would show.
const mostRefined = 40

// onePlace says whether the hypotheses that count are all repaired at one place.
func (e *Engine) onePlace(hyps []int32, p posterior, most float64) bool {
	at := ""
	for _, i := range hyps {
		if p.weight[i] < float64(counts*most)*(1-1e-9) { // a share of just that counts, whatever the last bit
			continue
		}
		if at != "" && at != e.place(i) {
			return false
		}
		at = e.place(i)
	}
	return true
}

func (e *Engine) place(i int32) string { return e.Set.Faults[e.faultOf(i)].Place }

// fill computes what is told of a suspect from its hypotheses.
func (e *Engine) fill(s *Suspect, p posterior, obs []Observation) {
	weight := map[int]float64{}
	s.best = s.hyps[0]
	for _, i := range s.hyps {
		s.Probability += p.weight[i]
		f := e.faultOf(i)
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
		f := e.fitOf(s.best, &obs[k])
		s.Evidence = append(s.Evidence, Evidence{Observation: k, Predicted: f.predicted.value, Ghost: f.predicted.ghost, Agrees: f.sigmas <= within})
	}
}

// proof asks for the reading that proves a suspect, nil when it has been taken:
// one that agrees with the suspect and not with the healthy panel, or where no
// reading can differ from that, the one across the suspect's own terminals.
func (e *Engine) proof(s *Suspect, p posterior, obs []Observation) *Step {
	choice, score := -1, 0.0
	for _, r := range e.showsOf(s.best) {
		n, o := int(r.candidate()), r.outcome()
		c := &e.Candidates[n]
		if c.Look != NoLook || !e.distinct(n, o, e.expect[n]) {
			continue
		}
		gap := math.Abs(o.value-e.expect[n].value) / e.spread(c, o)
		if v := math.Min(gap, 20) / c.Minutes; v > score || v == score && choice >= 0 && e.order[n] < e.order[choice] {
			choice, score = n, v
		}
	}
	for k := range obs {
		if o := &obs[k]; o.Kind == Read && (o.In == nil || o.In == e) && e.agrees(s.best, o) {
			return nil
		}
	}
	if choice < 0 {
		if choice = e.ownReading(s); choice < 0 || e.agreed(s.best, choice, obs) {
			return nil
		}
	}
	return e.step(choice, []Suspect{*s}, p)
}

// agrees says whether a reading fits a hypothesis and not the healthy panel.
func (e *Engine) agrees(i int32, o *Observation) bool {
	return e.distinct(o.Candidate, e.outcomeOf(i, o.Candidate), e.expect[o.Candidate]) && e.fit(i, o).sigmas <= within
}

// agreed says whether a candidate has been read and fits the hypothesis.
func (e *Engine) agreed(i int32, c int, obs []Observation) bool {
	for k := range obs {
		o := &obs[k]
		if o.Kind == Read && o.Candidate == c && (o.In == nil || o.In == e) && e.fit(i, o).sigmas <= within {
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
		for _, c := range e.readings {
			k := &e.Candidates[c]
			if ok1 && ok2 && (k.Red == a && k.Black == b || k.Red == b && k.Black == a) {
				return int(c)
			}
		}
	}
	return -1
}
