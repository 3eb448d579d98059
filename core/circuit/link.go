package circuit

import (
	"fmt"
	"slices"
)

// link is a branch outside the plan. Driven with 1 A from b to a, the network
// takes up the charge q[i] at vertex at[i] when elimination gets there; that is
// all that the link needs to know of the network.
type link[T number] struct {
	ends Ends
	val  term[T]
	i    T // amperes from a to b, after Solve

	at []int32
	q  []T
}

// linkSet is the links of a system and what solving them needs.
//
// With q of links l and m, the voltage that 1 A through m puts across l is
// Z(l,m) = Σ q(l)·q(m)/sum over the vertices, so Z(l,l) is a sum of positives
// for DC and loses no digits. The currents follow from
//
//	i(l) + G(l)·Σ Z(l,m)·i(m) = G(l)·(u(l) + E(l)) + J(l)
//
// with u the voltage across the link while none is there.
type linkSet[T number] struct {
	list, base []link[T]
	stale      bool // q must be found anew
	z          []T  // Z(l,m), row by row
	lu, rhs    []T  // scratch
	probe      link[T]
	side       []T // Z between the probe and each link

	hi, lo     []T     // by vertex: charge on its way up, in two parts; zero between uses
	driven     []int32 // vertices with a drive
	everywhere bool    // refined: every vertex has a drive

	wide     *system[T] // the network with the links as branches, when the small system would lose digits
	spare    *system[T] // the last of them, kept for its plan
	wideEnds []Ends     // the links it was planned for
}

// maxLoss bounds the digits that the link system may lose: how many times
// smaller than its terms a pivot may be, times how many times smaller than its
// parts (or than 1 V, if smaller still) the voltage may be that the links
// together put across one of them. 4500 leaves about 2^-52·4500 = 1e-12 of error
// each; what elimination adds on the way brought it to 4e-10 at the worst that 300
// random panels showed (two wires swapped, 1.8 nV at 4.7 V). It
// is met when links of low resistance bridge pieces of metal that else only
// insulation joins: a few ohms is then the difference of two gigohms, a few
// volts that of a milliampere through each.
const maxLoss = 4500

func (l *linkSet[T]) clone() linkSet[T] {
	c := *l
	c.list, c.base = cloneLinks(nil, l.list), cloneLinks(nil, l.base)
	c.z, c.lu, c.rhs = slices.Clone(l.z), nil, nil
	c.hi, c.lo, c.driven = nil, nil, slices.Clone(l.driven)
	c.wideEnds = slices.Clone(l.wideEnds)
	c.probe, c.side, c.spare = link[T]{}, nil, nil
	if l.wide != nil {
		c.wide = l.wide.clone()
		c.spare = c.wide
	}
	return c
}

// cloneLinks copies from into the store of to, whose lists it reuses.
func cloneLinks[T number](to, from []link[T]) []link[T] {
	for i := range from {
		if len(to) < cap(to) {
			to = to[:len(to)+1]
		} else {
			to = append(to, link[T]{})
		}
		f, t := &from[i], &to[i]
		t.ends, t.val, t.i = f.ends, f.val, f.i
		t.at, t.q = append(t.at[:0], f.at...), append(t.q[:0], f.q...)
	}
	return to
}

func (l *linkSet[T]) checkpoint() { l.base = cloneLinks(l.base[:0], l.list) }

func (l *linkSet[T]) revert() {
	if len(l.list) != 0 || len(l.base) != 0 {
		l.list, l.stale = cloneLinks(l.list[:0], l.base), true
	}
	l.wide = nil
}

func (s *system[T]) addLink(a, b Node, v term[T]) int {
	if n := s.plan.nodes; a < 0 || b < 0 || int(a) >= n || int(b) >= n {
		panic(fmt.Sprintf("circuit: a link joins nodes %d and %d, and there are %d nodes", a, b, n))
	}
	l := &s.links
	if n := len(l.list); n < cap(l.list) {
		l.list = l.list[:n+1]
	} else {
		l.list = append(l.list, link[T]{})
	}
	k := &l.list[len(l.list)-1]
	k.ends, k.val, k.i = Ends{a, b}, v, 0
	l.stale, s.solved = true, false
	return len(l.list) - 1
}

func (s *system[T]) setLink(i int, v term[T]) {
	if s.links.list[i].val != v {
		s.links.list[i].val = v
		s.solved = false
	}
}

func (s *system[T]) linkCurrent(i int) T {
	s.ready()
	return s.links.list[i].i
}

// link finds the link currents and lets them drive the network.
func (s *system[T]) link() error {
	l := &s.links
	s.undrive()
	l.wide = nil
	if s.count[weak] > 0 {
		if len(l.list) > 0 {
			return s.widen()
		}
		s.refine()
		return nil
	}
	if len(l.list) == 0 {
		return nil
	}
	s.unify()
	l.rhs = l.rhs[:0]
	for i := range l.list {
		k := &l.list[i]
		var h T
		if k.ends.A != k.ends.B {
			h = s.mul(k.val.g, s.volt(s.plan.at[k.ends.A])-s.volt(s.plan.at[k.ends.B])+k.val.e) + k.val.j
		}
		l.rhs = append(l.rhs, h)
	}
	if !s.settle() {
		return s.widen()
	}
	for i := range l.list {
		l.list[i].i = l.rhs[i]
	}
	s.drive()
	return nil
}

// unify finds q of every link, and Z.
func (s *system[T]) unify() {
	l := &s.links
	if !l.stale {
		return
	}
	l.stale = false
	for i := range l.list {
		k := &l.list[i]
		k.at, k.q = s.charge(k.ends, k.at[:0], k.q[:0])
	}
	l.z = l.z[:0]
	for i := range l.list {
		for j := range l.list {
			l.z = append(l.z, s.mutual(l.list[i].at, l.list[i].q, l.list[j].at, l.list[j].q))
		}
	}
}

// charge appends the charge that each vertex gets to pass on when 1 A flows in
// at e.A and out at e.B.
func (s *system[T]) charge(e Ends, at []int32, q []T) ([]int32, []T) {
	if e.A == e.B {
		return at, q
	}
	p, l := s.plan, &s.links
	l.grow(p.nodes)
	a, b := p.at[e.A], p.at[e.B]
	l.hi[a], l.hi[b] = 1, -1
	from := [2]int32{a, b}
	for _, t := range s.climb(from[:]) {
		at, q = append(at, t), append(q, s.spread(t))
	}
	l.hi[p.nodes-1], l.lo[p.nodes-1] = 0, 0
	return at, q
}

func (l *linkSet[T]) grow(nodes int) {
	if l.hi == nil {
		l.hi, l.lo = make([]T, nodes), make([]T, nodes)
	}
}

// mutual is Σ q·r/sum over the vertices that both lists hold.
func (s *system[T]) mutual(at []int32, q []T, bt []int32, r []T) T {
	var z T
	for i, j := 0, 0; i < len(at) && j < len(bt); {
		switch t := at[i]; {
		case t < bt[j]:
			i++
		case t > bt[j]:
			j++
		default:
			sum := s.pivot[int(t)+int(s.page[t])*s.plan.nodes].sum
			z += s.mul(s.mul(q[i], r[j]), s.inverse(sum))
			i++
			j++
		}
	}
	return z
}

// settle turns rhs from the currents the links would carry at the voltages
// without them into the currents they carry. It reports false when that loses
// digits.
func (s *system[T]) settle() bool {
	l := &s.links
	n := len(l.list)
	loss := 1.0
	l.lu = l.lu[:0]
	for i := range n {
		for j := range n {
			l.lu = append(l.lu, s.mul(l.list[i].val.g, l.z[i*n+j]))
		}
	}
	for i := range n {
		whole := 1 + s.size(l.lu[i*n+i])
		for j := range i { // eliminate links before i
			f := s.mul(l.lu[i*n+j], s.inverse(l.lu[j*n+j]))
			for k := j + 1; k < n; k++ {
				l.lu[i*n+k] -= s.mul(f, l.lu[j*n+k])
			}
			l.rhs[i] -= s.mul(f, l.rhs[j])
		}
		l.lu[i*n+i] += 1
		loss = max(loss, whole/s.size(l.lu[i*n+i])) // NaN stays NaN
	}
	for i := n - 1; i >= 0; i-- {
		x := l.rhs[i]
		for j := i + 1; j < n; j++ {
			x -= s.mul(l.lu[i*n+j], l.rhs[j])
		}
		l.rhs[i] = s.mul(x, s.inverse(l.lu[i*n+i]))
	}
	for i := range n {
		var drop T
		parts := 0.0
		for j := range n {
			part := s.mul(l.z[i*n+j], l.rhs[j])
			drop += part
			parts += s.size(part)
		}
		if !(loss*parts <= maxLoss*max(1, s.size(drop))) {
			return false
		}
	}
	return loss <= maxLoss
}
