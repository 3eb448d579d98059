package diagnose

import "math"

// fitWith are the resistances that a fault is first solved with, in ohms: choices. Less
// than the first is no fault that anybody measures, more than the last is an open. From
// the first to the second figures follow the resistance. With more, nothing works that
// hangs on it, and a meter that draws microamperes shows little of it.
var fitWith = [...]float64{0.1, 10e3, 100e3, 900e3}

// many says which of them are beyond what is listed, and no open.
var many = []int{1, 2}

// What was solved of faults with other resistances than the listed ones. It hangs on
// the fault and one thing observed, so that it stays true whatever else is observed,
// and whatever is taken back: a reading more costs what is new about it.
type resistances struct {
	trials map[step]trials
	ohms   map[narrow]float64
}

// A step under a fault, whatever its resistance.
type step struct {
	fault     int
	in        *Engine
	candidate int
}

// trials are what a step shows with each of fitWith.
type trials [len(fitWith)]outcome

// A narrow question is what resistance of a fault, between one of fitWith and the next,
// gives what was observed.
type narrow struct {
	fault, after int
	Observation
}

// trials solves what a fault shows. ok is false where something was seen that no
// resistance gives: then the rest is not solved.
func (e *Engine) trials(f int, seen []Observation) (list []trials, ok bool) {
	list = make([]trials, len(seen))
	var open []Observation
	var at []int
	for k := range seen {
		o := &seen[k]
		x, known := e.resistances.trials[step{f, o.In, o.Candidate}]
		switch list[k] = x; {
		case !known:
			open, at = append(open, *o), append(at, k)
		case !x.allow(o):
			return nil, false
		}
	}
	if len(open) == 0 {
		return list, true
	}
	for j, ohms := range fitWith {
		for n, p := range e.under(f, ohms, open) {
			list[at[n]][j] = p
		}
	}
	ok = true
	for n := range open {
		o, x := &open[n], list[at[n]]
		e.resistances.trials[step{f, o.In, o.Candidate}] = x
		ok = ok && x.allow(o)
	}
	return list, ok
}

// allow says that what was observed comes out with one of fitWith, or may come out
// between two of them: a figure between theirs, a state where theirs are two.
func (x *trials) allow(o *Observation) bool {
	for j := range x {
		if x.agrees(j, o) || j > 0 && (x.between(j-1, o) || o.Kind != Read && x[j-1].value != x[j].value) {
			return true
		}
	}
	return false
}

func (x *trials) agrees(j int, o *Observation) bool { return o.In.fitTo(x[j], o).sigmas <= within }

// between says that a figure lies between those of one of fitWith and the next.
func (x *trials) between(j int, o *Observation) bool {
	a, b := x[j].value, x[j+1].value
	return o.Kind == Read && math.Min(a, b) <= o.read() && o.read() <= math.Max(a, b)
}

// apart is how much a resistance can change a figure.
func (x *trials) apart() float64 {
	low, high := x[0].value, x[0].value
	for _, p := range x {
		low, high = math.Min(low, p.value), math.Max(high, p.value)
	}
	return high - low
}

// halvings narrow five decades down to less than the three digits that are kept.
const halvings = 20

// narrowed is the resistance, between one of fitWith and the next, that gives
// the figure of a reading between theirs.
func (e *Engine) narrowed(f, after int, o Observation, x *trials) float64 {
	ohms, known := e.resistances.ohms[narrow{f, after, o}]
	if known {
		return ohms
	}
	rising := x[after+1].value > x[after].value
	low, high := fitWith[after], fitWith[after+1]
	for range halvings {
		ohms = math.Sqrt(low * high)
		if (e.under(f, ohms, []Observation{o})[0].value < o.read()) == rising {
			low = ohms
		} else {
			high = ohms
		}
	}
	e.resistances.ohms[narrow{f, after, o}] = ohms
	return ohms
}

// under is what a fault that has some resistance shows where something was seen.
func (e *Engine) under(f int, ohms float64, seen []Observation) []outcome {
	list := make([]outcome, len(seen))
	for _, q := range together(seen) {
		q.in.with(f, ohms, func() {
			for n, o := range q.in.askTogether(q.in.running(int32(f)), q.situation, q.steps) {
				list[q.of[n]] = o
			}
		})
	}
	return list
}

// with gives a fault some resistance while something is solved.
func (e *Engine) with(f int, ohms float64, do func()) {
	mode, ok := e.Set.WithOhms(&e.Set.Faults[f], ohms)
	if !ok {
		panic("diagnose: " + e.Set.Faults[f].Key() + " has no resistance to choose")
	}
	e.instead = &substitute{f, mode}
	defer func() { e.instead = nil }()
	do()
}
