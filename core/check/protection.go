package check

import (
	"container/heap"
	"math"
	"strconv"

	"halfsplit/core/circuit"
	"halfsplit/core/parts"
	"halfsplit/core/unit"
)

// protection checks that every conductor on the feeding side is protected by
// what can feed it: from each supply outwards the current that can flow is the
// supply's limit until a fuse or breaker makes it less. Where several ways lead
// to a conductor the largest counts. Upstream of the panel's first device the
// mains is not judged, since what protects it is not in the document; returns
// carry what their loads draw.
func (g *graph) protection() {
	w, loads := g.widest(), g.unfusedLoads()
	told := map[string]bool{}
	for i := range g.edges {
		e := &g.edges[i]
		if e.role != parts.RoleWire {
			continue
		}
		size := g.p.Wires[e.wire].Size
		limit, ok := allows(size)
		if !ok {
			continue
		}
		best := w[e.a]
		if w[e.b].amps > best.amps {
			best = w[e.b]
		}
		if best.amps <= limit.careful || math.IsInf(best.amps, 1) {
			continue
		}
		allowed := amps(limit.careful)
		switch {
		case best.fuse == "" && g.tap(e, loads):
			// the fuse at its end protects it
		case best.amps <= limit.most && best.fuse == "":
			g.report(g.sizeAt(e), "wire-tight", e.thing, size, allowed, best.source, amps(best.amps))
		case best.amps <= limit.most:
			g.report(g.sizeAt(e), "wire-tight", e.thing, size, allowed, best.fuse, g.fuses[best.fuse].written)
		case best.fuse == "":
			g.report(g.sizeAt(e), "supply-exceeds-wire", e.thing, size, allowed, best.source, amps(best.amps))
		case g.directly(e, best.fuse):
			if !told[best.fuse] {
				told[best.fuse] = true
				f := g.fuses[best.fuse]
				g.report(f.path, "fuse-exceeds-wire", best.fuse, f.written, e.thing, size, allowed)
			}
		default:
			g.report(g.sizeAt(e), "wire-too-thin", e.thing, size, allowed, best.fuse, g.fuses[best.fuse].written)
		}
	}
	g.indicators(w)
}

// longestTap is the length, in metres, up to which a conductor may be protected
// at its far end. Source: IEC 60204-1 7.2.8 (from memory).
const longestTap = 3

// tap says that a wire from a supply is short and that nothing it is joined to
// without passing a fuse is a load: all goes on to fuses.
func (g *graph) tap(e *edge, loads *unfusedLoads) bool {
	metres, err := unit.Parse(g.p.Wires[e.wire].Length, unit.Length)
	return (err != nil || metres <= longestTap) && loads.at(e.a) == ""
}

// unfusedLoads answers which load a piece of metal reaches past no fuse.
type unfusedLoads struct {
	sets  sets
	first map[circuit.Node]string // by set
}

func (g *graph) unfusedLoads() *unfusedLoads {
	open := with(metal, parts.RoleLever, parts.RoleBlade, parts.RoleContact)
	u := &unfusedLoads{g.sets(open), map[circuit.Node]string{}}
	for i := range g.edges {
		if e := &g.edges[i]; e.role == parts.RoleLoad {
			for _, n := range []circuit.Node{u.sets.find(e.a), u.sets.find(e.b)} {
				if u.first[n] == "" {
					u.first[n] = e.thing
				}
			}
		}
	}
	return u
}

func (u *unfusedLoads) at(n circuit.Node) string { return u.first[u.sets.find(n)] }

// amps and volts write a figure as people do on a drawing: 8.5 A, 24 V.
func amps(v float64) string  { return strconv.FormatFloat(v, 'g', 4, 64) + " A" }
func volts(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) + " V" }

func (g *graph) sizeAt(e *edge) string { return e.path + ".size" }

// directly says that a wire lands on the device that protects it.
func (g *graph) directly(e *edge, fuse string) bool {
	for _, n := range []circuit.Node{e.a, e.b} {
		for _, i := range g.at[n] {
			f := &g.edges[i]
			if f.thing == fuse && f.role != parts.RoleWire {
				return true
			}
		}
	}
	return false
}

// A width is the largest current that can come to a node, what limits it and
// where it comes from.
type width struct {
	amps   float64
	fuse   string // thing; empty where only the source limits
	source string // "T1:+"; empty where nothing comes
	volts  float64

	alternating bool
}

// widest finds the width of every node: a widest-path search from every feeding
// pole.
func (g *graph) widest() []width {
	best := make([]width, len(g.net.Nodes))
	q := &widths{}
	offer := func(n circuit.Node, w width) {
		if w.amps > best[n].amps {
			best[n] = w
			heap.Push(q, reached{n, w})
		}
	}
	for _, p := range g.poles {
		most := p.amps
		if most == 0 {
			most = math.Inf(1)
		}
		if p.what == parts.Positive || p.what == parts.Line {
			offer(p.node, width{amps: most, source: p.name, volts: p.volts, alternating: p.what == parts.Line})
		}
	}
	for q.Len() > 0 {
		r := heap.Pop(q).(reached)
		if best[r.node] != r.width {
			continue
		}
		for _, i := range g.at[r.node] {
			e := &g.edges[i]
			if !ways[e.role] {
				continue
			}
			next := r.width
			if f, ok := g.fuses[e.thing]; ok && e.role == parts.RoleFuse && f.amps <= next.amps {
				next.amps, next.fuse = f.amps, e.thing
			}
			offer(e.far(r.node), next)
		}
	}
	return best
}

type reached struct {
	node circuit.Node
	width
}

// widths is a heap, the widest on top; of equals the lowest node.
type widths []reached

func (q widths) Len() int { return len(q) }
func (q widths) Less(i, j int) bool {
	if q[i].amps != q[j].amps {
		return q[i].amps > q[j].amps
	}
	return q[i].node < q[j].node
}
func (q widths) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *widths) Push(x any)   { *q = append(*q, x.(reached)) }
func (q *widths) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}

// far is how far a nominal voltage may be from what feeds it and still be called
// the same one: 20 %, the span of IEC 61131-2 supplies downwards.
const far = 0.2

func sameVoltage(a, b float64) bool { return math.Abs(a-b) <= far*max(a, b) }

// indicators compares blown-link indicators with the supply of their block.
func (g *graph) indicators(w []width) {
	for i := range g.edges {
		e := &g.edges[i]
		if e.role != parts.RoleIndicator {
			continue
		}
		from := w[e.a]
		if w[e.b].amps > from.amps {
			from = w[e.b]
		}
		written := g.lights[e.thing]
		made, err := unit.Parse(written, unit.Voltage)
		if err == nil && from.volts > 0 && !sameVoltage(made, from.volts) {
			g.report(e.path+".indicator", "indicator-voltage", e.thing, written, from.source, volts(from.volts))
		}
	}
}

// unfused finds supplies whose output reaches a load past no fuse or breaker. A
// plus that is the minus of the next supply is the middle of a pair in series.
func (g *graph) unfused() {
	loads, solid := g.unfusedLoads(), g.sets(metal)
	minus := map[circuit.Node]bool{}
	for _, p := range g.poles {
		if p.what == parts.Negative {
			minus[solid.find(p.node)] = true
		}
	}
	for _, p := range g.poles {
		if p.what != parts.Positive || minus[solid.find(p.node)] {
			continue
		}
		if load := loads.at(p.node); load != "" {
			g.report(g.paths[p.ref], "supply-unfused", p.name, load)
		}
	}
}
