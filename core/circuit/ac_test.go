package circuit

import (
	"math"
	"math/cmplx"
	"math/rand"
	"slices"
	"testing"
)

// mains turns a synthetic DC panel into one at 50 Hz: sources are 230 V, loads
// are coils (R + jωL), and every node has its cable's capacitance to Earth.
func mains(p *panel) ([]complex128, []ACValue) {
	leak, values := alternating(p.leak, p.values)
	const omega = 2 * math.Pi * 50
	for n := range leak {
		leak[n] += complex(0, omega*100e-12*float64(1+n%13))
	}
	for i := range values {
		if values[i].E != 0 {
			values[i].E = complex(230, 0)
		}
	}
	for _, i := range p.loads {
		r := 1 / p.values[i].G
		values[i].Y = 1 / complex(r, 2*r)
	}
	return leak, values
}

func agreeAC(t testing.TB, s *AC, leak []complex128, ends []Ends, values []ACValue) {
	t.Helper()
	for n, want := range reference(leak, ends, values) {
		if got := s.V(Node(n)); !(cmplx.Abs(got-want) <= 1e-9*max(1, cmplx.Abs(want))) {
			t.Fatalf("node %d: got %.15g V, reference %.15g V", n, got, want)
		}
	}
}

// Every voltage against the 256-bit reference, as built, after changes, and
// with links.
func TestACAgainstReference(t *testing.T) {
	for seed := range int64(4) {
		p := synthetic(70, seed)
		leak, values := mains(p)
		s := NewPlan(len(p.leak), p.ends).AC(leak, values)
		solve(t, s)
		agreeAC(t, s, leak, p.ends, values)
		r := rand.New(rand.NewSource(seed))
		for range 4 {
			i := r.Intn(len(p.ends))
			values[i] = ACValue{Y: complex(r.Float64(), r.Float64()-0.5), E: complex(r.Float64(), 7), J: complex(0, 0.01)}
			s.Set(i, values[i])
		}
		ends := slices.Clone(p.ends)
		for _, v := range []ACValue{{Y: 1e-7 + 30e-9i}, {Y: 20, E: 3i}, {Y: 900}} {
			e := Ends{Node(r.Intn(len(p.leak))), Node(r.Intn(len(p.leak)))}
			ends, values = append(ends, e), append(values, v)
			s.Link(e.A, e.B, v)
		}
		solve(t, s)
		agreeAC(t, s, leak, ends, values)
	}
}

// Series resonance in theory, from memory of any textbook on AC circuits: at
// ωL = 1/(ωC) the current is U/R and the voltage over L or C is Q·U, Q = ωL/R.
func TestResonance(t *testing.T) {
	const r, x = 10., 314.159265
	leak := []complex128{0, 1e-15, 1e-15, 1e-15}
	s := NewPlan(4, []Ends{{0, 1}, {1, 2}, {2, 3}, {3, 0}}).AC(leak, []ACValue{{Y: 1e6, E: 230}, {Y: 1 / r}, {Y: 1 / (1i * x)}, {Y: 1i / x}})
	solve(t, s)
	near(t, "current", real(s.I(1))/23, 1/(1+1e-6/r))
	if got, want := cmplx.Abs(s.V(3)), 230*x/r; !(math.Abs(got-want) <= 1e-6*want) {
		t.Errorf("capacitor: got %v V, want %v V", got, want)
	}
	if got := s.Z(2, 0); !(cmplx.Abs(got) <= 1e-6) {
		t.Errorf("L and C in series at resonance: got %v ohm, want 0", got)
	}
}

// Networks of coils and capacitors alone, of quality 1e6 and hanging on 1 TΩ a
// node, where admittances cancel at every turn: elimination reports it, refines,
// and still agrees with the reference. So do links and Revert.
func TestCancellingAdmittances(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	refined, cancelled := 0, 0
	for range 400 {
		leak := []complex128{0, 1e-12, 1e-12, 1e-12, 1e-12, 1e-12}
		var ends []Ends
		var values []ACValue
		for a := range Node(6) {
			for b := a + 1; b < 6; b++ {
				if r.Intn(3) == 0 {
					continue
				}
				x := float64(r.Intn(3)-1) * []float64{1, 0.1, 1, 0.3}[r.Intn(4)]
				v := ACValue{Y: complex(1e-12+1e-6*math.Abs(x), x)}
				if r.Intn(3) == 0 {
					v.E = complex(float64(r.Intn(10)), 0)
				}
				ends, values = append(ends, Ends{a, b}), append(values, v)
			}
		}
		check := func(s *AC, ends []Ends, values []ACValue) {
			t.Helper()
			want, top := reference(leak, ends, values), 1.0
			for _, v := range want {
				top = max(top, cmplx.Abs(v))
			}
			for n, v := range want {
				if got := s.V(Node(n)); !(cmplx.Abs(got-v) <= 1e-9*top) {
					t.Fatalf("node %d: got %v V, reference %v V (%v %v)", n, got, v, ends, values)
				}
			}
		}
		s := NewPlan(6, ends).AC(leak, values)
		solve(t, s)
		check(s, ends, values)
		if s.s.count[weak] > 0 {
			cancelled++
		}
		if s.s.drive != nil {
			refined++
		}
		s.Checkpoint()
		before := s.V(3)
		meter := ACValue{Y: 1e-4}
		l := s.Link(1, 3, meter)
		solve(t, s)
		check(s, append(slices.Clone(ends), Ends{1, 3}), append(slices.Clone(values), meter))
		if got, want := s.LinkI(l), 1e-4*(s.V(1)-s.V(3)); !(cmplx.Abs(got-want) <= 1e-9*max(1, cmplx.Abs(s.V(1)))) {
			t.Errorf("meter current %v A, want %v A", got, want)
		}
		s.Revert()
		if s.V(3) != before {
			t.Errorf("after Revert %v V, want %v V", s.V(3), before)
		}
	}
	if cancelled == 0 || refined == 0 {
		t.Errorf("%d networks cancelled, %d were refined: the test shows nothing", cancelled, refined)
	}
}

// History leaves no trace, and Moved names what a comparison names, with coils
// and cables.
func TestACHistoryAndMoved(t *testing.T) {
	p := synthetic(500, 4)
	leak, values := mains(p)
	plan := NewPlan(len(p.leak), p.ends)
	s := plan.AC(leak, values)
	solve(t, s)
	s.Checkpoint()
	before := make([]complex128, len(leak))
	for n := range before {
		before[n] = s.V(Node(n))
	}
	r := rand.New(rand.NewSource(4))
	for range 30 {
		now := slices.Clone(values)
		for range 2 {
			i := r.Intn(len(now))
			now[i] = ACValue{Y: complex(0, -0.01*r.Float64())}
			s.Set(i, now[i])
		}
		solve(t, s)
		fresh := plan.AC(leak, now)
		solve(t, fresh)
		for _, bound := range []float64{5, 1e-3} {
			var want []Node
			got := slices.Sorted(slices.Values(s.Moved(nil, bound)))
			for n := range before {
				if s.V(Node(n)) != fresh.V(Node(n)) {
					t.Fatalf("node %d: %v V, a fresh network gives %v V", n, s.V(Node(n)), fresh.V(Node(n)))
				}
				if cmplx.Abs(s.V(Node(n))-before[n]) > bound {
					want = append(want, Node(n))
				}
			}
			if !slices.Equal(got, want) {
				t.Fatalf("bound %g: Moved named %v, comparison %v", bound, got, want)
			}
		}
		s.Revert()
		for n := range before {
			if s.V(Node(n)) != before[n] {
				t.Fatalf("node %d not restored", n)
			}
		}
	}
}

func TestACSingular(t *testing.T) {
	s := NewPlan(2, []Ends{{1, 0}}).AC([]complex128{0, 1}, []ACValue{{Y: -1}})
	if err, ok := s.Solve().(*SingularError); !ok || err.Node != 1 {
		t.Errorf("admittances that cancel exactly: got %v, want a *SingularError about node 1", err)
	}
	s.Set(0, ACValue{Y: complex(0, math.NaN())})
	if _, ok := s.Solve().(*SingularError); !ok {
		t.Error("NaN: no *SingularError")
	}
}
