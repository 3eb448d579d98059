package diagnose

import (
	"strings"

	"halfsplit/core/parts"
)

// Some faults can be seen by looking closely at one place: a wire out of its
// clamp, a lever left open, a bridge between two terminals. A look there shows
// AsDrawn or NotAsDrawn.
const (
	AsDrawn    = "as-drawn"
	NotAsDrawn = "not-as-drawn"
)

// minutesInspect is the time of a close look at one clamp: common practice.
const minutesInspect = 0.4

// inspections lists a close look at every place where a fault could be seen.
func (e *Engine) inspections() {
	e.placeOf = map[string]int{}
	field := map[string]bool{}
	for _, p := range e.Base.Model.Net.Places {
		field[p.Name] = p.Field
	}
	for i := range e.Set.Faults {
		name, ok := spot(e.Set.Faults[i].Mode)
		if !ok {
			continue
		}
		if _, known := e.placeOf[name]; known {
			continue
		}
		minutes := minutesInspect
		if field[name] {
			minutes += minutesField
		}
		e.placeOf[name] = len(e.Candidates)
		e.add(Candidate{Look: AtPlace, Thing: len(e.Places), Minutes: minutes})
		e.Places = append(e.Places, name)
	}
	for _, c := range e.placeOf {
		e.expect[c] = outcome{value: e.StateValue(AsDrawn)}
	}
}

// spot is where a visible fault is seen: the clamp of a wire end, the first of
// two bridged terminals, the lever or breaker itself.
func spot(m *parts.Mode) (string, bool) {
	if !m.Visible {
		return "", false
	}
	first, _, _ := strings.Cut(m.Thing, "~")
	if _, at, ended := strings.Cut(first, "@"); ended {
		return at, true
	}
	return first, true
}

// Inspect is what a close look at a place shows under a fault, for those who take
// the step.
func (e *Engine) Inspect(fault *parts.Mode, place int) float64 {
	if name, ok := spot(fault); ok && name == e.Places[place] {
		return e.StateValue(NotAsDrawn)
	}
	return e.StateValue(AsDrawn)
}
