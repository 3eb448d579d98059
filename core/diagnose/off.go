package diagnose

import (
	"math"

	"halfsplit/core/parts"
)

// switchedOff solves what the switched-off panel would show under some
// hypotheses, the healthy panel included, where that is not known yet. Few
// searches come to it, and then few hypotheses are left.
func (e *Engine) switchedOff(hyps []int32) {
	k := len(e.Situations) - 1
	e.solveOff(k, &e.hyps[0])
	for _, i := range hyps {
		e.solveOff(k, &e.hyps[i])
	}
}

func (e *Engine) solveOff(k int, h *hypothesis) {
	if h.off {
		return
	}
	h.off = true
	var changes []parts.Change
	if h.fault != healthyPanel {
		changes = e.Set.Faults[h.fault].Changes
	}
	x := e.Base.Enter(changes, h.onset)
	e.hold(x, k)
	r := e.reader(x)
	for _, c := range e.bySituation[k] {
		if e.Candidates[c].Asked {
			continue // solved when it was added
		}
		o := r.take(&e.Candidates[c])
		if h.fault == healthyPanel {
			e.expect[c] = o
		} else if was := e.expect[c]; math.Abs(o.value-was.value) > storedOhms+float64(0.01*was.value) {
			h.shows = append(h.shows, shown{c, o})
		}
	}
	e.Base.Leave()
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
			if e.alike(&e.hyps[parted[k][0]], &e.hyps[i]) {
				parted[k] = append(parted[k], i)
				continue next
			}
		}
		parted = append(parted, []int32{i})
	}
	return parted
}
