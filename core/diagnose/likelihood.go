package diagnose

import (
	"math"

	"halfsplit/core/meter"
	"halfsplit/core/parts"
)

// Spread of a reading about its prediction: choices. A meter's own accuracy
// (0.5 % and two digits of 10 mV), a supply within 1 %, parts within some more,
// taken together as 2 % and 30 mV.
const (
	sigmaFloor = 0.03
	sigmaShare = 0.02
	// A reading that hangs on insulation is hardly predictable: humidity, cable
	// length, the meter itself.
	ghostFloor = 0.4
	ghostShare = 0.5
	// acFloor is for alternating voltage, where neighbouring conductors couple.
	acFloor = 2.0
	// Resistance: windings and cables within a fifth, and the leads.
	ohmsFloor = 0.5
	ohmsShare = 0.2
	// wrong is the chance that a reading was taken at the wrong point or noted
	// wrongly, spread evenly over its range.
	wrong     = 0.01
	voltRange = 60.0
	acRange   = 400.0
	// within is how many sigmas count as agreement.
	within = 3.0
	// far is what a contradicted look or word counts as, in sigmas.
	far = 10.0
)

// spread is the standard deviation of a reading about a prediction.
func (e *Engine) spread(c *Candidate, predicted outcome) float64 {
	p := math.Abs(predicted.value)
	if a, ok := asked[c.Mode]; ok {
		return a.floor + float64(a.share*p)
	}
	switch {
	case c.Mode == meter.Ohms:
		return ohmsFloor + float64(ohmsShare*p)
	case predicted.ghost:
		return ghostFloor + float64(ghostShare*p)
	case c.Mode == meter.VAC:
		return acFloor + float64(sigmaShare*p)
	}
	return sigmaFloor + float64(sigmaShare*p)
}

// Chances of a person's word on a device: choices. "Dead" is also said of a dim
// lamp or an input in the undefined band.
const (
	saidDeadOfOff  = 0.98
	saidDeadOfWeak = 0.6
	saidDeadOfOn   = 0.005
	saidWorksOff   = 0.02 // "works" of what has another state than it should
	seenWrong      = 0.02 // a look that misses
)

// A fit is how one observation goes with one hypothesis.
type fit struct {
	likelihood float64
	sigmas     float64 // how far off; 0 or far for looks and words
	predicted  outcome
}

// fit weighs an observation of this engine's condition.
func (e *Engine) fit(i int32, o *Observation) fit { return e.fitTo(e.outcomeOf(i, o.Candidate), o) }

// fitTo weighs it against an outcome.
func (e *Engine) fitTo(p outcome, o *Observation) fit {
	c := &e.Candidates[o.Candidate]
	switch o.Kind {
	case Dead, Works:
		return e.word(p, o)
	case Saw:
		if o.Value == p.value {
			return fit{1 - seenWrong, 0, p}
		}
		return fit{seenWrong, far, p}
	}
	value, span := o.Value, voltRange
	if unsigned[c.Mode] {
		value = math.Abs(value)
	}
	switch c.Mode {
	case meter.VAC:
		span = acRange
	case meter.Ohms:
		value, span = math.Min(value, mostOhms), mostOhms
	case meter.Beep:
		return beeped(p, value)
	case meter.LowZ, meter.Tester, meter.MA, meter.Clamp, meter.Diode:
		span = asked[c.Mode].span
	}
	s := e.spread(c, p)
	z := math.Abs(value-p.value) / s
	const sqrtTwoPi = 2.5066282746310002
	density := expNeg(-float64(z*z)/2) / (s * sqrtTwoPi)
	return fit{float64((1-wrong)*density) + wrong/span, z, p}
}

// word weighs "dead" or "works".
func (e *Engine) word(p outcome, o *Observation) fit {
	state := e.StateName(p.value)
	grade := parts.GradeOf(state)
	if o.Kind == Works {
		if p.value == e.expect[o.Candidate].value {
			return fit{1 - saidWorksOff, 0, p}
		}
		return fit{saidWorksOff, far, p}
	}
	switch grade {
	case parts.Off:
		return fit{saidDeadOfOff, 0, p}
	case parts.Weak:
		return fit{saidDeadOfWeak, 0, p}
	}
	return fit{saidDeadOfOn, far, p}
}
