package parts

import (
	"halfsplit/core/circuit"
	"halfsplit/core/unit"
)

// The terminal blocks. A feed-through can neither disconnect nor protect; a
// ground block joins its conductors and the rail; a fuse block is cut two ways,
// by its lever and by its blown link; the lower level of a two-level block stays
// connected when the upper one's fuse is pulled (common practice).

var feedThrough = &Kind{
	Name: "feed-through", Block: true, Letters: []string{"X"}, Symbol: "terminal",
	Metals: []Metal{{}},
	Build:  func(*Builder) {},
}

var ground = &Kind{
	Name: "ground", Block: true, Letters: []string{"X"}, Symbol: "terminal-earth",
	OnRail: true,
	Metals: []Metal{{}},
	Build:  func(b *Builder) { railFoot(b, b.Metal(0)) },
}

// railFoot bonds a block's metal to the rail it stands on.
func railFoot(b *Builder, metal circuit.Node) {
	b.Earthing(metal)
	foot := b.Resistor(RoleFoot, b.Ref, metal, b.Rail(), footOhms)
	b.Mode(Mode{Thing: b.Ref, Name: "foot-open", Class: "open", Changes: []Change{Open(foot)}, Rate: rateFoot, Repair: "seat-foot"})
}

var fuseBlock = &Kind{
	Name: "fuse-block", Block: true, Letters: []string{"X", "F"}, Symbol: "terminal-fuse", Fused: true, Isolates: true, Breaks: noArc,
	Positions: leverPositions,
	Metals:    []Metal{{Side: "in"}, {Side: "out"}},
	Build:     func(b *Builder) { fusedPath(b, b.Ref, 0, 1) },
}

var disconnect = &Kind{
	Name: "disconnect-block", Block: true, Letters: []string{"X"}, Symbol: "terminal-disconnect", Isolates: true, Breaks: noArc,
	Positions: leverPositions,
	Metals:    []Metal{{Side: "in"}, {Side: "out"}},
	Build: func(b *Builder) {
		blade := b.Resistor(RoleBlade, b.Ref, b.Metal(0), b.Metal(1), bladeOhms)
		e := b.Element(b.Ref, &contacts{closed: []int{blade}, ohms: bladeOhms}, 0)
		b.Mode(Mode{Thing: b.Ref, Name: "blade-open", Class: "open", Changes: []Change{{What: FixInput, Element: e, Input: 1}}, Rate: rateLever, Repair: "close-blade", Visible: true})
	},
}

var doubleLevel = &Kind{
	Name: "double-level", Block: true, Letters: []string{"X"}, Symbol: "terminal-double",
	Metals: []Metal{{Level: 1}, {Level: 2}},
	Build:  func(*Builder) {},
}

var doubleLevelFused = &Kind{
	Name: "double-level-fused", Block: true, Letters: []string{"X"}, Symbol: "terminal-double-fuse", Fused: true, Isolates: true, Breaks: noArc,
	Positions: leverPositions,
	Metals:    []Metal{{Level: 1}, {Level: 2, Side: "in"}, {Level: 2, Side: "out"}},
	Build:     func(b *Builder) { fusedPath(b, b.Ref+".2", 1, 2) },
}

// noArc is the current, in amperes, below which no arc stands between opening
// contacts of copper or silver: minimum arc currents are 0.43 A and 0.4 A (Holm,
// Electric Contacts; from memory). Levers and blades of terminal blocks are no load
// switches (common practice); below it nothing burns.
const noArc = 0.4

var leverPositions = []Position{{Name: "closed", Verb: "close", Value: 0}, {Name: "open", Verb: "open", Value: 1}}

// fusedPath is a lever and the link it carries, in series. The blown-link
// indicator sits in the lever, across the link, and goes dark with the lever.
func fusedPath(b *Builder, thing string, from, to int) {
	link := b.Inner("link")
	lever := b.Resistor(RoleLever, thing, b.Metal(from), link, leverOhms)
	e := b.Element(thing, &contacts{closed: []int{lever}, ohms: leverOhms}, 0)
	b.Mode(Mode{Thing: thing, Name: "lever-open", Class: "open", Changes: []Change{{What: FixInput, Element: e, Input: 1}}, Rate: rateLever, Repair: "close-lever", Visible: true})

	rating, err := unit.ParseFuse(b.Block.Fuse)
	if err != nil {
		rating = unit.Fuse{Rated: 2, Class: "T"} // package check has told; the model must stand
	}
	addFuse(b, thing, "fuse-blown", link, b.Metal(to), rating)
	if b.Block.Indicator != "" {
		volts, err := unit.Parse(b.Block.Indicator, unit.Voltage)
		if err != nil || volts <= 0 {
			volts = 24
		}
		lamp := b.Resistor(RoleIndicator, thing, link, b.Metal(to), volts/indicatorAmps)
		i := b.Element(thing+" indicator", &indicator{branch: lamp, rated: volts}, 0, link, b.Metal(to))
		b.net.Lights = append(b.net.Lights, Light{Ref: thing, Link: true, Element: i, Watch: b.net.Elements[i].Element.(Watcher)})
	}
}

// indicatorAmps flows through a blown-link indicator at its nominal voltage:
// order of magnitude of the trade, from memory.
const indicatorAmps = 1e-3

// An indicator is the lamp across a fuse link. It never changes state.
type indicator struct {
	branch int
	rated  float64
}

func (*indicator) Stamp(State, float64, Writer) {}

func (*indicator) Next(s State, _ float64, _ View) (State, Wait) { return s, Wait{} }

// Status is lit above 60 % of the nominal voltage: choice, an LED shows early.
func (l *indicator) Status(_ State, _ float64, v View) Status {
	ends := v.Ends(l.branch)
	volts, mixed := v.Level(ends.A, ends.B)
	st := Status{State: "dark", Volts: volts, Amps: v.Amps(l.branch), Mixed: mixed}
	if volts >= 0.6*l.rated {
		st.State, st.Grade = "lit", On
	}
	return st
}
