package circuit

import (
	"math"
	"math/cmplx"
	"testing"
)

// insulation small enough not to be seen in the worked circuits.
const insulation = 1e-15

func network(t *testing.T, nodes int, ends []Ends, values []Value) *DC {
	t.Helper()
	leak := make([]float64, nodes)
	for n := range leak {
		leak[n] = insulation
	}
	s := NewPlan(nodes, ends).DC(leak, values)
	solve(t, s)
	return s
}

// Source: Wheatstone bridge, in any textbook of electrical measurement (from
// memory). By hand: 10 V, arms 100 and 200 ohm, 300 and 500 ohm.
func TestWheatstone(t *testing.T) {
	s := network(t, 4, []Ends{{0, 1}, {1, 2}, {2, 0}, {1, 3}, {3, 0}},
		[]Value{{G: 1e9, E: 10}, {G: 1. / 100}, {G: 1. / 200}, {G: 1. / 300}, {G: 1. / 500}})
	open, z := 10.*200/300-10.*500/800, 100.*200/300+300.*500/800
	near(t, "open bridge, V", s.V(2)-s.V(3), open)
	near(t, "resistance seen by the detector, ohm", s.Z(2, 3), z)
	s.Checkpoint()
	l := s.Link(2, 3, Value{G: 1. / 1000})
	solve(t, s)
	near(t, "detector of 1 kilohm, A", s.LinkI(l), open/(z+1000))
	s.Revert()
	near(t, "open again, V", s.V(2)-s.V(3), open)
	s.Set(4, Value{G: 1. / 600})
	solve(t, s)
	near(t, "balanced, V", s.V(2)-s.V(3), 0)
}

// Source: the ladder of equal 1 ohm resistors and Fibonacci's numbers, a
// classic exercise (from memory): n sections open at the end have
// F(2n+1)/F(2n) ohm, and the last voltage is U/F(2n+1).
func TestLadder(t *testing.T) {
	const n = 12
	ends, values := []Ends{{0, 1}}, []Value{{G: 1e9, E: 1}}
	for k := Node(1); k <= n; k++ {
		ends, values = append(ends, Ends{k, k + 1}, Ends{k + 1, 0}), append(values, Value{G: 1}, Value{G: 1})
	}
	s := network(t, n+2, ends, values)
	f, g := 1., 1. // F(1), F(2)
	for range 2*n - 1 {
		f, g = g, f+g
	}
	near(t, "last voltage times F(2n+1)", s.V(n+1)*g, 1)
	near(t, "input resistance", 1/s.I(1), g/f)
}

// Source: superposition theorem (from memory): the voltages of two sources add.
func TestSuperposition(t *testing.T) {
	ends := []Ends{{0, 1}, {0, 2}, {1, 3}, {2, 3}, {3, 0}}
	at := func(e1, e2, j float64) float64 {
		return network(t, 4, ends, []Value{{G: 2, E: e1}, {G: 3, E: e2}, {G: 0.5}, {G: 0.25, J: j}, {G: 0.125}}).V(3)
	}
	near(t, "sum of three sources", at(12, 0, 0)+at(0, -5, 0)+at(0, 0, 2), at(12, -5, 2))
}

// Source: Millman's theorem (from memory): (12/2 + 9/3)/(1/2 + 1/3 + 1/6) = 9 V.
func TestMillman(t *testing.T) {
	s := network(t, 2, []Ends{{0, 1}, {0, 1}, {1, 0}}, []Value{{G: 1. / 2, E: 12}, {G: 1. / 3, E: 9}, {G: 1. / 6}})
	near(t, "common node, V", s.V(1), 9)
	near(t, "first battery, A", s.I(0), 1.5)
	near(t, "second battery, A", s.I(1), 0)
	near(t, "load, A", s.I(2), 1.5)
}

// Source: star-delta transformation, Kennelly 1899 (from memory): three 30 ohm
// in delta show 20 ohm between any two corners, as three 10 ohm in star do.
func TestDelta(t *testing.T) {
	s := network(t, 4, []Ends{{1, 2}, {2, 3}, {3, 1}, {1, 1}}, []Value{{G: 1. / 30}, {G: 1. / 30}, {G: 1. / 30}, {G: 1}})
	near(t, "delta, ohm", s.Z(1, 2), 20)
	near(t, "turned, ohm", s.Z(3, 1), 20)
}

// Source: reciprocity theorem (from memory): 1 A into one place raises another
// as much as 1 A there raises the first.
func TestReciprocity(t *testing.T) {
	p := synthetic(400, 6)
	for i := range p.values {
		p.values[i].E = 0
	}
	s := NewPlan(len(p.leak), p.ends).DC(p.leak, p.values)
	solve(t, s)
	s.Checkpoint()
	there := func(a, b Node) float64 {
		s.Link(Earth, a, Value{J: 1e-3})
		solve(t, s)
		v := s.V(b)
		s.Revert()
		return v
	}
	for _, pair := range [][2]Node{{1, 2}, {5, 300}, {77, 200}} {
		near(t, "transfer", there(pair[0], pair[1]), there(pair[1], pair[0]))
	}
}

// Source: by hand, a 230 V source behind 0, a coil of 300 + j400 ohm (0.46 A at
// 53.13° lagging), as in any textbook on AC (from memory).
func TestCoil(t *testing.T) {
	s := NewPlan(2, []Ends{{0, 1}, {1, 0}}).AC([]complex128{0, insulation}, []ACValue{{Y: 1e9, E: 230}, {Y: 1 / (300 + 400i)}})
	solve(t, s)
	near(t, "current, A", cmplx.Abs(s.I(1)), 0.46)
	near(t, "angle, rad", cmplx.Phase(s.I(1)), -math.Atan2(4, 3))
	s.Set(0, ACValue{})
	solve(t, s)
	near(t, "impedance, ohm", cmplx.Abs(s.Z(1, 0)), 500)
}
