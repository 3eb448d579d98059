package diagnose

import (
	"math"

	"halfsplit/core/meter"
)

// A share is what one hypothesis gives to its suspect; suspect -1 where it is not
// suspected.
type share struct {
	weight  float64
	suspect int32
}

// A ranking computes the mutual information between suspect and outcome, in
// bits, candidate by candidate: H(outcome) - H(outcome | suspect). A row holds who
// shows otherwise than the healthy panel; all the rest show what it shows.
type ranking struct {
	e       *Engine
	shares  []share // by seat of the table
	tallies []tally // by suspect
	all     float64
	here    []living // of the row at hand, the cells of suspects
	inBand  []int32  // suspects in the band being summed
	touched []int32  // suspects in closed bands
	h       float64  // bits so far
	rest    float64  // of those who show what the healthy panel shows
	with    float64  // mass of those who share the healthy panel's band by their own value
	sound   bool     // the band being summed holds the healthy panel's outcome
}

// A tally is what of one suspect is where; all in one place, for it is needed together.
type tally struct {
	total  float64
	band   float64 // in the band being summed
	gone   float64 // in bands that are closed
	beside float64 // in the healthy panel's band
}

// living is a cell of somebody suspected.
type living struct {
	value   float64
	weight  float64
	suspect int32
	ghost   bool
}

// ranking of suspects. aside is the mass of those who are not worth naming, as far
// as anybody knows with the readings of the healthy panel.
func (e *Engine) ranking(suspects []Suspect, p posterior, t *table, aside float64) *ranking {
	r := &ranking{e: e, shares: make([]share, len(t.members)), tallies: make([]tally, len(suspects)), all: aside}
	for k := range r.shares {
		r.shares[k].suspect = -1
	}
	for s := range suspects {
		for _, i := range suspects[s].hyps {
			r.tallies[s].total += p.weight[i]
			r.shares[t.seats[i]] = share{p.weight[i], int32(s)}
		}
		r.all += r.tallies[s].total
	}
	return r
}

// bits of one candidate whose changed outcomes are row, by rising value. Its cost
// goes with the row.
func (r *ranking) bits(c int, row []cell) float64 {
	k, healthy := &r.e.Candidates[c], r.e.expect[c]
	r.rest = r.all - r.pick(row)
	r.h, r.sound, r.with = 0, false, 0
	w := widthOf(k)
	passed := r.rest <= 1e-9*r.all // nobody shows it
	last, reach := math.Inf(-1), 0.0
	for i := range r.here {
		x := &r.here[i]
		if x.value != last {
			if !passed && x.value > healthy.value {
				passed = true
				last, reach = r.next(last, reach, healthy.value, w.reach(healthy.value, healthy.ghost))
				r.sound = true
			}
			last, reach = r.next(last, reach, x.value, w.reach(x.value, x.ghost))
		}
		y := &r.tallies[x.suspect]
		if y.band == 0 {
			r.inBand = append(r.inBand, x.suspect)
		}
		y.band += x.weight
	}
	if !passed {
		r.next(last, reach, healthy.value, w.reach(healthy.value, healthy.ghost))
		r.sound = true
	}
	r.close()
	return r.finish()
}

// pick takes the cells of suspects out of a row, and gives their mass.
func (r *ranking) pick(row []cell) (mass float64) {
	if cap(r.here) < len(row) {
		r.here = make([]living, len(row))
	}
	here, n := r.here[:len(row)], 0
	for _, x := range row {
		if s := &r.shares[x.seat()]; s.suspect >= 0 {
			here[n] = living{x.value(), s.weight, s.suspect, x.ghost()}
			n++
			mass += s.weight
		}
	}
	r.here = here[:n]
	return mass
}

// next closes the band when the value that follows could not be confused with the
// last one: further on than both reach.
func (r *ranking) next(last, reach, value, reaches float64) (float64, float64) {
	if value-last > reach+reaches {
		r.close()
	}
	return value, reaches
}

// close counts a band: what is uncertain about the outcome less what is about it
// where the suspect is known. The healthy panel's band waits until it is known what
// the suspects leave to it.
func (r *ranking) close() {
	if len(r.inBand) == 0 && !r.sound {
		return // nothing yet
	}
	mass := 0.0
	for _, s := range r.inBand {
		y := &r.tallies[s]
		mass += y.band
		if y.gone == 0 && y.beside == 0 {
			r.touched = append(r.touched, s)
		}
		if r.sound {
			y.beside = y.band
		} else {
			y.gone += y.band
			r.divide(y, y.band)
		}
		y.band = 0
	}
	if r.sound {
		r.with = mass
	} else {
		r.h -= plogp(mass / r.all)
	}
	r.inBand, r.sound = r.inBand[:0], false
}

// divide counts the part of a suspect that falls into one band, unless it is the
// whole: then nothing is uncertain about it.
func (r *ranking) divide(y *tally, part float64) {
	if part > 1e-9*r.all && part < y.total*(1-1e-9) {
		r.h += float64(plogp(part/y.total) * y.total / r.all)
	}
}

// finish counts the healthy panel's band.
func (r *ranking) finish() float64 {
	if r.rest > 1e-9*r.all || r.with > 0 {
		r.h -= plogp((r.with + r.rest) / r.all)
	}
	for _, s := range r.touched {
		y := &r.tallies[s]
		r.divide(y, y.total-y.gone)
		y.gone, y.beside = 0, 0
	}
	r.touched = r.touched[:0]
	return math.Max(0, r.h)
}

func plogp(p float64) float64 {
	if p <= 0 || p >= 1 {
		return 0
	}
	return float64(p * log2(p))
}

// A width is how far a step's outcomes spread about their prediction.
type width struct {
	floor, share float64
	ghostly      bool
}

func widthOf(k *Candidate) width {
	switch {
	case k.Look != NoLook:
		return width{floor: 0.1} // states: less than one apart is the same
	case k.Mode == meter.Ohms:
		return width{ohmsFloor, ohmsShare, false}
	case k.Mode == meter.VAC:
		return width{acFloor, sigmaShare, true}
	}
	return width{sigmaFloor, sigmaShare, true}
}

// reach is how far from its prediction an outcome counts as agreeing with it.
func (w *width) reach(value float64, ghost bool) float64 {
	if ghost && w.ghostly {
		return within * (ghostFloor + float64(ghostShare*math.Abs(value)))
	}
	return within * (w.floor + float64(w.share*math.Abs(value)))
}

// gains is the information of every candidate. off asks for the switched-off
// panel, known for the suspects' hypotheses only, instead of the powered one.
func (e *Engine) gains(suspects []Suspect, p posterior, off bool) []float64 {
	var members []int32
	for s := range suspects {
		members = append(members, suspects[s].hyps...)
	}
	gains := make([]float64, len(e.Candidates))
	if len(members) == 0 {
		return gains
	}
	var t *table
	aside := 0.0
	if off {
		t = e.tabulate(members, true)
	} else {
		t, aside = e.tableOf(members), e.aside(suspects, p)
	}
	r := e.ranking(suspects, p, t, aside)
	for c := range len(t.from) - 1 { // the others were asked for after the table was made
		if row := t.row(c); len(row) > 0 {
			gains[c] = r.bits(c, row)
			e.walked(len(row))
		}
	}
	return gains
}

// aside is the weight of all faults that are not worth naming.
func (e *Engine) aside(suspects []Suspect, p posterior) float64 {
	rest := 1 - p.weight[0]
	for s := range suspects {
		rest -= suspects[s].Probability
	}
	return math.Max(0, rest)
}
