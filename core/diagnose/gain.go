package diagnose

import (
	"cmp"
	"math"
	"slices"
)

// A cell is what the hypotheses of one class show for one candidate, in sixteen
// bytes: rows are long, and walked whole.
type cell struct {
	value float64
	class int32
	ghost bool
}

func newCell(class int, o outcome) cell { return cell{o.value, int32(class), o.ghost} }

func (x *cell) outcome() outcome { return outcome{x.value, x.ghost} }

// tabulate turns the classes' outcomes round: for each candidate the classes
// that change it, by rising value. It is made once, so that ranking steps walks
// it in order; its size goes with what faults change.
func (e *Engine) tabulate() {
	e.table = make([][]cell, len(e.Candidates))
	for k, class := range e.classes {
		for _, s := range e.hyps[class[0]].shows {
			e.table[s.candidate] = append(e.table[s.candidate], newCell(k, s.outcome))
		}
	}
	for _, row := range e.table {
		sortCells(row)
	}
}

func sortCells(row []cell) {
	slices.SortStableFunc(row, func(a, b cell) int { return cmp.Compare(a.value, b.value) })
}

// A share is the weight of the part of a class that belongs to one suspect.
type share struct {
	suspect int32
	weight  float64
}

// A ranking computes the mutual information between suspect and outcome, in
// bits, candidate by candidate: H(outcome) - H(outcome | suspect).
type ranking struct {
	e       *Engine
	shares  [][]share // by class
	first   []share   // by class, the first of them; suspect -1 where the class is dead
	here    []cell    // of the row at hand, those of living classes
	total   []float64 // by suspect
	all     float64
	left    []float64 // by suspect touched: what of it shows what the healthy panel shows; else -1
	rest    float64   // mass of the suspects not touched
	touched []int32
	band    []float64 // by suspect, of the band being summed
	inBand  []int32
	h       float64 // bits so far
	mass    float64 // of the band being summed
	last    float64 // value that came last
	spread  float64 // of the last
	open    bool
}

func (e *Engine) ranking(suspects []Suspect, p posterior) *ranking {
	r := &ranking{e: e, shares: make([][]share, len(e.classes)), total: make([]float64, len(suspects)),
		left: make([]float64, len(suspects)), band: make([]float64, len(suspects))}
	for s := range suspects {
		for _, i := range suspects[s].hyps {
			w := p.weight[i]
			r.total[s] += w
			c := e.hyps[i].class
			if n := len(r.shares[c]); n > 0 && r.shares[c][n-1].suspect == int32(s) {
				r.shares[c][n-1].weight += w
			} else {
				r.shares[c] = append(r.shares[c], share{int32(s), w})
			}
		}
		r.all += r.total[s]
		r.left[s] = -1
	}
	r.begin()
	return r
}

// begin takes the first share of every class out of its list: nearly all have no
// other, and after the first observation most have none.
func (r *ranking) begin() {
	r.first = make([]share, len(r.shares))
	for k, list := range r.shares {
		r.first[k].suspect = -1
		if len(list) > 0 {
			r.first[k] = list[0]
			r.shares[k] = list[1:]
		}
	}
}

// bits of one candidate whose changed outcomes are row, by rising value. Its cost
// goes with the row: suspects that the row does not touch show what the healthy
// panel shows, whole, and count by their mass alone.
func (r *ranking) bits(c int, row []cell) float64 {
	r.touch(row)
	r.h, r.open = 0, false
	k, healthy := &r.e.Candidates[c], r.e.expect[c]
	passed := false
	for i := range r.here {
		x := &r.here[i]
		if !passed && x.value > healthy.value {
			passed = true
			r.healthy(k, healthy)
		}
		r.next(k, x.outcome())
		one := &r.first[x.class]
		r.sum(one.suspect, one.weight)
		for _, s := range r.shares[x.class] {
			r.sum(s.suspect, s.weight)
		}
	}
	if !passed {
		r.healthy(k, healthy)
	}
	r.close()
	for _, s := range r.touched {
		r.left[s] = -1
	}
	return math.Max(0, r.h)
}

// touch picks the cells of living classes and works out what their suspects leave
// to the healthy outcome.
func (r *ranking) touch(row []cell) {
	r.touched, r.rest, r.here = r.touched[:0], r.all, r.here[:0]
	for i := range row {
		one := &r.first[row[i].class]
		if one.suspect < 0 {
			continue
		}
		r.here = append(r.here, row[i])
		r.take(one.suspect, one.weight)
		for _, s := range r.shares[row[i].class] {
			r.take(s.suspect, s.weight)
		}
	}
}

// take takes a weight from what a suspect leaves to the healthy outcome.
func (r *ranking) take(suspect int32, w float64) {
	left := r.left[suspect]
	if left < 0 {
		left = r.total[suspect]
		r.touched = append(r.touched, suspect)
		r.rest -= left
	}
	if left -= w; left < 0 {
		left = 0
	}
	r.left[suspect] = left
}

func (r *ranking) healthy(k *Candidate, o outcome) {
	if r.rest > 1e-9*r.all {
		r.next(k, o)
		r.mass += r.rest
	}
	for _, s := range r.touched {
		if w := r.left[s]; w > 1e-9*r.all {
			r.next(k, o)
			r.sum(s, w)
		}
	}
}

// next closes the band when the value that follows could not be confused with
// the last one: distinct, with the spread of the last one known.
func (r *ranking) next(k *Candidate, o outcome) {
	if k.Look != NoLook {
		if r.open && o.value != r.last {
			r.close()
		}
	} else {
		spread := r.e.spread(k, o)
		if r.open && math.Abs(r.last-o.value) > within*(r.spread+spread) {
			r.close()
		}
		r.spread = spread
	}
	r.open, r.last = true, o.value
}

func (r *ranking) sum(suspect int32, w float64) {
	if r.band[suspect] == 0 {
		r.inBand = append(r.inBand, suspect)
	}
	r.band[suspect] += w
	r.mass += w
}

func (r *ranking) close() {
	r.h -= plogp(r.mass / r.all)
	for _, s := range r.inBand {
		if r.band[s] >= r.total[s]*(1-1e-9) { // whole in this band: nothing uncertain about it
			r.band[s] = 0
			continue
		}
		r.h += float64(plogp(math.Min(1, r.band[s]/r.total[s])) * r.total[s] / r.all)
		r.band[s] = 0
	}
	r.inBand, r.mass, r.open = r.inBand[:0], 0, false
}

func plogp(p float64) float64 {
	if p <= 0 {
		return 0
	}
	return float64(p * log2(p))
}

// gains is the information of every candidate. off asks for the switched-off
// panel, known for the suspects' hypotheses only, instead of the powered one.
func (e *Engine) gains(suspects []Suspect, p posterior, off bool) []float64 {
	gains := make([]float64, len(e.Candidates))
	r := e.ranking(suspects, p)
	rows := e.table
	switch {
	case off:
		rows = r.rowsOff(suspects, p)
	case r.fewAlive():
		rows = r.rowsAlive()
	}
	for c, row := range rows {
		if len(row) > 0 && !e.Candidates[c].Asked {
			gains[c] = r.bits(c, row)
		}
	}
	return gains
}

// sorting is how many cells of the table can be passed over while one cell is
// sorted into a table of its own. Measured.
const sorting = 40

// fewAlive says that a table of the living classes alone is worth its making.
func (r *ranking) fewAlive() bool {
	all, living := 0, 0
	for _, row := range r.e.table {
		all += len(row)
	}
	for k := range r.first {
		if r.first[k].suspect >= 0 {
			living += len(r.e.hyps[r.e.classes[k][0]].shows)
		}
	}
	return living < all/sorting
}

// rowsAlive is the table of the living classes only, for the end of a search,
// when walking past the dead ones would cost more than sorting what is left.
func (r *ranking) rowsAlive() [][]cell {
	rows := make([][]cell, len(r.e.Candidates))
	for k := range r.first {
		if r.first[k].suspect < 0 {
			continue
		}
		for _, s := range r.e.hyps[r.e.classes[k][0]].shows {
			if !r.e.Situations[r.e.Candidates[s.candidate].Situation].Off {
				rows[s.candidate] = append(rows[s.candidate], newCell(k, s.outcome))
			}
		}
	}
	for _, row := range rows {
		sortCells(row)
	}
	return rows
}

// rowsOff is the table of the switched-off panel, known for the suspects'
// hypotheses only; each stands for itself.
func (r *ranking) rowsOff(suspects []Suspect, p posterior) [][]cell {
	e := r.e
	rows := make([][]cell, len(e.Candidates))
	r.shares = nil
	for s := range suspects {
		for _, i := range suspects[s].hyps {
			r.shares = append(r.shares, []share{{int32(s), p.weight[i]}})
			for _, o := range e.hyps[i].shows {
				if e.Situations[e.Candidates[o.candidate].Situation].Off {
					rows[o.candidate] = append(rows[o.candidate], newCell(len(r.shares)-1, o.outcome))
				}
			}
		}
	}
	r.begin()
	for _, row := range rows {
		sortCells(row)
	}
	return rows
}
