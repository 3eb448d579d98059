package diagnose

import (
	"math"
	"slices"
)

// switchedOff solves what the switched-off panel would show under some
// hypotheses, the healthy panel included, where that is not known yet. Few
// searches come to it, and then few hypotheses are left.
func (e *Engine) switchedOff(hyps []int32) {
	e.solveOff(0)
	for _, i := range hyps {
		e.solveOff(i)
	}
}

func (e *Engine) solveOff(i int32) {
	h, k := &e.hyps[i], len(e.Situations)-1
	if h.off {
		return
	}
	h.off = true
	e.still = false
	e.Pace.Spend(e.large(offEffort))
	x := e.enter(i)
	e.hold(x, k)
	r := e.reader(x)
	for _, c := range e.readings {
		if e.Candidates[c].Situation != k {
			continue
		}
		o := r.take(&e.Candidates[c])
		if i == 0 {
			e.expect[c] = o
		} else if was := e.expect[c]; math.Abs(o.value-was.value) > storedOhms+float64(0.01*was.value) {
			h.shows = append(h.shows, newShown(c, o))
		}
	}
	e.leave()
	slices.Sort(h.shows)
	e.Pace.Breathe()
}

// storedOhms is the difference in resistance that is stored, with a hundredth of
// its value.
const storedOhms = 0.05

// refine parts the hypotheses of one class by what the switched-off panel would
// show.
func (e *Engine) refine(class []int32) [][]int32 {
	e.switchedOff(class)
	var parted [][]int32
next:
	for _, i := range class {
		for k := range parted {
			if e.alike(e.showsOf(parted[k][0]), e.showsOf(i)) {
				parted[k] = append(parted[k], i)
				continue next
			}
		}
		parted = append(parted, []int32{i})
	}
	return parted
}
