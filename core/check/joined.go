package check

import (
	"slices"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// joined finds potentials that meet and must not, joint by joint in the order of
// the edges. The joint that brings two of them together is
// reported and taken out of the graph, so that one mistake is told once and the
// checks that follow see the panel without it.
func (g *graph) joined() {
	sets := newSets(len(g.net.Nodes))
	carries := make([][]pole, len(sets)) // by root
	earth := make([]*parts.Node, len(sets))
	for _, p := range g.poles {
		carries[p.node] = append(carries[p.node], p)
	}
	for n := range sets {
		if g.earthy[n] {
			earth[n] = &g.net.Nodes[n]
		}
	}
	var broken []int
	for i := range g.edges {
		e := &g.edges[i]
		if !shut[e.role] {
			continue
		}
		a, b := sets.find(e.a), sets.find(e.b)
		if e.a == e.b && e.role == parts.RoleWire {
			g.onOneMetal(e)
		}
		if a == b {
			continue
		}
		code, one, other := clash(carries[a], carries[b], earth[a], earth[b], g.earthy[e.a] || g.earthy[e.b])
		if code != "" {
			wire, thing, jumper := "", "", ""
			switch e.role {
			case parts.RoleWire:
				wire = e.thing
			case parts.RoleJumper:
				jumper = e.thing
			default:
				thing = e.thing
			}
			g.report(e.path, code, wire, one, other, thing, jumper)
			if SeverityOf(code) == Error {
				broken = append(broken, i)
				continue
			}
		}
		sets.join(a, b)
		carries[a] = few(carries[a], carries[b])
		if earth[a] == nil {
			earth[a] = earth[b]
		}
	}
	for k := len(broken) - 1; k >= 0; k-- {
		g.edges = slices.Delete(g.edges, broken[k], broken[k]+1)
	}
	g.index()
}

// few joins two lists of poles and keeps the first of them: on metal with more
// poles than that everything has been said.
func few(a, b []pole) []pole {
	const most = 16
	for _, p := range b {
		if len(a) == most {
			break
		}
		a = append(a, p)
	}
	return a
}

// onOneMetal reports a wire whose two ends are different clamps of one piece of
// metal.
func (g *graph) onOneMetal(e *edge) {
	w := &g.p.Wires[e.wire]
	a, _ := panel.ParsePoint(w.From)
	b, _ := panel.ParsePoint(w.To)
	if a != b { // the same point is told elsewhere
		g.report(e.path, "wire-on-one-metal", e.thing, w.From, w.To)
	}
}

// clash names the first two potentials of two pieces of metal that must not
// meet. Where they meet on metal of the earth, earth is named first: a bonded
// 0 V hangs on it too, and would mislead.
func clash(a, b []pole, earthA, earthB *parts.Node, onEarth bool) (code, one, other string) {
	if onEarth {
		if code, one, other := earthClash(a, b, earthA, earthB); code != "" {
			return code, one, other
		}
	}
	for _, p := range a {
		for _, q := range b {
			if code := clashes(p, q); code != "" {
				return code, p.name, q.name
			}
		}
	}
	return earthClash(a, b, earthA, earthB)
}

func earthClash(a, b []pole, earthA, earthB *parts.Node) (code, one, other string) {
	for _, side := range []struct {
		poles []pole
		earth *parts.Node
	}{{a, earthB}, {b, earthA}} {
		if side.earth == nil {
			continue
		}
		for _, p := range side.poles {
			if code := earthCode[p.what]; code != "" && !(p.derived && p.what == parts.Neutral) {
				return code, p.name, side.earth.Name
			}
		}
	}
	return "", "", ""
}

// earthCode says what a pole joined to the protective earth inside the panel
// is. A DC minus there is the bond of a PELV circuit. IEC 60204-1 5.1 forbids a
// neutral joined to the protective conductor inside the equipment.
var earthCode = map[parts.Pole]string{
	parts.Positive: "plus-on-earth",
	parts.Line:     "line-on-earth",
	parts.Neutral:  "neutral-on-earth",
}

func clashes(p, q pole) (code string) {
	dc := func(p pole) bool { return p.what == parts.Positive || p.what == parts.Negative }
	bonded := func(p pole) bool { return p.what == parts.Negative || p.derived && p.what == parts.Neutral }
	switch {
	case bonded(p) && bonded(q):
		return "" // a common return, or two that meet at earth
	case dc(p) != dc(q):
		return "ac-dc-joined"
	case !dc(p) && p.what != q.what:
		return "line-neutral-joined"
	case !dc(p) && p.ref != q.ref:
		return "mains-joined"
	case p.what != q.what && p.ref == q.ref:
		return "plus-zero-joined"
	case p.what != q.what:
		return "supplies-in-series"
	case p.what == parts.Positive && p.ref != q.ref:
		return "supplies-in-parallel"
	}
	return "" // a common 0 V
}
