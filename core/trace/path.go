package trace

import (
	"halfsplit/core/circuit"
	"halfsplit/core/parts"
)

// leastAmps is the current below which nothing is followed: above the leakage of
// insulation, below any load. Choice.
const leastAmps = 1e-5

// A path is the way a device's current takes: branches from its source to the
// load, then from the load back.
type path []int

// follow walks the largest current from the load at nodes a and b upstream to a
// source, then downstream, through amps (of every branch, from A to B). Empty
// where the load carries none.
func (b *Base) follow(a, z circuit.Node, amps []float64) path {
	feed := b.walk(a, z, amps, 1)
	back := b.walk(z, a, amps, -1)
	if len(feed) == 0 && len(back) == 0 { // the current runs the other way
		feed, back = b.walk(z, a, amps, 1), b.walk(a, z, amps, -1)
	}
	p := make(path, 0, len(feed)+len(back))
	for i := len(feed) - 1; i >= 0; i-- {
		p = append(p, feed[i])
	}
	return append(p, back...)
}

// walk follows the largest current into (direction 1) or out of (-1) node from,
// not through the load that ends at not, until a source or the end of the
// current.
func (b *Base) walk(from, not circuit.Node, amps []float64, direction float64) path {
	var p path
	seen := map[circuit.Node]bool{from: true}
	for n := from; ; {
		best, most := -1, leastAmps
		for _, k := range b.links[n] {
			e := b.Model.Net.Branches[k].Ends
			into := direction * amps[k]
			other := e.A
			if e.A == n {
				into, other = -into, e.B
			}
			if into > most && !seen[other] && !(len(p) == 0 && other == not) {
				best, most = int(k), into
			}
		}
		if best < 0 {
			return p
		}
		p = append(p, best)
		br := &b.Model.Net.Branches[best]
		if br.Role == parts.RoleSource {
			return p
		}
		if n = br.Ends.A; seen[n] {
			n = br.Ends.B
		}
		seen[n] = true
	}
}
