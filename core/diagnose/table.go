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
	t := &table{from: make([]int32, candidates+1)}
	t.seat(members)
	return t
}

// seat gives its members their places.
func (t *table) seat(members []int32) {
	t.members, t.seats = members, make(map[int32]int32, len(members))
	for seat, i := range members {
		t.seats[i] = int32(seat)
	}
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

// narrow leaves in a table those members that are kept, in their order. It is done in
// place: a table may take a hundred megabytes.
func (e *Engine) narrow(t *table, keep []bool) {
	seat := make([]int32, len(t.members))
	var members []int32
	for k, i := range t.members {
		if seat[k] = int32(len(members)); keep[k] {
			members = append(members, i)
		}
	}
	from, n := int32(0), int32(0)
	for c := range len(t.from) - 1 {
		to := t.from[c+1]
		for _, x := range t.cells[from:to] {
			if k := x.seat(); keep[k] {
				t.cells[n] = x&^(1<<32-2) | cell(seat[k])<<1
				n++
			}
		}
		e.walked(int(to - from))
		from, t.from[c+1] = to, n
	}
	if t.cells = t.cells[:n]; int(n) < cap(t.cells)/2 {
		t.cells = slices.Clone(t.cells)
	}
	t.seat(members)
}

// crowded is the share of living members below which the others are taken out of
// the table: walking past one costs about a third of walking it.
const crowded = 0.7

// tableOf is the table of the suspects' hypotheses with power on. A search goes on
// with the table it has while its suspects are among the members.
func (e *Engine) tableOf(list []int32) *table {
	t := e.table
	e.table = nil // until it is whole again; and there is no room for two
	if t == nil || !e.hyps[list[0]].read || !t.holds(list) {
		t = e.tabulate(list, false)
	} else if float64(len(list)) < float64(crowded*float64(len(t.members))) {
		keep := make([]bool, len(t.members))
		for _, i := range list {
			keep[t.seats[i]] = true
		}
		e.narrow(t, keep)
	}
	e.table = t
	return t
}
