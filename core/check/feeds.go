package check

import (
	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// feeds checks that what is drawn is connected and fits what feeds it.
func (g *graph) feeds() {
	if len(g.poles) == 0 {
		g.report("", "no-source")
	}
	wired, inUse := g.wired(), map[string]bool{}
	for i := range g.p.Parts {
		p, path := &g.p.Parts[i], item("parts", i)
		k, ok := parts.Lookup(p.Kind)
		if !ok || k.Block {
			continue
		}
		for _, t := range k.Terminals(p) {
			if wired[g.places[p.Ref+":"+t.Name].Node] {
				inUse[p.Ref] = true
			}
		}
		if !inUse[p.Ref] {
			g.report(path, "part-unused", p.Ref)
		}
	}
	for i := range g.p.Mains {
		if ref := g.p.Mains[i].Ref; !wired[g.places[ref+":L"].Node] {
			g.report(item("mains", i), "part-unused", ref)
		}
	}
	g.crowded()
	g.loads(wired, inUse)
}

// wired marks the metal some wire lands on.
func (g *graph) wired() []bool {
	wired := make([]bool, len(g.net.Nodes))
	for i := range g.edges {
		if e := &g.edges[i]; e.role == parts.RoleWire {
			wired[e.a], wired[e.b] = true, true
		}
	}
	return wired
}

// mostInClamp conductors in one clamp: common practice, two of one size.
const mostInClamp = 2

// crowded finds clamps with more wires than they hold. Earth studs and bars take
// more. A wire on a feed-through without a side may be in either clamp, so there
// the block is counted as a whole.
func (g *graph) crowded() {
	clamps := make([]int, len(g.net.Nodes))
	for _, pl := range g.net.Places {
		clamps[pl.Node]++
	}
	onClamp, onMetal := map[string]int{}, make([]int, len(g.net.Nodes))
	for k, e := range g.net.Ends {
		if e.Place.Pole == parts.Earth {
			continue
		}
		w := &g.p.Wires[e.Wire]
		written := w.From
		if k%2 == 1 {
			written = w.To
		}
		if pt, _ := panel.ParsePoint(written); pt.String() == e.At {
			onClamp[e.At]++
		}
		onMetal[e.Metal]++
		if onClamp[e.At] == mostInClamp+1 || onMetal[e.Metal] == mostInClamp*clamps[e.Metal]+1 {
			g.report(item("wires", e.Wire), "clamp-crowded", written, e.No)
		}
	}
}

// loads checks each load that is a part by itself: both ends wired, fed with its
// voltage, its poles the right way round. Channels of a card may stay spare.
func (g *graph) loads(wired []bool, inUse map[string]bool) {
	var hot, home []circuit.Node
	for _, p := range g.poles {
		if p.what == parts.Positive || p.what == parts.Line {
			hot = append(hot, p.node)
		} else {
			home = append(home, p.node)
		}
	}
	w := g.widest()
	fromHot, fromHome := g.reach(hot, ways, nil), g.reach(home, ways, nil)
	for i := range g.edges {
		e := &g.edges[i]
		p := g.owner[e.thing]
		if e.role != parts.RoleLoad || p == nil {
			continue
		}
		k, _ := parts.Lookup(p.Kind)
		a, b := g.net.Nodes[e.a].Name, g.net.Nodes[e.b].Name
		switch {
		case !wired[e.a] && !wired[e.b]:
			if inUse[p.Ref] {
				g.report(e.path, "load-not-fed", p.Ref, a, b)
			}
			continue
		case !wired[e.a]:
			g.report(e.path, "load-half-wired", p.Ref, a, b)
			continue
		case !wired[e.b]:
			g.report(e.path, "load-half-wired", p.Ref, b, a)
			continue
		}
		feed, back := e.a, e.b
		if !fromHot[feed] || fromHot[back] && fromHome[feed] {
			feed, back = back, feed
		}
		if !fromHot[feed] || !fromHome[back] || fromHome[feed] || fromHot[back] {
			continue // in series with something, or fed both ways
		}
		g.reversed(e, feed, back)
		g.fits(e, w[feed], g.rating(p, k, "voltage"), p.Ratings["frequency"], k)
	}
}

// reversed checks poles: plus where minus belongs, line where neutral belongs.
func (g *graph) reversed(e *edge, feed, back circuit.Node) {
	at := func(n circuit.Node) parts.Place { return g.places[g.net.Nodes[n].Name] }
	f, b := at(feed), at(back)
	switch {
	case f.Pole == parts.Negative && b.Pole == parts.Positive:
		g.report(e.path, "polarity-reversed", e.thing, f.Name, b.Name)
	case f.Pole == parts.Neutral && b.Pole == parts.Line:
		g.report(e.path, "line-neutral-swapped", e.thing, f.Name, b.Name)
	}
}

// fits compares a load's rating with the source that feeds it.
func (g *graph) fits(e *edge, from width, rated float64, frequency string, k *parts.Kind) {
	if isSupply(k) || from.source == "" {
		return // the rated voltage of a supply is that of its output
	}
	if rated > 0 && from.volts > 0 && !sameVoltage(rated, from.volts) {
		g.report(e.path, "load-voltage", e.thing, volts(rated), from.source, volts(from.volts))
		return
	}
	switch {
	case !hasRating(k, "frequency"):
	case from.alternating && frequency == "":
		g.report(e.path, "coil-for-dc", e.thing, from.source)
	case !from.alternating && frequency != "":
		g.report(e.path, "coil-for-ac", e.thing, from.source)
	}
}
