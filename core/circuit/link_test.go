package circuit

import (
	"math"
	"math/rand"
	"slices"
	"testing"
)

// alike fails unless a network with links agrees with one that has the same
// branches in its plan: every voltage, and the links' own currents.
func alike(t testing.TB, s *DC, p *panel, values []Value, ends []Ends, links []Value) {
	t.Helper()
	all := append(slices.Clone(p.ends), ends...)
	in := NewPlan(len(p.leak), all).DC(p.leak, append(slices.Clone(values), links...))
	solve(t, in)
	for n := range Node(len(p.leak)) {
		if got, want := s.V(n), in.V(n); !(math.Abs(got-want) <= 1e-9*max(1, math.Abs(want))) {
			t.Fatalf("node %d: %.15g V with links %v %v, %.15g V with branches", n, got, ends, links, want)
		}
	}
	for i := range links {
		// What is read off 24 V across G is uncertain by its rounding.
		tol := 1e-9*max(1, math.Abs(in.I(len(p.ends)+i))) + 1e-12*links[i].G
		if got, want := s.LinkI(i), in.I(len(p.ends)+i); !(math.Abs(got-want) <= tol) {
			t.Fatalf("link %d: %.15g A, as a branch %.15g A", i, got, want)
		}
	}
}

// held is a network that is solved and has a checkpoint.
func held(t testing.TB, seed int64) (*panel, *DC) {
	t.Helper()
	p := synthetic(900, seed)
	s := NewPlan(len(p.leak), p.ends).DC(p.leak, p.values)
	solve(t, s)
	s.Checkpoint()
	return p, s
}

// Links equal branches of the plan: meters, shorts, sources, several at once,
// on top of opens, changed by SetLink, and gone after Revert.
func TestLinksEqualBranches(t *testing.T) {
	for seed := range int64(4) {
		p, s := held(t, seed)
		base := voltages(s)
		r := rand.New(rand.NewSource(seed))
		for range 25 {
			values := slices.Clone(p.values)
			for range r.Intn(3) {
				i := r.Intn(len(values))
				values[i] = Value{}
				s.Set(i, Value{})
			}
			var ends []Ends
			var links []Value
			for range 1 + r.Intn(4) {
				e := Ends{Node(r.Intn(len(p.leak))), Node(r.Intn(len(p.leak)))}
				v := Value{G: math.Pow(10, -7+10*r.Float64())}
				if r.Intn(3) == 0 {
					v.E = 9
				}
				ends, links = append(ends, e), append(links, v)
				if got := s.Link(e.A, e.B, v); got != len(links)-1 {
					t.Fatalf("link index %d, want %d", got, len(links)-1)
				}
			}
			solve(t, s)
			alike(t, s, p, values, ends, links)
			links[0].G *= 3
			s.SetLink(0, links[0])
			solve(t, s)
			alike(t, s, p, values, ends, links)
			s.Revert()
			if !slices.Equal(voltages(s), base) {
				t.Fatal("Revert did not restore the voltages")
			}
		}
	}
}

// Links made before the first Solve, and changed without a checkpoint.
func TestLinksFromTheStart(t *testing.T) {
	for seed := range int64(40) {
		p := synthetic(60, seed)
		s := NewPlan(len(p.leak), p.ends).DC(p.leak, p.values)
		r := rand.New(rand.NewSource(seed))
		var ends []Ends
		var links []Value
		for range 5 {
			e := Ends{Node(r.Intn(len(p.leak))), Node(r.Intn(len(p.leak)))}
			ends, links = append(ends, e), append(links, Value{G: 10, E: 3})
			s.Link(e.A, e.B, links[len(links)-1])
			solve(t, s)
			alike(t, s, p, p.values, ends, links)
			links[0].G++
			s.SetLink(0, links[0])
			solve(t, s)
			alike(t, s, p, p.values, ends, links)
		}
	}
}

// A lamp moved to another supply by both its leads: two links of 2000 S bridge
// islands that else share only insulation, so what lies between them, 100 ohm,
// is the difference of two gigohms.
//
// Source: by hand, 24 V over 100 ohm and three joints of 0.5 to 10 milliohm.
func TestTwoLinksBridgeIslands(t *testing.T) {
	// 1, 2: poles of a floating supply; 3, 4: a lamp that hangs on nothing.
	plan := NewPlan(5, []Ends{{2, 1}, {3, 4}})
	leak := []float64{0, 1e-9, 1e-9, 1e-9, 1e-9}
	s := plan.DC(leak, []Value{{G: 100, E: 24}, {G: 0.01}})
	solve(t, s)
	s.Checkpoint()
	plus := s.Link(1, 3, Value{G: 2000})
	minus := s.Link(4, 2, Value{G: 2000})
	solve(t, s)
	want := 24 / (100 + 0.01 + 2*0.0005)
	// The leaks take 24 V·1 nS or so beside it.
	if got := s.LinkI(plus); !(math.Abs(got-want) <= 1e-7) {
		t.Errorf("plus lead: got %v A, want %v A", got, want)
	}
	near(t, "minus lead", s.LinkI(minus), s.LinkI(plus))
	ends, links := []Ends{{1, 3}, {4, 2}}, []Value{{G: 2000}, {G: 2000}}
	alike(t, s, &panel{ends: plan.ends, leak: leak}, []Value{{G: 100, E: 24}, {G: 0.01}}, ends, links)
	near(t, "loop seen at the lamp", s.Z(3, 4), 1/(0.01+1/(0.01+2*0.0005)))
	moved := 0
	moved += len(s.Moved(nil, 1))
	if moved != 2 {
		t.Errorf("%d nodes moved by more than 1 V, want the lamp's 2", moved)
	}
	s.Checkpoint() // the bridged state is the base now
	v, i := s.V(3), s.LinkI(plus)
	s.SetLink(plus, Value{})
	solve(t, s)
	if !(math.Abs(s.LinkI(minus)) < 1e-6) {
		t.Errorf("plus lead off: %v A still flow", s.LinkI(minus))
	}
	s.Revert()
	if s.V(3) != v || s.LinkI(plus) != i {
		t.Error("Revert did not return to the base with its links")
	}
	near(t, "loop seen again", s.Z(3, 4), 1/(0.01+1/(0.01+2*0.0005)))
}

// Z is the voltage that 1 A more makes: two solves, with and without a current
// link, whatever links are there already.
func TestZEqualsTwoSolves(t *testing.T) {
	p := synthetic(900, 11)
	s := NewPlan(len(p.leak), p.ends).DC(p.leak, p.values)
	solve(t, s)
	s.Checkpoint()
	r := rand.New(rand.NewSource(11))
	for range 60 {
		s.Set(r.Intn(len(p.ends)), Value{})
		for range r.Intn(3) {
			s.Link(Node(r.Intn(len(p.leak))), Node(r.Intn(len(p.leak))), Value{G: 1000, E: 5})
		}
		a, b := Node(r.Intn(len(p.leak))), Node(r.Intn(len(p.leak)))
		probe := s.Link(b, a, Value{})
		solve(t, s)
		z, u := s.Z(a, b), s.V(a)-s.V(b)
		s.SetLink(probe, Value{J: 1})
		solve(t, s)
		// Two solves leave the rounding of the larger voltage.
		tol := 1e-9*math.Abs(z) + 1e-13*max(24, math.Abs(s.V(a)), math.Abs(s.V(b)))
		if got := s.V(a) - s.V(b) - u; !(math.Abs(got-z) <= tol) {
			t.Errorf("Z(%d,%d) = %.15g ohm, two solves %.15g ohm", a, b, z, got)
		}
		if back := s.Z(b, a); back != s.Z(a, b) {
			t.Errorf("Z(%d,%d) is not Z(%d,%d)", a, b, b, a)
		}
		s.Revert()
	}
}

func TestLinkFromANodeToItself(t *testing.T) {
	s := NewPlan(2, []Ends{{0, 1}, {1, 1}}).DC([]float64{0, 1e-9}, []Value{{G: 1, E: 5}, {G: 3, E: 7}})
	solve(t, s)
	v := s.V(1)
	l := s.Link(1, 1, Value{G: 4, E: 2, J: 1})
	solve(t, s)
	if s.V(1) != v || s.LinkI(l) != 0 || s.I(1) != 0 || s.Z(1, 1) != 0 {
		t.Errorf("V %v, link %v A, branch %v A, Z %v: a loop at one node must do nothing", s.V(1), s.LinkI(l), s.I(1), s.Z(1, 1))
	}
}

// A short of 100 A inside a floating supply while 1 kilohm ties its minus pole to
// Earth: what 1 A of the one puts across the other is nothing, but a charge of
// 1e-16 A lost on the way would be a nanovolt for each ampere. Found by fuzzing.
//
// Source: by hand, no current can leave through the tie but the leaks' own.
func TestHeavyLinkOnFloatingMetal(t *testing.T) {
	ends, values := []Ends{{2, 1}}, []Value{{G: 30, E: 24}}
	leak := []float64{0, 1e-9, 1e-9}
	for n := Node(3); n <= 40; n++ {
		ends, values, leak = append(ends, Ends{n - 2, n}), append(values, Value{G: 1000 + float64(n*n)/7}), append(leak, 1e-9)
	}
	s := NewPlan(len(leak), ends).DC(leak, values)
	solve(t, s)
	s.Checkpoint()
	links := []Value{{G: 1e-3}, {G: 5000}}
	at := []Ends{{2, 0}, {39, 40}}
	for i := range links {
		s.Link(at[i].A, at[i].B, links[i])
	}
	solve(t, s)
	if i := s.LinkI(1); !(i > 100) {
		t.Errorf("the short carries %v A, want more than 100 A", i)
	}
	all, now := append(slices.Clone(ends), at...), append(slices.Clone(values), links...)
	agree(t, s, leak, all, now)
}
