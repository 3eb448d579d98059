package diagnose

import (
	"halfsplit/core/circuit"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
)

// A Candidate is one step a person could be asked for: a reading between two
// probes, or a look at a device or a light.
type Candidate struct {
	Look       Look
	Situation  int
	Mode       meter.Mode // of a reading
	Red, Black int        // probes of a reading; below zero where none is held
	Thing      int        // device, light or place (of Engine.Places) of a look; branch or break of a current
	Minutes    float64    // effort
}

// A Look says what a candidate looks at.
type Look int

// The looks.
const (
	NoLook   Look = iota // a reading
	AtDevice             // the state of a device, as its lamp, flag or display shows it
	AtLight              // a blown-link indicator
	AtPlace              // a clamp, lever or breaker: as drawn, or not
)

// A Probe is one piece of metal a person can touch, with its preferred name.
type Probe struct {
	Name  string
	Ref   string
	Node  circuit.Node
	Field bool
	Mains bool
	Earth bool // protective earth, or a frame that relies on it
}

// Effort in minutes: common practice. A field device is a walk away; mains asks
// for gloves and care.
const (
	minutesLook  = 0.2
	minutesPanel = 0.5
	minutesField = 4
	minutesMains = 0.5
	// A reading against anything but the circuit's own return or across one thing
	// costs a second look at the drawing.
	minutesUnusual = 0.2
)

// probes lists one probe for each piece of touchable metal, by its first name.
func probes(net *parts.Net) []Probe {
	at := make([]int, len(net.Nodes))
	mains := mainsNodes(net)
	earth := make([]bool, len(net.Nodes))
	for n := range net.Nodes {
		earth[n] = n == int(circuit.Earth) || net.Nodes[n].Earthing
	}
	for _, f := range net.Frames {
		earth[f.Node] = true
	}
	var list []Probe
	for _, p := range net.Points {
		if p.Hidden || at[p.Node] > 0 {
			continue
		}
		list = append(list, Probe{Name: p.Name, Ref: p.Ref, Node: p.Node, Field: p.Field, Mains: mains[p.Node], Earth: earth[p.Node]})
		at[p.Node] = len(list)
	}
	return list
}

// mainsNodes marks the metal joined to a line or neutral of the mains through
// anything but a source: what must be measured as alternating voltage.
func mainsNodes(net *parts.Net) []bool {
	mains := make([]bool, len(net.Nodes))
	at := adjacent(net, func(k int32) bool { return net.Branches[k].Role != parts.RoleSource })
	for _, p := range net.Places {
		if p.Pole == parts.Line || p.Pole == parts.Neutral {
			at.walk(p.Node, mains, func(circuit.Node) {})
		}
	}
	return mains
}

// lister collects candidates without repeating a pair in a situation.
type lister struct {
	e     *Engine
	seen  map[[3]int32]bool
	extra float64 // minutes
}

// lookCandidates lists a look at every device and light in every situation with
// power on, and at every place where a fault could be seen.
func (e *Engine) lookCandidates() {
	l := &lister{e: e}
	for k := range e.Situations {
		if !e.Situations[k].Off {
			l.looks(k)
		}
	}
	e.inspections()
	e.looks = len(e.Candidates)
}

// readingCandidates lists every permitted reading of the scope worth asking for.
// With power on: each point against the return of its supply, and each two points
// with one connection, load or contact between them. With power off: resistance
// between the same points.
func (e *Engine) readingCandidates() {
	l := &lister{e: e, seen: map[[3]int32]bool{}}
	black, red := e.returns(), e.feeds()
	for _, k := range e.scope.situations {
		l.readings(k, black, red)
	}
	l.readings(len(e.Situations)-1, black, red)
}

func (l *lister) looks(situation int) {
	net := l.e.Base.Model.Net
	field := map[string]bool{}
	for _, p := range net.Points {
		field[p.Ref] = field[p.Ref] || p.Field
	}
	extra := l.e.Situations[situation].Minutes
	for i, d := range net.Devices {
		minutes := minutesLook
		if field[d.Part] {
			minutes += minutesField
		}
		l.e.add(Candidate{Look: AtDevice, Situation: situation, Thing: i, Minutes: minutes + extra})
	}
	for i := range net.Lights {
		l.e.add(Candidate{Look: AtLight, Situation: situation, Thing: i, Minutes: minutesLook + extra})
	}
}

func (l *lister) readings(situation int, returns blacks, feeds []int) {
	ps, net := l.e.Probes, l.e.Base.Model.Net
	pair := func(a, b circuit.Node) {
		i, ok1 := l.e.Probe(a)
		j, ok2 := l.e.Probe(b)
		if ok1 && ok2 {
			l.pair(situation, i, j)
		}
	}
	for _, black := range returns.poles {
		for red := range ps {
			if returns.behind[ps[red].Node] == returns.behind[ps[black].Node] {
				l.pair(situation, red, black)
			}
		}
	}
	for _, black := range returns.sources {
		l.extra = 0
		if ps[black].Earth {
			l.extra = minutesUnusual // earth is no circuit's return
		}
		for red := range ps {
			if l.e.neighbours(red, black) {
				l.pair(situation, red, black)
			}
		}
	}
	l.extra = minutesUnusual
	for _, red := range feeds {
		for black := range ps {
			if l.e.neighbours(red, black) {
				l.pair(situation, red, black)
			}
		}
	}
	l.extra = 0
	if earth, ok := l.e.Probe(circuit.Earth); ok { // at a field device: its terminals to bonded metal
		for i := range ps {
			if ps[i].Field {
				l.pair(situation, i, earth)
			}
		}
	}
	for i := 1; i < len(net.Ends); i += 2 {
		pair(net.Ends[i-1].Metal, net.Ends[i].Metal)
	}
	for _, el := range net.Elements {
		if len(el.Sense) >= 2 {
			pair(el.Sense[0], el.Sense[1])
		}
		if len(el.Sense) == 4 { // behind both poles of a breaker, and each side of a four-terminal device
			pair(el.Sense[1], el.Sense[3])
			pair(el.Sense[2], el.Sense[3])
		}
	}
	for k := range net.Branches {
		pair(net.Branches[k].Ends.A, net.Branches[k].Ends.B)
	}
	l.extra = minutesUnusual
	for i := range ps { // within a block, and between the terminals of a field device
		for j := i + 1; j < len(ps) && j < i+8; j++ {
			if ps[i].Ref == ps[j].Ref && (ps[i].Field || j == i+1) {
				l.pair(situation, i, j)
			}
		}
	}
}

func (l *lister) fresh(situation, red, black int) bool {
	key := [3]int32{int32(situation), int32(min(red, black)), int32(max(red, black))}
	if red == black || !l.e.inScope(red) || !l.e.inScope(black) || l.seen[key] || !Permitted(l.e.Probes[red], l.e.Probes[black]) {
		return false
	}
	l.seen[key] = true
	return true
}

func (l *lister) pair(situation, red, black int) {
	if !l.fresh(situation, red, black) {
		return
	}
	ps := l.e.Probes
	c := Candidate{Situation: situation, Mode: meter.VDC, Red: red, Black: black, Minutes: minutesPanel + l.extra + l.e.Situations[situation].Minutes}
	switch {
	case l.e.Situations[situation].Off:
		c.Mode = meter.Ohms
	case ps[red].Mains || ps[black].Mains:
		c.Mode = meter.VAC
		c.Minutes += minutesMains
	}
	if ps[red].Field || ps[black].Field {
		c.Minutes += minutesField
	}
	l.e.propose(c)
}

// Permitted says whether two leads may and can touch both probes: in the panel,
// or at one field device, where bonded metal to hold a lead against is anywhere;
// and not mains against extra-low voltage, only against earth.
func Permitted(a, b Probe) bool {
	if a.Mains != b.Mains && !a.Earth && !b.Earth {
		return false
	}
	if a.Field || b.Field {
		return a.Ref == b.Ref || a.Ref == parts.EarthPoint || b.Ref == parts.EarthPoint
	}
	return true
}

// behindNeutral says whether a node is the load side of a breaker's neutral
// pole: mains metal that reads nothing to earth on the healthy panel.
func (e *Engine) behindNeutral(n circuit.Node) bool {
	i, ok := e.Probe(n)
	return ok && e.Probes[i].Mains && magnitude(e.Base.VAC(n)) < 10
}

// neighbours says whether two probes hang on one source, or one of them on none:
// a reading against another supply's return tells what its own would, and a large
// panel has too many of them.
func (e *Engine) neighbours(a, b int) bool {
	x, y := e.zones.of[e.Probes[a].Node], e.zones.of[e.Probes[b].Node]
	return x == y || x == noZone || y == noZone || !e.zones.fed[x] || !e.zones.fed[y]
}

// feeds are the preferred red points to test returns and earths against: for
// each source the first strip point joined to its positive or line terminal by
// metal alone.
func (e *Engine) feeds() []int {
	net := e.Base.Model.Net
	var list []int
	for _, place := range net.Places {
		if place.Feed && e.nodeInScope(place.Node) {
			list = append(list, e.beside(place.Node)...)
		}
	}
	return list
}

// beside gives the first strip point joined to a node by metal alone, and the
// probe of the node itself.
func (e *Engine) beside(n circuit.Node) []int {
	if e.metal.at == nil {
		net := e.Base.Model.Net
		e.metal = adjacent(net, func(k int32) bool {
			b := &net.Branches[k]
			return b.Role == parts.RoleWire || b.Role == parts.RoleClamp || b.Role == parts.RoleJumper
		})
	}
	metal := make([]bool, len(e.zones.of))
	e.metal.walk(n, metal, func(circuit.Node) {})
	var list []int
	for i, p := range e.Probes {
		if e.onStrip(p) && metal[p.Node] {
			list = append(list, i)
			break
		}
	}
	if i, ok := e.Probe(n); ok {
		list = append(list, i)
	}
	return list
}

func (e *Engine) onStrip(p Probe) bool { return e.strips[p.Ref] }

// blacks are the preferred black points.
type blacks struct {
	sources []int   // of each source, and the protective earth's
	poles   []int   // behind the neutral poles of breakers, for what is behind the same breaker
	behind  []int32 // by node: what hangs together without the poles of breakers
}

// returns are, for each source, and behind the neutral pole of each breaker, the
// first strip point joined to its negative or neutral by metal alone, and that
// terminal itself; then the protective earth's first strip point.
func (e *Engine) returns() (b blacks) {
	net := e.Base.Model.Net
	for _, place := range net.Places {
		if place.Return && e.nodeInScope(place.Node) {
			b.sources = append(b.sources, e.beside(place.Node)...)
		}
	}
	breakers := map[int32]bool{}
	for i, el := range net.Elements {
		if len(el.Sense) == 4 && e.nodeInScope(el.Sense[3]) && e.behindNeutral(el.Sense[3]) {
			b.poles = append(b.poles, e.beside(el.Sense[3])...)
			for _, k := range e.zones.written[i] {
				breakers[k] = true
			}
		}
	}
	b.behind = make([]int32, len(net.Nodes))
	label(net, b.behind, func(k int32) bool { return net.Branches[k].Role != parts.RoleSource && !breakers[k] })
	for i, p := range e.Probes {
		if e.onStrip(p) && net.Nodes[p.Node].Earthing {
			b.sources = append(b.sources, i)
			break
		}
	}
	return b
}
