package diagnose

import "math"

// What was solved of faults with other resistances than the listed ones. It hangs on
// the fault and one thing observed, so that it stays true whatever else is observed,
// and whatever is taken back: a reading more costs what is new about it.
type resistances struct {
	ends map[step]ends
	ohms map[narrow]float64
}

// A step under a fault, whatever its resistance.
type step struct {
	fault     int
	in        *Engine
	candidate int
}

// ends are what a step shows at the ends of what is tried.
type ends struct{ least, most outcome }

// A narrow question is what resistance of a fault gives what was observed.
type narrow struct {
	fault int
	Observation
}

// ends solves what a fault shows at either end of what is tried. ok is false where
// something was seen that no resistance gives: then the rest is not solved.
func (e *Engine) ends(f int, seen []Observation) (list []ends, ok bool) {
	list = make([]ends, len(seen))
	var open []Observation
	var at []int
	for k := range seen {
		o := &seen[k]
		x, known := e.resistances.ends[step{f, o.In, o.Candidate}]
		switch list[k] = x; {
		case !known:
			open, at = append(open, *o), append(at, k)
		case !x.allow(o):
			return nil, false
		}
	}
	least, most := e.under(f, leastFitted, open), e.under(f, mostFitted, open)
	ok = true
	for n := range open {
		o, x := &open[n], ends{least[n], most[n]}
		e.resistances.ends[step{f, o.In, o.Candidate}] = x
		list[at[n]] = x
		ok = ok && x.allow(o)
	}
	return list, ok
}

// allow says that what was observed comes out at one of the ends, or may come out
// between them: a figure between theirs, a state where theirs are two.
func (x ends) allow(o *Observation) bool {
	if o.In.fitTo(x.least, o).sigmas <= within || o.In.fitTo(x.most, o).sigmas <= within {
		return true
	}
	a, b := x.least.value, x.most.value
	if o.Kind != Read {
		return a != b
	}
	return math.Min(a, b) <= o.read() && o.read() <= math.Max(a, b)
}

// apart is how much a resistance can change a figure.
func (x ends) apart() float64 { return math.Abs(x.most.value - x.least.value) }

// halvings narrow seven decades down to less than the three digits that are kept.
const halvings = 20

// narrowed is the resistance that gives the figure of a reading.
func (e *Engine) narrowed(f int, o Observation, x ends) float64 {
	ohms, known := e.resistances.ohms[narrow{f, o}]
	if known {
		return ohms
	}
	rising := x.most.value > x.least.value
	low, high := leastFitted, mostFitted
	for range halvings {
		ohms = math.Sqrt(low * high)
		if (e.under(f, ohms, []Observation{o})[0].value < o.read()) == rising {
			low = ohms
		} else {
			high = ohms
		}
	}
	e.resistances.ohms[narrow{f, o}] = ohms
	return ohms
}
