package circuit

import (
	"math"
	"math/rand"
	"slices"
	"testing"
)

// Every voltage of random panel-like networks against the 256-bit reference,
// as built and after random opens, bad joints and changed sources.
func TestAgainstReference(t *testing.T) {
	for seed := range int64(6) {
		p := synthetic(110, seed)
		s := NewPlan(len(p.leak), p.ends).DC(p.leak, p.values)
		solve(t, s)
		agree(t, s, p.leak, p.ends, p.values)
		r := rand.New(rand.NewSource(seed))
		for range 6 {
			i := r.Intn(len(p.ends))
			p.values[i] = randomValue(r, p.values[i])
			s.Set(i, p.values[i])
		}
		solve(t, s)
		agree(t, s, p.leak, p.ends, p.values)
	}
}

// randomValue is an open, a bad joint, a weld, a changed source or a leak.
func randomValue(r *rand.Rand, v Value) Value {
	switch r.Intn(5) {
	case 0:
		return Value{}
	case 1:
		return Value{G: math.Pow(10, -9+12*r.Float64()), E: v.E}
	case 2:
		return Value{G: 5000}
	case 3:
		return Value{G: v.G, E: 48 * r.Float64(), J: v.J}
	default:
		return Value{G: v.G, E: v.E, J: 0.02 * r.Float64()}
	}
}

// A floating 24 V supply of 20,000 nodes: half of them hang on each pole through
// milliohms, so by symmetry its poles stand at about +12 V and −12 V to Earth.
// Source: by hand. The leaks load the supply with two arms of 10,000·1 nS in
// series, 5 µS behind 1000 S, so each pole has 12 V/(1 + 5e-9).
func TestFloatingSupplyKeepsItsCommonMode(t *testing.T) {
	const n = 20000
	ends := []Ends{{2, 1}}
	values := []Value{{G: 1000, E: 24}}
	leak := []float64{0, 1e-9, 1e-9}
	for i := Node(3); i <= n; i++ {
		from := i - 2
		if i%7 == 0 {
			from = 2 - i%2 // some straight on the pole
		}
		ends, values, leak = append(ends, Ends{from, i}), append(values, Value{G: 5000}), append(leak, 1e-9)
	}
	s := NewPlan(n+1, ends).DC(leak, values)
	solve(t, s)
	near(t, "plus pole", s.V(1), 12/(1+5e-9))
	near(t, "minus pole", s.V(2), -12/(1+5e-9))
	near(t, "last plus block", s.V(n-1), 12/(1+5e-9))
}

// Kirchhoff's current law at every node, by what is read: branch currents and
// leak sum to zero within the rounding of 24 V across the node's conductances.
func TestCurrentLaw(t *testing.T) {
	p := synthetic(3000, 3)
	s := NewPlan(len(p.leak), p.ends).DC(p.leak, p.values)
	solve(t, s)
	sum, scale := make([]float64, len(p.leak)), make([]float64, len(p.leak))
	for n := range sum {
		sum[n] = p.leak[n] * s.V(Node(n))
	}
	for i, e := range p.ends {
		c := s.I(i)
		sum[e.A] += c
		sum[e.B] -= c
		scale[e.A] += p.values[i].G * 24
		scale[e.B] += p.values[i].G * 24
	}
	for n := 1; n < len(sum); n++ {
		if !(math.Abs(sum[n]) <= 1e-14*scale[n]) {
			t.Errorf("node %d: %g A left over of %g S·24 V", n, sum[n], scale[n]/24)
		}
	}
}

// voltages are the bits of every voltage.
func voltages(s *DC) []uint64 {
	out := make([]uint64, s.s.plan.nodes)
	for n := range out {
		out[n] = math.Float64bits(s.V(Node(n)))
	}
	return out
}

// However the values came about, the voltages are those of a fresh network, bit
// for bit; and Revert restores every bit of voltage, value and impedance.
func TestHistoryLeavesNoTrace(t *testing.T) {
	p := synthetic(700, 5)
	plan := NewPlan(len(p.leak), p.ends)
	s := plan.DC(p.leak, p.values)
	solve(t, s)
	r := rand.New(rand.NewSource(5))
	now := slices.Clone(p.values)
	for round := range 8 {
		s.Checkpoint()
		base, z := voltages(s), s.Z(3, 300)
		kept := slices.Clone(now)
		for range 6 {
			for range 1 + r.Intn(12) {
				i := r.Intn(len(now))
				now[i] = randomValue(r, now[i])
				s.Set(i, now[i])
			}
			solve(t, s)
			fresh := plan.DC(p.leak, now)
			solve(t, fresh)
			if !slices.Equal(voltages(s), voltages(fresh)) {
				t.Fatalf("round %d: a fresh network gives other voltages", round)
			}
		}
		if round%3 == 2 {
			continue // let the base move on
		}
		if r.Intn(2) == 0 {
			s.Set(0, Value{G: 7}) // unsolved when reverted
		}
		s.Revert()
		now = kept
		if !slices.Equal(voltages(s), base) || s.Z(3, 300) != z {
			t.Fatalf("round %d: Revert did not restore the state", round)
		}
		for i, v := range now {
			if s.Value(i) != v {
				t.Fatalf("round %d: branch %d is %v after Revert, want %v", round, i, s.Value(i), v)
			}
		}
	}
}

// Moved names exactly the nodes that a comparison of all voltages names.
func TestMovedMatchesComparison(t *testing.T) {
	p := synthetic(1500, 8)
	s := NewPlan(len(p.leak), p.ends).DC(p.leak, p.values)
	solve(t, s)
	s.Checkpoint()
	before := make([]float64, len(p.leak))
	for n := range before {
		before[n] = s.V(Node(n))
	}
	r := rand.New(rand.NewSource(8))
	some := false
	for range 60 {
		for range 1 + r.Intn(2) {
			s.Set(r.Intn(len(p.ends)), Value{})
		}
		if r.Intn(2) == 0 {
			s.Link(Node(r.Intn(len(p.leak))), Node(r.Intn(len(p.leak))), Value{G: 100})
		}
		solve(t, s)
		for _, bound := range []float64{1, 1e-3, 1e-7} {
			var want []Node
			got := slices.Sorted(slices.Values(s.Moved(nil, bound)))
			for n := range before {
				if math.Abs(s.V(Node(n))-before[n]) > bound {
					want = append(want, Node(n))
				}
			}
			if !slices.Equal(got, want) {
				t.Fatalf("bound %g: Moved named %d nodes, comparison %d", bound, len(got), len(want))
			}
			some = some || len(want) > 0
		}
		s.Revert()
		if moved := s.Moved(nil, 0); len(moved) > 0 {
			t.Fatalf("nodes %v moved after Revert", moved)
		}
	}
	if !some {
		t.Error("no change moved anything: the test shows nothing")
	}
}

func TestSingular(t *testing.T) {
	plan := NewPlan(3, []Ends{{1, 2}, {2, 0}})
	leak := []float64{0, 1e-12, 1e-12}
	for _, tc := range []struct {
		name string
		v    Value
	}{
		{"G NaN", Value{G: math.NaN()}},
		{"G infinite", Value{G: math.Inf(1)}},
		{"G negative", Value{G: -1}},
		{"E NaN", Value{G: 1, E: math.NaN()}},
		{"J infinite", Value{J: math.Inf(-1)}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			s := plan.DC(leak, []Value{{G: 1}, {G: 1, E: 5}})
			solve(t, s)
			s.Checkpoint()
			v := s.V(1)
			s.Set(0, tc.v)
			err, ok := s.Solve().(*SingularError)
			if !ok || err.Node < 1 || err.Node > 2 {
				t.Fatalf("got %v, want a *SingularError about node 1 or 2", err)
			}
			if s.Solve() == nil {
				t.Error("a second Solve forgot the error")
			}
			s.Revert()
			if got := s.V(1); got != v {
				t.Errorf("after Revert: %v V, want %v V", got, v)
			}
			s.Set(0, Value{G: 2})
			solve(t, s)
			near(t, "mended", s.V(1), -5) // no current: node 1 follows node 2, and Earth + 5 V drives towards Earth
		})
	}
}
