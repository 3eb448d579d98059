package check

import (
	"strconv"
	"strings"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/unit"
)

// A graph is the network of package parts seen as metal and what joins it, with
// the place in the document of every joint. A wire is one edge between the two
// pieces of metal it lands on.
type graph struct {
	*checker
	edges  []edge
	at     [][]int                 // node → edges
	places map[string]parts.Place  // "T1:+" → its node
	owner  map[string]*panel.Part  // ref → part
	paths  map[string]string       // thing or ref → path in the document
	fuses  map[string]protectorDef // thing → the link in it
	lights map[string]string       // thing → voltage of its indicator, as written
	poles  []pole                  // what supplies and mains put on their terminals
	earthy []bool                  // node → part of the protective earth by itself
	// forEarth are the terminals that parts have for earth.
	forEarth map[circuit.Node]bool
}

type edge struct {
	a, b  circuit.Node
	role  parts.Role
	thing string // of the branch; the wire's number
	wire  int    // index into wires; -1
	path  string // in the document
}

func (e *edge) far(n circuit.Node) circuit.Node {
	if e.a == n {
		return e.b
	}
	return e.a
}

type protectorDef struct {
	amps    float64
	written string // "2 A T"
	path    string
}

// A pole is a terminal of something that feeds the panel.
type pole struct {
	name  string // "T1:+"
	ref   string
	node  circuit.Node
	what  parts.Pole
	volts float64
	amps  float64 // most it can drive; 0 where that is not known

	derived bool // of a part: its return may be bonded, other than that of the mains
}

func newGraph(c *checker) *graph {
	g := &graph{
		checker: c,
		places:  map[string]parts.Place{}, owner: map[string]*panel.Part{},
		paths: map[string]string{}, fuses: map[string]protectorDef{}, lights: map[string]string{}, forEarth: map[circuit.Node]bool{},
	}
	g.document()
	for _, pl := range g.net.Places {
		g.places[pl.Name] = pl
		if pl.Pole == parts.Earth {
			g.forEarth[pl.Node] = true
		}
	}
	g.earthy = make([]bool, len(g.net.Nodes))
	for n := range g.net.Nodes {
		g.earthy[n] = g.net.Nodes[n].Earthing
	}
	g.feeders()
	g.join()
	return g
}

// document notes where things stand and which links they carry.
func (g *graph) document() {
	for i := range g.p.Mains {
		g.paths[g.p.Mains[i].Ref] = item("mains", i)
	}
	for i := range g.p.Strips {
		s, path := &g.p.Strips[i], item("strips", i)
		g.paths[s.Ref] = path
		for j := range s.Blocks {
			b, at := &s.Blocks[j], item(path+".blocks", j)
			name := s.Ref + ":" + b.No
			k, ok := parts.Lookup(b.Type)
			if !ok {
				continue
			}
			for _, thing := range append([]string{name}, prefixed(name+".", levels(k))...) {
				g.paths[thing], g.lights[thing] = at, b.Indicator
				if f, err := unit.ParseFuse(b.Fuse); err == nil {
					g.fuses[thing] = protectorDef{f.Rated, b.Fuse, at + ".fuse"}
				}
			}
		}
		for j := range s.Jumpers {
			jump, at := &s.Jumpers[j], item(path+".jumpers", j)
			level := ""
			if jump.Level > 0 {
				level = "." + strconv.Itoa(jump.Level)
			}
			for k := 1; k < len(jump.Blocks); k++ {
				g.paths[s.Ref+":"+jump.Blocks[k-1]+level+"~"+s.Ref+":"+jump.Blocks[k]+level] = at
			}
		}
	}
	for i := range g.p.Parts {
		p, path := &g.p.Parts[i], item("parts", i)
		g.owner[p.Ref], g.paths[p.Ref] = p, path
		k, ok := parts.Lookup(p.Kind)
		if !ok {
			continue
		}
		for _, r := range k.Ratings {
			if f, err := unit.ParseFuse(p.Ratings[r.Name]); r.Link && err == nil {
				g.fuses[p.Ref] = protectorDef{f.Rated, p.Ratings[r.Name], panel.Key(path+".ratings", r.Name)}
			}
		}
	}
}

func prefixed(prefix string, names []string) []string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = prefix + n
	}
	return out
}

// join makes the edges. Their order decides which joint is blamed when two
// potentials meet, the later one: what comes straight from a supply is taken as
// meant, then jumpers, then all other wires, then what is inside things.
func (g *graph) join() {
	feeds := make([]bool, len(g.net.Nodes))
	for _, p := range g.poles {
		feeds[p.node] = true
	}
	wires := func(feeding bool) {
		for k := 0; k+1 < len(g.net.Ends); k += 2 {
			from, to := g.net.Ends[k], g.net.Ends[k+1]
			if (feeds[from.Metal] || feeds[to.Metal]) == feeding {
				g.edges = append(g.edges, edge{a: from.Metal, b: to.Metal, role: parts.RoleWire, thing: from.No, wire: from.Wire, path: item("wires", from.Wire)})
			}
		}
	}
	branches := func(jumpers bool) {
		for i := range g.net.Branches {
			b := &g.net.Branches[i]
			if b.Role != parts.RoleWire && b.Role != parts.RoleClamp && (b.Role == parts.RoleJumper) == jumpers {
				g.edges = append(g.edges, edge{a: b.Ends.A, b: b.Ends.B, role: b.Role, thing: b.Thing, wire: -1, path: g.pathOf(b.Thing)})
			}
		}
	}
	wires(true)
	branches(true)
	wires(false)
	branches(false)
	g.index()
}

// index lists the edges of every node.
func (g *graph) index() {
	g.at = make([][]int, len(g.net.Nodes))
	for i := range g.edges {
		e := &g.edges[i]
		g.at[e.a] = append(g.at[e.a], i)
		g.at[e.b] = append(g.at[e.b], i)
	}
}

// pathOf is where a thing stands: itself, or the part of "K1:13-14".
func (g *graph) pathOf(thing string) string {
	if path, ok := g.paths[thing]; ok {
		return path
	}
	ref, _, _ := strings.Cut(thing, ":")
	return g.paths[ref]
}

// feeders collects the poles of mains and supplies. A supply is a kind that has
// a protection class to declare.
func (g *graph) feeders() {
	for i := range g.p.Mains {
		m := &g.p.Mains[i]
		volts, _ := unit.Parse(m.Voltage, unit.Voltage)
		for _, t := range []struct {
			name string
			what parts.Pole
		}{{"L", parts.Line}, {"N", parts.Neutral}} {
			if pl, ok := g.places[m.Ref+":"+t.name]; ok {
				g.poles = append(g.poles, pole{name: pl.Name, ref: m.Ref, node: pl.Node, what: t.what, volts: volts})
			}
		}
	}
	for i := range g.p.Parts {
		p := &g.p.Parts[i]
		k, ok := parts.Lookup(p.Kind)
		if !ok || !isSupply(k) {
			continue
		}
		amps := g.rating(p, k, "current")
		if ohms := g.rating(p, k, "resistance"); amps == 0 && ohms > 0 {
			amps = g.rating(p, k, "voltage") / ohms
		}
		for _, t := range outputs(k.Terminals(p)) {
			if pl, ok := g.places[p.Ref+":"+t.Name]; ok {
				g.poles = append(g.poles, pole{name: pl.Name, ref: p.Ref, node: pl.Node, what: t.Pole, volts: g.rating(p, k, "voltage"), amps: amps, derived: true})
			}
		}

	}
}

// outputs are the terminals a supply feeds from: its plus and minus, or those of the
// last line and neutral it has where it gives alternating current.
func outputs(all []parts.Terminal) []parts.Terminal {
	var direct, alternating []parts.Terminal
	for _, t := range all {
		switch t.Pole {
		case parts.Positive, parts.Negative:
			direct = append(direct, t)
		case parts.Line, parts.Neutral:
			alternating = append(alternating, t)
		}
	}
	if len(direct) > 0 {
		return direct
	}
	return alternating[max(0, len(alternating)-2):]
}

func isSupply(k *parts.Kind) bool { return hasRating(k, "class") }

func hasRating(k *parts.Kind, name string) bool {
	for _, r := range k.Ratings {
		if r.Name == name {
			return true
		}
	}
	return false
}

// rating is a rating of a part in its SI unit, the default where it is silent, 0
// without either.
func (g *graph) rating(p *panel.Part, k *parts.Kind, name string) float64 {
	for _, r := range k.Ratings {
		if r.Name != name || r.Dim == 0 {
			continue
		}
		if v, err := unit.Parse(p.Ratings[name], r.Dim); err == nil && v > 0 {
			return v
		}
		v, _ := unit.Parse(r.Default, r.Dim)
		return v
	}
	return 0
}

// Sets of roles a walk may pass.
var (
	metal = map[parts.Role]bool{parts.RoleWire: true, parts.RoleJumper: true, parts.RoleFoot: true}
	shut  = with(metal, parts.RoleLever, parts.RoleBlade, parts.RoleFuse)
	ways  = with(shut, parts.RoleContact) // every way current can come, contacts closed
)

func with(set map[parts.Role]bool, more ...parts.Role) map[parts.Role]bool {
	out := map[parts.Role]bool{}
	for r := range set {
		out[r] = true
	}
	for _, r := range more {
		out[r] = true
	}
	return out
}

// reach marks every node joined to one of from over edges of the given roles.
// A node that stop accepts is marked but not passed; stop may be nil.
func (g *graph) reach(from []circuit.Node, roles map[parts.Role]bool, stop func(circuit.Node) bool) []bool {
	seen := make([]bool, len(g.net.Nodes))
	queue := append([]circuit.Node(nil), from...)
	for _, n := range from {
		seen[n] = true
	}
	for len(queue) > 0 {
		n := queue[0]
		queue = queue[1:]
		if stop != nil && stop(n) {
			continue
		}
		for _, i := range g.at[n] {
			e := &g.edges[i]
			if far := e.far(n); roles[e.role] && !seen[far] {
				seen[far] = true
				queue = append(queue, far)
			}
		}
	}
	return seen
}
