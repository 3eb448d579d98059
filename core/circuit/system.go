package circuit

import (
	"fmt"
	"slices"
)

// number is what a system is made of: float64 for DC, complex128 for AC.
type number interface{ float64 | complex128 }

// term is a branch's value; DC and AC name its fields for their callers.
type term[T number] struct{ g, e, j T }

// edge is what lies between two pieces of metal during elimination: a
// conductance g and a current h that flows from the lower vertex to the higher
// whatever their voltages.
type edge[T number] struct{ g, h T }

// pivot is what elimination keeps of a vertex, beside the ratios g/sum of its
// edges: the sum of their conductances, and the voltage that their sources alone
// would give it.
type pivot[T number] struct{ sum, free T }

// volt is a vertex's voltage, right if at is the present epoch.
type volt[T number] struct {
	x  T
	at uint64
}

// kernel is the arithmetic that differs between float64 and complex128.
type kernel[T number] struct {
	mul     func(a, b T) T
	inverse func(T) T
	size    func(T) float64
	// reduce eliminates a vertex whose edges are col: it leaves their ratios and
	// the pivot, and adds to out what comes to lie between each two members.
	reduce func(col, out []edge[T], ratio []T) (pv pivot[T], reach float64, m mood)
	// step brings the voltage of vertex t up to date, whose members' are, and says
	// how far it is from was.
	step  func(s *system[T], t int32, was T) float64
	grows bool // voltages can move further than those they are a mean of
}

// mood says how the elimination of a vertex went.
type mood uint8

const (
	well mood = iota
	weak      // admittances about the vertex cancel to less than 1/maxCancel
	bad       // the sum is not a number, or not more than zero
	moods
)

// system is what DC and AC share: a plan filled with values.
//
// # Fronts
//
// What elimination makes of a vertex stands where the plan has room for it. While
// there is a checkpoint, that is the checkpoint's, and a vertex eliminated since
// then has a front instead; so Revert only drops fronts, copies no number and
// cannot fail to restore a bit. Vertices that links concern have a front too, of
// another shape than the plan's.
//
// # Voltages
//
// A voltage is computed when it is asked for, together with those of the
// vertex's ancestors, which are all it depends on.
type system[T number] struct {
	kernel[T]
	plan *Plan
	leak []T // by node
	val  []term[T]
	src  []edge[T] // by branch: the same as an edge, h counted from A to B

	pairs []edge[T]  // by the plan
	ratio []T        // beside plan.mem
	pivot []pivot[T] // by vertex
	gain  []float64  // by vertex, where it grows: how far any vertex of its subtree can move when no member moves by more than 1
	mood  []mood     // by vertex
	count [moods]int // of the moods, those of fronts before those they stand for
	col   []edge[T]  // scratch: the edges of the vertex being eliminated
	apart[T]

	volts []volt[T]
	epoch uint64
	base  []T // voltages at the checkpoint, by vertex

	held   bool  // there is a checkpoint
	clean  bool  // the state is the checkpoint's
	solved bool  // nothing has changed since Solve
	full   bool  // everything has been eliminated once
	err    error // of the last Solve

	seen    []T      // voltages where the last look had them
	sighted []int32  // vertices whose seen is not the checkpoint's
	recent  []int32  // vertices eliminated anew since the last look
	was     []old[T] // branches changed since the checkpoint
	changed []bool   // by branch: was has its entry
	pending []int32  // lower vertices of branches changed since Solve
	path    []int32  // scratch: vertices to eliminate
	merged  []int32  // scratch
	markAt  []uint64 // by vertex: the walk that last met it
	walk    uint64
	stack   []int32

	delta []float64 // by vertex: how far the last comparison found it moved; Earth never does
	out   []int32
	named []Node // scratch: out by node

	links     []link[T]
	linksBase []link[T] // at the checkpoint

	hi, lo []T // by vertex: charge on its way up, in two parts; zero between uses
	drive  []T // by vertex: what a refined solution adds to its voltage; nil when it is not refined
	probe  probe[T]
}

// old is a branch's value at the checkpoint.
type old[T number] struct {
	branch int32
	val    term[T]
}

func newSystem[T number](k kernel[T], p *Plan, leak []T, branches int) *system[T] {
	if len(leak) != p.nodes || branches != len(p.ends) {
		panic(fmt.Sprintf("circuit: %d leaks and %d values for a plan of %d nodes and %d branches", len(leak), branches, p.nodes, len(p.ends)))
	}
	n := p.nodes
	s := &system[T]{
		kernel: k, plan: p, leak: slices.Clone(leak),
		val: make([]term[T], branches), src: make([]edge[T], branches),
		pairs: make([]edge[T], p.pairs), ratio: make([]T, len(p.mem)),
		pivot: make([]pivot[T], n), mood: make([]mood, n), col: make([]edge[T], p.widest),
		volts: make([]volt[T], n), base: make([]T, n), seen: make([]T, n), epoch: 1,
		changed: make([]bool, branches), markAt: make([]uint64, n), delta: make([]float64, n),
	}
	s.at = make([]int32, n)
	if k.grows {
		s.gain = make([]float64, n)
	}
	return s
}

// fill gives a branch its value before anything is solved.
func (s *system[T]) fill(branch int, v term[T]) {
	s.val[branch] = v
	s.src[branch] = s.source(v)
}

func (s *system[T]) source(v term[T]) edge[T] { return edge[T]{v.g, s.mul(v.g, v.e) + v.j} }

func (s *system[T]) set(branch int, v term[T]) {
	if s.val[branch] == v {
		return
	}
	if !s.full {
		s.fill(branch, v)
		return
	}
	if s.held && !s.changed[branch] {
		s.changed[branch] = true
		s.was = append(s.was, old[T]{int32(branch), s.val[branch]})
	}
	s.fill(branch, v)
	s.solved = false
	if t := s.plan.lower[branch]; t >= 0 {
		s.pending = append(s.pending, t)
	}
}

// ready panics when something changed since Solve, for then no voltage is to be had.
func (s *system[T]) ready() {
	if !s.solved {
		panic("circuit: read before Solve")
	}
}

func (s *system[T]) voltage(n Node) T {
	s.ready()
	t := s.plan.at[n]
	if s.clean {
		return s.base[t]
	}
	return s.volt(t)
}

// volt is the voltage of vertex t in the present epoch.
func (s *system[T]) volt(t int32) T {
	if v := &s.volts[t]; v.at == s.epoch {
		return v.x
	}
	return s.descend(t)
}

// descend brings the voltages of vertex t and its ancestors up to date.
func (s *system[T]) descend(t int32) T {
	earth, volts, epoch, stack := int32(s.plan.nodes-1), s.volts, s.epoch, s.stack[:0]
	for u := t; u != earth && volts[u].at != epoch; u = s.up(u) {
		stack = append(stack, u)
	}
	s.stack = stack
	for i := len(stack) - 1; i >= 0; i-- {
		s.step(s, stack[i], 0)
	}
	return volts[t].x // Earth's is never written
}

func (s *system[T]) current(branch int) T {
	return s.flow(s.plan.ends[branch], s.val[branch])
}

// flow is the current from end to end of a branch of value v.
func (s *system[T]) flow(e Ends, v term[T]) T {
	s.ready()
	if e.A == e.B {
		return 0
	}
	return s.mul(v.g, s.across(e)+v.e) + v.j
}

// across is the voltage from e.B to e.A.
func (s *system[T]) across(e Ends) T {
	s.ready()
	a, b := s.plan.at[e.A], s.plan.at[e.B]
	if s.clean {
		return s.base[a] - s.base[b]
	}
	va, vb := &s.volts[a], &s.volts[b]
	if va.at != s.epoch {
		s.descend(a)
	}
	if vb.at != s.epoch {
		s.descend(b)
	}
	return va.x - vb.x
}
