package diagnose

import (
	"math"
	"slices"
)

// A cell is what one hypothesis shows for one candidate, in eight bytes that sort
// by value: rows are long, and walked whole. From the top: the value as an ordered
// 32-bit figure, the hypothesis by its seat in the table, and whether the value is
// a ghost.
type cell uint64

func newCell(seat int, o outcome) cell {
	bits := math.Float32bits(float32(o.value) + 0) // no minus zero
	if bits>>31 != 0 {
		bits = ^bits
	} else {
		bits |= 1 << 31
	}
	c := cell(bits)<<32 | cell(seat)<<1
	if o.ghost {
		c |= 1
	}
	return c
}

func (c cell) seat() int32 { return int32(uint32(c) >> 1) }
func (c cell) ghost() bool { return c&1 != 0 }

func (c cell) value() float64 {
	bits := uint32(c >> 32)
	if bits>>31 != 0 {
		bits &^= 1 << 31
	} else {
		bits = ^bits
	}
	return float64(math.Float32frombits(bits))
}

// A table turns the outcomes of some hypotheses round: for each candidate the
// hypotheses that change it, by rising value, so that ranking steps walks it in
// order. Its size goes with what faults change.
type table struct {
	members []int32         // hypothesis in each seat
	seats   map[int32]int32 // of each hypothesis
	from    []int32         // by candidate: its row is cells[from[c]:from[c+1]]
	cells   []cell
}

func (t *table) row(c int) []cell { return t.cells[t.from[c]:t.from[c+1]] }

// tabulate makes the table of some hypotheses, with power on or off.
func (e *Engine) tabulate(members []int32, off bool) *table {
	t := newTable(members, len(e.Candidates))
	wanted := func(s shown) bool { return e.Situations[e.Candidates[s.candidate()].Situation].Off == off }
	each := func(f func(seat int, s shown)) {
		for seat, i := range members {
			e.walked(len(e.showsOf(i)))
			for _, s := range e.showsOf(i) {
				if wanted(s) {
					f(seat, s)
				}
			}
		}
	}
	each(func(_ int, s shown) { t.from[s.candidate()+1]++ })
	for c := range e.Candidates {
		t.from[c+1] += t.from[c]
	}
	t.cells = make([]cell, t.from[len(e.Candidates)])
	at := slices.Clone(t.from)
	each(func(seat int, s shown) {
		t.cells[at[s.candidate()]] = newCell(seat, s.outcome())
		at[s.candidate()]++
	})
	for c := range e.Candidates {
		row := t.row(c)
		slices.Sort(row)
		e.walked(sortedShows * len(row))
	}
	return t
}

func newTable(members []int32, candidates int) *table {
	t := &table{members: members, seats: make(map[int32]int32, len(members)), from: make([]int32, candidates+1)}
	for seat, i := range members {
		t.seats[i] = int32(seat)
	}
	return t
}

// holds says whether some hypotheses all have a seat.
func (t *table) holds(list []int32) bool {
	for _, i := range list {
		if _, ok := t.seats[i]; !ok {
			return false
		}
	}
	return true
}

// sortedShows is what an outcome costs to be sorted in its row, in outcomes walked by.
const sortedShows = 4

// without gives the table of those members that are kept, in their order.
func (e *Engine) without(t *table, keep []bool) *table {
	seat := make([]int32, len(t.members))
	var members []int32
	for k, i := range t.members {
		if seat[k] = int32(len(members)); keep[k] {
			members = append(members, i)
		}
	}
	out := newTable(members, len(t.from)-1)
	for c := range len(t.from) - 1 {
		for _, x := range t.row(c) {
			if k := x.seat(); keep[k] {
				out.cells = append(out.cells, x&^(1<<32-2)|cell(seat[k])<<1)
			}
		}
		out.from[c+1] = int32(len(out.cells))
		e.walked(len(t.row(c)))
	}
	return out
}

// crowded is the share of living members below which the others are taken out of
// the table: walking past one costs about a third of walking it.
const crowded = 0.7

// tableOf is the table of the suspects' hypotheses with power on. A search goes on
// with the table it has while its suspects are among the members.
func (e *Engine) tableOf(list []int32) *table {
	t := e.table
	if t == nil || !e.hyps[list[0]].read || !t.holds(list) {
		e.table = e.tabulate(list, false)
		return e.table
	}
	if float64(len(list)) < float64(crowded*float64(len(t.members))) {
		keep := make([]bool, len(t.members))
		for _, i := range list {
			keep[t.seats[i]] = true
		}
		e.table = e.without(t, keep)
	}
	return e.table
}
