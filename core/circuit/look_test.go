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
	s.Look(0, func(Node) {})
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
		s.Look(bound, func(n Node) { moved[n] = true })
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
