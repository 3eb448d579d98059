package diagnose

import (
	"slices"

	"halfsplit/core/circuit"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A scope is what a search looks at: with a complaint, the zone of the first
// device or light that is not as on the healthy panel and what it needs, for
// a single fault that explains it lies there; without one, the whole panel.
type scope struct {
	whole      bool
	zones      []int32
	in         []bool // by zone
	situations []int  // with power on, that move something in it; the first is the condition itself
	steps      []int  // of the condition, taken in it
	faults     []int32
}

// Focus turns to what a search with these observations is about, and lists what
// may be asked in it: of a reading asked for before, its leads are listed as they
// stood then.
func (e *Engine) Focus(obs []Observation) {
	e.focus(e.complaint(obs))
	e.list()
}

// focus turns to what a search is about. Readings listed for another scope are
// forgotten, with all that was solved for them.
func (e *Engine) focus(about []int32) {
	if e.focused && slices.Equal(about, e.scope.zones) && (about == nil) == e.scope.whole {
		return
	}
	s := scope{whole: about == nil, zones: about, in: make([]bool, len(e.zones.fed))}
	for _, z := range about {
		s.in[z] = true
	}
	for k := range e.Situations {
		if !e.Situations[k].Off && (k == 0 || s.whole || e.moves(k, &s)) {
			s.situations = append(s.situations, k)
		}
	}
	for i := range e.Set.Faults {
		if s.whole || s.meets(e.zones.faults[i]) {
			s.faults = append(s.faults, int32(i))
		}
	}
	for k, mv := range e.Base.Cond.Steps {
		if s.whole || s.meets(e.zones.touched[mv.Element]) {
			s.steps = append(s.steps, k)
		}
	}
	if e.focused && !slices.Equal(s.steps, e.scope.steps) {
		e.unlook()
	}
	e.forget()
	e.scope, e.focused = s, true
}

func (s *scope) meets(zones []int32) bool {
	for _, z := range zones {
		if s.in[z] {
			return true
		}
	}
	return false
}

// complaint gives the zones that the first look which contradicts the healthy panel
// depends on, nil without one: what a search with these looks is about. They are
// those its own element acts in, and those of every element between zones that it
// cannot do without.
func (e *Engine) complaint(obs []Observation) []int32 {
	for k := range obs {
		o := &obs[k]
		c := &e.Candidates[o.Candidate]
		if !e.sights(o) || o.Kind == Works || o.Kind == Saw && o.Value == e.expect[o.Candidate].value {
			continue
		}
		if c.Look == AtPlace {
			continue
		}
		list := append([]int32{}, e.zones.touched[e.elementOf(c)]...)
		for i, looks := range e.reliance() {
			if slices.Contains(looks, int32(o.Candidate)) {
				for _, z := range e.zones.touched[i] {
					list = include(list, z)
				}
			}
		}
		slices.Sort(list)
		return list
	}
	return nil
}

// elementOf is the element that a look at a device or a light shows.
func (e *Engine) elementOf(c *Candidate) int {
	if c.Look == AtLight {
		return e.Base.Model.Net.Lights[c.Thing].Element
	}
	return e.Base.Model.Net.Devices[c.Thing].Element
}

// reliance lists, for each element that stands between zones (a supply, a relay
// with its contact in another circuit), the looks that come out otherwise when it
// changes state on the healthy panel. Supplies that stand between the same zones
// change together: one of a redundant pair is not missed, and what feeds both is.
func (e *Engine) reliance() [][]int32 {
	if e.reliant != nil {
		return e.reliant
	}
	reliant := make([][]int32, len(e.zones.touched))
	for i, zones := range e.zones.touched {
		if len(zones) < 2 {
			continue
		}
		var changes []parts.Change
		for _, j := range e.parallel(i) {
			other := parts.State{}
			if e.Base.Machine.State(j).Mode == 0 {
				other.Mode = 1
			}
			changes = append(changes, parts.Change{What: parts.FixState, Element: j, State: other})
		}
		x := e.Base.Enter(changes, sim.Running)
		for _, s := range e.lookAround(x) {
			reliant[i] = append(reliant[i], s.candidate())
		}
		e.Base.Leave()
		e.Pace.Spend(1)
		e.Pace.Breathe()
	}
	e.reliant = reliant
	return e.reliant
}

// parallel lists an element and, where it is a supply, those between the same
// zones.
func (e *Engine) parallel(i int) []int {
	list := []int{i}
	elements := e.Base.Model.Net.Elements
	if !elements[i].Kind.Feeds {
		return list
	}
	for j := range elements {
		if j != i && elements[j].Kind.Feeds && slices.Equal(e.zones.touched[i], e.zones.touched[j]) {
			list = append(list, j)
		}
	}
	return list
}

// unlook forgets what faults show to a look, for another way of starting.
func (e *Engine) unlook() {
	e.start = nil
	for i := range e.hyps {
		e.hyps[i].looked, e.hyps[i].cold, e.hyps[i].aspect = i == 0, false, 0
	}
	e.columns = map[int]map[int32]outcome{}
	e.weigh()
}

// sights says whether an observation is a look in the condition itself, made in
// this engine's: what every fault's first solution tells.
func (e *Engine) sights(o *Observation) bool {
	c := &e.Candidates[o.Candidate]
	return (o.In == nil || o.In == e) && c.Look != NoLook && c.Situation == 0
}

// moves says whether a situation is brought about within the scope.
func (e *Engine) moves(k int, s *scope) bool {
	for _, mv := range e.Situations[k].Moves {
		if s.meets(e.zones.touched[mv.Element]) {
			return true
		}
	}
	return false
}

func (e *Engine) inScope(probe int) bool { return e.nodeInScope(e.Probes[probe].Node) }

func (e *Engine) nodeInScope(n circuit.Node) bool {
	z := e.zones.of[n]
	return e.scope.whole || z == noZone || e.scope.in[z]
}

// forget drops the list of readings and what was solved for it.
func (e *Engine) forget() {
	e.touching, e.known, e.table = nil, false, nil
	for i := range e.hyps {
		h := &e.hyps[i]
		h.read, h.off, h.shows = false, false, nil
	}
}
