package diagnose

import "math"

// healthyWeight is the prior of a panel with nothing wrong, as a share of all
// faults together. Choice: somebody has called, so something usually is.
const healthyWeight = 0.02

// weigh turns rates into priors that add to one.
func (e *Engine) weigh() {
	sum := 0.0
	for i := range e.hyps {
		sum += e.hyps[i].prior
	}
	e.hyps[0].prior = healthyWeight * sum
	sum += e.hyps[0].prior
	for i := range e.hyps {
		e.hyps[i].prior /= sum
	}
}

// classify puts hypotheses together that no permitted step with power on tells
// apart.
func (e *Engine) classify() {
	buckets := map[uint64][]int{} // by looks, candidate classes
	for i := range e.hyps {
		h := &e.hyps[i]
		key := e.looksKey(h)
		h.class = -1
		for _, c := range buckets[key] {
			if e.alike(&e.hyps[e.classes[c][0]], h) {
				h.class = c
				e.classes[c] = append(e.classes[c], int32(i))
				break
			}
		}
		if h.class < 0 {
			h.class = len(e.classes)
			e.classes = append(e.classes, []int32{int32(i)})
			buckets[key] = append(buckets[key], h.class)
		}
	}
	e.tabulate()
}

// looksKey hashes what looking would show: hypotheses of one class share it.
// FNV-1a.
func (e *Engine) looksKey(h *hypothesis) uint64 {
	const offset, prime = 14695981039346656037, 1099511628211
	key := uint64(offset)
	for _, s := range h.shows {
		if e.Candidates[s.candidate].Look != NoLook {
			key = (key ^ uint64(s.candidate)) * prime
			key = (key ^ uint64(s.value)) * prime
		}
	}
	return key
}

// alike says whether every permitted step comes out the same, readings within
// what a meter and the tolerance of parts leave.
func (e *Engine) alike(a, b *hypothesis) bool {
	i, j := 0, 0
	for i < len(a.shows) || j < len(b.shows) {
		var c int32
		var p, q outcome
		switch {
		case j == len(b.shows) || i < len(a.shows) && a.shows[i].candidate < b.shows[j].candidate:
			c = a.shows[i].candidate
			p, q = a.shows[i].outcome, e.expect[c]
			i++
		case i == len(a.shows) || b.shows[j].candidate < a.shows[i].candidate:
			c = b.shows[j].candidate
			p, q = e.expect[c], b.shows[j].outcome
			j++
		default:
			c = a.shows[i].candidate
			p, q = a.shows[i].outcome, b.shows[j].outcome
			i++
			j++
		}
		if e.distinct(int(c), p, q) {
			return false
		}
	}
	return true
}

// distinct says that a candidate's two outcomes could not be confused: further
// apart than three sigma of both together, or two different states.
func (e *Engine) distinct(c int, p, q outcome) bool {
	return e.apart(&e.Candidates[c], p, q)
}

func (e *Engine) apart(k *Candidate, p, q outcome) bool {
	if k.Look != NoLook {
		return p.value != q.value
	}
	return math.Abs(p.value-q.value) > within*(e.spread(k, p)+e.spread(k, q))
}
