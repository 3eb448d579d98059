package check

import (
	"halfsplit/core/circuit"
	"halfsplit/core/parts"
)

// earth checks the protective earth: that it is there, and that nothing uses it
// as a conductor.
func (g *graph) earth() {
	g.railsEarthed()
	g.framesEarthed()
	g.bonding()
	g.returns()
}

// earthed marks every node solidly joined to a protective earth.
func (g *graph) earthed() []bool {
	var from []circuit.Node
	for n, e := range g.earthy {
		if e {
			from = append(from, circuit.Node(n))
		}
	}
	return g.reach(from, shut, nil)
}

// railsEarthed checks that each strip's rail and each earth bar comes to the
// earth of an incoming supply.
func (g *graph) railsEarthed() {
	var from []circuit.Node
	for i := range g.p.Mains {
		if pl, ok := g.places[g.p.Mains[i].Ref+":PE"]; ok {
			from = append(from, pl.Node)
		}
	}
	if len(from) == 0 {
		return // no mains: nothing to be protected from
	}
	joined := g.reach(from, metal, nil)
	check := func(ref string, n circuit.Node) {
		if g.earthy[n] && !joined[n] {
			g.report(g.paths[ref], "earth-not-connected", ref, g.p.Mains[0].Ref+":PE")
		}
	}
	for i := range g.p.Strips {
		if pt, ok := g.net.FindPoint(g.p.Strips[i].Ref + ":rail"); ok {
			check(pt.Ref, pt.Node)
		}
	}
	for i := range g.p.Parts {
		p := &g.p.Parts[i]
		k, ok := parts.Lookup(p.Kind)
		if !ok || k.Block {
			continue
		}
		if ts := k.Terminals(p); len(ts) > 0 {
			if pl, ok := g.places[p.Ref+":"+ts[0].Name]; ok {
				check(p.Ref, pl.Node)
			}
		}
	}
}

// framesEarthed checks the touchable metal of what mains voltage comes to.
// IEC 60204-1 8.2: exposed conductive parts are joined to the protective circuit.
func (g *graph) framesEarthed() {
	earthed := g.earthed()
	for _, f := range g.net.Frames {
		p := g.owner[f.Ref]
		if p == nil || earthed[f.Node] {
			continue
		}
		k, _ := parts.Lookup(p.Kind)
		for _, t := range k.Terminals(p) {
			if t.Pole == parts.Line {
				g.report(g.paths[f.Ref], "frame-not-earthed", f.Ref, p.Kind)
				break
			}
		}
	}
}

// bonding checks that each supply says what it is and what holds its 0 V.
func (g *graph) bonding() {
	earthed := g.earthed()
	for _, t := range g.poles {
		p, path := g.owner[t.ref], g.paths[t.ref]
		if t.what != parts.Negative || p == nil {
			continue
		}
		if p.Ratings["class"] == "" {
			g.report(path, "class-unstated", p.Ref)
		}
		switch {
		case p.Ratings["bonded"] == "no" && earthed[t.node]:
			g.report(path+".ratings.bonded", "bonded-after-all", t.name)
		case p.Ratings["bonded"] != "no" && !earthed[t.node]:
			g.report(path, "bonding-unstated", t.name)
		}
	}
}

// returns finds loads whose current goes home through the protective earth: with
// the earth's metal taken away, the return hangs on no 0 V and no neutral.
func (g *graph) returns() {
	island, joined := newSets(len(g.net.Nodes)), map[circuit.Node]bool{}
	for i := range g.edges {
		if e := &g.edges[i]; ways[e.role] && !g.earthy[e.a] && !g.earthy[e.b] {
			island.join(e.a, e.b)
			joined[e.a], joined[e.b] = true, true
		}
	}
	loads, home := map[circuit.Node]string{}, map[circuit.Node]bool{} // by island
	for i := range g.edges {
		if e := &g.edges[i]; e.role == parts.RoleLoad {
			for _, n := range []circuit.Node{island.find(e.a), island.find(e.b)} {
				if loads[n] == "" {
					loads[n] = e.thing
				}
			}
		}
	}
	for _, p := range g.poles {
		home[island.find(p.node)] = true
	}
	for k, driven := range g.net.Driven() { // a current transformer's circuit is whole by itself, and earthed
		if driven {
			home[island.find(g.net.Branches[k].Ends.A)], home[island.find(g.net.Branches[k].Ends.B)] = true, true
		}
	}
	for i := range g.edges {
		e := &g.edges[i]
		if e.role != parts.RoleWire || g.earthy[e.a] == g.earthy[e.b] {
			continue
		}
		outer := e.a
		if g.earthy[e.a] {
			outer = e.b
		}
		if g.forEarth[outer] && !joined[outer] {
			continue // what a part has for earth is its own: an insulation monitor measures to it
		}
		if n := island.find(outer); !home[n] && loads[n] != "" {
			g.report(e.path, "pe-as-return", e.thing, loads[n])
		}
	}
}

// colours checks where green-and-yellow is and is not: it marks protective
// conductors and nothing else (IEC 60204-1 13.2.2).
func (g *graph) colours() {
	protective := g.protective()
	for i := range g.edges {
		e := &g.edges[i]
		if e.role != parts.RoleWire {
			continue
		}
		w := &g.p.Wires[e.wire]
		isGreenYellow := letters.Replace(w.Colour) == greenYellow
		switch a, b := protective[e.a], protective[e.b]; {
		case isGreenYellow && !a && !b:
			g.report(e.path+".colour", "green-yellow-live", w.No, w.From, w.To)
		case w.Colour != "" && !isGreenYellow && a && b:
			g.report(e.path+".colour", "earth-not-green-yellow", w.No, w.Colour)
		}
	}
}

// protective marks the metal of the protective earth: earthing metal, terminals
// for it, and what hangs on them without being a pole or the end of a load.
func (g *graph) protective() []bool {
	busy := make([]bool, len(g.net.Nodes))
	var live []circuit.Node
	for _, p := range g.poles {
		live = append(live, p.node)
	}
	for i := range g.edges {
		if e := &g.edges[i]; e.role == parts.RoleLoad || e.role == parts.RoleSource {
			live = append(live, e.a, e.b)
		}
	}
	for n, on := range g.reach(live, ways, func(n circuit.Node) bool { return g.earthy[n] }) {
		busy[n] = on
	}
	var from []circuit.Node
	for n, e := range g.earthy {
		if e {
			from = append(from, circuit.Node(n))
		}
	}
	for _, pl := range g.net.Places {
		if pl.Pole == parts.Earth {
			from = append(from, pl.Node)
		}
	}
	earth := g.reach(from, metal, nil)
	for n := range earth {
		earth[n] = earth[n] && (g.earthy[n] || !busy[n])
	}
	for _, n := range from {
		earth[n] = true
	}
	return earth
}
