package circuit

import (
	"math/rand"
	"slices"
	"testing"
)

// A meter that comes and goes, on a network with opens and a short: with it the
// voltages are those of branches, without it those of before, bit for bit, and the
// place it took is used again.
func TestUnlinkLeavesNoTrace(t *testing.T) {
	for seed := range int64(4) {
		p, s := held(t, seed)
		base := voltages(s)
		r := rand.New(rand.NewSource(seed))
		node := func() Node { return Node(r.Intn(len(p.leak))) }
		for range 5 {
			values := slices.Clone(p.values)
			opened := r.Intn(len(values))
			values[opened] = Value{}
			s.Set(opened, Value{})
			ends, links := []Ends{{node(), node()}}, []Value{{G: 1000}}
			s.Link(ends[0].A, ends[0].B, links[0])
			solve(t, s)
			before := voltages(s)
			for range 20 {
				meter, away := Ends{node(), node()}, r.Intn(len(values))
				s.Link(meter.A, meter.B, Value{G: 1e-7})
				was := s.Value(away)
				s.Set(away, Value{G: 1})
				solve(t, s)
				now := slices.Clone(values)
				now[away] = Value{G: 1}
				alike(t, s, p, now, append(slices.Clone(ends), meter), append(slices.Clone(links), Value{G: 1e-7}))
				s.Unlink()
				s.Set(away, was)
				solve(t, s)
				if !slices.Equal(voltages(s), before) {
					t.Fatalf("seed %d: not as before the meter", seed)
				}
			}
			room := len(s.s.meshes)
			for range 20 {
				s.Link(ends[0].A, ends[0].B, Value{G: 1e-7})
				solve(t, s)
				s.Unlink()
				solve(t, s)
			}
			if len(s.s.meshes) != room {
				t.Errorf("seed %d: the stores grew from %d edges to %d", seed, room, len(s.s.meshes))
			}
			s.Revert()
			if !slices.Equal(voltages(s), base) {
				t.Fatalf("seed %d: Revert did not restore the voltages", seed)
			}
		}
	}
}

// A checkpoint's own links stay, and what came after them goes.
//
// Source: by hand, 5 V behind two joints of 1 ohm, whose leaks draw 5 nA each: 10 nV
// and 5 nV are lost.
func TestUnlinkOfTheCheckpoint(t *testing.T) {
	s := NewPlan(3, []Ends{{0, 1}}).DC([]float64{0, 1e-9, 1e-9}, []Value{{G: 1, E: 5}})
	s.Link(1, 2, Value{G: 1})
	solve(t, s)
	s.Checkpoint()
	defer func() {
		if recover() == nil {
			t.Error("a link of the checkpoint was taken away")
		}
		s.Link(2, 0, Value{G: 1})
		solve(t, s)
		s.Unlink()
		solve(t, s)
		near(t, "what hangs on the link", s.V(2), 5-15e-9)
	}()
	s.Unlink()
}
