package circuit

import (
	"reflect"
	"testing"
)

// height is the most vertices on any way to the root.
func height(p *Plan) int {
	h := make([]int, p.nodes)
	top := 0
	for t := p.nodes - 2; t >= 0; t-- {
		h[t] = 1
		if up := p.vertex[t].parent; int(up) != p.nodes-1 {
			h[t] += h[up]
		}
		top = max(top, h[t])
	}
	return top
}

// The cost of a change is the way to the root, so shapes that panels are full
// of must not make it long: a chain (jumpers), a comb (jumpers with dead-ended
// conductors), a star (a bar), a large panel. The bounds are this ordering's own.
func TestTreeIsShallow(t *testing.T) {
	const n = 4096
	var chain, comb, star []Ends
	for i := Node(2); i <= n; i++ {
		chain = append(chain, Ends{i - 1, i})
		star = append(star, Ends{1, i})
		if i%2 == 1 {
			comb = append(comb, Ends{i - 2, i}, Ends{i, i - 1})
		}
	}
	big := synthetic(15000, 1)
	for _, tc := range []struct {
		name  string
		nodes int
		ends  []Ends
		limit int
	}{
		{"chain", n + 1, chain, 26},
		{"comb", n + 1, comb, 28},
		{"star", n + 1, star, 3},
		{"panel", len(big.leak), big.ends, 100},
	} {
		if got := height(NewPlan(tc.nodes, tc.ends)); got > tc.limit {
			t.Errorf("%s of %d nodes: the tree is %d high, want at most %d", tc.name, tc.nodes, got, tc.limit)
		}
	}
}

func TestPlanIsDeterministic(t *testing.T) {
	p := synthetic(2000, 9)
	if !reflect.DeepEqual(NewPlan(len(p.leak), p.ends), NewPlan(len(p.leak), p.ends)) {
		t.Error("two plans of the same network differ")
	}
}

// Every member but the first must be a member of the parent too, and every
// branch must find its far end among the members of its lower vertex.
func TestPlanIsATree(t *testing.T) {
	p := synthetic(2000, 9)
	plan := NewPlan(len(p.leak), p.ends)
	earth := int32(plan.nodes - 1)
	for v := range earth {
		mem := plan.members(v)
		if mem[0] != plan.vertex[v].parent || mem[0] <= v || mem[len(mem)-1] != earth {
			t.Fatalf("vertex %d: members %v, parent %d", v, mem, plan.vertex[v].parent)
		}
		for i := range mem[1:] {
			at := plan.vertex[v].mem + 1 + int32(i)
			if plan.members(plan.vertex[v].parent)[plan.slot[at]] != plan.mem[at] {
				t.Fatalf("vertex %d: member %d is misplaced in the parent", v, plan.mem[at])
			}
		}
	}
	for v := range earth {
		for _, o := range plan.own[plan.vertex[v].own:plan.vertex[v].ownEnd] {
			e := plan.ends[o.branch]
			far := plan.members(v)[o.slot]
			a, b := v, far
			if o.flip {
				a, b = far, v
			}
			if plan.at[e.A] != a || plan.at[e.B] != b {
				t.Fatalf("branch %d joins vertices %d and %d, stored as %d and %d", o.branch, plan.at[e.A], plan.at[e.B], a, b)
			}
		}
	}
}

func TestBadCallsPanic(t *testing.T) {
	plan := NewPlan(2, []Ends{{0, 1}})
	fresh := func() *DC { return plan.DC([]float64{0, 1}, []Value{{G: 1}}) }
	for _, tc := range []struct {
		name string
		call func()
	}{
		{"no nodes", func() { NewPlan(0, nil) }},
		{"branch beyond the nodes", func() { NewPlan(2, []Ends{{0, 2}}) }},
		{"branch below the nodes", func() { NewPlan(2, []Ends{{-1, 1}}) }},
		{"too few leaks", func() { plan.DC([]float64{0}, []Value{{}}) }},
		{"too few values", func() { plan.DC([]float64{0, 1}, nil) }},
		{"link beyond the nodes", func() { fresh().Link(0, 2, Value{}) }},
		{"read before Solve", func() { fresh().V(1) }},
		{"Revert without Checkpoint", func() { fresh().Revert() }},
		{"Moved without Checkpoint", func() { s := fresh(); s.Solve(); s.Moved(nil, 0) }},
	} {
		t.Run(tc.name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("no panic")
				}
			}()
			tc.call()
		})
	}
}

func TestEarthAlone(t *testing.T) {
	s := NewPlan(1, nil).DC([]float64{0}, nil)
	solve(t, s)
	if s.V(Earth) != 0 {
		t.Errorf("Earth is at %v V", s.V(Earth))
	}
}
