package circuit

import (
	"math"
	"math/rand"
	"testing"
)

// Without a checkpoint, Look tells the same nodes as a full comparison, step after
// step, and leaves every voltage as it was, bit for bit.
func TestLookWithoutCheckpoint(t *testing.T) {
	rng := rand.New(rand.NewSource(3))
	p := synthetic(600, 9)
	plan, leak, values := NewPlan(len(p.leak), p.ends), p.leak, p.values
	s := plan.DC(leak, values)
	if err := s.Solve(); err != nil {
		t.Fatal(err)
	}
	s.Look(nil, 0)
	nodes := len(leak)
	last := make([]float64, nodes)
	for n := range last {
		last[n] = s.V(Node(n))
	}
	const bound = 1e-9
	told := 0
	for step := range 200 {
		k := rng.Intn(len(values))
		v := values[k]
		if step%2 == 0 {
			v = Value{}
		}
		s.Set(k, v)
		if err := s.Solve(); err != nil {
			t.Fatal(err)
		}
		moved := map[Node]bool{}
		for _, n := range s.Look(nil, bound) {
			moved[n] = true
		}
		for n := range last {
			now := s.V(Node(n))
			d := math.Abs(now - last[n])
			if d > 2*bound && !moved[Node(n)] {
				t.Fatalf("step %d: node %d moved by %g and was not told", step, n, d)
			}
			if moved[Node(n)] {
				told++
				last[n] = now
			}
		}
		fresh := plan.DC(leak, current(s, len(values)))
		if err := fresh.Solve(); err != nil {
			t.Fatal(err)
		}
		for n := range last {
			if fresh.V(Node(n)) != s.V(Node(n)) {
				t.Fatalf("step %d: node %d is at %v, a fresh network has %v", step, n, s.V(Node(n)), fresh.V(Node(n)))
			}
		}
	}
	if told == 0 {
		t.Error("nothing ever moved")
	}
}

func current(s *DC, branches int) []Value {
	list := make([]Value, branches)
	for k := range list {
		list[k] = s.Value(k)
	}
	return list
}

// With a Watch, Look and Moved tell the same of the watched nodes as without, links
// between trees included.
func TestWatch(t *testing.T) {
	rng := rand.New(rand.NewSource(5))
	p := synthetic(600, 4)
	plan := NewPlan(len(p.leak), p.ends)
	all, few := plan.DC(p.leak, p.values), plan.DC(p.leak, p.values)
	both := []*DC{all, few}
	watched := map[Node]bool{}
	var list []Node
	for range 40 {
		n := Node(rng.Intn(len(p.leak)))
		watched[n], list = true, append(list, n)
	}
	w := plan.Watch(list)
	for _, s := range both {
		solve(t, s)
		s.Checkpoint()
	}
	told, spared := 0, 0
	for step := range 300 {
		k, v := rng.Intn(len(p.values)), Value{G: 0.01 * float64(step%3)}
		a, b := Node(rng.Intn(len(p.leak))), Node(rng.Intn(len(p.leak)))
		for _, s := range both {
			if step%10 == 0 {
				s.Revert()
			}
			if step%10 == 5 {
				s.Link(a, b, Value{G: 100})
			}
			s.Set(k, v)
			solve(t, s)
		}
		for _, tell := range []func(s *DC, w *Watch, bound float64) []Node{(*DC).Look, (*DC).Moved} {
			want, got, total := map[Node]bool{}, map[Node]bool{}, 0
			for _, n := range tell(all, nil, 1e-6) {
				want[n] = true
			}
			for _, n := range tell(few, w, 1e-6) {
				got[n] = true
				total++
			}
			for n := range watched {
				if want[n] != got[n] {
					t.Fatalf("step %d: node %d told %v with a Watch, %v without", step, n, got[n], want[n])
				}
				if got[n] {
					told++
				}
			}
			spared += len(want) - total
		}
	}
	if told == 0 || spared == 0 {
		t.Errorf("%d told, %d spared: the test shows nothing", told, spared)
	}
}
