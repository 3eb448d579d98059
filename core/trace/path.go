package trace

import (
	"slices"

	"halfsplit/core/circuit"
	"halfsplit/core/parts"
)

// leastAmps is the current below which nothing is followed: above the leakage of
// insulation, below any load. Choice.
const leastAmps = 1e-5

// A path is the way a device's current takes: branches from its source to the
// load, then from the load back.
type path struct{ feed, back []int }

func (p path) empty() bool { return len(p.feed)+len(p.back) == 0 }

// all lists the branches in the order of the current.
func (p path) all() []int { return append(slices.Clone(p.feed), p.back...) }

// follow walks the largest current from the load at nodes a and z upstream to a
// source, then downstream back to that source, through amps (of every branch, from
// A to B). Empty where the load carries none.
func (b *Base) follow(a, z circuit.Node, amps []float64) path {
	feed, back := b.round(a, z, amps)
	if len(feed) == 0 && len(back) == 0 { // the current runs the other way
		feed, back = b.round(z, a, amps)
	}
	slices.Reverse(feed)
	return path{feed, back}
}

func (b *Base) round(a, z circuit.Node, amps []float64) (feed, back []int) {
	feed = b.walk(a, z, amps, 1, "")
	source := ""
	if n := len(feed); n > 0 {
		source = b.Model.Net.Branches[feed[n-1]].Thing
	}
	if back = b.walk(z, a, amps, -1, source); len(back) == 0 { // nothing leads to that source
		back = b.walk(z, a, amps, -1, "")
	}
	return feed, back
}

// walk follows the largest current into (direction 1) or out of (-1) node from,
// not through the load that ends at not, until it comes to the source of that name,
// or with none named to any source or the end of the current. Where circuits share a
// common the largest current may lead to another's source: then it goes back to
// the last parting of the ways.
func (b *Base) walk(from, not circuit.Node, amps []float64, direction float64, source string) []int {
	const noBranch = -1
	var p []int
	seen := map[circuit.Node]bool{from: true}
	nodes := []circuit.Node{from} // along p
	for {
		n := nodes[len(nodes)-1]
		best, most := noBranch, leastAmps
		var next circuit.Node
		for _, k := range b.links[n] {
			e := b.Model.Net.Branches[k].Ends
			into := direction * amps[k]
			if e.A == n {
				into = -into
			}
			o := other(e, n)
			if into <= most || len(p) == 0 && o == not {
				continue
			}
			br := &b.Model.Net.Branches[k]
			if ends := br.Role == parts.RoleSource; ends && (source == "" || source == br.Thing) || !ends && !seen[o] {
				best, most, next = int(k), into, o
			}
		}
		switch {
		case best == noBranch && source == "":
			return p
		case best == noBranch && len(p) == 0:
			return nil
		case best == noBranch:
			p, nodes = p[:len(p)-1], nodes[:len(nodes)-1]
			continue
		}
		p = append(p, best)
		if b.Model.Net.Branches[best].Role == parts.RoleSource {
			return p
		}
		seen[next] = true
		nodes = append(nodes, next)
	}
}
