package diagnose

import "math"

// classify puts hypotheses together that no permitted step with power on tells
// apart. It gives each class and, by hypothesis of the list, its class.
func (e *Engine) classify(list []int32) (classes [][]int32) {
	buckets := map[uint64][]int{} // by looks, candidate classes
next:
	for _, i := range list {
		shows := e.showsOf(i)
		e.walked(len(shows))
		key := e.looksKey(shows)
		for _, c := range buckets[key] {
			e.walked(len(shows))
			if e.alike(e.showsOf(classes[c][0]), shows) {
				classes[c] = append(classes[c], i)
				continue next
			}
		}
		buckets[key] = append(buckets[key], len(classes))
		classes = append(classes, []int32{i})
	}
	return classes
}

// looksKey hashes what looking would show: hypotheses of one class share it.
// FNV-1a.
func (e *Engine) looksKey(shows []shown) uint64 {
	const offset, prime = 14695981039346656037, 1099511628211
	key := uint64(offset)
	for _, s := range shows { // looks come first
		if int(s.candidate()) >= e.looks {
			break
		}
		key = (key ^ uint64(s.candidate())) * prime
		key = (key ^ uint64(s.outcome().value)) * prime
	}
	return key
}

// alike says whether every permitted step comes out the same, readings within
// what a meter and the tolerance of parts leave.
func (e *Engine) alike(a, b []shown) bool {
	for len(a) > 0 || len(b) > 0 {
		var c int32
		var p, q outcome
		switch {
		case len(b) == 0 || len(a) > 0 && a[0].candidate() < b[0].candidate():
			c = a[0].candidate()
			p, q = a[0].outcome(), e.expect[c]
			a = a[1:]
		case len(a) == 0 || b[0].candidate() < a[0].candidate():
			c = b[0].candidate()
			p, q = e.expect[c], b[0].outcome()
			b = b[1:]
		default:
			c = a[0].candidate()
			p, q = a[0].outcome(), b[0].outcome()
			a, b = a[1:], b[1:]
		}
		if p != q && e.distinct(int(c), p, q) {
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
