package record

import (
	"strings"

	"halfsplit/core/fault"
)

// Earlier is what an earlier job at the panel found.
type Earlier struct {
	When   string   `json:"when,omitempty"`
	Faults []string `json:"faults"` // canonical names
}

// Earlier gives what a job found, for the history of its panel; ok is false where
// the job has no cause that the model knows by name.
func (j *Job) Earlier() (e Earlier, ok bool) {
	if j.Cause == nil || len(j.Cause.Faults) == 0 {
		return Earlier{}, false
	}
	return Earlier{When: j.Ended, Faults: j.Cause.Faults}, true
}

// How much a fault that was found before is likelier the next time. Choices: what
// broke once breaks again where its cause was left (a cable that moves, a clamp
// that works loose), so the same fault counts three more for each time, another
// fault of the same thing one more; and never more than tenfold, so that one
// reading that speaks against it (worth a factor of a hundred and more) outweighs
// any history.
const (
	weightSame  = 3.0
	weightThing = 1.0
	weightMost  = 10.0
)

// A History says how often things were at fault before.
type History struct {
	same, thing map[string]int
	last        map[string]string // fault → when it was found last
}

// NewHistory counts earlier causes. Names the panel does not have are of no
// effect.
func NewHistory(list []Earlier) *History {
	h := &History{same: map[string]int{}, thing: map[string]int{}, last: map[string]string{}}
	for _, e := range list {
		things := map[string]bool{}
		for _, key := range e.Faults {
			h.same[key]++
			h.last[key] = max(h.last[key], e.When)
			thing, _, _ := strings.Cut(key, "=")
			things[thing] = true
		}
		for thing := range things {
			h.thing[thing]++
		}
	}
	return h
}

// Weight is the factor on the prior of a fault: 1 without a history, 10 at most.
func (h *History) Weight(f *fault.Fault) float64 {
	same := h.same[f.Key()]
	other := max(0, h.thing[f.Thing]-same)
	return min(weightMost, 1+float64(weightSame*float64(same))+float64(weightThing*float64(other)))
}

// Before says how often a fault was found and when last.
func (h *History) Before(key string) (times int, last string) { return h.same[key], h.last[key] }
