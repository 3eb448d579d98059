package circuit

import (
	"slices"
	"testing"
)

// FuzzEdits reads bytes as edits of a small panel: set, link, change a link,
// solve, checkpoint, revert. After each Solve the network must agree with a
// fresh one that has the links as branches, and each Revert must restore the
// bits of the base.
func FuzzEdits(f *testing.F) {
	f.Add([]byte{0, 10, 1, 3, 4, 0, 20, 2, 3, 5})
	f.Add([]byte{1, 7, 3, 1, 90, 2, 3, 0, 12, 0, 3, 5, 1, 7, 3, 3, 5})
	f.Add([]byte{0, 1, 0, 3, 4, 1, 40, 4, 3, 2, 0, 1, 3, 4, 5, 0, 2, 0, 3, 5, 5})
	f.Add([]byte{0, 33, 4, 0, 34, 4, 1, 33, 4, 1, 44, 4, 3, 1, 33, 1, 3, 5, 3})
	p := synthetic(150, 12)
	plan := NewPlan(len(p.leak), p.ends)
	kinds := []Value{{}, {G: 1e-7}, {G: 0.1}, {G: 1000}, {G: 5000}, {G: 2, E: 9}, {G: 1e-3, J: 0.01}}
	f.Fuzz(func(t *testing.T, edits []byte) {
		if len(edits) > 200 {
			return
		}
		s := plan.DC(p.leak, p.values)
		solve(t, s)
		s.Checkpoint()
		base := voltages(s)
		now, kept := slices.Clone(p.values), slices.Clone(p.values)
		var ends, keptEnds []Ends
		var links, keptLinks []Value
		solved := true
		next := func() int {
			if len(edits) == 0 {
				return 0
			}
			b := edits[0]
			edits = edits[1:]
			return int(b)
		}
		for len(edits) > 0 {
			switch next() % 6 {
			case 0:
				i, v := next()%len(now), kinds[next()%len(kinds)]
				now[i] = v
				s.Set(i, v)
				solved = false
			case 1:
				if len(links) < 5 {
					a := next()
					e, v := Ends{Node(a % len(p.leak)), Node(a * 7 % len(p.leak))}, kinds[next()%len(kinds)]
					ends, links = append(ends, e), append(links, v)
					s.Link(e.A, e.B, v)
					solved = false
				}
			case 2:
				if len(links) > 0 {
					i, v := next()%len(links), kinds[next()%len(kinds)]
					links[i] = v
					s.SetLink(i, v)
					solved = false
				}
			case 3:
				solve(t, s)
				solved = true
				alike(t, s, p, now, ends, links)
			case 4:
				if solved {
					s.Checkpoint()
					base = voltages(s)
					kept, keptEnds, keptLinks = slices.Clone(now), slices.Clone(ends), slices.Clone(links)
				}
			case 5:
				s.Revert()
				now, ends, links = slices.Clone(kept), slices.Clone(keptEnds), slices.Clone(keptLinks)
				solved = true
				if !slices.Equal(voltages(s), base) {
					t.Fatal("Revert did not restore the base")
				}
			}
		}
	})
}
